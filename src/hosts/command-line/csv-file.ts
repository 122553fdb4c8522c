import { closeSync, fsyncSync, openSync, writeFileSync } from "node:fs";
import Papa from "papaparse";
import { badInput } from "../../../shared/problem";
import type { CsvForm } from "../../log-file/csv-reading";
import { systemWords } from "./system-words";

const pieceLength = 1 << 16;

/** A .csv that is written row by row, in the form of the log, so that the same spreadsheet opens both. */
export class CsvFile {
  private readonly file: number;
  private waiting: string;

  constructor(private readonly path: string, private readonly form: Pick<CsvForm, "separator">, headings: readonly string[]) {
    this.file = this.tried(() => openSync(path, "wx"));
    // With the mark, spreadsheets read the letters as UTF-8.
    this.waiting = `\ufeff${this.lines([[...headings]])}`;
  }

  write(rows: string[][]): void {
    if (rows.length > 0) this.waiting += this.lines(rows);
    if (this.waiting.length > pieceLength) this.flush();
  }

  /** Everything is on the disk when this is done. */
  end(): void {
    this.flush();
    this.tried(() => fsyncSync(this.file));
    closeSync(this.file);
  }

  private flush(): void {
    this.tried(() => writeFileSync(this.file, this.waiting));
    this.waiting = "";
  }

  private tried<T>(write: () => T): T {
    try {
      return write();
    } catch (thrown) {
      return badInput(`${this.path} cannot be written: ${systemWords(thrown)}.`);
    }
  }

  /** What begins like a formula stays text when a spreadsheet opens the file. */
  private lines(rows: string[][]): string {
    return `${Papa.unparse(rows, { delimiter: this.form.separator, newline: "\r\n", escapeFormulae: true })}\r\n`;
  }
}
