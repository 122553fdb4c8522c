/** Errors as cells hold them: what a function refuses, in words, and what came in from another cell. Hosts turn them into their own. */
import { Problem } from "../../shared/problem";
import { noteProblem, problemsKept } from "./recent-problems";
import type { UnitChoice } from "./unit-choice";
import { worded } from "./wording";

/** #VALUE! for an input that cannot be, #N/A for no answer: only these two can show a message in every host. */
export type RefusalCode = "#VALUE!" | "#N/A";

export class CellError {
  constructor(
    readonly code: string,
    readonly message = "",
  ) {}
}

interface Made {
  readonly error: CellError;
  count: number;
}

/**
 * The errors of the call under way. Cells with the same refusal share one error, as a column of the same slip is common; where a column has ever
 * new ones, only the first of them can be shared, and those of the last cells are told.
 */
const made = new Map<Problem, Made>();
const mostMade = 1000;
/** Those made after the map was full, in a ring: the latest are what the list of recent problems keeps. */
const latest: Made[] = [];
let further = 0;

export function cellError(problem: Problem, choice: UnitChoice): CellError {
  const known = made.get(problem);
  if (known) {
    known.count++;
    return known.error;
  }
  const code: RefusalCode = problem.kind === "bad input" ? "#VALUE!" : "#N/A";
  const error = new CellError(code, worded(problem.words, choice));
  if (made.size < mostMade) made.set(problem, { error, count: 1 });
  else latest[further++ % problemsKept] = { error, count: 1 };
  return error;
}

/** Ends a call of this function: what it refused goes into the list of recent problems. */
export function noteProblems(functionId: string): void {
  if (made.size === 0) return;
  const next = further % problemsKept;
  const all = [...made.values(), ...latest.slice(next), ...latest.slice(0, next)];
  for (const { error, count } of all.slice(-problemsKept)) noteProblem(functionId, error.message, count);
  made.clear();
  latest.length = 0;
  further = 0;
}

/** An error of another cell, in whatever form the host hands it over. */
export interface ForeignError {
  readonly code: string;
}

export function isForeignError(cell: unknown): cell is ForeignError {
  return typeof cell === "object" && cell !== null && "code" in cell;
}

/** What a formula threw, as a problem: its own refusal, or a bug, which must reach the cell with words too. */
export function asProblem(thrown: unknown): Problem {
  if (thrown instanceof Problem) return thrown;
  const what = thrown instanceof Error ? thrown.message : String(thrown);
  return new Problem("bad input", `This is a fault in Pucksheet, not in your sheet: ${what}. Please report it with the formula.`);
}

/** Runs without recording stack traces, which nobody sees in a cell and which cost more than the calculation. */
export function withoutStackTraces<T>(run: () => T): T {
  const limit = Error.stackTraceLimit;
  Error.stackTraceLimit = 0;
  try {
    return run();
  } finally {
    Error.stackTraceLimit = limit;
  }
}
