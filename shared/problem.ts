/**
 * What a calculation answers when it has no number to give.
 * "bad input": an argument cannot be what it says it is. "no answer": the arguments are fine, but nothing follows from them.
 */
export type ProblemKind = "bad input" | "no answer";

/** A refusal in words that a person at a spreadsheet can act on. Not an Error: a refused row needs no stack trace. */
export class Problem {
  constructor(
    readonly kind: ProblemKind,
    readonly message: string,
  ) {}
}

/** Throws the problem of an argument that cannot be: say which argument, its value, the limit and the unit. */
export function badInput(message: string): never {
  throw new Problem("bad input", message);
}

/** Throws the problem of a question without an answer: too little data, outside the data or outside a formula's published range. */
export function noAnswer(message: string): never {
  throw new Problem("no answer", message);
}

/** Refuses a value outside the range in which a formula was published. Written so that NaN is refused too. */
export function requireRange(name: string, value: number, least: number, most: number, unit: string): void {
  if (!(value >= least && value <= most)) {
    noAnswer(`${name} ${printed(value)} ${unit} is outside ${least} to ${most} ${unit}, the range of this formula's source.`);
  }
}

/** A number as a message shows it: at most six significant digits, no exponent for everyday sizes. */
export function printed(value: number): string {
  return String(Number(value.toPrecision(6)));
}
