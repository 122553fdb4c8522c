/** Where and how a log that moved has moved: one stretch of it on another level, or a steady drift. */
import { mean, sumOfSquares } from "../statistics/describe";
import { leastSquares, standardErrors } from "../statistics/fit";

export interface Stretch {
  readonly kind: "stretch";
  /** Its values, from the place `from` to before `to`, counted from 0. */
  readonly from: number;
  readonly to: number;
  readonly level: number;
  /** Of all other values. */
  readonly otherLevel: number;
  /** Standard error of the difference of the two. */
  readonly error: number;
}

export interface Drift {
  readonly kind: "drift";
  /** Change from one value to the next. */
  readonly slope: number;
  readonly error: number;
}

export interface Movement {
  readonly what: Stretch | Drift;
  /** What it leaves of each value. */
  readonly residuals: readonly number[];
}

/**
 * The stretch or the straight line that leaves less spread. A stretch may lie anywhere, so it pays with three degrees of freedom for
 * its two ends and its level, the line with one for its slope. This describes; whether the log moved at all is tested before.
 */
export function movementOf(values: readonly number[]): Movement {
  const stretch = bestStretch(values);
  const line = leastSquares([values.map((_, place) => place)], values)!;
  const leftByStretch = sumOfSquares(values) - stretch.gain;
  if (line.residualSumOfSquares / (values.length - 2) <= leftByStretch / (values.length - 4)) {
    return { what: { kind: "drift", slope: line.slopes[0]!, error: standardErrors(line)[1]! }, residuals: line.residuals };
  }
  const { from, to } = stretch;
  const inside = values.slice(from, to);
  const others = [...values.slice(0, from), ...values.slice(to)];
  const [level, otherLevel] = [mean(inside), mean(others)];
  const variance = leftByStretch / (values.length - 2);
  return {
    what: { kind: "stretch", from, to, level, otherLevel, error: Math.sqrt(variance * (1 / inside.length + 1 / others.length)) },
    residuals: values.map((value, place) => value - (place >= from && place < to ? level : otherLevel)),
  };
}

interface Ends {
  readonly from: number;
  readonly to: number;
  /** What two levels take off the sum of squares. */
  readonly gain: number;
}

/** So many places are looked at as ends of a stretch; of longer logs every second, third … and then those near the best. */
const mostEnds = 2000;

/** One value alone is an odd one, no stretch. */
const leastStretch = 2;

/** The stretch whose level differs most, for what its length lets be known. It never begins with the first value: then the rest is the stretch. */
function bestStretch(values: readonly number[]): Ends {
  const n = values.length;
  const centre = mean(values);
  const sums = new Float64Array(n + 1);
  values.forEach((value, place) => (sums[place + 1] = sums[place]! + value - centre));
  const gain = (from: number, to: number): number => (sums[to]! - sums[from]!) ** 2 / ((to - from) * (1 - (to - from) / n));
  const best = (froms: readonly number[], tos: readonly number[]): Ends => {
    let found: Ends = { from: leastStretch, to: n, gain: -1 };
    for (const from of froms) {
      for (const to of tos) {
        const length = to - from;
        if (length >= leastStretch && n - length >= leastStretch && gain(from, to) > found.gain) found = { from, to, gain: gain(from, to) };
      }
    }
    return found;
  };
  const step = Math.ceil(n / mostEnds);
  const coarse = best(places(1, n - 1, step), [...places(2, n - 1, step), n]);
  if (step === 1) return coarse;
  const near = (place: number): number[] => places(Math.max(1, place - step), Math.min(n, place + step), 1);
  return best(near(coarse.from).filter((it) => it < n), near(coarse.to));
}

function places(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.max(0, Math.floor((to - from) / step) + 1) }, (_, index) => from + index * step);
}

