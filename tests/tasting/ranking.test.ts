import { describe, expect, it } from "vitest";
import * as ranking from "../../shared/tasting/ranking.ts";
import { problemOf } from "../problem-of.ts";
import { CellError, grid } from "../worksheet.ts";

const plainRanks = (tasters: number, samples: number): number[][] =>
  Array.from({ length: tasters }, () => Array.from({ length: samples }, (_, index) => index + 1));

/** Classic tables of exact critical values, from memory: [tasters, 5 %, 1 %]; NaN where none is attainable. */
const friedmanTable: Record<number, number[][]> = {
  3: [[3, 6, NaN], [4, 6.5, 8], [5, 6.4, 8.4], [6, 7, 9], [7, 7.143, 8.857], [8, 6.25, 9], [9, 6.222, 9.556], [10, 6.2, 9.6]],
  4: [[2, 6, NaN], [3, 7.4, 9], [4, 7.8, 9.6], [5, 7.8, 9.96], [6, 7.6, 10.2], [7, 7.8, 10.543], [8, 7.65, 10.5]],
  5: [[3, 8.533, 10.133], [4, 8.8, 11.2], [5, 8.96, 11.68]],
};

describe.each(Object.entries(friedmanTable))("exact Friedman chances for %s samples", (samples, table) => {
  it.each(table)("meet the critical values of %d tasters, %d and %d", (tasters, ...critical) => {
    const k = Number(samples);
    const ranks = plainRanks(tasters, k);
    const squaresAt = (f: number): number => Math.round(((f + 3 * tasters * (k + 1)) * tasters * k * (k + 1)) / 12);
    [0.05, 0.01].forEach((significance, index) => {
      if (Number.isNaN(critical[index])) return expect(ranking.exactFriedman(ranks, squaresAt(tasters * (k - 1)))).toBeGreaterThan(significance);
      const squares = squaresAt(critical[index]!);
      const chance = ranking.exactFriedman(ranks, squares);
      expect(chance).toBeLessThanOrEqual(significance);
      let below = squares - 1;
      while (ranking.exactFriedman(ranks, below) === chance) below--;
      expect(ranking.exactFriedman(ranks, below)).toBeGreaterThan(significance);
    });
  });
});

/** Page (1963), J. Am. Stat. Assoc. 58:216, from memory: [tasters, 5 %, 1 %, 0.1 %]; NaN where none is attainable. */
const pageTable: Record<number, number[][]> = {
  3: [[2, 28, NaN, NaN], [3, 41, 42, NaN], [4, 54, 55, 56], [5, 66, 68, 70], [6, 79, 81, 83], [7, 91, 93, 96],
    [8, 104, 106, 109], [9, 116, 119, 121], [10, 128, 131, 134]],
  4: [[2, 58, 60, NaN], [3, 84, 87, 89], [4, 111, 114, 117], [5, 137, 141, 145], [6, 163, 167, 172], [8, 214, 220, 225], [10, 266, 272, 278]],
  5: [[3, 150, 155, 160], [5, 244, 251, 259], [10, 477, 487, 499]],
};

describe.each(Object.entries(pageTable))("exact chances of Page's L for %s samples", (samples, table) => {
  it.each(table)("meet the critical values of %d tasters", (tasters, ...critical) => {
    const ranks = plainRanks(tasters, Number(samples));
    [0.05, 0.01, 0.001].forEach((significance, index) => {
      const value = critical[index]!;
      if (Number.isNaN(value)) return;
      expect(ranking.exactPage(ranks, value)).toBeLessThanOrEqual(significance);
      expect(ranking.exactPage(ranks, value - 1)).toBeGreaterThan(significance);
    });
  });
});

describe("rankings", () => {
  it("go over from exact to approximate without a jump", () => {
    // Page's own normal approximation for 3 samples and 20 tasters at 5 %: L = 250.404.
    const ranks = plainRanks(20, 3);
    expect(ranking.exactPage(ranks, 251)).toBeLessThan(0.05);
    expect(ranking.exactPage(ranks, 249)).toBeGreaterThan(0.05);
  });

  it("refuse what is no ranking and say what it should be", () => {
    const problem = problemOf(() => ranking.tasteRanks({ ranks: [[1, 2, 3, 4], [1, 2, 2, 4]] })({}));
    expect(problem.kind).toBe("bad input");
    expect(problem.message).toContain("Taster 2");
    expect(problem.message).toContain("1, 2.5, 2.5, 4");
  });

  it("take scores, the highest first, ties and all", () => {
    const scores = [[7.5, 4, 6], [8, 0, 8], [-1, -3, -2], [5, 4, 3]];
    const ranks = [[1, 3, 2], [1.5, 3, 1.5], [1, 3, 2], [1, 2, 3]];
    expect(ranking.tasteRanks({ ranks: scores })({ given: "scores" })).toEqual(ranking.tasteRanks({ ranks })({}));
    expect(ranking.tasteTrend({ ranks: scores })({ given: "scores" })).toEqual(ranking.tasteTrend({ ranks })({}));
    const alike = problemOf(() => ranking.tasteRanks({ ranks: [[5, 5], [3, 3]] })({ given: "scores" }));
    expect([alike.kind, alike.message]).toEqual(["no answer", "Every taster scored all samples alike, so there is nothing to compare."]);
  });

  it("tell who gives scores for ranks what to do", () => {
    expect(problemOf(() => ranking.tasteRanks({ ranks: [[7, 4, 6], [8, 3, 7]] })({})).message).toMatch(/Scores are taken with given “scores”\.$/);
  });

  it.each([[[[1, 2, 3]]], [[[1], [1]]], [[[2, 2, 2], [2, 2, 2]]]])("have no answer for %j", (ranks) => {
    expect(problemOf(() => ranking.tasteRanks({ ranks })({})).kind).toBe("no answer");
    expect(problemOf(() => ranking.tasteTrend({ ranks })({})).kind).toBe("no answer");
  });

  it("leave out wholly blank rows and columns, and refuse a single blank", () => {
    const full = [[1, 2, 3], [1, 3, 2], [2, 1, 3]];
    const spaced = [[1, 2, 3, ""], ["", "", "", ""], [1, 3, 2, ""], [2, 1, 3, null]];
    expect(grid("TASTE.RANKS", spaced)).toEqual(grid("TASTE.RANKS", full));
    const [cell] = grid("TASTE.RANKS", [[1, 2, 3], [1, "", 2], [2, 1, 3]])[0]!;
    expect((cell as CellError).message).toContain("row 2, column 2");
  });
});
