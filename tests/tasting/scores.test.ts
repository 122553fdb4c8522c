import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../../shared/problem.ts";
import { tasteScores, tasteScoresTest } from "../../shared/tasting/scores.ts";
import { messageOf, problemOf } from "../problem-of.ts";

/** Made data: repeats, and gaps: Cleo never had C. Values by NumPy and SciPy: tests/reference/scripts/tasting_scores.py. */
const withGaps = {
  tasters: ["Ann", "Ann", "Ann", "Ann", "Ann", "Ben", "Ben", "Ben", "Ben", "Cleo", "Cleo", "Cleo", "Dan", "Dan", "Dan", "Dan"],
  samples: ["A", "A", "B", "C", "C", "A", "B", "B", "C", "A", "A", "B", "A", "B", "B", "C"],
  scores: [6.5, 7, 5, 4, 5, 8, 7.5, 6.5, 5.5, 5, 6, 4, 7, 6, 6, 5],
};

function lists(rows: readonly (readonly number[])[]): { tasters: string[]; samples: string[]; scores: number[] } {
  const all = rows.flatMap((row, taster) => row.map((score, sample) => ({ taster: `taster ${taster}`, sample: `cup ${sample}`, score })));
  return { tasters: all.map(({ taster }) => taster), samples: all.map(({ sample }) => sample), scores: all.map(({ score }) => score) };
}

/** Ratings of Shrout & Fleiss (1979), table 2, their six targets as cups and their four judges as tasters. */
const ratings = [[9, 6, 8, 7, 10, 6], [2, 1, 4, 1, 5, 2], [5, 3, 6, 2, 6, 4], [8, 2, 8, 6, 9, 7]];

function close(value: unknown, expected: number): void {
  // Both sides solve a small least-squares problem in double precision.
  expect(Math.abs((value as number) - expected)).toBeLessThan(1e-11);
}

