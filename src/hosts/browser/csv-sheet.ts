/** A .csv file as a sheet, and a sheet as a .csv file. */
import { Problem } from "../../../shared/problem";
import { defaultUnits } from "../../sheet/unit-choice";
import { worded } from "../../sheet/wording";
import { CsvReading, type CsvRow } from "../../log-file/csv-reading";
import { csvLines, utf8Mark } from "../../log-file/csv-writing";
import { FileProblem } from "../../xlsx/file-problem";
import { emptySheet, putCell, type Cell, type CellStyle, type CellValue, type Sheet } from "../../xlsx/workbook";

/** More than this is too slow to work in. */
const mostRows = 50_000;
const mostCells = 600_000;
/** Bytes that are read before the page may breathe: a few milliseconds of work. */
const pieceLength = 65_536;

export interface OpenedCsv {
  readonly sheet: Sheet;
  /** What had to be assumed or mended, as sentences. */
  readonly notes: readonly string[];
  /** The notes say what may have been read wrongly. */
  readonly doubtful: boolean;
}

export interface ReadingControl {
  /** Calls back with the share of the file that has been read, 0 to 1. */
  onProgress?(share: number): void;
  readonly signal?: AbortSignal;
}

/** Reads the file in pieces, between which the page stays responsive. Throws a FileProblem where it cannot be read. */
export async function readCsvSheet(file: Blob, fileName: string, { onProgress, signal }: ReadingControl = {}): Promise<OpenedCsv> {
  const reading = new CsvReading();
  const rows = new SheetRows(fileName);
  try {
    for (let at = 0; at < file.size; at += pieceLength) {
      const bytes = new Uint8Array(await file.slice(at, at + pieceLength).arrayBuffer());
      for (const row of reading.push(bytes)) rows.add(row, reading.form?.decimal ?? ".");
      onProgress?.(Math.min(1, (at + pieceLength) / file.size));
      await nextTurn();
      signal?.throwIfAborted();
    }
    for (const row of reading.end()) rows.add(row, reading.form?.decimal ?? ".");
  } catch (error) {
    if (error instanceof Problem) throw new FileProblem(worded(error.words, defaultUnits).replace(/^The file/, fileName));
    throw error;
  }
  const doubts = [...reading.notes, ...rows.doubts()];
  const notes = reading.form?.decimal === "," ? [...doubts, "Numbers were read with decimal commas."] : doubts;
  return { sheet: rows.finished(), notes, doubtful: doubts.length > 0 };
}

/** Lets the page draw and answer; timers wait longer when they follow one another. */
function nextTurn(): Promise<void> {
  return new Promise((go) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => go();
    port2.postMessage(null);
  });
}

class SheetRows {
  private readonly sheet: Sheet;
  private readonly refused: number[] = [];
  private rows = 0;
  private cells = 0;
  private readonly longest: number[] = [];

  constructor(private readonly fileName: string) {
    this.sheet = emptySheet(sheetName(fileName));
  }

  add({ line, cells, refused }: CsvRow, decimal: "." | ","): void {
    if (refused) this.refused.push(line);
    for (const [column, text] of cells.entries()) {
      const cell = csvCell(text, decimal);
      if (!cell) continue;
      putCell(this.sheet, this.rows, column, cell);
      this.cells++;
      if (this.rows < 200) this.longest[column] = Math.max(this.longest[column] ?? 0, text.length);
    }
    this.rows++;
    if (this.rows > mostRows) this.tooLong(`${mostRows.toLocaleString("en")} rows`);
    if (this.cells > mostCells) this.tooLong(`${mostCells.toLocaleString("en")} cells`);
  }

  /** What may have been read wrongly, as sentences. */
  doubts(): string[] {
    if (this.refused.length === 0) return [];
    const lines = this.refused.slice(0, 10).join(", ") + (this.refused.length > 10 ? " …" : "");
    const where = this.refused.length === 1 ? `Line ${lines} of the file` : `${this.refused.length} lines of the file (line ${lines})`;
    return [`${where} could not be split into cells properly: a quotation mark is not closed, or the line is too long. Check the row.`];
  }

