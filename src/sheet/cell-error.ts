/** Refusals as the errors a cell can show: #VALUE! for an input that cannot be, #N/A for no answer. Only these two carry a message. */
import { Problem } from "../../shared/problem";
import { defaultUnits } from "./unit-choice";
import { worded } from "./wording";
import { currentUnits } from "./workbook-units";
import { noteProblem, problemsKept } from "./recent-problems";

/** The errors of the call under way. Cells with the same refusal share one error, as a column of the same slip is common. */
const made = new Map<Problem, { error: CustomFunctions.Error; count: number }>();

export function cellError(problem: Problem): CustomFunctions.Error {
  const known = made.get(problem);
  if (known) {
    known.count++;
    return known.error;
  }
  const code = problem.kind === "bad input" ? CustomFunctions.ErrorCode.invalidValue : CustomFunctions.ErrorCode.notAvailable;
  const error = new CustomFunctions.Error(code, worded(problem.words, currentUnits()?.choice ?? defaultUnits));
  made.set(problem, { error, count: 1 });
  return error;
}

/** Ends a call: what it refused goes into the list of recent problems. */
export function noteProblems(): void {
  if (made.size === 0) return;
  const skipped = made.size - problemsKept;
  let index = 0;
  for (const { error, count } of made.values()) if (index++ >= skipped) noteProblem(error.message ?? "", count);
  made.clear();
}

/** An error that came in from another cell. */
export function isCellError(cell: unknown): cell is CustomFunctions.Error {
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
