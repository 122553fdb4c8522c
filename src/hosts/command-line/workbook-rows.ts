/** The sheets of an .xlsx workbook as rows of a log. */
import type { CsvRow } from "../../log-file/csv-reading";
import { openWorkbook } from "../../xlsx/open-workbook";
import { isErrorValue, type Cell, type CellValue, type Sheet } from "../../xlsx/workbook";

export interface LogSheet {
  readonly name: string;
  readonly hidden: boolean;
  readonly rows: readonly CsvRow[];
  /** What most numbers of a column are, by the look of their cells. */
  kindOf(column: number): "clock" | "percent" | "number";
}

/** Throws a FileProblem, a full sentence, where the bytes are no workbook. */
export function logSheets(bytes: Uint8Array, fileName: string): LogSheet[] {
  // One cell that cannot be read is a finding in its row, and no reason to leave out the rest.
  const { workbook } = openWorkbook(bytes, { fileName, ours: new Set(), missingTextsInWords: true });
  return workbook.sheets.map((sheet) => ({
    name: sheet.name,
    hidden: sheet.hidden ?? false,
    rows: rowsOf(sheet),
    kindOf: (column) => kindOf(sheet, column),
  }));
}

/** The line of a row is the number that stands beside it in the sheet. Rows of totals are no shots. */
function rowsOf({ cells, tables }: Sheet): CsvRow[] {
  const totals = new Set(tables.flatMap((table) => (table.totals ? [table.area.bottom + 1] : [])));
  return Array.from(cells, (line, row) => ({ line: row + 1, cells: Array.from(line ?? [], textOf) })).filter((_, row) => !totals.has(row));
}

function textOf(cell: Cell | undefined): string {
  return cell?.value === undefined ? "" : textOfValue(cell.value);
}

function textOfValue(value: CellValue): string {
  if (isErrorValue(value)) return value.error;
  return typeof value === "boolean" ? String(value).toUpperCase() : String(value);
}

/** So many numbers tell what a column holds. */
const enough = 500;

function kindOf(sheet: Sheet, column: number): ReturnType<LogSheet["kindOf"]> {
  const counts = { clock: 0, percent: 0, number: 0 };
  for (const line of sheet.cells) {
    const cell = line?.[column];
    if (typeof cell?.value !== "number") continue;
    counts[kindOfFormat(cell.style?.format ?? "")]++;
    if (counts.clock + counts.percent + counts.number >= enough) break;
  }
  const most = Math.max(counts.clock, counts.percent, counts.number);
  return most === counts.number ? "number" : most === counts.clock ? "clock" : "percent";
}

/** Texts within the format are not part of it. */
function kindOfFormat(format: string): ReturnType<LogSheet["kindOf"]> {
  const plain = format.replace(/"[^"]*"|\\./g, "");
  if (/[hms]\]?:\[?[ms]/i.test(plain)) return "clock";
  return plain.includes("%") ? "percent" : "number";
}
