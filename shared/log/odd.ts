/** Values that stand out from the others. Nothing is ever deleted, so that whoever keeps the log can look with and without them. */
import { badInput, noAnswer } from "../problem";
import { printed } from "../words";
import { mean, median, standardDeviation } from "../statistics/describe";
import { tQuantileTwoSided } from "../statistics/distributions";
import { withoutBlanks, type Values } from "./limits";

/**
 * For every value whether it stands out; blank stays blank.
 * "esd": the generalised extreme studentised deviate of Rosner (1983), for up to a fifth of the values (NIST e-Handbook 1.3.5.17.3).
 * "grubbs": one value at most, on either side (1.3.5.17.1). "median": modified z above 3.5, Iglewicz and Hoaglin (1993) (1.3.5.17).
 */
export function logOdd({ values, method = "esd", significance = 0.05 }: { values: Values; method?: string; significance?: number }): (boolean | "")[] {
  const tests: Record<string, (present: readonly number[], significance: number) => (value: number) => boolean> = { esd, grubbs, median: modifiedZ };
  const test = tests[method] ?? badInput(`method must be “esd”, “grubbs” or “median”, but is “${method}”.`);
  const isOdd = test(withoutBlanks(values), significance);
  return values.map((value) => (value === null ? "" : isOdd(value)));
}

/** Grubbs' critical value for the most extreme of n values, with the tail's probability already shared among them. */
function criticalDeviate(n: number, tail: number): number {
  const t = tQuantileTwoSided(2 * tail, n - 2);
  return ((n - 1) * t) / Math.sqrt(n * (n - 2 + t * t));
}

function grubbs(present: readonly number[], significance: number): (value: number) => boolean {
  if (present.length < 3) noAnswer(`Grubbs' test needs three values or more, but there ${present.length === 1 ? "is 1" : `are ${present.length}`}.`);
  const centre = mean(present);
  const sd = standardDeviation(present);
  const furthest = present.reduce((most, it) => Math.max(most, Math.abs(it - centre)), 0);
  const found = sd > 0 && furthest / sd > criticalDeviate(present.length, significance / (2 * present.length));
  return (value) => found && Math.abs(value - centre) === furthest;
}

/** Rosner found the approximation of the critical values good from 15 values on. */
const leastForEsd = 15;

function esd(present: readonly number[], significance: number): (value: number) => boolean {
  if (present.length < leastForEsd) {
    noAnswer(`The extreme studentised deviate test needs ${leastForEsd} values or more, but there are ${present.length}. “median” and “grubbs” do with fewer.`);
  }
  const sorted = [...present].sort((a, b) => a - b);
  // Centred sums lose no digits when the furthest values are taken out one by one.
  const offset = median(sorted);
  let total = sorted.reduce((sum, it) => sum + (it - offset), 0);
  let squares = sorted.reduce((sum, it) => sum + (it - offset) ** 2, 0);
  let [from, to] = [0, sorted.length - 1];
  let odd = { from, to };
  const most = Math.floor(sorted.length / 5);
  // Critical values fall as values are taken out: what is below the last of them is below its own.
  const leastCritical = criticalDeviate(sorted.length - most + 1, significance / (2 * (sorted.length - most + 1)));
  for (let taken = 0; taken < most; taken++) {
    const n = to - from + 1;
    const centre = total / n;
    const sd = Math.sqrt(Math.max(0, squares - n * centre * centre) / (n - 1));
    const [low, high] = [centre - (sorted[from]! - offset), sorted[to]! - offset - centre];
    const furthest = Math.max(low, high);
    // What rounding leaves of a spread is none.
    if (!(sd > 1e-12 * Math.max(Math.abs(sorted[0]!), Math.abs(sorted[sorted.length - 1]!)))) break;
    const out = (low > high ? sorted[from++]! : sorted[to--]!) - offset;
    total -= out;
    squares -= out * out;
    const deviate = furthest / sd;
    if (deviate > leastCritical && deviate > criticalDeviate(n, significance / (2 * n))) odd = { from, to };
  }
  const [least, greatest] = [sorted[odd.from]!, sorted[odd.to]!];
  return (value) => value < least || value > greatest;
}

/** Whether a value stands out, by the extreme studentised deviate test, or by Grubbs' where there are too few values for that. */
export function oddAmong(present: readonly number[], significance: number): (value: number) => boolean {
  return present.length < leastForEsd ? grubbs(present, significance) : esd(present, significance);
}

/** Above this a modified z stands out, by Iglewicz and Hoaglin. */
const oddModifiedZ = 3.5;

function modifiedZ(present: readonly number[]): (value: number) => boolean {
  if (present.length < 3) noAnswer(`The modified z needs three values or more, but there ${present.length === 1 ? "is 1" : `are ${present.length}`}.`);
  const middle = median(present);
  const deviation = median(present.map((value) => Math.abs(value - middle)));
  if (deviation === 0) noAnswer(`More than half of the values are ${printed(middle)}, so their median deviation is 0 and the modified z has no measure. Try “esd” or “grubbs”.`);
  return (value) => (0.6745 * Math.abs(value - middle)) / deviation > oddModifiedZ;
}
