import { describe, expect, it, test } from "vitest";
import { fUpper } from "../../shared/statistics/distributions.ts";
import { differenceVariance, twoWayFit } from "../../shared/statistics/two-way.ts";

/** R's data set npk: yields of peas in six blocks, with and without N, P and K (Venables & Ripley, Modern Applied Statistics with S). */
const npk = {
  blocks: Array.from({ length: 24 }, (_, plot) => Math.floor(plot / 4)),
  withNitrogen: [0, 1, 0, 1, 1, 1, 0, 0, 0, 1, 1, 0, 1, 1, 0, 0, 1, 0, 1, 0, 1, 1, 0, 0],
  fertilisers: [3, 6, 0, 5, 4, 7, 1, 2, 2, 7, 4, 1, 4, 7, 1, 2, 6, 0, 5, 3, 5, 6, 3, 0],
  results: [49.5, 62.8, 46.8, 57, 59.8, 58.5, 55.5, 56, 62.8, 55.8, 69.5, 55, 62, 48.8, 45.5, 44.2, 52, 51.5, 49.8, 48.8, 57.2, 59, 53.2, 56],
};

/** Made data: unequal numbers, and no block that had every treatment. Values by R: tests/reference/scripts/two-way.R. */
const unbalanced = {
  treatments: [0, 0, 1, 2, 1, 1, 2, 3, 0, 3, 3, 2, 0, 1],
  blocks: [0, 0, 0, 0, 1, 1, 1, 1, 2, 2, 2, 2, 3, 3],
  results: [20.1, 20.4, 20.9, 21.6, 19.8, 20.2, 20.7, 21.1, 18.9, 20.6, 20.2, 20.4, 21.3, 22.2],
};

function expectAll(values: readonly number[], expected: readonly number[]): void {
  expect(values).toHaveLength(expected.length);
  // R prints 15 digits; the fits are good to some 1e-13.
  values.forEach((value, index) => expect(Math.abs(value - expected[index]!)).toBeLessThan(1e-12 * Math.max(1, Math.abs(expected[index]!))));
}

describe("the additive two-way model", () => {
  it("gives R's analysis of npk: block + N, F 9.359795 on 1 and 17", () => {
    const fit = twoWayFit({ treatments: npk.withNitrogen, blocks: npk.blocks, results: npk.results })!;
    expectAll(fit.means, [52.0666666666667, 57.6833333333333]);
    expectAll([fit.residualSumOfSquares, fit.treatmentSumOfSquares], [343.788333333333, 189.281666666666]);
    expect([fit.treatmentDf, fit.df]).toEqual([1, 17]);
    const f = fit.treatmentSumOfSquares / (fit.residualSumOfSquares / fit.df);
    // R prints six digits of F and seven of p.
    expect(f).toBeCloseTo(9.3598, 4);
    expect(fUpper(f, 1, 17)).toBeCloseTo(0.0070955, 7);
  });

  it("cannot tell the eight treatments of npk from its blocks, each of which had half of them", () => {
    expect(twoWayFit({ treatments: npk.fertilisers, blocks: npk.blocks, results: npk.results })).toBeNull();
  });

  it("gives R's least-squares means and their covariances where numbers are unequal and cells empty", () => {
    const fit = twoWayFit(unbalanced)!;
    expectAll(fit.means, [19.9555555555556, 20.6555555555556, 21.3814814814815, 21.5666666666667]);
    expectAll([fit.residualSumOfSquares, fit.df, fit.treatmentSumOfSquares, fit.treatmentDf], [0.283703703703697, 7, 4.14879629629627, 3]);
    expectAll(fit.unscaledCovariance.flat(), [
      0.2892628205128204, -0.0184294871794871, -0.0034722222222222, -0.03125, -0.0184294871794871, 0.2892628205128204, -0.0034722222222222, -0.03125,
      -0.0034722222222222, -0.0034722222222222, 0.376157407407407, 0.0520833333333333, -0.03125, -0.03125, 0.0520833333333333, 0.46875,
    ]);
    expectAll([differenceVariance(fit, 0, 1)], [2 * (0.2892628205128204 + 0.0184294871794871)]);
  });

  it("leaves residuals that sum to 0 in every block and every treatment", () => {
    const { residuals, residualSumOfSquares } = twoWayFit(unbalanced)!;
    for (const list of [unbalanced.blocks, unbalanced.treatments]) {
      for (const level of new Set(list)) {
        const sum = residuals.reduce((total, it, place) => total + (list[place] === level ? it : 0), 0);
        expect(Math.abs(sum)).toBeLessThan(1e-12);
      }
    }
    expectAll([residuals.reduce((total, it) => total + it * it, 0)], [residualSumOfSquares]);
  });

  test("one block is no block: the means are plain means", () => {
    const fit = twoWayFit({ treatments: [0, 0, 1, 1, 1], blocks: [0, 0, 0, 0, 0], results: [1, 3, 4, 6, 8] })!;
    expectAll(fit.means, [2, 6]);
    expectAll([fit.residualSumOfSquares, fit.df], [10, 3]);
  });

  test.each([
    ["each block has its own treatment", [0, 0, 1, 1], [0, 0, 1, 1]],
    ["two parts share no block", [0, 1, 0, 1, 2, 3, 2, 3], [0, 0, 1, 1, 2, 2, 3, 3]],
    ["a treatment has a block of its own", [0, 1, 0, 1, 2, 2, 2], [0, 0, 1, 1, 2, 2, 2]],
  ])("there is no answer where %s", (_, treatments, blocks) => {
    expect(twoWayFit({ treatments, blocks, results: treatments.map((it, place) => it + (place % 3)) })).toBeNull();
  });
});
