import { Problem, type ProblemKind } from "../shared/problem.ts";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { worded } from "../src/sheet/wording.ts";

/** The refusal that a formula throws, in words of the default units; fails where it gives an answer or throws anything else. */
export function problemOf(run: () => unknown): { readonly kind: ProblemKind; readonly message: string } {
  try {
    run();
  } catch (thrown) {
    if (thrown instanceof Problem) return { kind: thrown.kind, message: messageOf(thrown) };
    throw thrown;
  }
  throw new Error("The formula gave an answer where it should refuse.");
}

/** What a refusal says, in the default units. */
export function messageOf(problem: unknown): string {
  if (!(problem instanceof Problem)) throw new Error(`There is no refusal, but ${String(problem)}.`);
  return worded(problem.words, defaultUnits);
}
