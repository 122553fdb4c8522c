/**
 * The quick way through a long log: lines that need no thought are counted from their bytes, without becoming text. A line is plain when it is
 * ASCII without quotes, has as many cells as the heading, and its numbers are digits with at most one decimal mark. What such numbers mean is
 * asked of whoever takes the shot, who may decline; the line then goes the long way like every other.
 */
import type { ShotColumn } from "../../shared/log/plausible";

const powersOfTen = Float64Array.from({ length: 23 }, (_, exponent) => 10 ** exponent);
/** So many digits are a number without rounding, and its quotient by a power of ten is the number that the text stands for. */
const mostDigits = 15;

/** The cells of a line that hold names, as bytes from one place to another. One object is used for all lines. */
export interface NameCells {
  bytes: Uint8Array;
  settingFrom: number;
  settingTo: number;
  cafeFrom: number;
  cafeTo: number;
}

/** Takes a shot in g, s and %, NaN for a blank; false where the line needs the long way. */
type TakeShot = (dose: number, beverage: number, time: number, strength: number, names: Readonly<NameCells>) => boolean;

export interface PlainForm {
  readonly separator: string;
  readonly decimal: string;
  /** Cells of a line. */
  readonly width: number;
  /** Where the numbers of a shot stand, and by what they are multiplied. */
  readonly columns: readonly { readonly column: ShotColumn; readonly index: number; readonly size: number }[];
  /** What no plain line leaves blank. */
  readonly required: readonly ShotColumn[];
  /** Where the setting and the café stand; -1 where the log has none. */
  readonly setting: number;
  readonly cafe: number;
  readonly take: TakeShot;
}

/** What a cell of a line is to a shot; the numbers come first. */
const uses = { dose: 0, beverage: 1, time: 2, strength: 3, setting: 4, cafe: 5, none: 6 } as const;

/** What a byte is to a line. */
const bytesAre = { others: 0, digit: 1, decimal: 2, separator: 3, lineFeed: 4, carriageReturn: 5, refused: 6 } as const;
const [lineFeed, carriageReturn, quote, zero, nine, lastAscii] = [10, 13, 34, 48, 57, 127];

function kindsOfBytes(separator: string, decimal: string): Uint8Array {
  const kinds = new Uint8Array(256).fill(bytesAre.others, 0, lastAscii + 1).fill(bytesAre.refused, lastAscii + 1);
  kinds.fill(bytesAre.digit, zero, nine + 1);
  kinds[quote!] = bytesAre.refused;
  kinds[lineFeed!] = bytesAre.lineFeed;
  kinds[carriageReturn!] = bytesAre.carriageReturn;
  kinds[decimal.charCodeAt(0)] = bytesAre.decimal;
  // Where one sign were both, it would part cells.
  kinds[separator.charCodeAt(0)] = bytesAre.separator;
  return kinds;
}

export class PlainLines {
  /** Lines counted so far. */
  lines = 0;
  private readonly kinds: Uint8Array;
  /** For each cell of a line its use, by what its number is multiplied, and whether it may be blank. */
  private readonly uses: Uint8Array;
  private readonly sizes: Float64Array;
  private readonly mayBeBlank: Uint8Array;
  private readonly numbers = new Float64Array(4).fill(NaN);
  private readonly names: NameCells = { bytes: new Uint8Array(0), settingFrom: 0, settingTo: 0, cafeFrom: 0, cafeTo: 0 };
  private readonly take: TakeShot;

  constructor({ separator, decimal, width, columns, required, setting, cafe, take }: PlainForm) {
    this.kinds = kindsOfBytes(separator, decimal);
    this.uses = new Uint8Array(width).fill(uses.none);
    this.sizes = new Float64Array(width).fill(1);
    this.mayBeBlank = new Uint8Array(width).fill(1);
    this.take = take;
    if (setting >= 0) this.uses[setting] = uses.setting;
    if (cafe >= 0) this.uses[cafe] = uses.cafe;
    for (const { column, index, size } of columns) {
      this.uses[index] = uses[column];
      this.sizes[index] = size;
      this.mayBeBlank[index] = required.includes(column) ? 0 : 1;
    }
  }

  /** Takes plain lines from a place on, each with its line feed; gives where the first line that is not plain begins, or the end. */
  takeFrom(bytes: Uint8Array, from: number, end: number): number {
    this.names.bytes = bytes;
    let at = from;
    while (at < end) {
      const next = this.takeLine(bytes, at);
      if (next < 0) return at;
      this.lines++;
      at = next;
    }
    return at;
  }

  /** The place after the line, which has its line feed; -1 where it is not plain. */
  private takeLine(bytes: Uint8Array, from: number): number {
    const { kinds, numbers, names } = this;
    const width = this.uses.length;
    let at = from;
    for (let cell = 0; cell < width; cell++) {
      const use = this.uses[cell]!;
      const cellFrom = at;
      let kind: number;
      if (use > uses.strength) {
        do kind = kinds[bytes[at++]!]!; while (kind <= bytesAre.decimal);
        if (use === uses.setting) {
          names.settingFrom = cellFrom;
          names.settingTo = at - 1;
        } else if (use === uses.cafe) {
          names.cafeFrom = cellFrom;
          names.cafeTo = at - 1;
        }
      } else {
        let value = 0;
        while ((kind = kinds[bytes[at++]!]!) === bytesAre.digit) value = value * 10 + bytes[at - 1]! - zero!;
        let digits = at - 1 - cellFrom;
        if (kind === bytesAre.decimal) {
          const decimalsFrom = at;
          while ((kind = kinds[bytes[at++]!]!) === bytesAre.digit) value = value * 10 + bytes[at - 1]! - zero!;
          const decimals = at - 1 - decimalsFrom;
          if (digits === 0 || decimals === 0) return -1;
          digits += decimals;
          if (digits > mostDigits) return -1;
          value /= powersOfTen[decimals]!;
        }
        if (kind < bytesAre.separator || digits > mostDigits || (digits === 0 && this.mayBeBlank[cell] === 0)) return -1;
        numbers[use] = digits === 0 ? NaN : value * this.sizes[cell]!;
      }
      const isLast = cell === width - 1;
      if (kind === bytesAre.separator ? isLast : !isLast) return -1;
      if (kind === bytesAre.carriageReturn ? bytes[at++] !== lineFeed : kind === bytesAre.refused) return -1;
    }
    return this.take(numbers[0]!, numbers[1]!, numbers[2]!, numbers[3]!, names) ? at : -1;
  }
}

/** Settings or cafés by the bytes of their cells, so that a name becomes text only when it is met first. */
export class KnownNames<Sums> {
  private readonly byHash = new Map<number, { readonly bytes: Uint8Array; readonly sums: Sums }[]>();

  /** `sumsOf` finds the sums of a name by the text of its cell. */
  constructor(private readonly sumsOf: (text: string) => Sums | undefined) {}

  of(bytes: Uint8Array, from: number, to: number): Sums | undefined {
    let hash = to - from;
    for (let at = from; at < to; at++) hash = (Math.imul(hash, 31) + bytes[at]!) | 0;
    const alike = this.byHash.get(hash);
    if (alike) {
      for (const known of alike) if (known.bytes.length === to - from && isSame(known.bytes, bytes, from)) return known.sums;
    }
    const sums = this.sumsOf(new TextDecoder().decode(bytes.subarray(from, to)));
    // A name written in ever new ways is no reason to keep them all.
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
