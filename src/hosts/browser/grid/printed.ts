/** Cells as they look in the grid, for paper. */
import { BooleanNumber, CellValueType, HorizontalAlign, WrapStrategy, type IBorderData, type ICellData, type IStyleData, type Nullable } from "@univerjs/core";
import type { FWorksheet } from "@univerjs/sheets/facade";
import type { Area } from "../../../xlsx/workbook";

export interface PrintedCell {
  readonly text: string;
  readonly rows: number;
  readonly columns: number;
  readonly bold: boolean;
  readonly italic: boolean;
  readonly wrap: boolean;
  readonly align: "left" | "center" | "right";
  /** Points. */
  readonly size?: number;
  readonly color?: string;
  readonly fill?: string;
  readonly borders: { readonly [side in "top" | "right" | "bottom" | "left"]?: string };
}

export interface PrintedRow {
  readonly row: number;
  /** Pixels. */
  readonly height: number;
  /** By column; none where a merged cell covers the place. */
  readonly cells: ReadonlyMap<number, PrintedCell>;
}

export interface PrintedArea {
  /** Those in sight, with their widths in pixels. */
  readonly columns: readonly { readonly column: number; readonly width: number }[];
  readonly rows: readonly PrintedRow[];
}

const sides = { top: "t", right: "r", bottom: "b", left: "l" } as const;
const aligns: { readonly [at in number]?: PrintedCell["align"] } = {
  [HorizontalAlign.LEFT]: "left",
  [HorizontalAlign.CENTER]: "center",
  [HorizontalAlign.RIGHT]: "right",
};

export function printedArea(sheet: FWorksheet, { top, left, bottom, right }: Area): PrintedArea {
  const model = sheet.getSheet();
  const columns = between(left, right).filter((column) => model.getColVisible(column)).map((column) => ({ column, width: model.getColumnWidth(column) }));
  const visibleRows = between(top, bottom).filter((row) => model.getRowVisible(row));
  const rows = visibleRows.map((row) => {
    const cells = new Map<number, PrintedCell>();
    for (const { column } of columns) {
      const merge = model.getMergedCell(row, column);
      if (merge && (merge.startRow !== row || merge.startColumn !== column)) continue;
      const size = {
        rows: merge ? visibleRows.filter((at) => at >= merge.startRow && at <= merge.endRow).length : 1,
        columns: merge ? columns.filter((at) => at.column >= merge.startColumn && at.column <= merge.endColumn).length : 1,
      };
      const shown = sheet.getRange(row, column).getDisplayValue();
      cells.set(column, { ...printedCell(model.getCell(row, column), model.getComposedCellStyle(row, column), shown), ...size });
    }
    return { row, height: model.getRowHeight(row), cells };
  });
  return { columns, rows };
}

function printedCell(cell: Nullable<ICellData>, style: Nullable<IStyleData>, text: string): Omit<PrintedCell, "rows" | "columns"> {
  const { bl, it, tb, ht, fs, cl, bg, bd } = style ?? {};
  return {
    text,
    bold: bl === BooleanNumber.TRUE,
    italic: it === BooleanNumber.TRUE,
    wrap: tb === WrapStrategy.WRAP,
    align: aligns[ht ?? -1] ?? (cell?.t === CellValueType.NUMBER ? "right" : "left"),
    ...(fs !== undefined && { size: fs }),
    ...(cl?.rgb && { color: cl.rgb }),
    ...(bg?.rgb && { fill: bg.rgb }),
    borders: bordersOf(bd),
  };
}

function bordersOf(borders: Nullable<IBorderData>): PrintedCell["borders"] {
  const named = Object.entries(sides) as [keyof typeof sides, "t" | "r" | "b" | "l"][];
  return Object.fromEntries(named.flatMap(([side, short]) => (borders?.[short]?.s ? [[side, borders[short].cl?.rgb ?? "#000000"]] : [])));
}

function between(first: number, last: number): number[] {
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}
