/** Plain descriptions of a list of numbers. */

/** The mean; the second pass takes out what rounding left of the first. */
export function mean(values: readonly number[]): number {
  const first = sum(values) / values.length;
  return first + sum(values.map((value) => value - first)) / values.length;
}

export function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** Least and greatest value, of lists of any length. */
export function extremesOf(values: readonly number[]): [number, number] {
  return values.reduce<[number, number]>(([least, most], value) => [Math.min(least, value), Math.max(most, value)], [Infinity, -Infinity]);
}

/** The value furthest from 0, without its sign. */
export function largestSizeOf(values: readonly number[]): number {
  return values.reduce((largest, value) => Math.max(largest, Math.abs(value)), 0);
}

/** Sum of squared deviations from the mean. */
export function sumOfSquares(values: readonly number[]): number {
  const centre = mean(values);
  return sum(values.map((value) => (value - centre) ** 2));
}

/** Sample variance, divisor n - 1; for two values or more. */
export function variance(values: readonly number[]): number {
  return sumOfSquares(values) / (values.length - 1);
}

/** Sample standard deviation, divisor n - 1; for two values or more. */
export function standardDeviation(values: readonly number[]): number {
  return Math.sqrt(variance(values));
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

export interface Ranks {
  /** 1 for the smallest; equal values share the mean of their ranks. */
  readonly ranks: readonly number[];
  /** Sum of t³ - t over the groups of t equal values: 0 without ties. */
  readonly ties: number;
}

export function ranked(values: readonly number[]): Ranks {
  const order = values.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value);
  const ranks = new Array<number>(values.length).fill(0);
  let ties = 0;
  for (let from = 0, to = 0; from < order.length; from = to) {
    while (to < order.length && order[to]?.value === order[from]?.value) to++;
    const equal = to - from;
    ties += equal ** 3 - equal;
    for (const { index } of order.slice(from, to)) ranks[index] = (from + to + 1) / 2;
  }
  return { ranks, ties };
}
