/**
 * Rows of a .csv file of any length, in constant memory: pieces of bytes in, rows out, so that a page can breathe in between.
 * Cells are split by the library papaparse; here is what it leaves open: where a row ends when a quote is never closed or a line never ends.
 * Every row of the file comes out once, read or refused.
 */
import Papa from "papaparse";
import { columnsOf, mostRowsAboveHeading } from "./columns";
import { TextDecoding } from "./decode-text";

export interface CsvRow {
  /** The line of the file, from 1, on which the row begins. */
  readonly line: number;
  /** The cells as text; of a refused row as far as it can be shown. */
  readonly cells: readonly string[];
  /** Why the row could not be read, as a sentence. */
  readonly refused?: string;
}

export interface CsvForm {
  readonly separator: string;
  readonly decimal: "." | ",";
  /** How many cells most rows have. */
  readonly width: number;
}

/** The form is taken from so many characters of the file's beginning. */
const sampleLength = 50_000;
/** No row of a log is longer; a line that is must not fill the memory. */
const mostCharacters = 1_000_000;
/** No note in a log has more lines; a quote open for longer was never closed. */
const mostLinesInQuotes = 100;

export class CsvReading {
  private readonly decoding = new TextDecoding();
  private readonly given: Partial<Pick<CsvForm, "separator" | "decimal">>;
  private found: CsvForm | undefined;
  private readonly ownNotes: string[] = [];
  /** Text that is not read yet; it begins with the line `line`. */
  private text = "";
  private line = 1;
  private tooLong: { readonly line: number; readonly start: string; characters: number } | undefined;
  private rows: CsvRow[] = [];

  /** What is given is not guessed. */
  constructor(given: Partial<Pick<CsvForm, "separator" | "decimal">> = {}) {
    this.given = given;
  }

  /** Known once the first rows have come out. */
  get form(): CsvForm | undefined {
    return this.found;
  }

  /** What had to be assumed to read the file, as sentences. */
  get notes(): readonly string[] {
    return [...this.decoding.notes, ...this.ownNotes];
  }

  /** Whether some of the file has come in that has not come out as a row. */
  get holdsBack(): boolean {
    return this.text !== "" || this.tooLong !== undefined || this.decoding.holdsBack;
  }

  /** The line of the file that comes in next, where nothing is held back. */
  get nextLine(): number {
    return this.line;
  }

  /** Whether the bytes of the file are ASCII where its letters are. */
  get isAsciiBased(): boolean {
    return this.decoding.isAsciiBased;
  }

  /** Lines that were read by somebody else. */
  passOver(lines: number): void {
    this.line += lines;
  }

  push(bytes: Uint8Array): CsvRow[] {
    return this.take(this.decoding.push(bytes), false);
  }

  end(): CsvRow[] {
    return this.take(this.decoding.end(), true);
  }

  private take(text: string, last: boolean): CsvRow[] {
    this.text += text;
    if (!this.found) {
      if (this.text.length < sampleLength && !last) return [];
      this.found = this.begin();
    }
    // A carriage return at the end may be half of a line end.
    const half = !last && this.text.endsWith("\r") ? "\r" : "";
    if (half) this.text = this.text.slice(0, -1);
    if (this.text.includes("\r")) this.text = this.text.replace(/\r\n?/g, "\n");
    this.read(last);
    this.text += half;
    const rows = this.rows;
    this.rows = [];
    return rows;
  }

  private begin(): CsvForm {
    if (this.text.startsWith("\ufeff")) this.text = this.text.slice(1);
    // Some spreadsheets write the separator into a first line of its own.
    const declared = /^"?sep=(.)"?(?:\r\n?|\n)/i.exec(this.text);
    if (declared) {
      this.text = this.text.slice(declared[0].length);
      this.line++;
    }
    return formOf(this.text.slice(0, sampleLength), { separator: declared?.[1], ...this.given });
  }

  private read(last: boolean): void {
    if (this.tooLong && !this.skipRestOfLine(last)) return;
    while (this.text !== "") {
      const quote = this.text.indexOf("\"");
      const plainEnd = quote < 0 ? (last ? this.text.length : this.text.lastIndexOf("\n") + 1) : this.text.lastIndexOf("\n", quote) + 1;
      if (plainEnd > 0) this.readPlain(plainEnd);
      if (quote >= 0 ? !this.readQuoted(last) : !this.refuseEndlessLine(last)) return;
    }
  }

  /** Whole lines without a quote: one row each. */
  private readPlain(end: number): void {
    for (const cells of this.split(this.cut(end)).data) this.rows.push({ line: this.line++, cells });
  }

  /**
   * Lines from one with a quote on, as far as all quotes are closed again; a quote that is never closed costs its own line only.
   * Gives false where more of the file is needed.
   */
  private readQuoted(last: boolean): boolean {
    let [at, closed, lines, linesClosed, open] = [0, 0, 0, 0, false];
    while (at < this.text.length) {
      const newline = this.text.indexOf("\n", at);
      if (newline < 0 && !last) break;
      const end = newline < 0 ? this.text.length : newline + 1;
      for (let quote = this.text.indexOf("\"", at); quote >= 0 && quote < end; quote = this.text.indexOf("\"", quote + 1)) open = !open;
      at = end;
      lines++;
      if (!open) [closed, linesClosed] = [at, lines];
      else if (lines - linesClosed > mostLinesInQuotes || at - closed > mostCharacters) break;
    }
    if (closed > 0) {
      this.readBalanced(this.cut(closed), linesClosed);
      return true;
    }
    const neverClosed = open && (last || lines > mostLinesInQuotes || at > mostCharacters);
    if (!neverClosed) return this.refuseEndlessLine(last);
    const firstEnd = this.text.indexOf("\n") + 1;
    this.readBalanced(this.cut(firstEnd > 0 ? firstEnd : this.text.length), 1);
    return true;
  }

