/** Words for a person that hold amounts: numbers whose unit is chosen only where they are shown, since a workbook may have chosen another. */
import type { QuantityName } from "./quantities";

/** A number of a quantity in its canonical unit; with `to`, a range of them. Of a difference no zero point is taken off (4 °C are 7.2 °F). */
export interface Amount {
  readonly quantity: QuantityName;
  readonly value: number;
  readonly to?: number;
  readonly difference?: true;
  /** What it is known to, in the canonical unit: 0.1 says 27.5 s, and as closely in any other unit. Without it, six digits. */
  readonly step?: number;
}

/** A worksheet function by its id: hosts spell names differently. */
export interface NamedFunction {
  readonly functionId: string;
}

type Part = string | Amount | NamedFunction;

/** Texts, amounts and functions in order. */
export class Phrase {
  constructor(readonly parts: readonly Part[]) {}
}

/** A finished text, or one whose amounts and functions are still to be said. */
export type Words = string | Phrase;

export function amount(quantity: QuantityName, value: number): Amount {
  return { quantity, value };
}

/** As in "6 to 9 bar". */
export function range(quantity: QuantityName, value: number, to: number): Amount {
  return { quantity, value, to };
}

/** As in "4 s slow". */
export function difference(quantity: QuantityName, value: number): Amount {
  return { quantity, value, difference: true };
}

/** The amount said to about this step of its canonical unit. */
export function rounded(it: Amount, step: number): Amount {
  return { ...it, step };
}

/** As in “ESPRESSO.READ.SECONDS”, however the host spells it. */
export function functionNamed(functionId: string): NamedFunction {
  return { functionId };
}

/** A template: words`firstdrip, ${amount("firstdrip", 30)}, must be less than time.` Plain numbers are printed without a unit. */
export function words(texts: readonly string[], ...parts: readonly (Words | Amount | NamedFunction | number)[]): Words {
  const joined: Part[] = [];
  const add = (part: Part): void => {
    const last = joined[joined.length - 1];
    if (typeof part === "string" && typeof last === "string") joined[joined.length - 1] = last + part;
    else if (part !== "") joined.push(part);
  };
  texts.forEach((text, index) => {
    add(text);
    const part = parts[index];
    if (part === undefined) return;
    if (typeof part === "number") add(printed(part));
    else if (part instanceof Phrase) part.parts.forEach(add);
    else add(part);
  });
  return joined.every((part) => typeof part === "string") ? joined.join("") : new Phrase(joined);
}

/** An argument as the hosts show it, in lower case. */
export function argumentName(name: string): string {
  return name.toLowerCase();
}

/** The words as one text, each amount and each function as it is said here. */
export function spelledOut(text: Words, say: (part: Amount | NamedFunction) => string): string {
  return typeof text === "string" ? text : text.parts.map((part) => (typeof part === "string" ? part : say(part))).join("");
}

/** A number with the decimals that show a step of this size, trailing zeros kept: 20 to a step of 0.1 is 20.0. */
export function printedTo(step: number, value: number): string {
  const decimals = Math.min(12, Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)));
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace("-", "") : text;
}

const longestQuoted = 60;

/** What someone typed, in quotation marks and cut where it is long. */
export function quoted(text: string): string {
  return `“${text.length > longestQuoted ? `${text.slice(0, longestQuoted - 1)}…` : text}”`;
}

/** A number as a message shows it: at most six significant digits, no exponent for everyday sizes. */
export function printed(value: number): string {
  return String(Number(value.toPrecision(6)));
}
