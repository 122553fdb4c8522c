import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../shared/problem.ts";
import * as uncertainty from "../shared/uncertainty.ts";
import { problemOf } from "./problem-of.ts";
import { call, useUnits } from "./worksheet.ts";

describe("the uncertainty of an extraction is first order", () => {
  // Half the width between the two ends that a dose 1.96 standard deviations off gives, against 1.96 first-order standard deviations.
  it.each([[3, 0.4], [10, 4], [14, 8]])("where the dose is known to %d %% it is %d %% too small", (known, tooSmall) => {
    const shot = { beverage: 36, strength: 10 };
    const at = (off: number): number => (36 * 10) / (18 * (1 + off));
    const exact = (at((-1.96 * known) / 100) - at((1.96 * known) / 100)) / 2;
    const given = uncertainty.extractionUncertainty({ dose: 18, ...shot, doseError: (18 * known) / 100, beverageError: 0, strengthError: 0, coverage: 1.96 });
    expect(Math.abs(100 * (exact / given - 1) - tooSmall)).toBeLessThan(0.5);
  });
});

describe("planning", () => {
  const difference = fc.double({ min: 0.05, max: 4, noNaN: true });

  it("shots and detectable difference answer each other", () => {
    fc.assert(
      fc.property(difference, fc.constantFrom(0.5, 0.8, 0.9, 0.99), fc.constantFrom(0.001, 0.05, 0.2), (difference, power, significance) => {
        const plan = { spread: 1, power, significance };
        const shots = uncertainty.shotsNeeded({ difference, ...plan });
        expect(uncertainty.differenceDetectable({ shots, ...plan })).toBeLessThanOrEqual(difference * (1 + 1e-9));
        if (shots > 2) expect(uncertainty.differenceDetectable({ shots: shots - 1, ...plan })).toBeGreaterThan(difference * (1 - 1e-9));
      }),
      { numRuns: 60 },
    );
  });

  // R 4.2.2, power.anova.test: tests/reference/scripts/power.R.
  it.each([
    [3, 0.5, 78.08479], [3, 1, 20.30205], [3, 2.5, 4.258367], [4, 0.5, 88.20348], [4, 1, 22.806], [4, 2.5, 4.593172],
    [8, 0.5, 115.6863], [8, 1, 29.59154], [8, 2.5, 5.535069],
  ])("of %i settings, to find %d standard deviations, takes %d shots each, rounded up", (settings, difference, shots) => {
    expect(uncertainty.shotsNeeded({ difference, spread: 1, settings })).toBe(Math.ceil(shots));
  });

  it("of more settings takes power and significance as asked", () => {
    expect(uncertainty.shotsNeeded({ difference: 1.5, spread: 1, power: 0.95, significance: 0.01, settings: 5 })).toBe(Math.ceil(22.98059));
  });

  it("only the ratio of difference to spread counts", () => {
    expect(uncertainty.shotsNeeded({ difference: 0.3, spread: 0.4 })).toBe(uncertainty.shotsNeeded({ difference: 3, spread: 4 }));
    expect(uncertainty.shotsNeeded({ difference: 1e9, spread: 1e-9 })).toBe(2);
  });

  it("refuses what cannot be planned", () => {
    expect(problemOf(() => uncertainty.shotsNeeded({ difference: 0.001, spread: 1 })).message).toContain("More than 100000 shots");
    expect(problemOf(() => uncertainty.shotsNeeded({ difference: 1, spread: 1, power: 0.05 })).message).toContain("significance");
    expect(problemOf(() => uncertainty.differenceDetectable({ shots: 1, spread: 1 })).message).toContain("no spread");
  });
});

describe("uncertainty of an extraction", () => {
  it("shares sum to 100 %, and errors of 0 have none to share", () => {
    const { doseShare, beverageShare, strengthShare } = uncertainty.extractionShares({ dose: 18, beverage: 36, strength: 9.5 });
    expect(doseShare + beverageShare + strengthShare).toBeCloseTo(100, 12);
    expect(problemOf(() => uncertainty.extractionShares({ dose: 18, beverage: 36, strength: 9.5, doseError: 0, beverageError: 0, strengthError: 0 })).message).toContain("all 0");
  });

  it("follows the percent style of the workbook", () => {
    useUnits({ percent: "cell" });
    expect(call("EXTRACTION.UNCERTAINTY", 18, 36, 0.095, 0.05, 0.05, 0.001)).toBeCloseTo(0.00417046, 7);
    useUnits();
  });
});

it("one pair of readings has a difference, and no limits", () => {
  const { meanDifference, differenceSd, lowerLimit, upperLimit } = uncertainty.agreement({ first: [9.5], second: [9.7] });
  expect(meanDifference).toBeCloseTo(0.2, 12);
  expect([differenceSd, lowerLimit, upperLimit]).toEqual([expect.any(Problem), expect.any(Problem), expect.any(Problem)]);
});
