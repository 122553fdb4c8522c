/**
 * Watching a shot log: control limits and signals, odd values and capability. Blanks are skipped and keep their rows;
 * nothing is ever deleted, so that whoever keeps the log can look with and without what stands out.
 */
import { badInput, noAnswer, Problem } from "./problem";
import { printed } from "./words";
import { mean, median, standardDeviation } from "./statistics/describe";
import { tQuantileTwoSided } from "./statistics/distributions";

type Values = readonly (number | null)[];

/**
 * Constants of a chart of single values and moving ranges of two, as handbooks print them: d2 to 1.128, D4 to 3.267.
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2. The exact d2 is 2/√π = 1.128379; it would move the limits by 0.03 % of their width.
 */
const d2 = 1.128;
const d4 = 3.267;

/** Centre line, limits at three standard deviations and the limit of the moving range, of a chart of single values (NIST e-Handbook 6.3.2.2). */
export function logLimits({ values }: { values: Values }): { centre: number; low: number; high: number; rangeLimit: number } {
  const { centre, sd, range } = chartOf(filled(values), "limits");
  return { centre, low: centre - 3 * sd, high: centre + 3 * sd, rangeLimit: d4 * range };
}

/** For every value the numbers of Nelson's rules that it completes, or an empty text. Nelson (1984), Journal of Quality Technology 16:237. */
export function logSignals({ values, rules = "1,2,3" }: { values: Values; rules?: string }): string[] {
  const wanted = ruleNumbers(rules);
  const present = filled(values);
  const { centre, sd } = chartOf(present, "signals");
  const deviations = present.map((value) => value - centre);
  let next = 0;
  return values.map((value) => {
    if (value === null) return "";
    const at = next++;
    return wanted.filter((rule) => nelson[rule - 1]!(deviations, at, sd)).join(",");
  });
}

/**
 * For every value whether it stands out; blank stays blank.
 * "esd": the generalised extreme studentised deviate of Rosner (1983), for up to a fifth of the values (NIST e-Handbook 1.3.5.17.3).
 * "grubbs": one value at most, on either side (1.3.5.17.1). "median": modified z above 3.5, Iglewicz and Hoaglin (1993) (1.3.5.17).
 */
export function logOdd({ values, method = "esd", significance = 0.05 }: { values: Values; method?: string; significance?: number }): (boolean | "")[] {
  const tests: Record<string, (present: readonly number[], significance: number) => (value: number) => boolean> = { esd, grubbs, median: modifiedZ };
  const test = tests[method] ?? badInput(`method must be “esd”, “grubbs” or “median”, but is “${method}”.`);
  const isOdd = test(filled(values), significance);
  return values.map((value) => (value === null ? "" : isOdd(value)));
}

export interface Capability {
  shots: number;
  inside: number;
  meanValue: number;
  sdValue: number | Problem;
  cp: number | Problem;
  cpk: number | Problem;
}

/** How well the values keep within limits that are wanted (NIST e-Handbook 6.1.6); `inside` is the part of the values within, %. */
export function logCapability({ values }: { values: Values }): (limits: { low: number; high: number }) => Capability {
  const present = filled(values);
  const shots = present.length;
  if (shots === 0) noAnswer("There are no values.");
  const average = mean(present);
  const sd = shots > 1 ? standardDeviation(present) : new Problem("no answer", "A standard deviation needs two values or more.");
  const spread = typeof sd === "number" && sd === 0 ? new Problem("no answer", "All values are the same, so there is no spread to compare with.") : sd;
  const sorted = Float64Array.from(present).sort();
  return ({ low, high }) => {
    if (!(low < high)) badInput(`low, ${printed(low)}, must be less than high, ${printed(high)}.`);
    return {
      shots,
      inside: (100 * (countBelow(sorted, high, true) - countBelow(sorted, low, false))) / shots,
      meanValue: average,
      sdValue: sd,
      cp: typeof spread === "number" ? (high - low) / (6 * spread) : spread,
      cpk: typeof spread === "number" ? Math.min(high - average, average - low) / (3 * spread) : spread,
    };
  };
}