  finished(): Sheet {
    if (this.cells === 0) throw new FileProblem(`${this.fileName} holds no values.`);
    this.sheet.columns = Array.from(this.longest, (length = 0) => ({ width: Math.min(40, Math.max(9, length + 2)) }));
    return this.sheet;
  }

  private tooLong(limit: string): never {
    throw new FileProblem(
      `${this.fileName} has more than ${limit}, which is more than this page can work with. The command “npm run check-log -- FILE” reads logs of any length.`,
    );
  }
}

const dateFormat = "yyyy-mm-dd";

/** A plain number by the file's decimal sign; one with an exponent has a point whatever the others have. */
const numbers = {
  ".": /^[-+]?(\d+(\.\d*)?|\.\d+)(e[-+]?\d+)?$/i,
  ",": /^[-+]?((\d+(,\d*)?|,\d+)(e[-+]?\d+)?|\d\.\d+e[-+]?\d+)$/i,
} as const;

/** More digits than this a number of a cell does not keep. */
const mostDigits = 15;

/**
 * What a cell of the file holds. Only a plain number becomes a number and only a date with its year first a date; everything else stays
 * the text it is, also what begins like a formula, so that opening a file never runs anything from it.
 */
export function csvCell(cell: string, decimal: "." | ","): Cell | undefined {
  const text = cell.trim();
  if (text === "") return undefined;
  const number = plainNumber(text, decimal);
  if (number !== undefined) return { value: number };
  const date = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  if (date) {
    const time = Date.UTC(Number(date[1]), Number(date[2]) - 1, Number(date[3]));
    if (new Date(time).toISOString().startsWith(text)) return { value: time / 86_400_000 + daysTo1970, style: { format: dateFormat } };
  }
  return { value: cell };
}

/** The number, where nothing of the text is lost by making it one. */
function plainNumber(text: string, decimal: "." | ","): number | undefined {
  if (!numbers[decimal].test(text)) return undefined;
  const [digits = ""] = /^[^e]*/i.exec(text.replace(/^[-+]/, ""))!;
  // One with leading zeros is a label, such as the code of a cup.
  if (/^0\d/.test(digits) || digits.replace(/\D/g, "").length > mostDigits) return undefined;
  const value = Number(text.replace(",", "."));
  return Number.isFinite(value) && (value !== 0 || !/[1-9]/.test(digits)) ? value : undefined;
}

/** Cells count days from the end of 1899. */
const daysTo1970 = 25_569;

/** Decimal points, commas between cells, and UTF-8 with its mark so that Excel reads it as such. */
export function csvOf(sheet: Sheet): string {
  const lines: string[][] = [];
  let columns = 0;
  sheet.cells.forEach((row, index) => {
    row?.forEach((cell, column) => {
      if (cell?.value === undefined) return;
      (lines[index] ??= [])[column] = shownText(cell.value, cell.style);
      columns = Math.max(columns, column + 1);
    });
  });
  return utf8Mark + csvLines(Array.from(lines, (line) => Array.from({ length: columns }, (_, column) => line?.[column] ?? "")), ",");
}

/** Dates and clock times are numbers in the cell, and only their format tells what they are. */
function shownText(value: CellValue, style: CellStyle | undefined): string {
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "object") return value.error;
  const format = style?.format?.replace(/"[^"]*"|\[[^\]]*\]|\\./g, "").toLowerCase() ?? "";
  if (typeof value !== "number" || !/[dyhs]/.test(format)) return String(value);
  const iso = new Date((value - daysTo1970) * 86_400_000 + 500).toISOString();
  const date = iso.slice(0, 10);
  const time = iso.slice(11, 19);
  if (!/[dy]/.test(format)) return time;
  return /[hs]/.test(format) ? `${date} ${time}` : date;
}

/** A name that a sheet may have: no longer than 31 characters and without the signs that formulas use. */
function sheetName(fileName: string): string {
  const name = fileName
    .replace(/\.[^.]*$/, "")
    .replace(/[[\]:*?/\\']/g, " ")
    .trim()
    .slice(0, 31);
  return name || "Log";
}
