/**
 * What looks wrong in a row of a shot log, in words, the likeliest cause first. A row is odd when a number, or what follows from two of them,
 * is outside what an espresso can be expected to have; a cause is a slip that explains it: undone, the whole row is plausible.
 * Nothing is changed or left out: these are questions to whoever keeps the log.
 */
import { together } from "../decisions/sentences";
import { Problem } from "../problem";
import { readGrams, readPercent, readSeconds, type Cell } from "../reading";
import { amount, functionNamed, printed, quoted, words, type Words } from "../words";
import { columns, isPlausible, isPossible, named, type LogUnits, type Shot, type ShotColumn, type TypedShot } from "./plausible";
import { explain } from "./slips";

const usualUnits: LogUnits = { mass: "g", time: "s", percent: "number" };

/** How bad a row is: it cannot be right, it is doubtful, or it is right but holds texts that the READ functions understand. */
export type Grade = "cannot be" | "doubtful" | "only text";

/** The worst first. */
export const grades: readonly Grade[] = ["cannot be", "doubtful", "only text"];

export interface RowFinding {
  readonly grade: Grade;
  /** All that there is to say of the row, the worst first. */
  readonly words: Words;
  /** Of that, what makes the row doubtful or worse. */
  readonly doubts: Words;
}

/** The columns of a log as they were typed, and how it writes its numbers. */
export type LogColumns = { readonly [C in ShotColumn]: readonly Cell[] } & { readonly units?: LogUnits };

/** For every row what looks wrong in it, or an empty text. A column that is blank throughout is not asked for. */
export function logCheck(log: LogColumns): Words[] {
  return checkedRows(log).map((it) => it?.words ?? "");
}

/** For every row its finding; null where nothing looks wrong. */
export function checkedRows(log: LogColumns): (RowFinding | null)[] {
  return readRows(log).map(({ finding }) => finding);
}

/** A row as far as it can be read, and what looks wrong in it. */
export interface ReadRow {
  readonly shot: Shot;
  readonly finding: RowFinding | null;
}

export function readRows({ units, ...log }: LogColumns): ReadRow[] {
  const asked = columns.filter((column) => log[column].some((cell) => !isBlank(cell)));
  const rows = Math.max(...columns.map((column) => log[column].length));
  const found: ReadRow[] = [];
  let above: TypedShot | undefined;
  for (let row = 0; row < rows; row++) {
    const typed = {
      dose: log.dose[row] ?? null, beverage: log.beverage[row] ?? null, time: log.time[row] ?? null, strength: log.strength[row] ?? null,
    };
    found.push(readRow(typed, { above, asked, units }));
    above = typed;
  }
  return found;
}

export interface ShotContext {
  /** The row above. */
  readonly above?: TypedShot;
  /** The columns that the log has. */
  readonly asked?: readonly ShotColumn[];
  readonly units?: LogUnits;
}

/** What looks wrong in one row. */
export function checkShot(typed: TypedShot, context?: ShotContext): Words {
  return checkedRow(typed, context)?.words ?? "";
}

/** The same with its grade; null where nothing looks wrong. */
export function checkedRow(typed: TypedShot, context?: ShotContext): RowFinding | null {
  return readRow(typed, context).finding;
}

function readRow(typed: TypedShot, { above, asked = columns, units: written = usualUnits }: ShotContext = {}): ReadRow {
  if (isEmptyRow(typed)) return { shot: {}, finding: null };
  const { shot, remarks } = numbersOf(typed, asked);
  if (!isPlausible(shot)) {
    const grade = isPossible(shot) ? "doubtful" : "cannot be";
    remarks.push(...explain(shot, written).map((it) => ({ grade, words: it }) as const));
  }
  if (above && isRepeat(typed, above)) remarks.push({ grade: "doubtful", words: "Exactly the same shot as in the row above: entered twice?" });
  const [worst] = grades.filter((grade) => remarks.some((it) => it.grade === grade));
  if (worst === undefined) return { shot, finding: null };
  const said = (...of: readonly Grade[]): Words => together(...of.flatMap((grade) => remarks.filter((it) => it.grade === grade).map((it) => it.words)));
  return { shot, finding: { grade: worst, words: said(...grades), doubts: said("cannot be", "doubtful") } };
}

/** Whether a row holds nothing at all. */
export function isEmptyRow(typed: TypedShot): boolean {
  return columns.every((column) => isBlank(typed[column]));
}

/** Nothing is typed there. */
export function isBlank(cell: Cell): boolean {
  // Some builds of Excel hand a blank cell over as 0, and no shot has 0 of anything.
  return cell === null || cell === "" || cell === 0;
}

/** As a sheet shows the error of a formula: #DIV/0!, #N/A, #NAME? */
function isErrorCode(cell: Cell): cell is string {
  return typeof cell === "string" && /^#[A-Z0-9/_]+[!?]?$/.test(cell);
}

interface Remark {
  readonly grade: Grade;
  readonly words: Words;
}

function numbersOf(typed: TypedShot, asked: readonly ShotColumn[]): { shot: Shot; remarks: Remark[] } {
  const shot: Shot = {};
  const remarks: Remark[] = [];
  const texts: Words[] = [];
  for (const column of columns) {
    const cell = typed[column];
    if (isBlank(cell)) {
      // Strength is read on some shots only.
      if (column !== "strength" && asked.includes(column)) remarks.push({ grade: "doubtful", words: `${named(column)} is blank or 0.` });
    } else if (typeof cell === "number") {
      shot[column] = cell;
    } else if (isErrorCode(cell)) {
      remarks.push({ grade: "cannot be", words: `${named(column)} holds the error ${cell}.` });
    } else {
      try {
        shot[column] = readers[column]({ text: cell });
        texts.push(words`${named(column).toLowerCase()} ${quoted(String(cell))} reads ${amount(column, shot[column])}`);
      } catch (thrown) {
        if (!(thrown instanceof Problem)) throw thrown;
        remarks.push({ grade: "cannot be", words: words`${named(column)} is not a number: ${thrown.words}` });
      }
    }
  }
  if (texts.length > 0) {
    const all = texts.reduce((before, next) => words`${before}, ${next}`);
    remarks.push({ grade: "only text", words: words`Typed as text: ${all}; ${functionNamed("READ.LOG")} makes ${texts.length === 1 ? "a number of it" : "numbers of them"}.` });
  }
  return { shot, remarks };
}

const readers = { dose: readGrams, beverage: readGrams, time: readSeconds, strength: readPercent } as const;

/** The same four numbers again. Only where they are written finely enough for that to be no coincidence. */
function isRepeat(typed: TypedShot, above: TypedShot): boolean {
  if (columns.some((column) => isBlank(typed[column]) || typed[column] !== above[column])) return false;
  return columns.reduce((count, column) => count + decimals(typed[column]), 0) >= 2;
}

function decimals(cell: Cell): number {
  return /[.,](\d+)$/.exec(typeof cell === "number" ? printed(cell) : String(cell))?.[1]?.length ?? 0;
}
