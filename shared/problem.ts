/**
 * What a calculation answers when it has no number to give.
 * "bad input": an argument cannot be what it says it is. "no answer": the arguments are fine, but nothing follows from them.
 */
import type { QuantityName } from "./quantities";
import { amount, argumentName, range, words, type Words } from "./words";

export type ProblemKind = "bad input" | "no answer";

/** A refusal in words that a person at a spreadsheet can act on. Not an Error: a refused row needs no stack trace. */
export class Problem {
  constructor(
    readonly kind: ProblemKind,
    readonly words: Words,
  ) {}
}

/** Throws the problem of an argument that cannot be: say which argument, its value and the limit, as amounts where they have a unit. */
export function badInput(why: Words): never {
  throw new Problem("bad input", why);
}

/** Throws the problem of a question without an answer: too little data, outside the data or outside a formula's published range. */
export function noAnswer(why: Words): never {
  throw new Problem("no answer", why);
}

/** What the formula gives, or why it gives nothing. */
export function attempted<T>(formula: () => T): T | Problem {
  try {
    return formula();
  } catch (thrown) {
    if (thrown instanceof Problem) return thrown;
    throw thrown;
  }
}

/** Refuses a value outside the range in which a formula was published. Written so that NaN is refused too. */
export function requireRange(quantity: QuantityName, value: number, least: number, most: number): void {
  if (!(value >= least && value <= most)) {
    noAnswer(words`${argumentName(quantity)} ${amount(quantity, value)} is outside ${range(quantity, least, most)}, the range of this formula's source.`);
  }
}
