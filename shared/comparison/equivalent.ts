/** Are two settings as good as the same? */
import { badInput, noAnswer } from "../problem";
import { printed } from "../words";
import { mean, sumOfSquares } from "../statistics/describe";
import { tQuantileTwoSided } from "../statistics/distributions";
import { welchDf } from "./pairs";

interface Margin {
  readonly margin: number;
  readonly confidence?: number;
}

/**
 * Two one-sided tests (Schuirmann 1987, J. Pharmacokinet. Biopharm. 15:657) without assuming equal spread: equivalent where the
 * interval with confidence 2 · confidence - 1 of second - first lies wholly between -margin and +margin.
 */
export function equivalent({ first, second }: { readonly first: readonly number[]; readonly second: readonly number[] }): (wanted: Margin) => {
  difference: number; low: number; high: number; equivalent: boolean;
} {
  for (const [name, values] of [["first", first], ["second", second]] as const) {
    if (values.length < 2) noAnswer(`${name} has ${values.length === 0 ? "no result" : "only one result"}, so there is no spread to judge by. Give at least 2.`);
  }
  const [u, v] = [first, second].map((values) => sumOfSquares(values) / (values.length - 1) / values.length) as [number, number];
  if (u + v === 0) noAnswer("All results of first are alike, and so are those of second: no spread to judge by. Give results with more decimals.");
  // Means counted from one of the results, so that differences of large results keep their digits.
  const level = first[0]!;
  const difference = mean(second.map((value) => value - level)) - mean(first.map((value) => value - level));
  const df = welchDf(u, first.length, v, second.length);
  return ({ margin, confidence = 0.95 }) => {
    if (confidence <= 0.5) badInput(`confidence ${printed(confidence)} must be more than 0.5.`);
    const reach = tQuantileTwoSided(2 * (1 - confidence), df) * Math.sqrt(u + v);
    const [low, high] = [difference - reach, difference + reach];
    return { difference, low, high, equivalent: low > -margin && high < margin };
  };
}