/** How many of the sorted values lie below a limit, those on it counted or not. */
function countBelow(sorted: Float64Array, limit: number, counted: boolean): number {
  let [least, most] = [0, sorted.length];
  while (least < most) {
    const middle = (least + most) >> 1;
    if (counted ? sorted[middle]! <= limit : sorted[middle]! < limit) least = middle + 1;
    else most = middle;
  }
  return least;
}

function filled(values: Values): number[] {
  return values.filter((value) => value !== null);
}

/** Centre, mean moving range and the standard deviation that it stands for. */
function chartOf(present: readonly number[], what: string): { centre: number; range: number; sd: number } {
  if (present.length < 2) noAnswer(`There ${present.length === 1 ? "is one value" : "are no values"}; ${what} need two or more.`);
  let moved = 0;
  for (let index = 1; index < present.length; index++) moved += Math.abs(present[index]! - present[index - 1]!);
  const range = moved / (present.length - 1);
  return { centre: mean(present), range, sd: range / d2 };
}

function ruleNumbers(rules: string): number[] {
  const numbers = rules.split(/[,;\s]+/).filter((it) => it !== "").map(Number);
  if (numbers.length === 0 || !numbers.every((it) => Number.isInteger(it) && it >= 1 && it <= nelson.length)) {
    badInput(`rules must be numbers of Nelson's rules, 1 to ${nelson.length}, as in “1,2,3”, but is “${rules}”.`);
  }
  return [...new Set(numbers)].sort((a, b) => a - b);
}

/** Whether the deviations up to and with `at` complete the rule. */
type Rule = (deviations: readonly number[], at: number, sd: number) => boolean;

/** The last `count` deviations, or none where there are fewer. */
function last(deviations: readonly number[], at: number, count: number): readonly number[] {
  return at + 1 < count ? [] : deviations.slice(at + 1 - count, at + 1);
}

/** Whether `enough` of the last `count`, this one among them, lie beyond `limit` on this one's side. */
function beyondOnOneSide(deviations: readonly number[], at: number, count: number, enough: number, limit: number): boolean {
  const side = Math.sign(deviations[at]!);
  const beyond = (it: number): boolean => it * side > limit;
  return side !== 0 && beyond(deviations[at]!) && deviations.slice(Math.max(0, at + 1 - count), at + 1).filter(beyond).length >= enough;
}

function rises(run: readonly number[]): number[] {
  return run.slice(1).map((it, index) => Math.sign(it - run[index]!));
}

const nelson: readonly Rule[] = [
  // 1: one value beyond three standard deviations.
  (all, at, sd) => Math.abs(all[at]!) > 3 * sd,
  // 2: nine in a row on one side of the centre.
  (all, at) => beyondOnOneSide(all, at, 9, 9, 0),
  // 3: six in a row, each higher than the one before, or each lower.
  (all, at) => {
    const steps = rises(last(all, at, 6));
    return steps.length > 0 && steps[0] !== 0 && steps.every((it) => it === steps[0]);
  },
  // 4: fourteen in a row, up and down in turn.
  (all, at) => {
    const steps = rises(last(all, at, 14));
    return steps.length > 0 && steps.every((it, index) => it !== 0 && (index === 0 || it === -steps[index - 1]!));
  },
  // 5: two of three beyond two standard deviations on one side.
  (all, at, sd) => beyondOnOneSide(all, at, 3, 2, 2 * sd),
  // 6: four of five beyond one standard deviation on one side.
  (all, at, sd) => beyondOnOneSide(all, at, 5, 4, sd),
  // 7: fifteen in a row within one standard deviation.
  (all, at, sd) => {
    const run = last(all, at, 15);
    return sd > 0 && run.length > 0 && run.every((it) => Math.abs(it) < sd);
  },
  // 8: eight in a row beyond one standard deviation, on both sides.
  (all, at, sd) => {
    const run = last(all, at, 8);
    return run.length > 0 && run.every((it) => Math.abs(it) > sd) && run.some((it) => it > 0) && run.some((it) => it < 0);
  },
];

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
  for (let taken = 0; taken < Math.floor(sorted.length / 5); taken++) {
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
    if (furthest / sd > criticalDeviate(n, significance / (2 * n))) odd = { from, to };
  }
  const [least, most] = [sorted[odd.from]!, sorted[odd.to]!];
  return (value) => value < least || value > most;
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