  /** Lines whose quotes are all closed, or one line by itself. */
  private readBalanced(block: string, lines: number): void {
    const { data, errors } = this.split(block);
    if (errors.length === 0 && data.length === lines) {
      for (const cells of data) this.rows.push({ line: this.line++, cells });
      return;
    }
    if (lines === 1) {
      this.rows.push({ line: this.line++, cells: data[0] ?? [], refused: "A quotation mark in this row is not closed, or stands in the wrong place." });
      return;
    }
    const parts = rowsOfLines(block);
    if (parts.length > 1) {
      for (const part of parts) this.readBalanced(part.text, part.lines);
    } else if (errors.length === 0 && data.length === 1 && data[0]!.length === this.found!.width) {
      this.rows.push({ line: this.line, cells: data[0]! });
      this.line += lines;
    } else {
      // Two stray quotes on different lines look like one long cell; each line by itself shows which rows they spoil.
      for (const line of withoutLastNewline(block).split("\n")) this.readBalanced(line, 1);
    }
  }

  private split(block: string): Pick<Papa.ParseResult<string[]>, "data" | "errors"> {
    const text = withoutLastNewline(block);
    // An empty line is a row too, if a blank one.
    if (text === "") return { data: [[""]], errors: [] };
    return Papa.parse<string[]>(text, { delimiter: this.found!.separator, newline: "\n", quoteChar: "\"" });
  }

  private cut(end: number): string {
    const block = this.text.slice(0, end);
    this.text = this.text.slice(end);
    return block;
  }

  /** Gives up on a line that is longer than any row can be; false where more of the file is needed. */
  private refuseEndlessLine(last: boolean): boolean {
    if (this.text.length <= mostCharacters) return false;
    this.tooLong = { line: this.line, start: this.text.slice(0, 100), characters: 0 };
    return this.skipRestOfLine(last);
  }

  private skipRestOfLine(last: boolean): boolean {
    const skipped = this.tooLong!;
    const newline = this.text.indexOf("\n");
    const end = newline < 0 ? this.text.length : newline;
    skipped.characters += end;
    this.text = this.text.slice(newline < 0 ? end : end + 1);
    if (newline < 0 && !last) return false;
    this.rows.push({
      line: this.line++,
      cells: [skipped.start],
      refused: `This line is ${skipped.characters} characters long; a row may have ${mostCharacters}.`,
    });
    this.tooLong = undefined;
    return true;
  }
}

/**
 * The separator by which the headings of a log are recognised; else the first that splits nearly all of the first lines, the very first
 * among them, into as many cells; else the one that comes closest. The comma comes last, as it also stands within numbers.
 */
function formOf(sample: string, given: { separator?: string; decimal?: "." | "," }): CsvForm {
  const ways = (given.separator ? [given.separator] : [";", "\t", "|", ","]).map((separator) => {
    const rows = Papa.parse<string[]>(sample, { delimiter: separator, preview: 200 }).data.filter((cells) => cells.some((cell) => cell !== ""));
    const width = mostCommon(rows.map((cells) => cells.length));
    const even = width > 1 ? rows.filter((cells) => cells.length === width).length / rows.length : 0;
    const hasHeadings = rows.slice(0, mostRowsAboveHeading).some(isHeading);
    return { separator, width, cells: rows.flat(), even, beginsEvenly: rows[0]?.length === width, hasHeadings };
  });
  const recognised = ways.filter(({ hasHeadings }) => hasHeadings);
  const among = recognised.length > 0 ? recognised : ways;
  const nearlyAll = among.filter(({ even }) => even >= 0.9);
  const closest = among.reduce((best, it) => (it.even >= best.even ? it : best));
  const { separator, width, cells } = nearlyAll.find(({ beginsEvenly }) => beginsEvenly) ?? nearlyAll[0] ?? closest;
  return { separator, decimal: given.decimal ?? decimalOf(cells, separator), width };
}

/** Where commas separate cells too, one with three digits after it in quotes is as likely to part thousands, and says nothing. */
function decimalOf(cells: readonly string[], separator: string): "." | "," {
  const count = (pattern: RegExp): number => cells.filter((cell) => pattern.test(cell.trim())).length;
  const comma = separator === "," ? /^[-+]?\d+,(?!\d{3}\D*$)\d+\D*$/ : /^[-+]?\d+,\d+\D*$/;
  return count(comma) > count(/^[-+]?\d+\.\d+\D*$/) ? "," : ".";
}

function isHeading(row: readonly string[]): boolean {
  try {
    return columnsOf(row, {}) !== undefined;
  } catch {
    // Two columns with the same heading: recognised all the same.
    return true;
  }
}

function mostCommon(values: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? 0;
}

/** A block of lines cut wherever no quote is open. */
function rowsOfLines(block: string): { text: string; lines: number }[] {
  const rows: { text: string; lines: number }[] = [];
  let open = false;
  for (const line of withoutLastNewline(block).split("\n")) {
    if (open) {
      const row = rows[rows.length - 1]!;
      row.text += `\n${line}`;
      row.lines++;
    } else {
      rows.push({ text: line, lines: 1 });
    }
    if (line.split("\"").length % 2 === 0) open = !open;
  }
  return rows;
}

function withoutLastNewline(text: string): string {
  return text.endsWith("\n") ? text.slice(0, -1) : text;
}
