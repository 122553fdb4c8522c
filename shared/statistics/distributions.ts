/**
 * Normal, t, F, noncentral F, chi-square and binomial distributions, as far as a function here needs them.
 * "Lower" is P(X <= x), "upper" P(X > x) (for counts: P(X >= k)); degrees of freedom need not be whole numbers.
 */
import { betaWeight, gammaWeight, incompleteBeta, incompleteGamma, type Tails } from "./incomplete-functions";

export { normalLower, normalUpper } from "./normal";

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
 * P(F > f) of the noncentral F distribution: tails of F averaged over a Poisson count of mean noncentrality / 2 (Johnson, Kotz &
 * Balakrishnan 1995, Continuous Univariate Distributions 2, chapter 30). Each tail follows from the one before by adding a positive term, so nothing cancels.
 * With df1 = 1 it is P(|T| > sqrt f) of the noncentral t distribution with the square root of this noncentrality.
 */
export function noncentralFUpper(f: number, df1: number, df2: number, noncentrality: number): number {
  if (f <= 0) return 1;
  const total = df2 + df1 * f;
  const [x, y] = [(df1 * f) / total, df2 / total];
  const b = df2 / 2;
  const middle = noncentrality / 2;
  // Beyond nine standard deviations, and a few counts for small means, nothing is left of the weights.
  const reach = 9 * Math.sqrt(middle);
  const first = Math.max(0, Math.floor(middle - reach));
  const last = middle + reach + 40;

  let a = df1 / 2 + first;
  let tail = incompleteBeta(a, b, x, y).upper;
  let rise = betaWeight(a, b, x, y) / a;
  let weight = middle === 0 ? 1 : gammaWeight(first + 1, middle) / middle;
  let result = 0;
  for (let count = first; count <= last; count++) {
    result += weight * tail;
    tail += rise;
    rise *= (x * (a + b)) / (a + 1);
    a++;
    weight *= middle / (count + 1);
  }
  return Math.min(1, result);
}
