import { closeSync, fsyncSync, openSync, writeFileSync } from "node:fs";
import { badInput } from "../../../shared/problem";
import type { CsvForm } from "../../log-file/csv-reading";
import { csvLines, utf8Mark } from "../../log-file/csv-writing";
import { systemWords } from "./system-words";

const pieceLength = 1 << 16;

/** A .csv that is written row by row, in the form of the log, so that the same spreadsheet opens both. */
export class CsvFile {
  private readonly file: number;
  private waiting: string;

  constructor(private readonly path: string, private readonly form: Pick<CsvForm, "separator">, headings: readonly string[]) {
    this.file = this.tried(() => openSync(path, "wx"));
    this.waiting = utf8Mark + csvLines([headings], form.separator);
  }

  write(rows: string[][]): void {
    this.waiting += csvLines(rows, this.form.separator);
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
}