describe("scores of several tasters", () => {
  it("average repeats, count who scored, and fill gaps by least-squares means", () => {
    const table = tasteScores(withGaps);
    expect(table.map(({ sample, tasters, group }) => [sample, tasters, group])).toEqual([["A", 4, "a"], ["B", 4, "b"], ["C", 3, "c"]]);
    const expected = [
      [6.8125, 6.469170510350189, 7.155829489649806], [5.5, 5.1566705103501915, 5.8433294896498085], [4.53125, 4.110758968353905, 4.951741031646095],
    ];
    table.forEach(({ meanValue, low, high }, row) => [meanValue, low, high].forEach((value, column) => close(value, expected[row]![column]!)));
    const { f, df1, df2, p } = tasteScoresTest(withGaps);
    expect([df1, df2]).toEqual([2, 5]);
    close(f, 61.14963503649633);
    close(p, 0.00030574560805360536);
  });

  it("give letters as Tukey's pairs do", () => {
    // SciPy's pairs of these ratings that differ at 5 %: UV, VW, VY, WX, XY, YZ.
    const letters = tasteScores(lists(ratings)).map(({ group }) => group as string);
    const apart = (a: number, b: number): boolean => ![...letters[a]!].some((letter) => letters[b]!.includes(letter));
    const pairs = [0, 1, 2, 3, 4, 5].flatMap((a) => [0, 1, 2, 3, 4, 5].filter((b) => b > a && apart(a, b)).map((b) => `UVWXYZ`[a]! + `UVWXYZ`[b]!));
    expect(pairs).toEqual(["UV", "VW", "VY", "WX", "XY", "YZ"]);
  });

  it("do not mind how high each taster scores, nor how often a cell was tasted", () => {
    const level = fc.double({ min: -50, max: 50, noNaN: true });
    fc.assert(fc.property(fc.array(level, { minLength: 4, maxLength: 4 }), (levels) => {
      const plain = tasteScoresTest(lists(ratings));
      const shifted = tasteScoresTest(lists(ratings.map((row, taster) => row.map((score) => score + levels[taster]!))));
      expect(shifted.f).toBeCloseTo(plain.f, 8);
      const once = lists(ratings);
      const twice = { tasters: [...once.tasters, ...once.tasters], samples: [...once.samples, ...once.samples], scores: [...once.scores, ...once.scores] };
      expect(tasteScoresTest(twice)).toEqual(plain);
    }), { numRuns: 20 });
  });

  it("know a taster by any spelling, and bring numbered samples in order", () => {
    const table = tasteScores({ tasters: ["Ann", "ann ", "Ben", "Ben", "ANN", "ben"], samples: [10, 9, "9", 10, 10, 9], scores: [5, 3, 4, 7, 5.5, 4.5] });
    expect(table.map(({ sample, tasters }) => [sample, tasters])).toEqual([[9, 2], [10, 2]]);
  });

  it.each<[string, { tasters: string[]; samples: string[]; scores: number[] }, RegExp]>([
    ["one sample", lists([[5], [6]]), /^There is only sample “cup 0”, so there is nothing to compare it with\.$/],
    ["one taster", lists([[5, 6, 7]]), /^No two tasters scored the same two samples/],
    ["tasters who agree to the last digit", lists([[5, 6, 7.1], [2, 3, 4.1]]), /^All tasters see the same differences/],
  ])("keep the means where there is nothing to judge by: %s", (_, data, words) => {
    for (const { meanValue, low, high, group } of tasteScores(data)) {
      expect(Number.isFinite(meanValue)).toBe(true);
      for (const cell of [low, high, group]) expect(messageOf(cell)).toMatch(words);
    }
    const refusal = problemOf(() => tasteScoresTest(data));
    expect(refusal.kind).toBe("no answer");
    expect(refusal.message).toMatch(words);
  });

  it("refuse samples that no taster links", () => {
    const apart = { tasters: ["Ann", "Ann", "Ben", "Ben"], samples: ["A", "B", "C", "D"], scores: [5, 6, 7, 8] };
    expect(problemOf(() => tasteScores(apart)).message).toBe(
      "No taster links sample “A” with “C”, so what differs may be the tasters and not the samples. Let one taster score both.",
    );
    // One taster who had both is enough for means.
    expect(tasteScores({ tasters: [...apart.tasters, "Cleo", "Cleo"], samples: [...apart.samples, "A", "C"], scores: [...apart.scores, 5, 6] })).toHaveLength(4);
  });

  it("refuse nothing at all, and a column of something else", () => {
    expect(problemOf(() => tasteScores({ tasters: [], samples: [], scores: [] })).message).toMatch(/^There is no score/);
    const many = Array.from({ length: 61 }, (_, row) => row);
    expect(problemOf(() => tasteScores({ tasters: many.map(() => "Ann"), samples: many, scores: many })).message).toMatch(/61 different samples.*right column/);
  });

  it("hold 5 % of false alarms where tasters differ but samples do not", () => {
    // 400 panels from a fixed generator: 4 tasters of different levels, 4 samples, 2 tastings of each; one binomial spread is 1.1 %.
    let state = 12345;
    const uniform = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
    let alarms = 0;
    for (let panel = 0; panel < 400; panel++) {
      const rows = [0, 1, 2, 3].flatMap((taster) => [0, 1, 2, 3].flatMap((sample) => {
        const own = 3 * taster + normal();
        return [own, own].map((level) => ({ taster, sample, score: level + 0.3 * normal() }));
      }));
      const column = (name: "taster" | "sample" | "score"): number[] => rows.map((row) => row[name]);
      const { p } = tasteScoresTest({ tasters: column("taster"), samples: column("sample"), scores: column("score") });
      if (p < 0.05) alarms++;
    }
    expect(alarms / 400).toBeGreaterThan(0.05 - 3.5 * 0.011);
    expect(alarms / 400).toBeLessThan(0.05 + 3.5 * 0.011);
  });
});

it("gives a refusal as a value only where the means stand", () => {
  expect(tasteScores(lists([[5], [6]]))[0]!.low).toBeInstanceOf(Problem);
});
