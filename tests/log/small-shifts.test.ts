import { describe, expect, it } from "vitest";
import { logCusum, logEwma } from "../../shared/log";
import { problemOf } from "../problem-of.ts";

describe("the exponentially weighted moving average", () => {
  // NIST/SEMATECH e-Handbook 6.3.2.4: target 50, standard deviation 2.0539, weight 0.3; averages as printed there to two decimals.
  const values = [52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
  const printed = [50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99];
  const points = logEwma({ values, target: 50, spread: 2.0539, weight: 0.3 });

  it("is that of the NIST handbook", () => {
    // The handbook rounds each step to two decimals.
    points.forEach(({ average }, run) => expect(Math.abs(average! - printed[run]!)).toBeLessThan(0.011));
    expect(points.some(({ outside }) => outside)).toBe(false);
  });

  it("has limits that widen to the handbook's 47.4115 and 52.5884", () => {
    expect(points[19]!.high).toBeCloseTo(52.5884, 3);
    expect(points[19]!.low).toBeCloseTo(47.4115, 3);
    // The first average is one value times the weight: three times 0.3 times the spread.
    expect(points[0]!.high).toBeCloseTo(50 + 3 * 0.3 * 2.0539, 12);
    for (let run = 1; run < 20; run++) expect(points[run]!.high!).toBeGreaterThan(points[run - 1]!.high!);
  });

  it("takes target and spread from the values where they are left out, keeps the rows of blanks, and sees a small shift", () => {
    const shifted = [null, ...Array.from({ length: 60 }, (_, shot) => 27 + (shot % 2 === 0 ? 0.5 : -0.5) + (shot >= 40 ? 1.5 : 0))];
    const found = logEwma({ values: shifted });
    expect(found[0]).toEqual({});
    expect(found[60]!.outside).toBe(true);
    // Mean 27.5; mean moving range 58 steps of 1 and one of 2.5 over 59, over 1.128.
    expect(found[1]!.high! - 27.5).toBeCloseTo(3 * 0.2 * ((58 + 2.5) / 59 / 1.128), 10);
  });

  it("refuses where there is no spread to go by", () => {
    expect(problemOf(() => logEwma({ values: [null] })).message).toBe("There are no values.");
    expect(problemOf(() => logEwma({ values: [5] })).message).toBe("There is one value; a spread needs two or more.");
    expect(problemOf(() => logEwma({ values: [5, 5, 5] })).message).toBe("All values are the same, so they show no spread. Give spread.");
    expect(logEwma({ values: [5], target: 5, spread: 1 })).toHaveLength(1);
  });
});

describe("the cumulative sum", () => {
  // NIST/SEMATECH e-Handbook 6.3.2.3: target 325, allowance 0.3175 and limit 4.1959 in the unit of the values; sums as printed there to two decimals.
  const values = [
    324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6,
    324.625, 325.15, 328.325, 327.25, 327.825, 328.5, 326.675, 327.775, 326.875, 328.35,
  ];
  const above = [0, 0, 0, 0, 0.03, 0, 0, 0, 0, 0, 0, 0, 3.01, 4.94, 7.45, 10.63, 11.99, 14.44, 16, 19.04];
  const below = [0, 0.01, 0, 0.33, 0, 0, 0.56, 0.72, 0.17, 0.25, 0.31, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  const spread = 0.635;
  const points = logCusum({ values, target: 325, spread, allowance: 0.3175 / spread, limit: 4.1959 / spread });

  it("is that of the NIST handbook, whose first signal comes at 14", () => {
    // Printed to two decimals, some of them cut off.
    points.forEach((point, run) => {
      expect(Math.abs(point.above! - above[run]!)).toBeLessThan(0.011);
      expect(Math.abs(point.below! - below[run]!)).toBeLessThan(0.011);
    });
    expect(points.map(({ beyond }) => beyond)).toEqual(values.map((_, run) => run >= 13));
  });

  it("counts both sides upwards from 0, in the unit of the values, and skips blanks", () => {
    const mirrored = logCusum({ values: values.map((it) => 650 - it), target: 325, spread, allowance: 0.3175 / spread, limit: 4.1959 / spread });
    mirrored.forEach((point, run) => expect(point.below).toBeCloseTo(points[run]!.above!, 9));
    expect(logCusum({ values: [null, 325.6, null, 325.6], target: 325, spread: 0.4, allowance: 0.5 }).map((it) => it.above?.toFixed(9))).toEqual([
      undefined, "0.400000000", undefined, "0.800000000",
    ]);
  });

  it("needs a spread from somewhere", () => {
    expect(problemOf(() => logCusum({ values: [5], target: 5 })).message).toBe("There is one value; a spread needs two or more.");
  });
});
