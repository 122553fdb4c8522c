/** Cell addresses as a sheet writes them, and rectangles with rows and columns counted from 0. */
export interface Area {
  readonly row: number;
  readonly column: number;
  readonly rows: number;
  readonly columns: number;
}

export function columnLetters(column: number): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return letters;
}

export function columnNumber(letters: string): number {
  return [...letters.toUpperCase()].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;
}

export function cellKey(row: number, column: number): string {
  return `${columnLetters(column)}${row + 1}`;
}

export const sheetRows = 1_048_576;
export const sheetColumns = 16_384;

const known = new Map<string, Area | undefined>();

/** Reads "B2", "$B$2", "B2:C9", "B:C" or "2:9"; undefined where it is none of them. */
export function readArea(address: string): Area | undefined {
  if (!known.has(address)) known.set(address, parseArea(address));
  return known.get(address);
}

function parseArea(address: string): Area | undefined {
  const wide = /^\$?(\d{1,7}):\$?(\d{1,7})$/.exec(address);
  if (wide) return { row: Number(wide[1]) - 1, column: 0, rows: Number(wide[2]) - Number(wide[1]) + 1, columns: sheetColumns };
  const tall = /^\$?([A-Z]{1,3}):\$?([A-Z]{1,3})$/i.exec(address);
  if (tall) {
    const left = columnNumber(tall[1]!);
    return { row: 0, column: left, rows: sheetRows, columns: columnNumber(tall[2]!) - left + 1 };
  }
  const match = /^\$?([A-Z]{1,3})\$?(\d{1,7})(?::\$?([A-Z]{1,3})\$?(\d{1,7}))?$/i.exec(address);
  if (!match) return undefined;
  const [, left, top, right = left, bottom = top] = match;
  const columns = [columnNumber(left!), columnNumber(right!)];
  const rows = [Number(top) - 1, Number(bottom) - 1];
  const row = Math.min(...rows);
  const column = Math.min(...columns);
  return { row, column, rows: Math.max(...rows) - row + 1, columns: Math.max(...columns) - column + 1 };
}

export function writeArea({ row, column, rows, columns }: Area): string {
  const first = cellKey(row, column);
  return rows === 1 && columns === 1 ? first : `${first}:${cellKey(row + rows - 1, column + columns - 1)}`;
}
