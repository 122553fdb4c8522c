/**
 * The quick way through a long log: lines that need no thought are counted from their bytes, without becoming text. A line is plain when it is
 * ASCII without quotes, has as many cells as the heading, and its numbers are digits with at most one decimal mark. What such numbers mean is
 * asked of whoever takes the shot, who may decline; the line then goes the long way like every other.
 */
import type { ShotColumn } from "../../shared/log/plausible";

const [lineFeed, carriageReturn, quote, zero, nine, lastAscii] = [10, 13, 34, 48, 57, 127];
const powersOfTen = Array.from({ length: 23 }, (_, exponent) => 10 ** exponent);
/** So many digits are a number without rounding, and its quotient by a power of ten is the number that the text stands for. */
const mostDigits = 15;

/** The shot of a plain line, in g, s and %; null for a blank. One object is used for all. */
export type PlainShot = Record<ShotColumn, number | null>;

export interface PlainForm {
  readonly separator: string;
  readonly decimal: string;
  /** Cells of a line. */
  readonly width: number;
  /** Where the numbers of a shot stand, and by what they are multiplied. */
  readonly columns: readonly { readonly column: ShotColumn; readonly index: number; readonly size: number }[];
  /** Where the setting stands; -1 where the log has none. */
  readonly setting: number;
  /** Takes the shot of a line, with its setting as the bytes from one place to another; false where the line needs the long way. */
  take(shot: PlainShot, bytes: Uint8Array, settingFrom: number, settingTo: number): boolean;
}

const unused = -1;
const settingHere = -2;

export class PlainLines {
  /** Lines counted so far. */
  lines = 0;
  private readonly separator: number;
  private readonly decimal: number;
  /** For each cell of a line the place of its number, `settingHere` or `unused`. */
  private readonly uses: Int8Array;
  private readonly shot: PlainShot = { dose: null, beverage: null, time: null, strength: null };

  constructor(private readonly form: PlainForm) {
    this.separator = form.separator.charCodeAt(0);
    this.decimal = form.decimal.charCodeAt(0);
    this.uses = new Int8Array(form.width).fill(unused);
    if (form.setting >= 0) this.uses[form.setting] = settingHere;
    form.columns.forEach(({ index }, place) => (this.uses[index] = place));
  }

  /** Takes plain lines from a place on, each with its line feed; gives where the first line that is not plain begins, or the end. */
  takeFrom(bytes: Uint8Array, from: number, end: number): number {
    let at = from;
    while (at < end) {
      const next = this.takeLine(bytes, at, end);
      if (next < 0) return at;
      this.lines++;
      at = next;
    }
    return at;
  }

  /** The place after the line, or -1 where it is not plain. */
  private takeLine(bytes: Uint8Array, from: number, end: number): number {
    const { separator, decimal, uses, form, shot } = this;
    let cell = 0;
    let cellFrom = from;
    let settingFrom = from;
    let settingTo = from;
    let value = 0;
    let digits = 0;
    let decimals = -1;
    let isNumber = true;
    for (let at = from; at < end; at++) {
      const byte = bytes[at]!;
      if (byte >= zero && byte <= nine) {
        value = value * 10 + byte - zero;
        digits++;
        if (decimals >= 0) decimals++;
        continue;
      }
      if (byte === decimal && decimal !== separator && decimals < 0 && digits > 0) {
        decimals = 0;
        continue;
      }
      const lineEnds = byte === lineFeed || (byte === carriageReturn && bytes[at + 1] === lineFeed);
      if (byte !== separator && !lineEnds) {
        if (byte === quote || byte === carriageReturn || byte > lastAscii) return -1;
        isNumber = false;
        continue;
      }
      const use = cell < uses.length ? uses[cell]! : unused;
      if (use >= 0) {
        const { column, size } = form.columns[use]!;
        if (at === cellFrom) shot[column] = null;
        else if (!isNumber || digits > mostDigits || decimals === 0) return -1;
        else shot[column] = (decimals > 0 ? value / powersOfTen[decimals]! : value) * size;
      } else if (use === settingHere) {
        settingFrom = cellFrom;
        settingTo = at;
      }
      cell++;
      if (lineEnds) {
        if (cell !== uses.length || !form.take(shot, bytes, settingFrom, settingTo)) return -1;
        return byte === lineFeed ? at + 1 : at + 2;
      }
      cellFrom = at + 1;
      value = 0;
      digits = 0;
      decimals = -1;
      isNumber = true;
    }
    return -1;
  }
}

/** Settings by the bytes of their cells, so that a setting becomes text only when it is met first. */
export class KnownSettings<Sums> {
  private readonly byHash = new Map<number, { readonly bytes: Uint8Array; readonly sums: Sums }[]>();

  /** `sumsOf` finds the sums of a setting by the text of its cell. */
  constructor(private readonly sumsOf: (text: string) => Sums | undefined) {}

  of(bytes: Uint8Array, from: number, to: number): Sums | undefined {
    let hash = to - from;
    for (let at = from; at < to; at++) hash = (Math.imul(hash, 31) + bytes[at]!) | 0;
    const alike = this.byHash.get(hash);
    if (alike) {
      for (const known of alike) if (known.bytes.length === to - from && isSame(known.bytes, bytes, from)) return known.sums;
    }
    const sums = this.sumsOf(new TextDecoder().decode(bytes.subarray(from, to)));
    // A setting written in ever new ways is no reason to keep them all.
    if (sums === undefined || (alike?.length ?? 0) >= mostAlike || this.byHash.size >= mostKnown) return sums;
    this.byHash.set(hash, [...(alike ?? []), { bytes: bytes.slice(from, to), sums }]);
    return sums;
  }
}

const mostAlike = 8;
const mostKnown = 20_000;

function isSame(known: Uint8Array, bytes: Uint8Array, from: number): boolean {
  for (let at = 0; at < known.length; at++) if (known[at] !== bytes[from + at]) return false;
  return true;
}
