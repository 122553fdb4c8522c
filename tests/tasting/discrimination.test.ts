import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  discriminationTests, tasteAlike, tasteDistance, tasteNeeded, tasteTasters, type DiscriminationTest,
} from "../../shared/tasting/discrimination.ts";
import { binomialUpper } from "../../shared/statistics/distributions.ts";
import { messageOf, problemOf } from "../problem-of.ts";
import { call, CellError } from "../worksheet.ts";

const anyTest = fc.constantFrom(...discriminationTests);

describe("tasteNeeded", () => {
  it("is the smallest number with a chance of at most the significance, or refuses where there is none", () => {
    fc.assert(fc.property(
      fc.integer({ min: 1, max: 400 }), anyTest, fc.double({ min: 1e-6, max: 0.5, noNaN: true }),
      (tasters, test, significance) => {
        const chance = test === "triangle" ? 1 / 3 : 1 / 2;
        // Chances so near the significance that rounding decides have their own test.
        fc.pre(Array.from({ length: tasters + 1 }, (_, k) => binomialUpper(k, tasters, chance)).every((it) => Math.abs(it / significance - 1) > 1e-9));
        if (chance ** tasters > significance) {
          const { message } = problemOf(() => tasteNeeded({ tasters, test, significance }));
          const enough = Number(/at least (\d+) tasters/.exec(message)![1]);
          expect(chance ** enough).toBeLessThanOrEqual(significance);
          expect(chance ** (enough - 1)).toBeGreaterThan(significance);
          return;
        }
        const needed = tasteNeeded({ tasters, test, significance });
        expect(binomialUpper(needed, tasters, chance)).toBeLessThanOrEqual(significance);
        expect(binomialUpper(needed - 1, tasters, chance)).toBeGreaterThan(significance);
      }));
  });

  it("takes a chance equal to the significance: 4 of 4 at 1/16", () => {
    expect(tasteNeeded({ tasters: 4, test: "duo-trio", significance: 0.0625 })).toBe(4);
  });
});

describe("tasteTasters", () => {
  it("looks far enough ahead: no later number of tasters falls short", () => {
    fc.assert(fc.property(
      fc.double({ min: 0.08, max: 1, noNaN: true }), anyTest,
      fc.constantFrom(0.2, 0.1, 0.05, 0.01), fc.double({ min: 0.3, max: 0.99, noNaN: true }),
      (discriminators, test, significance, power) => {
        const guessing = test === "triangle" ? 1 / 3 : 1 / 2;
        const { firstTasters, stableTasters } = tasteTasters({ discriminators, test, significance, power });
        expect(stableTasters).toBeGreaterThanOrEqual(firstTasters);
        let needed = 0;
        for (let tasters = 1; tasters <= 3 * stableTasters + 50; tasters++) {
          while (binomialUpper(needed, tasters, guessing) > significance) needed++;
          const enough = binomialUpper(needed, tasters, guessing + discriminators * (1 - guessing)) >= power;
          if (tasters < firstTasters || tasters === stableTasters - 1) expect(enough).toBe(false);
          if (tasters === firstTasters || tasters >= stableTasters) expect(enough).toBe(true);
        }
      }), { numRuns: 40 });
  });

  it("refuses a panel beyond all means", () => {
    expect(problemOf(() => tasteTasters({ discriminators: 0.001, test: "duo-trio" })).message).toContain("10000");
  });
});

describe("tasteDistance", () => {
  it("gives an open end in words where all were right, and still a low end", () => {
    const [distance, low, high] = call("TASTE.DISTANCE", 8, 8, "triangle") as unknown[];
    expect(distance).toBeInstanceOf(CellError);
    expect((high as CellError).message).toContain("no upper limit");
    expect(low).toBeGreaterThan(0);
  });

  it("puts the distance inside its interval, and finds no distance in guessing", () => {
    fc.assert(fc.property(
      fc.integer({ min: 2, max: 300 }), fc.double({ min: 0, max: 0.999, noNaN: true }), anyTest,
      (tasters, part, test) => {
        const correct = Math.floor(part * tasters);
        const { distance, low, high } = tasteDistance({ correct, tasters, test });
        expect(low).toBeLessThanOrEqual(distance as number);
        expect(high).toBeGreaterThanOrEqual(distance as number);
        if (correct / tasters <= 1 / 3) expect(distance).toBe(0);
      }), { numRuns: 60 });
  });
});

describe("tasteAlike", () => {
  it.each<[number, number, DiscriminationTest, number, number, number, boolean, number]>([
    // findcr of the R package sensR: 7 of 25 in a triangle shows at most 20 %. 26 of 64: .275096, exact (Clopper & Pearson).
    [7, 25, "triangle", 0.2, 0.95, 0.193313, true, 7],
    [26, 64, "triangle", 0.2, 0.95, 0.275096, false, 22],
    // SciPy 1.17.1: tests/reference/scripts/tasting_scores.py.
    [10, 30, "duo-trio", 0.3, 0.9, 0, true, 15],
    [30, 60, "paired", 0.2, 0.95, 0.225178, false, 29],
    [0, 12, "triangle", 0.2, 0.95, 0, true, 2],
    [12, 12, "triangle", 0.2, 0.95, 1, false, 2],
  ])("of %d of %d in a %s, at most %d with confidence %d", (correct, tasters, test, most, confidence, limit, alike, mostCorrect) => {
    const answer = tasteAlike({ correct, tasters, test, most, confidence });
    // The published limit has six decimals.
    expect(answer.discriminatorsAtMost).toBeCloseTo(limit, 6);
    expect([answer.alike, answer.mostCorrect]).toEqual([alike, mostCorrect]);
  });

  it("says alike exactly where the limit is below the share that matters", () => {
    fc.assert(fc.property(
      fc.integer({ min: 1, max: 300 }), fc.double({ min: 0, max: 1, noNaN: true }), anyTest,
      fc.double({ min: 0.01, max: 0.9, noNaN: true }), fc.constantFrom(0.8, 0.9, 0.95, 0.99),
      (tasters, part, test, most, confidence) => {
        const correct = Math.round(part * tasters);
        const { discriminatorsAtMost, alike, mostCorrect } = tasteAlike({ correct, tasters, test, most, confidence });
        // Where rounding decides there is nothing to hold.
        fc.pre(Math.abs(discriminatorsAtMost - most) > 1e-9);
        expect(alike).toBe(discriminatorsAtMost < most);
        if (typeof mostCorrect === "number") expect(alike).toBe(correct <= mostCorrect);
        else expect(alike).toBe(false);
      }), { numRuns: 200 });
  });

  it("says in words how many tasters it takes where no answer could show it", () => {
    const { mostCorrect, alike } = tasteAlike({ correct: 0, tasters: 4, test: "triangle" });
    expect(alike).toBe(false);
    expect(messageOf(mostCorrect)).toBe("Not even 0 correct answers of 4 would show that at most 20 in 100 tell the difference. With 45 tasters, a panel that can only guess shows it about half the time.");
    expect(tasteAlike({ correct: 15, tasters: 45, test: "triangle" }).alike).toBe(true);
    expect(tasteAlike({ correct: 15, tasters: 44, test: "triangle" }).alike).toBe(false);
    expect(messageOf(tasteAlike({ correct: 0, tasters: 4, test: "triangle", most: 0.001 }).mostCorrect)).toMatch(/10000 tasters would not be enough\.$/);
  });

  it("refuses more correct answers than tasters", () => {
    expect(problemOf(() => tasteAlike({ correct: 5, tasters: 4, test: "triangle" })).message).toBe("correct, 5, must be at most the number of tasters, 4.");
  });
});
