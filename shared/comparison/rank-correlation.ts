/** Do two lists rise together? */
import { noAnswer } from "../problem";
import { ranked, sum } from "../statistics/describe";
import { tTwoSided } from "../statistics/distributions";
import { incompleteBeta } from "../statistics/incomplete-functions";

/** Up to this many pairs p counts all orders; with equal values the count differs from list to list and cannot be kept. */
const MOST_EXACT = { different: 14, withTies: 9 };

/**
 * Spearman's rank correlation, equal values sharing their ranks. p: two-sided, the share of all orders that agree as strongly or more,
 * counted up to 14 pairs (9 with equal values); beyond that from the first four moments over all orders, and never below 2 ÷ n!.
 */
export function rankCorrelation({ first, second }: { readonly first: readonly number[]; readonly second: readonly number[] }): { rho: number; p: number } {
  const n = first.length;
  if (n < 3) noAnswer(`${n === 1 ? "One pair" : `${n} pairs`} cannot show a correlation. Give at least 3.`);
  for (const [name, list] of [["first", first], ["second", second]] as const) {
    if (list.every((value) => value === list[0])) noAnswer(`All values of ${name} are equal, so they cannot rise with the others.`);
  }
  const [a, b] = [wholeRanks(first), wholeRanks(second)];
  const product = sum(a.map((value, index) => value * b[index]!));
  const expected = (sum(a) * sum(b)) / n;
  const squares = Math.sqrt(squaresOf(a) * squaresOf(b));
  const rho = Math.max(-1, Math.min(1, (product - expected) / squares));
  const ties = new Set(a).size < n || new Set(b).size < n;
  if (n <= (ties ? MOST_EXACT.withTies : MOST_EXACT.different)) {
    return { rho, p: farShare(ties ? productsOverOrders(a, b) : productsOfRanks(n), expected, Math.abs(product - expected)) };
  }
  // Sums of products lie one apart: half of that, so that the chance of the sum itself is counted.
  return { rho, p: Math.max(2 / factorial(n), approximateP(Math.max(0, Math.abs(product - expected) - 0.5) / squares, a, b)) };
}

/** Ranks from 0 up as whole numbers without a common divisor, so that equal sums of products compare equal; 0 to n - 1 without ties. */
function wholeRanks(values: readonly number[]): number[] {
  const { ranks } = ranked(values);
  const least = Math.min(...ranks);
  const doubled = ranks.map((rank) => 2 * (rank - least));
  const divisor = doubled.reduce(commonDivisor);
  return doubled.map((rank) => rank / divisor);
}

function commonDivisor(a: number, b: number): number {
  return b === 0 ? a : commonDivisor(b, a % b);
}

function squaresOf(values: readonly number[]): number {
  return sum(values.map((value) => value * value)) - sum(values) ** 2 / values.length;
}

/** How many orders give each sum of products: counts[i] give least + i. */
interface Counts {
  readonly least: number;
  readonly counts: Float64Array;
}

const kept = new Map<number, Counts>();

function productsOfRanks(n: number): Counts {
  const ranks = Array.from({ length: n }, (_, rank) => rank);
  const known = kept.get(n) ?? productsOverOrders(ranks, ranks);
  kept.set(n, known);
  return known;
}

/**
 * The sums of a[k] · b[order of k] over all orders. A set of m elements of b takes the first m places of a in as many ways as, for each
 * of its elements, the set without it takes the first m - 1: 2^n sets instead of n! orders.
 */
function productsOverOrders(a: readonly number[], b: readonly number[]): Counts {
  const sets: Counts[] = [{ least: 0, counts: Float64Array.of(1) }];
  for (let set = 1; set < 1 << a.length; set++) {
    const members = b.flatMap((value, place) => ((set >> place) & 1 ? [{ value, without: sets[set ^ (1 << place)]! }] : []));
    const factor = a[members.length - 1]!;
    const parts = members.map(({ value, without }) => ({ least: without.least + factor * value, counts: without.counts }));
    const least = Math.min(...parts.map((part) => part.least));
    const counts = new Float64Array(Math.max(...parts.map((part) => part.least + part.counts.length)) - least);
    for (const part of parts) {
      const shift = part.least - least;
      for (let index = 0; index < part.counts.length; index++) counts[shift + index]! += part.counts[index]!;
    }
    sets.push({ least, counts });
  }
  return sets[sets.length - 1]!;
}

/** The share of the orders whose sum is at least this far from the expected one. */
function farShare({ least, counts }: Counts, expected: number, far: number): number {
  let [all, extreme] = [0, 0];
  counts.forEach((count, index) => {
    all += count;
    // Expected sums are quarters at the finest, so rounding cannot blur the comparison.
    if (Math.abs(least + index - expected) >= far - 1e-6) extreme += count;
  });
  return extreme / all;
}

/**
 * P(|rho| >= size) from the moments of rho over all orders (Pitman 1937, J. R. Stat. Soc. Suppl. 4:225): the variance is 1 / (n - 1); the
 * fourth moment chooses how far the tails reach. Pearson's types II and VII: a beta distribution between ends, or a scaled t.
 */
function approximateP(size: number, a: readonly number[], b: readonly number[]): number {
  const n = a.length;
  const fourthMoment = 3 / (n * n - 1) + (((n - 2) * (n - 3)) / (n * (n + 1) * (n - 1) ** 3)) * flatness(a) * flatness(b);
  const excess = fourthMoment * (n - 1) ** 2 - 3;
  if (excess > 0) {
    const df = 4 + 6 / excess;
    return tTwoSided(size * Math.sqrt(((n - 1) * df) / (df - 2)), df);
  }
  const shape = Math.min(1e9, -3 / excess - 1.5);
  const end = Math.sqrt((2 * shape + 1) / (n - 1));
  const [x, y] = [0.5 + size / (2 * end), 0.5 - size / (2 * end)];
  return 2 * incompleteBeta(shape, shape, x, y).upper;
}

/** Fourth k-statistic over the square of the second. */
function flatness(values: readonly number[]): number {
  const n = values.length;
  const centre = sum(values) / n;
  const moment = (power: number): number => sum(values.map((value) => (value - centre) ** power)) / n;
  return ((n + 1) * moment(4) - 3 * (n - 1) * moment(2) ** 2) * ((n - 1) / ((n - 2) * (n - 3) * moment(2) ** 2));
}

function factorial(n: number): number {
  return n < 2 ? 1 : n * factorial(n - 1);
}
