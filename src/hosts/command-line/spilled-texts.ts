/** The texts that the cells of a workbook share: the first of them in memory, the others in a file. */
import { closeSync, openSync, readSync, rmSync, writeSync } from "node:fs";
import type { TextStore } from "../../xlsx/stream-rows";
import { CannotWrite } from "./csv-file";

/** Characters that are kept in memory. Words that come again and again, as settings and cafés do, are among the first. */
const mostInMemory = 16_000_000;
/** What a text takes besides its characters. */
const perText = 40;
const pieceLength = 1 << 16;

export class SpilledTexts implements TextStore {
  private readonly kept: string[] = [];
  private inMemory = 0;
  /** Where the texts in the file end, by their numbers after those in memory. */
  private ends = new Float64Array(1024);
  private spilled = 0;
  private length = 0;
  private waiting: Buffer[] = [];
  private waitingLength = 0;
  private handle: number | undefined;

  constructor(private readonly path: string) {}

  add(text: string): void {
    if (this.spilled === 0 && this.inMemory + text.length + perText <= mostInMemory) {
      this.kept.push(text);
      this.inMemory += text.length + perText;
      return;
    }
    // UTF-16 keeps halves of letters too, as a damaged file may hold them.
    const bytes = Buffer.from(text, "utf16le");
    if (this.spilled === this.ends.length) {
      const longer = new Float64Array(2 * this.ends.length);
      longer.set(this.ends);
      this.ends = longer;
    }
    this.length += bytes.length;
    this.ends[this.spilled++] = this.length;
    this.waiting.push(bytes);
    this.waitingLength += bytes.length;
    if (this.waitingLength >= pieceLength) this.flush();
  }

  at(number: number): string | undefined {
    if (number < this.kept.length) return this.kept[number];
    const index = number - this.kept.length;
    if (!Number.isInteger(index) || index >= this.spilled) return undefined;
    this.flush();
    const from = index === 0 ? 0 : this.ends[index - 1]!;
    const bytes = Buffer.alloc(this.ends[index]! - from);
    if (bytes.length > 0) readSync(this.handle!, bytes, 0, bytes.length, from);
    return bytes.toString("utf16le");
  }

  close(): void {
    if (this.handle === undefined) return;
    closeSync(this.handle);
    rmSync(this.path, { force: true });
  }

  private flush(): void {
    if (this.waitingLength === 0) return;
    try {
      this.handle ??= openSync(this.path, "wx+");
      writeSync(this.handle, Buffer.concat(this.waiting), 0, this.waitingLength, this.length - this.waitingLength);
    } catch (thrown) {
      throw new CannotWrite(this.path, thrown);
    }
    this.waiting = [];
    this.waitingLength = 0;
  }
}
