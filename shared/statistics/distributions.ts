/**
 * Normal, t, F, chi-square, binomial and noncentral t distributions, as far as a function here needs them.
 * "Lower" is P(X <= x), "upper" P(X > x) (for counts: P(X >= k)); degrees of freedom need not be whole numbers.
 */
import { betaWeight, gammaWeight, incompleteBeta, incompleteGamma, type Tails } from "./incomplete-functions";
import { overSpread } from "./averaged-over-spread";

export function normalUpper(z: number): number {
  const tails = incompleteGamma(0.5, (z * z) / 2);
  return z >= 0 ? tails.upper / 2 : 0.5 + tails.lower / 2;
}

export function normalLower(z: number): number {
  return normalUpper(-z);
}

/** z with P(Z <= z) = p. */
export function normalQuantile(p: number): number {
  if (p === 0.5) return 0;
  const tail = p < 0.5 ? p : 1 - p;
  const z = Math.sqrt(positivePoint(2 * tail, 1 - 2 * tail, 1, (x) => incompleteGamma(0.5, x / 2), (x) => gammaWeight(0.5, x / 2)));
  return p < 0.5 ? -z : z;
}

/** P(|T| > |t|). */
export function tTwoSided(t: number, df: number): number {
  return tTails(t, df).lower;
}

/** t with P(|T| > t) = p. */
export function tQuantileTwoSided(p: number, df: number): number {
  return Math.sqrt(fQuantileUpper(p, 1, df));
}

/** "lower" is P(|T| > |t|), as the beta variable df / (df + t²) falls while |t| grows. */
function tTails(t: number, df: number): Tails {
  const square = t * t;
  if (square > 1e300) return { lower: 0, upper: 1 };
  return incompleteBeta(df / 2, 0.5, df / (df + square), square / (df + square));
}

export function fUpper(f: number, df1: number, df2: number): number {
  return fTails(f, df1, df2).upper;
}

/** f with P(F > f) = p. */
export function fQuantileUpper(p: number, df1: number, df2: number): number {
  const slope = (f: number): number => betaWeight(df1 / 2, df2 / 2, (df1 * f) / (df2 + df1 * f), df2 / (df2 + df1 * f));
  return positivePoint(p, 1 - p, 1, (f) => fTails(f, df1, df2), slope);
}

function fTails(f: number, df1: number, df2: number): Tails {
  if (f <= 0) return { lower: 0, upper: 1 };
  const sum = df2 + df1 * f;
  return sum > 1e300 ? { lower: 1, upper: 0 } : incompleteBeta(df1 / 2, df2 / 2, (df1 * f) / sum, df2 / sum);
}

export function chiSquareUpper(x: number, df: number): number {
  return incompleteGamma(df / 2, x / 2).upper;
}

export function chiSquareLower(x: number, df: number): number {
  return incompleteGamma(df / 2, x / 2).lower;
}

/**
 * The positive x with the given tails: Newton steps on the logarithm of the smaller tail against ln x, where both ends of a
 * distribution are nearly straight lines, kept inside the bracket found so far. `slope` is the change of the lower tail with ln x.
 */
function positivePoint(upper: number, lower: number, start: number, tails: (x: number) => Tails, slope: (x: number) => number): number {
  if (upper <= 0) return Infinity;
  if (lower <= 0) return 0;
  const side = upper < lower ? "upper" : "lower";
  const target = Math.log(Math.min(upper, lower));
  const direction = side === "upper" ? -1 : 1;
  let [low, high, x] = [0, Infinity, start];
  for (let round = 0; round < 200; round++) {
    const tail = tails(x)[side];
    const short = tail === 0 ? -Infinity : Math.log(tail) - target;
    if (short === 0) return x;
    if (direction * short < 0) low = x;
    else high = x;
    const step = (-direction * short * tail) / slope(x);
    let next = x * Math.exp(Math.abs(step) < 3 ? step : 3 * Math.sign(-direction * short));
    if (!(next > low && next < high)) next = high === Infinity ? low * 4 : low === 0 ? high / 4 : Math.sqrt(low * high);
    if (Math.abs(next - x) <= 2e-16 * x) return next;
    x = next;
  }
  return x;
}

/** P(X <= k). */
export function binomialLower(k: number, n: number, p: number): number {
  return k < 0 ? 0 : k >= n ? 1 : incompleteBeta(k + 1, n - k, p, 1 - p).upper;
}

/** P(X >= k). */
export function binomialUpper(k: number, n: number, p: number): number {
  return k <= 0 ? 1 : k > n ? 0 : incompleteBeta(k, n - k + 1, p, 1 - p).lower;
}

/**
 * P(T > t) of the noncentral t distribution, T = (Z + noncentrality) / S with a normal Z and a spread S estimated with df degrees of
 * freedom: the tail of Z averaged over S; or, where that would be too steep in S, the tail of S averaged over Z.
 */
export function noncentralTUpper(t: number, df: number, noncentrality: number): number {
  if (noncentrality < 0) return 1 - noncentralTUpper(-t, df, -noncentrality);
  if (noncentrality < 10 || noncentrality < 2 * Math.sqrt(2 * df)) {
    return overSpread(df, (spread) => normalUpper(t * spread - noncentrality), noncentrality);
  }
  return t <= 0 ? 1 : overNormal((z) => chiSquareLower(df * ((noncentrality + z) / t) ** 2, df));
}

/** The mean of f(Z) over normal deviates, for an f no steeper than the normal density: trapezoid sums. */
function overNormal(f: (z: number) => number): number {
  const step = 0.25;
  let sum = 0;
  for (let z = -9; z <= 9; z += step) sum += Math.exp((-z * z) / 2) * f(z);
  return (step / Math.sqrt(2 * Math.PI)) * sum;
}
