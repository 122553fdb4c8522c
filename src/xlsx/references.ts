/** References to cells and areas as a file writes them, as in "B2:D9". */
import { address, columnIndex, columnName } from "../sheet/formula-text";
import { mostColumns, mostRows } from "./limits";
import type { Area } from "./workbook";

/** The area of a reference without a sheet, with or without $; whole columns and rows reach to the end. Undefined where it is none. */
export function areaOf(reference: string): Area | undefined {
  const [from = "", to = from, more] = reference.split(":");
  const [start, end] = [pieceOf(from), pieceOf(to)];
  if (!start || !end || more !== undefined) return undefined;
  const rows = [start.row ?? 0, end.row ?? mostRows - 1];
  const columns = [start.column ?? 0, end.column ?? mostColumns - 1];
  if (Math.max(...rows) >= mostRows || Math.max(...columns) >= mostColumns) return undefined;
  return { top: Math.min(...rows), bottom: Math.max(...rows), left: Math.min(...columns), right: Math.max(...columns) };
}

function pieceOf(text: string): { row?: number; column?: number } | undefined {
  const [, letters = "", digits = ""] = /^\$?([A-Za-z]{0,3})\$?(\d{0,7})$/.exec(text) ?? [];
  if (letters === "" && digits === "") return undefined;
  if (digits !== "" && Number(digits) < 1) return undefined;
  return { ...(letters !== "" && { column: columnIndex(letters) }), ...(digits !== "" && { row: Number(digits) - 1 }) };
}

/** "B2", or "B2:D9" for more than a cell. */
export function referenceTo({ top, left, bottom, right }: Area): string {
  const first = address(top, left);
  return top === bottom && left === right ? first : `${first}:${address(bottom, right)}`;
}

/** "B", as in a whole column. */
export function columnLetters(column: number): string {
  return columnName(column) ?? "";
}

export function contains(area: Area, row: number, column: number): boolean {
  return row >= area.top && row <= area.bottom && column >= area.left && column <= area.right;
}

/** The sheet of a reference as a formula spells it, with its "!": quoted where it has to be. */
export function sheetPrefix(sheet: string): string {
  const plain = /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(sheet) && !/^(?:[A-Za-z]{1,3}\d+|R\d*C\d*|R\d*|C\d*|TRUE|FALSE)$/i.test(sheet);
  return plain ? `${sheet}!` : `'${sheet.replaceAll("'", "''")}'!`;
}

/** The name in a sheet's prefix, without quotes; with its workbook in brackets, where that is another one. */
export function sheetOfPrefix(prefix: string): string {
  const name = prefix.endsWith("!") ? prefix.slice(0, -1) : prefix;
  return name.startsWith("'") ? name.slice(1, -1).replaceAll("''", "'") : name;
}
