/**
 * Normal, t, F, chi-square, binomial and noncentral t distributions. "Lower" is P(X <= x), "upper" P(X > x) (for counts: P(X >= k)).
 * A quantile takes the probability of the tail its name says. Degrees of freedom need not be whole numbers.
 */
import { betaWeight, gammaWeight, incompleteBeta, incompleteGamma, type Tails } from "./incomplete-functions";
import { overSpread } from "./over-spread";

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
  const z = Math.sqrt(chiSquarePoint(2 * tail, 1 - 2 * tail, 1));
  return p < 0.5 ? -z : z;
}

/** P(|T| > |t|). */
export function tTwoSided(t: number, df: number): number {
  return tTails(t, df).lower;
}

export function tUpper(t: number, df: number): number {
  const tails = tTails(t, df);
  return t >= 0 ? tails.lower / 2 : 0.5 + tails.upper / 2;
}

export function tLower(t: number, df: number): number {
  return tUpper(-t, df);
}

/** t with P(T <= t) = p. */
export function tQuantile(p: number, df: number): number {
  if (p === 0.5) return 0;
  return p < 0.5 ? -tQuantileTwoSided(2 * p, df) : tQuantileTwoSided(2 * (1 - p), df);
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

export function fLower(f: number, df1: number, df2: number): number {
  return fTails(f, df1, df2).lower;
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

/** x with P(X > x) = p. */
export function chiSquareQuantileUpper(p: number, df: number): number {
  return chiSquarePoint(p, 1 - p, df);
}

function chiSquarePoint(upper: number, lower: number, df: number): number {
  return positivePoint(upper, lower, df, (x) => incompleteGamma(df / 2, x / 2), (x) => gammaWeight(df / 2, x / 2));
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

/** P(X = k) of n tries with chance p each. */
export function binomialProbability(k: number, n: number, p: number): number {
  if (k < 0 || k > n) return 0;
  if (k === 0) return Math.exp(n * Math.log1p(-p));
  if (k === n) return p ** n;
  return betaWeight(k, n - k, p, 1 - p) * (n / k / (n - k));
}

/** P(X <= k). */
export function binomialLower(k: number, n: number, p: number): number {
  return k < 0 ? 0 : k >= n ? 1 : incompleteBeta(k + 1, n - k, p, 1 - p).upper;
}

/** P(X >= k). */
export function binomialUpper(k: number, n: number, p: number): number {
  return k <= 0 ? 1 : k > n ? 0 : incompleteBeta(k, n - k + 1, p, 1 - p).lower;
}

/** The smallest k with P(X <= k) >= probability. A tie that only rounding breaks counts as reached. */
export function binomialQuantile(probability: number, n: number, p: number): number {
  let [low, high] = [0, n];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (binomialLower(middle, n, p) >= probability * (1 - 1e-15)) high = middle;
    else low = middle + 1;
  }
  return low;
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
