import { expect, test } from "vitest";
import { mean, median, ranked, standardDeviation } from "../../shared/statistics/describe.ts";
import { column, nistRows } from "./nist.ts";

// NIST StRD univariate sets, certified values in the files.
test("Michelson's speed of light: mean and standard deviation", () => {
  const values = column(nistRows("Michelso.txt"), 0);
  expect(values).toHaveLength(100);
  expect(mean(values)).toBeCloseTo(299.8524, 12);
  expect(Math.abs(standardDeviation(values) / 0.0790105478190518 - 1)).toBeLessThan(1e-13);
});

test("NumAcc4: a spread of 0.1 on ten million", () => {
  const values = column(nistRows("NumAcc4.txt"), 0);
  expect(values).toHaveLength(1001);
  expect(mean(values)).toBe(10000000.2);
  // the data themselves are rounded to 2e-9 in double precision
  expect(Math.abs(standardDeviation(values) / 0.1 - 1)).toBeLessThan(2e-8);
});

test("medians and ranks, equal values sharing", () => {
  expect(median([3, 1, 2])).toBe(2);
  expect(median([4, 1, 2, 3])).toBe(2.5);
  expect(ranked([10, 30, 20, 20])).toEqual({ ranks: [1, 4, 2.5, 2.5], ties: 6 });
});
