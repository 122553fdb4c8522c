import { describe, expect, test } from "vitest";
import { leastSquares, leverageAt, polynomialFit, residualSd, standardErrors, valueAt, type PolynomialFit } from "../../shared/statistics/fit.ts";
import sets from "../reference/numerics/nist-regression.json";
import { column, nistRows } from "./nist.ts";

/** How many leading digits agree (log relative error), at most 15. */
function digits(value: number, certified: number): number {
  const error = Math.abs(certified === 0 ? value : value / certified - 1);
  return error === 0 ? 15 : Math.min(15, -Math.log10(error));
}

function fewestDigits(values: readonly number[], certified: readonly number[]): number {
  expect(values).toHaveLength(certified.length);
  return Math.min(...values.map((value, k) => digits(value, certified[k] as number)));
}

/** The coefficients of x, x², … from those of the centred and scaled powers. */
function expanded({ fit, centre, scale }: PolynomialFit): number[] {
  const inner = [fit.intercept, ...fit.slopes].map((value, power) => value / scale ** power);
  let result: number[] = [];
  for (const value of [...inner].reverse()) {
    result = [value, ...result].map((own, k) => own - centre * (result[k] ?? 0));
  }
  return result;
}

describe("NIST StRD certified values", () => {
  test("Norris: a line", () => {
    const rows = nistRows("Norris.dat");
    const fit = leastSquares([column(rows, 1)], column(rows, 0));
    if (!fit) throw new Error("no fit");
    expect(fewestDigits([fit.intercept, ...fit.slopes], [-0.262323073774029, 1.00211681802045])).toBeGreaterThan(11.5);
    expect(fewestDigits(standardErrors(fit), [0.232818234301152, 0.429796848199937e-3])).toBeGreaterThan(12.5);
    expect(digits(residualSd(fit), 0.884796396144373)).toBeGreaterThan(13);
    expect(digits(1 - fit.residualSumOfSquares / fit.totalSumOfSquares, 0.999993745883712)).toBeGreaterThan(13);
  });

  test("Longley: six nearly dependent columns", () => {
    const { columns, y, coefficients, standardErrors: errors } = sets.Longley;
    const fit = leastSquares(columns, y);
    if (!fit) throw new Error("no fit");
    expect(fewestDigits([fit.intercept, ...fit.slopes], coefficients)).toBeGreaterThan(13);
    expect(fewestDigits(standardErrors(fit), errors)).toBeGreaterThan(13.5);
  });

  // How many digits a set allows in double precision depends on its conditioning and its noise (Wampler5: huge noise).
  test.each([
    ["Pontius", 11.5],
    ["Wampler1", 9],
    ["Wampler2", 12],
    ["Wampler4", 9],
    ["Wampler5", 7.5],
    ["Filip", 13],
  ] as const)("%s: polynomial to %d digits", (name, least) => {
    const set = sets[name];
    const polynomial = polynomialFit(set.x, set.y, set.degree);
    if (!polynomial) throw new Error("no fit");
    expect(fewestDigits(expanded(polynomial), set.coefficients)).toBeGreaterThan(least);
  });

  test("Pontius: residual standard deviation", () => {
    const polynomial = polynomialFit(sets.Pontius.x, sets.Pontius.y, 2);
    if (!polynomial) throw new Error("no fit");
    expect(digits(residualSd(polynomial.fit), sets.Pontius.residualSd)).toBeGreaterThan(12.5);
  });
});

test("a fitted value and its variance do not depend on where x starts", () => {
  const x = [1, 1.2, 1.4, 1.6, 2.1];
  const y = [41.5, 34, 29.5, 24, 17];
  const near = leastSquares([x], y);
  const far = leastSquares([x.map((value) => value + 1e6)], y);
  if (!near || !far) throw new Error("no fit");
  // adding 1e6 rounds x itself to 1e-10
  expect(valueAt(far, [1e6 + 1.5])).toBeCloseTo(valueAt(near, [1.5]), 7);
  expect(leverageAt(far, [1e6 + 1.5])).toBeCloseTo(leverageAt(near, [1.5]), 8);
});

test("dependent columns and too few results have no fit", () => {
  expect(leastSquares([[1, 2, 3, 4], [2, 4, 6, 8]], [1, 2, 3, 5])).toBeNull();
  expect(leastSquares([[7, 7, 7]], [1, 2, 3])).toBeNull();
  expect(leastSquares([[0.1 + 0.2, 0.3, 0.3]], [1, 2, 3])).toBeNull();
  expect(leastSquares([[1, 2], [3, 5]], [1, 2])).toBeNull();
  expect(polynomialFit([5, 5, 5], [1, 2, 3], 1)).toBeNull();
  expect(polynomialFit([5, 6, 5, 6], [1, 2, 3, 1], 2)).toBeNull();
});
