/** Results as files. */
import { closeSync, fsyncSync, openSync, readSync, rmSync, writeFileSync } from "node:fs";
import { Problem } from "../../../shared/problem";
import type { CsvForm } from "../../log-file/csv-reading";
import { csvLines, utf8Mark } from "../../log-file/csv-writing";
import { systemWords } from "./system-words";

export type ResultForm = Pick<CsvForm, "separator" | "decimal">;

/** A result has no place to be: the run cannot go on. */
export class CannotWrite extends Problem {
  constructor(place: string, thrown: unknown) {
    super("bad input", `${place} cannot be written: ${systemWords(thrown)}.`);
  }
}

/** A file at once; everything is on the disk when this is done. */
export function writeWhole(path: string, place: string, content: string | Uint8Array): void {
  try {
    const file = openSync(path, "wx");
    writeFileSync(file, content);
    fsyncSync(file);
    closeSync(file);
  } catch (thrown) {
    throw new CannotWrite(place, thrown);
  }
}

const pieceLength = 1 << 16;

/** A .csv that is written row by row, in the form of the log, so that the same spreadsheet opens both. */
export class CsvFile {
  private readonly file: number;
  private waiting = "";

  /** `place` is where the file will stand, or its rows, when everything is written. */
  constructor(path: string, private readonly place: string, private readonly form: ResultForm) {
    this.file = this.tried(() => openSync(path, "wx"));
  }

  /** The first row. */
  begin(headings: readonly string[]): void {
    this.waiting = utf8Mark;
    this.write([headings]);
  }

  write(rows: readonly (readonly string[])[]): void {
    this.waiting += csvLines(rows, this.form.separator);
    if (this.waiting.length > pieceLength) this.flush();
  }

  /** The rows of other files, as they stand there; the files are done with. */
  take(paths: readonly string[]): void {
    this.flush();
    const piece = new Uint8Array(1 << 20);
    for (const path of paths) {
      this.tried(() => {
        const part = openSync(path, "r");
        for (let length = readSync(part, piece); length > 0; length = readSync(part, piece)) writeFileSync(this.file, piece.subarray(0, length));
        closeSync(part);
        rmSync(path);
      });
    }
  }

  /** Everything is on the disk when this is done. */
  end(): void {
    this.flush();
    this.tried(() => fsyncSync(this.file));
    closeSync(this.file);
  }

  private flush(): void {
    if (this.waiting !== "") this.tried(() => writeFileSync(this.file, this.waiting));
    this.waiting = "";
  }

  private tried<T>(write: () => T): T {
    try {
      return write();
    } catch (thrown) {
      throw new CannotWrite(this.place, thrown);
    }
  }
}

/** A number as the results show it, with six digits; blank where there is none. */
export function shownNumber(value: number | Problem, { decimal }: ResultForm): string {
  if (value instanceof Problem || !Number.isFinite(value)) return "";
  const text = String(Number(value.toPrecision(6)));
  return decimal === "," ? text.replace(".", ",") : text;
}
