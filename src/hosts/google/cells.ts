/** Cells as Google Sheets hands them to a custom function, and as it takes them back. */
import { CellError } from "../../sheet/cell-error";

/** The text that stands for an error: its code, and words after it where a function of ours made it. */
const errorText = /^(#(?:N\/A|VALUE!|REF!|DIV\/0!|NUM!|NAME\?|NULL!|ERROR!))(?: ([^]*))?$/;

/** "Files you can store in Google Drive", Google Drive Help. */
const mostCells = 10_000_000;
const mostCharacters = 50_000;

const firstDay = Date.UTC(1899, 11, 30);
const millisecondsOfDay = 86_400_000;

/** A range comes as rows, one cell as its bare value; what is left out as undefined. */
export function argumentIn(given: unknown): unknown[][] | null {
  if (given === undefined || given === null) return null;
  return Array.isArray(given) ? given.map((row: unknown[]) => row.map(cellIn)) : [[cellIn(given)]];
}

function cellIn(cell: unknown): unknown {
  if (typeof cell === "string") {
    const [, code, words] = (cell.startsWith("#") && errorText.exec(cell)) || [];
    return code === undefined ? cell : new CellError(code, words);
  }
  return isDate(cell) ? serialOf(cell) : cell;
}

/** By its kind, as a date may come from another realm than the script's. */
function isDate(cell: unknown): cell is Date {
  return Object.prototype.toString.call(cell) === "[object Date]";
}

/** Days on the clock of the script's time zone. Its offset in 1899, where clock cells lie, is none of whole minutes, so only the clock is asked. */
function serialOf(date: Date): number {
  const clock = Date.UTC(date.getFullYear(), date.getMonth(), date.getDate(), date.getHours(), date.getMinutes(), date.getSeconds(), date.getMilliseconds());
  return (clock - firstDay) / millisecondsOfDay;
}

/** One cell is a bare value, and says in an Error why there is none. Among others an error is a text, since one Error would take them all. */
export function resultsOut(results: readonly unknown[][]): unknown {
  if (results.length * results[0]!.length > mostCells) throw new Error(`The result has ${results.length} × ${results[0]!.length} cells, but a Google Sheet holds 10 million at most. Ask for less at once.`);
  const only = results.length === 1 && results[0]!.length === 1 ? results[0]![0] : undefined;
  if (only instanceof CellError) throw new Error(only.message === "" ? only.code : only.message);
  if (only !== undefined) return withinCell(only);
  return results.map((row) => row.map((cell) => withinCell(cell instanceof CellError ? `${cell.code} ${cell.message}`.trimEnd() : cell)));
}

function withinCell(cell: unknown): unknown {
  return typeof cell === "string" && cell.length > mostCharacters ? "#VALUE! The text is longer than the 50,000 characters that a cell of a Google Sheet holds." : cell;
}
