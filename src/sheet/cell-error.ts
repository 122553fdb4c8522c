/** Refusals as the errors a cell can show: #VALUE! for an input that cannot be, #N/A for no answer. Only these two carry a message. */
import { Problem } from "../../shared/problem";
import { noteProblem } from "./recent-problems";

export function cellError(problem: Problem): CustomFunctions.Error {
  noteProblem(problem.message);
  return new CustomFunctions.Error(
    problem.kind === "bad input" ? CustomFunctions.ErrorCode.invalidValue : CustomFunctions.ErrorCode.notAvailable,
    problem.message,
  );
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
