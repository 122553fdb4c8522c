import { Problem } from "../shared/problem.ts";

/** The refusal that a formula throws; fails where it gives an answer or throws anything else. */
export function problemOf(run: () => unknown): Problem {
  try {
    run();
  } catch (thrown) {
    if (thrown instanceof Problem) return thrown;
    throw thrown;
  }
  throw new Error("The formula gave an answer where it should refuse.");
}
