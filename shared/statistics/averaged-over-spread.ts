/**
 * For averages over an estimated spread: S = sqrt(chi-square / df), the ratio of an estimated to a true standard deviation.
 * The trapezoid rule in ln S: for smooth functions that vanish at both ends its error falls faster than any power of the step.
 */
import { logGamma } from "./incomplete-functions";

/** The density of ln S at `logSpread`, as a function of it. */
export function logSpreadDensity(df: number): (logSpread: number) => number {
  const half = df / 2;
  const constant = Math.log(2) + half * Math.log(half) - logGamma(half);
  return (logSpread) => Math.exp(constant + df * logSpread - half * Math.exp(2 * logSpread));
}

/** Where the density of ln S is not negligible (below 1e-17 of an average). */
export function logSpreadRange(df: number): { from: number; to: number } {
  const sd = 1 / Math.sqrt(2 * df);
  return { from: -10 * sd - 42 / df, to: Math.log1p(12 * sd + 0.5 / df) };
}

/** The coarsest step that still resolves the density of ln S: 1/16, halved as the density narrows. */
export function logSpreadStep(df: number): number {
  const sd = 1 / Math.sqrt(2 * df);
  return sd > 0.1 ? 0.0625 : 0.0625 * 2 ** Math.floor(Math.log2(sd / 0.1));
}
