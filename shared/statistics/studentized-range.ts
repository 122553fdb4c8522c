/**
 * Studentised range: how far apart the largest and smallest of several means of one population fall, in estimated standard errors.
 * Copenhaver & Holland 1988, J. Stat. Comput. Simul. 30:1 (the two integrals); here both are trapezoid sums, over normal deviates
 * and over ln(range), on grids that every point and every number of degrees of freedom share, so that one table of the inner
 * integral serves all pairs of all comparisons.
 */
import { logSpreadDensity, logSpreadRange, logSpreadStep } from "./averaged-over-spread";
import { normalLower } from "./normal";
import { findRoot } from "./root";

/** `df` may be Infinity: the spread is known then. */
export interface StudentizedRange {
  /** P(Q > q). */
  upper(q: number, df: number): number;
  /** q with P(Q > q) = p. */
  quantileUpper(p: number, df: number): number;
}

const tables = new Map<number, StudentizedRange>();

/** The distribution for a number of means, 2 or more; it remembers its inner sums, which depend on nothing else. */
export function studentizedRange(means: number): StudentizedRange {
  const known = tables.get(means) ?? rangeOf(means);
  tables.set(means, known);
  return known;
}

function rangeOf(means: number): StudentizedRange {
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

  /**
   * Integral over v = ln(range) of P(range > e^v) times the density of ln S at v - ln q, and its change with ln q: the density
   * falls off by df (1 - S²) of itself for each ln S.
   */
  function tail(logQ: number, df: number): { value: number; slope: number } {
    const density = logSpreadDensity(df);
    const { from, to } = logSpreadRange(df);
    const step = logSpreadStep(df);
    let [value, slope] = [0, 0];
    for (let j = Math.ceil((from + logQ) / step); j * step < to + logQ; j++) {
      const logSpread = j * step - logQ;
      const weight = density(logSpread);
      if (weight <= 1e-300) continue;
      const part = weight * inner(j * step);
      value += part;
      slope -= part * df * -Math.expm1(2 * logSpread);
    }
    return { value: Math.min(1, step * value), slope: step * slope };
  }

  /** Newton steps on the logarithm of the tail against ln q, both nearly straight, kept inside the bracket found so far. */
  function quantileUpper(p: number, df: number): number {
    const target = Math.log(p);
    let [low, high, logQ] = [-Infinity, Infinity, 1];
    for (let round = 0; round < 200; round++) {
      const { value, slope } = tail(logQ, df);
      const above = Math.log(value) - target;
      if (above > 0) low = logQ;
      else high = logQ;
      const step = (-above * value) / slope;
      if (Math.abs(step) <= 1e-13 * Math.max(1, Math.abs(logQ))) return Math.exp(logQ + step);
      let next = logQ + (Math.abs(step) < 2 ? step : 2 * Math.sign(above));
      if (!(next > low && next < high)) next = (Math.max(low, logQ - 2) + Math.min(high, logQ + 2)) / 2;
      if (next === low || next === high) return Math.exp(next);
      logQ = next;
    }
    return Math.exp(logQ);
  }

  /** Of whole degrees of freedom, which the same few of come back in trial after trial. */
  const quantiles = new Map<string, number>();
  function knownQuantile(p: number, df: number): number {
    if (df === Infinity) return findRoot((range) => rangeUpper(range) - p, 0, WIDEST);
    if (!Number.isInteger(df) || df > MOST_KEPT) return quantileUpper(p, df);
    const key = `${p} ${df}`;
    const value = quantiles.get(key) ?? quantileUpper(p, df);
    if (quantiles.size < MOST_KEPT) quantiles.set(key, value);
    return value;
  }

  function upper(q: number, df: number): number {
    if (q <= 0) return 1;
    return df === Infinity ? rangeUpper(q) : tail(Math.log(q), df).value;
  }

  return { upper, quantileUpper: knownQuantile };
}

const MOST_KEPT = 1000;
/** No normal deviates are as far apart as this, to double precision. */
const WIDEST = 80;
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
