/**
 * Studentised range: how far apart the largest and smallest of several means of one population fall, in estimated standard errors.
 * Copenhaver & Holland 1988, J. Stat. Comput. Simul. 30:1 (the two integrals); here both are trapezoid sums, over normal deviates
 * and over ln(range), on grids that every point and every number of degrees of freedom share, so that one table of the inner
 * integral serves all pairs of a comparison.
 */
import { normalLower } from "./distributions";
import { logSpreadDensity, logSpreadRange, logSpreadStep } from "./averaged-over-spread";
import { findRoot } from "./root";

export interface StudentizedRange {
  /** P(Q > q). */
  upper(q: number, df: number): number;
  /** q with P(Q > q) = p. */
  quantileUpper(p: number, df: number): number;
}

/** The distribution for a number of means, 2 or more. Keep it while several points of it are needed: it remembers its inner sums. */
export function studentizedRange(means: number): StudentizedRange {
  const known = new Map<number, number>();
  const rangeUpper = normalRange(means);

  /** P(range of normal deviates > e^v), at most once for each v; the grids of halved steps nest. */
  function inner(v: number): number {
    let value = known.get(v);
    if (value === undefined) {
      value = rangeUpper(Math.exp(v));
      known.set(v, value);
    }
    return value;
  }

  /** Integral over v = ln(range) of P(range > e^v) times the density of ln S at v - ln q. */
  function upper(q: number, df: number): number {
    if (q <= 0) return 1;
    const density = logSpreadDensity(df);
    const { from, to } = logSpreadRange(df);
    const step = logSpreadStep(df);
    const shift = Math.log(q);
    let sum = 0;
    for (let j = Math.ceil((from + shift) / step); j * step < to + shift; j++) {
      const weight = density(j * step - shift);
      if (weight > 1e-300) sum += weight * inner(j * step);
    }
    return Math.min(1, step * sum);
  }

  function quantileUpper(p: number, df: number): number {
    const short = (logQ: number): number => Math.log(upper(Math.exp(logQ), df)) - Math.log(p);
    let [low, high] = [0, 1.5];
    while (short(low) < 0) low -= 1;
    while (short(high) > 0) [low, high] = [high, high + 1];
    return Math.exp(findRoot(short, low, high, 1e-13));
  }

  return { upper, quantileUpper };
}

const STEP = 0.2;
const LOWEST = -9;

/** P(range of `means` independent normal deviates > w), as a function of w. */
function normalRange(means: number): (w: number) => number {
  const others = means - 1;
  const heights: { z: number; below: number; weight: number }[] = [];
  for (let z = LOWEST; z < 45; z += STEP) {
    const below = normalLower(z);
    const weight = ((means * STEP) / Math.sqrt(2 * Math.PI)) * Math.exp((-z * z) / 2 + others * Math.log(below));
    if (weight > 0) heights.push({ z, below, weight });
  }
  return (w) => {
    let sum = 0;
    for (const { z, below, weight } of heights) {
      if (z < w / 2 - 8) continue;
      if (z > w / 2 + 9) break;
      sum += weight * -Math.expm1(others * Math.log1p(-Math.min(1, normalLower(z - w) / below)));
    }
    return Math.min(1, sum);
  };
}
