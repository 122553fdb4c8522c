/** The sheets of an .xlsx workbook as rows of a log, of any length in constant memory. */
import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { badInput } from "../../../shared/problem";
import type { CsvRow } from "../../log-file/csv-reading";
import { streamedSheets, type StreamedRow, type StreamedSheet } from "../../xlsx/stream-rows";
import { isErrorValue, type CellValue } from "../../xlsx/workbook";
import { inMemory, type ByteSource } from "../../xlsx/zip";
import type { LogInput } from "./log-inputs";
import { wholeOf } from "./pieces";
import { SpilledTexts } from "./spilled-texts";
import { systemWords } from "./system-words";

export interface LogSheet {
  readonly name: string;
  /** To be read once. What a column holds is known before the first row comes out. */
  rows(): Iterable<CsvRow>;
  /** What most of its first numbers are, by the look of their cells. */
  kindOf(column: number): "clock" | "percent" | "number";
}

/** A workbook that is open for its rows. */
export class WorkbookLog {
  private constructor(
    readonly sheets: readonly LogSheet[],
    private readonly texts: SpilledTexts,
    private readonly file: WorkbookFile,
  ) {}

  /** Texts that memory has no room for go into a file at `textsPath`. Throws a FileProblem, a full sentence, where the bytes are no workbook. */
  static async open(input: LogInput, textsPath: string): Promise<WorkbookLog> {
    const file = input.size === undefined ? new WorkbookFile(inMemory(await wholeOf(input))) : WorkbookFile.at(input.path!);
    const texts = new SpilledTexts(textsPath);
    try {
      const sheets = streamedSheets(file, input.file, texts);
      return new WorkbookLog(sheets.map((sheet) => new RowsOfSheet(sheet)), texts, file);
    } catch (thrown) {
      file.close();
      texts.close();
      throw thrown;
    }
  }

  /** Bytes of the file that have been read since this was asked before. */
  bytesRead(): number {
    return this.file.readLately();
  }

  close(): void {
    this.file.close();
    this.texts.close();
  }
}

/** Read at once from the disk, so that headers beside one another cost one reading. */
const window = 1 << 16;

class WorkbookFile implements ByteSource {
  private held: Uint8Array = new Uint8Array(0);
  private heldFrom = 0;
  private lately = 0;

  constructor(
    private readonly source: ByteSource,
    private readonly handle?: number,
  ) {}

  static at(path: string): WorkbookFile {
    try {
      const handle = openSync(path, "r");
      const { size } = fstatSync(handle);
      return new WorkbookFile({ length: size, read: (from, to) => readAt(handle, path, from, to) }, handle);
    } catch (thrown) {
      return badInput(`${path} cannot be read: ${systemWords(thrown)}.`);
    }
  }

  get length(): number {
    return this.source.length;
  }

  read(from: number, to: number): Uint8Array {
    if (from < 0 || to > this.length || from > to) throw new RangeError();
    if (from < this.heldFrom || to > this.heldFrom + this.held.length) {
      this.heldFrom = from;
      this.held = this.source.read(from, Math.min(this.length, Math.max(to, from + window)));
      this.lately += this.held.length;
    }
    return this.held.subarray(from - this.heldFrom, to - this.heldFrom);
  }

  readLately(): number {
    const { lately } = this;
    this.lately = 0;
    return lately;
  }

  close(): void {
    if (this.handle !== undefined) closeSync(this.handle);
  }
}

function readAt(handle: number, path: string, from: number, to: number): Uint8Array {
  const bytes = new Uint8Array(to - from);
  let length = 0;
  while (length < bytes.length) {
    const read = readSync(handle, bytes, length, bytes.length - length, from + length);
    if (read === 0) badInput(`${path} was cut short while it was read. Run this again when nothing writes to it.`);
    length += read;
  }
  return bytes;
}

/** So many cells of the first rows tell what a column holds. */
const sampleRows = 2000;
const sampleCells = 200_000;

class RowsOfSheet implements LogSheet {
  private readonly kinds: { clock: number; percent: number; number: number }[] = [];

  constructor(private readonly sheet: StreamedSheet) {}

  get name(): string {
    return this.sheet.name;
  }

  *rows(): Generator<CsvRow> {
    const rows = this.sheet.rows();
    const sample: StreamedRow[] = [];
    let cells = 0;
    while (sample.length < sampleRows && cells < sampleCells) {
      const { value, done } = rows.next();
      if (done) break;
      sample.push(value);
      cells += value.cells.length;
      this.countKinds(value);
    }
    let next = 0;
    for (const list of [sample, rows]) {
      for (const { row, cells: filled } of list) {
        // Rows that the file leaves out are blank. The line of a row is the number that stands beside it in the sheet.
        for (; next < row; next++) if (!this.sheet.totals.has(next)) yield { line: next + 1, cells: [] };
        next = row + 1;
        // Rows of totals are no shots.
        if (!this.sheet.totals.has(row)) yield { line: row + 1, cells: Array.from(filled, (cell) => (cell ? textOf(cell.value) : "")) };
      }
    }
  }

  kindOf(column: number): "clock" | "percent" | "number" {
    const { clock, percent, number } = this.kinds[column] ?? { clock: 0, percent: 0, number: 0 };
    const most = Math.max(clock, percent, number);
    return most === number ? "number" : most === clock ? "clock" : "percent";
  }

  private countKinds({ cells }: StreamedRow): void {
    cells.forEach((cell, column) => {
      if (typeof cell?.value === "number") (this.kinds[column] ??= { clock: 0, percent: 0, number: 0 })[kindOfFormat(cell.format)]++;
    });
  }
}

function textOf(value: CellValue): string {
  if (isErrorValue(value)) return value.error;
  return typeof value === "boolean" ? String(value).toUpperCase() : String(value);
}

/** Texts within the format are not part of it. */
function kindOfFormat(format: string): "clock" | "percent" | "number" {
  const plain = format.replace(/"[^"]*"|\\./g, "");
  if (/[hms]\]?:\[?[ms]/i.test(plain)) return "clock";
  return plain.includes("%") ? "percent" : "number";
}
