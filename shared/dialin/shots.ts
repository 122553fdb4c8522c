/** What a fit through shots asks of them, and what it refuses. */
import { noAnswer, Problem } from "../problem";
import type { QuantityName } from "../quantities";
import { leastSquares, type Fit } from "../statistics/fit";
import { amount, range, words } from "../words";

export type Numbers = readonly number[];

export const twoShotsOnly = new Problem("no answer", "Two shots always lie on a line, so there is no spread for an interval. Pull a third.");

export function fitOrRefuse(columns: readonly Numbers[], y: Numbers, what: string): Fit {
  return leastSquares(columns, y) ?? noAnswer(`The shots do not tell ${what}: change one without the other, or try more different values.`);
}

export function requireShots(values: Numbers, least: number, what: string, quantity: QuantityName = "setting"): void {
  if (values.length < least) noAnswer(`This needs at least ${least} shots with a result, but there ${values.length === 1 ? "is 1" : `are ${values.length}`}.`);
  if (new Set(values).size < 2) noAnswer(words`All shots have the same ${what}, ${amount(quantity, values[0]!)}. Try another.`);
}

/** Refuses what lies outside the data. */
export function insideOf(data: Numbers, quantity: QuantityName, what: string): (name: string, value: number) => void {
  let [least, most] = [Infinity, -Infinity];
  for (const value of data) [least, most] = [Math.min(least, value), Math.max(most, value)];
  // A setting that was tried is inside, whatever the last binary digit says.
  const slack = 1e-9 * (most - least);
  return (name, value) => {
    if (value < least - slack || value > most + slack) {
      noAnswer(words`${name} ${amount(quantity, value)} is outside ${range(quantity, least, most)}, the ${what}.`);
    }
  };
}
