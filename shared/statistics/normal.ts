/**
 * Tails of the normal distribution: its density times Mills' ratio R(z) = P(Z > z) / density, a smooth function whose Taylor
 * coefficients follow from R' = z R - 1 (DLMF 7.10). The ratio at the centres of narrow strips comes from the incomplete gamma
 * function, once for each strip; sums over thousands of deviates, as in the studentised range, then cost little more than their density.
 */
import { incompleteGamma } from "./incomplete-functions";

const STRIP = 1 / 16;
/** Half a strip to this power, over its factorial, is below 1e-17 of the ratio. */
const TERMS = 10;
/** Beyond it tails are below 1e-300. */
const LAST = 37;
const SCALE = 1 / Math.sqrt(2 * Math.PI);

const coefficients = new Float64Array((LAST / STRIP + 1) * TERMS);

/** P(Z > z). */
export function normalUpper(z: number): number {
  if (z < 0) return 1 - normalUpper(-z);
  if (!(z < LAST)) return incompleteGamma(0.5, (z * z) / 2).upper / 2;
  const strip = Math.round(z / STRIP);
  const start = strip * TERMS;
  if (coefficients[start] === 0) expand(strip);
  const away = z - strip * STRIP;
  let ratio = coefficients[start + TERMS - 1]!;
  for (let k = TERMS - 2; k >= 0; k--) ratio = ratio * away + coefficients[start + k]!;
  return ratio * SCALE * Math.exp((-z * z) / 2);
}

/** P(Z <= z). */
export function normalLower(z: number): number {
  return normalUpper(-z);
}

/** Coefficients at the centre of a strip: the (k+1)th derivative of R is z times the kth and k times the one before. */
function expand(strip: number): void {
  const z = strip * STRIP;
  const at = strip * TERMS;
  const ratio = incompleteGamma(0.5, (z * z) / 2).upper / 2 / (SCALE * Math.exp((-z * z) / 2));
  coefficients[at] = ratio;
  coefficients[at + 1] = z * ratio - 1;
  for (let k = 1; k < TERMS - 1; k++) coefficients[at + k + 1] = (z * coefficients[at + k]! + coefficients[at + k - 1]!) / (k + 1);
}
