/** A log in a .csv file of any length, audited in constant memory: pieces of bytes in, findings out. */
import { LogAudit, type AuditOptions, type Finding } from "./audit";
import { CsvReading, type CsvForm } from "./csv-reading";
import type { PlainLines } from "./plain-lines";

export interface CsvLogOptions extends Omit<AuditOptions, "workbook"> {
  /** What is given is not guessed. */
  readonly form?: Partial<Pick<CsvForm, "separator" | "decimal">>;
  /** Whether plain lines take the quick way. What comes out is the same. */
  readonly quickly?: boolean;
}

/** No line of a log is longer. */
const longestLine = 1_000_000;
/** After so many lines that are not plain, the quick way is tried again. */
const mostLinesAtOnce = 4096;
const beginningPiece = 1 << 14;
const lineFeed = 10;

export class CsvLog {
  readonly audit: LogAudit;
  readonly reading: CsvReading;
  private readonly quickly: boolean;
  private plain: PlainLines | undefined;
  /** Bytes of a line that has not ended yet, while the quick way is taken. */
  private rest: Uint8Array = new Uint8Array(0);
  private passedOver = 0;
  private linesAtOnce = 1;

  constructor(options: CsvLogOptions = {}) {
    this.audit = new LogAudit(options);
    this.reading = new CsvReading(options.form);
    this.quickly = options.quickly ?? true;
  }

  /** How many lines have taken the quick way. */
  get quickLines(): number {
    return this.plain?.lines ?? 0;
  }

  push(piece: Uint8Array): Finding[] {
    const findings: Finding[] = [];
    // In small pieces, so that no more goes the long way than it takes to know the form.
    let begun = 0;
    while (!this.plain && begun < piece.length) {
      findings.push(...this.slowly(piece.subarray(begun, begun + beginningPiece)));
      begun = Math.min(piece.length, begun + beginningPiece);
    }
    if (!this.plain) return findings;
    const bytes = joined(this.rest, piece.subarray(begun));
    const used = this.take(bytes, this.plain, findings);
    this.rest = bytes.slice(used);
    return findings;
  }

  /** To be called at the end of the file. */
  end(): Finding[] {
    const findings = this.rest.length > 0 ? this.slowly(this.rest) : [];
    this.rest = new Uint8Array(0);
    const { form } = this.reading;
    const rows = this.reading.end();
    findings.push(...this.audit.add(rows, form ?? this.reading.form!));
    this.audit.end();
    return findings;
  }

  private slowly(bytes: Uint8Array): Finding[] {
    const rows = this.reading.push(bytes);
    const { form, isAsciiBased } = this.reading;
    if (!form) return [];
    const findings = this.audit.add(rows, form);
    if (this.quickly && isAsciiBased) this.plain ??= this.audit.plainLines(form, () => this.reading.nextLine + this.plain!.lines - this.passedOver);
    return findings;
  }

  /** Takes as much as can be taken yet, and gives how much that is. */
  private take(bytes: Uint8Array, plain: PlainLines, findings: Finding[]): number {
    const wholeLines = bytes.lastIndexOf(lineFeed) + 1;
    let at = 0;
    while (at < bytes.length) {
      if (!this.reading.holdsBack && at < wholeLines) {
        const next = plain.takeFrom(bytes, at, wholeLines);
        if (next > at) this.linesAtOnce = 1;
        at = next;
        this.reading.passOver(plain.lines - this.passedOver);
        this.passedOver = plain.lines;
      }
      // A line that is still to come goes the long way only where it is clear already that it must.
      if (at >= wholeLines && !this.reading.holdsBack && bytes.length - at <= longestLine) return at;
      const end = this.endOfLines(bytes, at, wholeLines);
      findings.push(...this.slowly(bytes.subarray(at, end)));
      at = end;
    }
    return at;
  }

  /** The end of the lines that take the long way together: the more, the longer none was plain. */
  private endOfLines(bytes: Uint8Array, from: number, wholeLines: number): number {
    if (from >= wholeLines) return bytes.length;
    let end = from;
    for (let line = 0; line < this.linesAtOnce && end < wholeLines; line++) end = bytes.indexOf(lineFeed, end) + 1;
    this.linesAtOnce = Math.min(mostLinesAtOnce, 2 * this.linesAtOnce);
    return end;
  }
}

function joined(first: Uint8Array, second: Uint8Array): Uint8Array {
  if (first.length === 0) return second;
  const both = new Uint8Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
