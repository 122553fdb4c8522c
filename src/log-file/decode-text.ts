/** Bytes of a text file as text, piece by piece, in whatever encoding a log may have. */
import { badInput } from "../../shared/problem";

/** Files that are no text, by how they begin, and what to do with them. */
const otherFiles: readonly (readonly [readonly number[], string])[] = [
  [[0x50, 0x4b, 0x03, 0x04], "is a packed file, perhaps an .xlsx workbook. Save its sheet as .csv, or open it as a workbook"],
  [[0xd0, 0xcf, 0x11, 0xe0], "is an old .xls workbook. Save its sheet as .csv"],
  [[0x1f, 0x8b], "is a compressed file. Unpack it first"],
  [[0x25, 0x50, 0x44, 0x46], "is a PDF. Export the log itself as .csv"],
];

/** So many bytes show what a file is. */
const enough = 1024;

/** Turns pieces of bytes into pieces of text; throws a Problem in words where the file is no text. */
export class TextDecoding {
  /** What had to be assumed, as sentences. */
  readonly notes: string[] = [];
  private waiting: Uint8Array = new Uint8Array(0);
  private decoder: "unknown" | "utf-8" | TextDecoder = "unknown";
  private beyondAscii = false;

  /** Whether bytes have come in that have not come out as text. */
  get holdsBack(): boolean {
    return this.waiting.length > 0;
  }

  /** Whether bytes below 128 are the letters of ASCII. */
  get isAsciiBased(): boolean {
    return this.decoder === "utf-8" || (this.decoder instanceof TextDecoder && !this.decoder.encoding.startsWith("utf-16"));
  }

  push(piece: Uint8Array): string {
    const bytes = joined(this.waiting, piece);
    this.waiting = new Uint8Array(0);
    if (this.decoder !== "unknown") return this.decode(bytes, false);
    if (bytes.length < enough) {
      this.waiting = bytes;
      return "";
    }
    return this.begin(bytes, false);
  }

  /** What is left at the end of the file. */
  end(): string {
    const bytes = this.waiting;
    this.waiting = new Uint8Array(0);
    return this.decoder === "unknown" ? this.begin(bytes, true) : this.decode(bytes, true);
  }

  private begin(bytes: Uint8Array, last: boolean): string {
    if (bytes.length === 0) badInput("The file is empty.");
    for (const [start, words] of otherFiles) {
      if (start.every((byte, index) => bytes[index] === byte)) badInput(`The file ${words}.`);
    }
    if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) {
      this.decoder = "utf-8";
      return this.decode(bytes.subarray(3), last);
    }
    const wide = bytes[0] === 0xff && bytes[1] === 0xfe ? "utf-16le" : bytes[0] === 0xfe && bytes[1] === 0xff ? "utf-16be" : wideWithoutMark(bytes);
    if (wide) this.decoder = new TextDecoder(wide);
    else if (bytes.subarray(0, enough).includes(0)) badInput("The file is no text: it holds zero bytes.");
    else this.decoder = "utf-8";
    const text = this.decode(bytes, last);
    if (/^\s*(?:<!doctype|<html|<\?xml|<table)/i.test(text)) badInput("The file is a web page or XML, not a .csv. Export the log itself as .csv.");
    return text;
  }

  private decode(bytes: Uint8Array, last: boolean): string {
    if (this.decoder instanceof TextDecoder) return this.decoder.decode(bytes, { stream: !last });
    const whole = last ? bytes.length : bytes.length - cutOff(bytes);
    try {
      const text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes.subarray(0, whole));
      this.beyondAscii ||= text.length !== whole;
      this.waiting = bytes.slice(whole);
      return text;
    } catch {
      // Western European text without accents so far looks just like UTF-8.
      this.beyondAscii ||= beginsBeyondAscii(bytes);
      this.notes.push(this.beyondAscii
        ? "Some letters are not UTF-8 like the rest of the file; they are shown as �."
        : "The file is not UTF-8, so it was read as Windows Western European; check letters with accents.");
      this.decoder = new TextDecoder(this.beyondAscii ? "utf-8" : "windows-1252");
      return this.decoder.decode(bytes, { stream: !last });
    }
  }
}

/** Whether the first letter beyond ASCII is one of UTF-8. */
function beginsBeyondAscii(bytes: Uint8Array): boolean {
  const first = bytes.findIndex((byte) => byte >= 0x80);
  if (first < 0) return false;
  const length = bytes[first]! >= 0xf0 ? 4 : bytes[first]! >= 0xe0 ? 3 : 2;
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes.subarray(first, first + length));
    return true;
  } catch {
    return false;
  }
}

/** UTF-16 without its mark: in Latin letters and digits every other byte is 0. */
function wideWithoutMark(bytes: Uint8Array): "utf-16le" | "utf-16be" | undefined {
  const zeros = [0, 0];
  const length = Math.min(bytes.length, enough);
  for (let index = 0; index < length; index++) if (bytes[index] === 0) zeros[index % 2]!++;
  if (zeros[1]! > length / 4 && zeros[0]! < length / 16) return "utf-16le";
  if (zeros[0]! > length / 4 && zeros[1]! < length / 16) return "utf-16be";
  return undefined;
}

/** How many bytes at the end begin a UTF-8 letter that the next piece completes. */
function cutOff(bytes: Uint8Array): number {
  for (let back = 1; back <= Math.min(3, bytes.length); back++) {
    const byte = bytes[bytes.length - back]!;
    if (byte < 0x80) return 0;
    if (byte >= 0xc0) return back < (byte >= 0xf0 ? 4 : byte >= 0xe0 ? 3 : 2) ? back : 0;
  }
  return 0;
}

function joined(first: Uint8Array, second: Uint8Array): Uint8Array {
  if (first.length === 0) return second;
  const both = new Uint8Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
