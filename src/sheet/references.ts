/** References as formulas and files write them: cells, areas, columns of tables, sheets. Rows and columns count from 0. */

export interface Place {
  readonly row: number;
  readonly column: number;
}

/** Both ends belong to it. */
export interface Area {
  top: number;
  left: number;
  bottom: number;
  right: number;
}

/** What a worksheet has in Excel ("Excel specifications and limits", Microsoft Support). */
export const mostRows = 1_048_576;
export const mostColumns = 16_384;

/** "A" is 0. */
export function columnIndex(name: string): number {
  let index = 0;
  for (const letter of name.toUpperCase()) index = index * 26 + letter.charCodeAt(0) - 64;
  return index - 1;
}

/** 0 is "A"; undefined where there is no such column. */
export function columnName(index: number): string | undefined {
  if (index < 0 || index >= mostColumns) return undefined;
  let name = "";
  for (let rest = index + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) name = String.fromCharCode(65 + ((rest - 1) % 26)) + name;
  return name;
}

/** "A1" for row 0 and column 0. */
export function address(row: number, column: number): string {
  return `${columnName(column) ?? ""}${row + 1}`;
}

/** The row and column of an address as in "B4" or "$B$4"; undefined where it is none. */
export function placeOf(text: string): Place | undefined {
  const match = /^\$?([A-Za-z]{1,3})\$?([1-9]\d{0,6})$/.exec(text);
  return match ? { row: Number(match[2]) - 1, column: columnIndex(match[1]!) } : undefined;
}

/** The address some rows further down and columns further right. */
export function moved(at: string, rows: number, columns: number): string {
  const { row, column } = placeOf(at)!;
  return address(row + rows, column + columns);
}

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

function pieceOf(text: string): Partial<Place> | undefined {
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

/** The reference as it stays wherever its formula is filled to: "B2:D9" as "$B$2:$D$9", "3:5" as "$3:$5". */
export function absolute(reference: string): string {
  return reference.replace(/\$?([A-Za-z]*)\$?(\d*)/g, (_, letters: string, digits: string) => `${letters && `$${letters}`}${digits && `$${digits}`}`);
}

export function contains(area: Area, row: number, column: number): boolean {
  return row >= area.top && row <= area.bottom && column >= area.left && column <= area.right;
}

/** A column of a table without its heading, as in "Shots[Dose]". */
export function tableColumn(table: string, heading: string): string {
  // These characters mean something between the brackets ("Using structured references with Excel tables", Microsoft Support).
  return `${table}[${heading.replace(/['#[\]@]/g, "'$&")}]`;
}

/** The table and the heading of a reference as in "Shots[Dose]"; undefined where it is none. */
export function tableColumnOf(reference: string): { readonly table: string; readonly heading: string } | undefined {
  const [, table, heading] = /^([\p{L}_\\][\p{L}\p{N}_.\\]*)\[((?:[^'#[\]@]|'.)+)\]$/u.exec(reference) ?? [];
  return table === undefined || heading === undefined ? undefined : { table, heading: heading.replace(/'(.)/g, "$1") };
}

/** The sheet of a reference as a formula spells it, with its "!": quoted where it has to be. */
export function sheetPrefix(sheet: string): string {
  const plain = /^[\p{L}_][\p{L}\p{N}_.]*$/u.test(sheet) && !/^(?:[A-Za-z]{1,3}\d+|R\d*C\d*|R\d*|C\d*|TRUE|FALSE)$/i.test(sheet);
  return plain ? `${sheet}!` : `'${sheet.replace(/'/g, "''")}'!`;
}

/** The name in a sheet's prefix, without quotes; with its workbook in brackets, where that is another one. */
export function sheetOfPrefix(prefix: string): string {
  const name = prefix.endsWith("!") ? prefix.slice(0, -1) : prefix;
  return name.startsWith("'") ? name.slice(1, -1).replace(/''/g, "'") : name;
}

/** The sheet and the rest of a reference as in "'Shot log'!$B$4"; without a sheet where it names none. */
export function splitReference(reference: string): { readonly sheet?: string; readonly rest: string } {
  const [prefix] = /^(?:'(?:[^']|'')+'|[^'!]+)!/.exec(reference) ?? [];
  return prefix === undefined ? { rest: reference } : { sheet: sheetOfPrefix(prefix), rest: reference.slice(prefix.length) };
}
