/** The cells that belong together around the selected one: its table, else what is filled without a gap. They are what is sorted and filtered. */
import type { ICellData, IRange, Nullable } from "@univerjs/core";
import { expandToContinuousRange } from "@univerjs/sheets";
import type { FWorkbook, FWorksheet } from "@univerjs/sheets/facade";
import { columnName } from "../../../sheet/references";
import { holds, type Cells } from "./areas";
import { valueFrom } from "./read-back";

export interface Region {
  /** With its headings. */
  readonly area: Cells;
  /** The first row names the columns. In a table it always does. */
  readonly headed: boolean;
  readonly isTable: boolean;
}

export function regionAround(book: FWorkbook, sheet: FWorksheet, selected: Cells): Region {
  const model = sheet.getSheet();
  const inTable = book.getTableList().find(({ subUnitId, range }) => subUnitId === sheet.getSheetId() && holds(range, selected.startRow, selected.startColumn));
  if (inTable) return { area: inTable.range, headed: inTable.showHeader, isTable: true };
  const isOne = selected.startRow === selected.endRow && selected.startColumn === selected.endColumn;
  const around = isOne ? expandToContinuousRange(selected as IRange, { up: true, down: true, left: true, right: true }, model) : selected;
  const area = { ...around, endRow: Math.min(around.endRow, lastFilledRow(sheet, around)) };
  const kindOf = (row: number, column: number) => typeof (valueFrom(model.getCell(row, column) ?? {}));
  const columns = columnsOf(area);
  const kinds = columns.map((column) => [kindOf(area.startRow, column), kindOf(area.startRow + 1, column)] as const);
  // Words over something that is no word. A column without a heading does not count.
  const headed = kinds.every(([first]) => first === "string" || first === "undefined") && kinds.some(([first, next]) => first === "string" && next !== "string" && next !== "undefined");
  return { area, headed, isTable: false };
}

/** Each column with what to call it: its heading, or its letter where it has none. */
export function namedColumns(sheet: FWorksheet, { area, headed }: Region): { readonly column: number; readonly name: string }[] {
  return columnsOf(area).map((column) => {
    const heading = headed ? sheet.getRange(area.startRow, column).getDisplayValue().trim() : "";
    return { column, name: heading === "" ? `Column ${columnName(column)}` : heading };
  });
}

function columnsOf({ startColumn, endColumn }: Cells): number[] {
  return Array.from({ length: endColumn - startColumn + 1 }, (_, index) => startColumn + index);
}

/** A selection of whole columns ends where their contents do. */
function lastFilledRow(sheet: FWorksheet, area: Cells): number {
  const model = sheet.getSheet();
  const isEmpty = (cell: Nullable<ICellData>) => cell?.v === undefined || cell.v === null || cell.v === "";
  for (let row = Math.min(area.endRow, model.getRowCount() - 1); row > area.startRow; row--) {
    if (columnsOf(area).some((column) => !isEmpty(model.getCell(row, column)))) return row;
  }
  return area.startRow;
}
