/**
 * The two kernels under every distribution here: the regularised incomplete beta and gamma functions, each with both tails,
 * so that no small tail is ever found as one minus a large one.
 * Sources: NIST Digital Library of Mathematical Functions (DLMF) chapters 5 and 8; Loader 2000, Fast and Accurate Computation of
 * Binomial Probabilities (the deviance form of the leading factor); DiDonato & Morris 1992, ACM TOMS 18:360 (the fraction for beta).
 */

/** Both tails of a distribution at one point; they sum to 1, and the smaller keeps its relative accuracy. */
export interface Tails {
  readonly lower: number;
  readonly upper: number;
}

const MOST_TERMS = 100000;

/** I_x(a, b) and its complement. Both x and y = 1 - x are asked for, as the caller often knows the smaller one better. */
export function incompleteBeta(a: number, b: number, x: number, y: number): Tails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (y <= 0) return { lower: 1, upper: 0 };
  if (a * y - b * x >= 0) {
    const lower = lowerBeta(a, b, x, y);
    return { lower, upper: 1 - lower };
  }
  const upper = lowerBeta(b, a, y, x);
  return { lower: 1 - upper, upper };
}

/** x^a y^b Gamma(a + b) / (Gamma(a) Gamma(b)), without the overflow and cancellation of its parts. */
export function betaWeight(a: number, b: number, x: number, y: number): number {
  const total = a + b;
  const offset = a * y - b * x;
  const distance = deviance(a, total * x, offset) + deviance(b, total * y, -offset);
  const correction = stirlingError(total) - stirlingError(a) - stirlingError(b);
  return Math.sqrt(((a / total) * b) / (2 * Math.PI)) * Math.exp(correction - distance);
}

/** I_x(a, b) for x at or below the mean a / (a + b). */
function lowerBeta(a: number, b: number, x: number, y: number): number {
  const weight = betaWeight(a, b, x, y);
  return weight === 0 ? 0 : weight * (x < 0.25 ? betaSeries(a, b, x) : betaFraction(a, b, x, y));
}

/** DLMF 8.17.8 over the leading factor: every term is positive, so nothing cancels. */
function betaSeries(a: number, b: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 0; n < MOST_TERMS; n++) {
    term *= ((a + b + n) / (a + 1 + n)) * x;
    sum += term;
    if (term < sum * 1e-17) break;
  }
  return sum;
}

/** The even part of the fraction DLMF 8.17.22, over the leading factor, as DiDonato & Morris write it. */
function betaFraction(a: number, b: number, x: number, y: number): number {
  const offset = a * y - b * x;
  let value = (a / (a + 1)) * (offset + 1);
  let numerator = value;
  let denominator = 0;
  for (let n = 1; n < MOST_TERMS; n++) {
    const step = a + 2 * n - 1;
    const above = ((((a + n - 1) / step) * (a + b + n - 1)) / step) * n * (b - n) * x * x;
    const below = n + (n * (b - n) * x) / step + ((a + n) / (step + 2)) * (offset + 1 + n * (1 + y));
    denominator = 1 / (below + above * denominator);
    numerator = below + above / numerator;
    const change = numerator * denominator;
    value *= change;
    if (Math.abs(change - 1) < 2e-16) break;
  }
  return 1 / value;
}

/** P(a, x) = lower and Q(a, x) = upper of the gamma distribution with shape a. */
export function incompleteGamma(a: number, x: number): Tails {
  if (x <= 0) return { lower: 0, upper: 1 };
  const weight = gammaWeight(a, x);
  if (x < a + 1) {
    const lower = weight === 0 ? 0 : weight * gammaSeries(a, x);
    return { lower, upper: 1 - lower };
  }
  const upper = weight === 0 ? 0 : weight * gammaFraction(a, x);
  return { lower: 1 - upper, upper };
}

/** x^a e^-x / Gamma(a). */
export function gammaWeight(a: number, x: number): number {
  return Math.exp(-deviance(a, x, a - x) - stirlingError(a)) * Math.sqrt(a / (2 * Math.PI));
}

/** DLMF 8.7.1 over x^a e^-x / Gamma(a); every term is positive. */
function gammaSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; n < MOST_TERMS; n++) {
    term *= x / (a + n);
    sum += term;
    if (term < sum * 1e-17) break;
  }
  return sum;
}

/** The even part of DLMF 8.9.2 over x^a e^-x / Gamma(a). */
function gammaFraction(a: number, x: number): number {
  let value = x + 1 - a;
  let numerator = value;
  let denominator = 0;
  for (let n = 1; n < MOST_TERMS; n++) {
    const above = n * (a - n);
    const below = x + 2 * n + 1 - a;
    denominator = 1 / (below + above * denominator);
    numerator = below + above / numerator;
    const change = numerator * denominator;
    value *= change;
    if (Math.abs(change - 1) < 2e-16) break;
  }
  return 1 / value;
}

/** x ln(x / m) + m - x, given x - m as well: by its series where the parts would cancel (Loader 2000). */
function deviance(x: number, m: number, difference: number): number {
  if (Math.abs(difference) > 0.1 * (x + m)) return x * Math.log(x / m) - difference;
  const v = difference / (x + m);
  let sum = v * difference;
  let power = 2 * x * v;
  for (let j = 3; j < 100; j += 2) {
    power *= v * v;
    const next = sum + power / j;
    if (next === sum) break;
    sum = next;
  }
  return sum;
}

/** ln Gamma(z). */
export function logGamma(z: number): number {
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + stirlingError(z);
}

/** ln Gamma(z) less Stirling's formula: the series DLMF 5.11.1 (coefficients B_2k / 2k(2k-1)), reached from small z by the recurrence. */
function stirlingError(z: number): number {
  let sum = 0;
  let large = z;
  for (; large < 12; large++) sum += (large + 0.5) * Math.log1p(1 / large) - 1;
  const w = 1 / (large * large);
  const series = 1 / 12 + w * (-1 / 360 + w * (1 / 1260 + w * (-1 / 1680 + w * (1 / 1188 + w * (-691 / 360360 + w * (1 / 156 - w * (3617 / 122400)))))));
  return sum + series / large;
}
