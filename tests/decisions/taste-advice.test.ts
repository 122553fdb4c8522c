import { describe, expect, it } from "vitest";
import { tasteAdvice, tasteRanksAdvice, type TasteAdvice } from "../../shared/decisions/taste-advice.ts";
import { binomialLower, binomialUpper } from "../../shared/statistics/distributions.ts";
import { studentizedRange } from "../../shared/statistics/studentized-range.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { worded } from "../../src/sheet/wording.ts";
import { chance } from "../simulated-log.ts";

const said = ({ branch, sentence, next }: TasteAdvice): string => `${branch}: ${worded(sentence, defaultUnits)} | ${worded(next, defaultUnits)}`;

describe("a test of difference", () => {
  it.each<[string, Parameters<typeof tasteAdvice>[0], string]>([
    ["nothing is answered", { correct: 0, test: "triangle", panel: 12 }, "1: Serve in the order shown. | Fix the number of tasters now."],
    ["nothing is planned either", { correct: 0, test: "triangle" }, "1: Serve in the order shown. | Fix the number of tasters now."],
    ["too few are planned", { correct: 0, test: "triangle", panel: 2 }, "2: 2 tasters cannot show it: take 3 or more. | "],
    ["too few have answered", { correct: 1, test: "duo-trio", tasters: 1 }, "2: 1 taster cannot show it: take 5 or more. | "],
    ["a lower risk takes more", { correct: 0, test: "triangle", panel: 4, significance: 0.01 }, "2: 4 tasters cannot show it: take 5 or more. | "],
    ["some are still to answer, however right the others", { correct: 8, test: "triangle", tasters: 8, panel: 12 }, "0: 8 of 12 in. | "],
    // Of 12, 8 are needed at 5 % (ISO 4120, table A.1); P(9 or more of 12) = .0039.
    ["they can tell", { correct: 9, test: "triangle", tasters: 12, panel: 12 }, "3: They can tell: 9 of 12 (8 needed); guessing gets that about once in 200 trials. | That says nothing of which is better."],
    ["just as many as are needed", { correct: 8, test: "triangle", tasters: 12, panel: 12 }, "3: They can tell: 8 of 12 (8 needed); guessing gets that about once in 50 trials. | That says nothing of which is better."],
    // P(1 or fewer of 18) = .0067.
    ["fewer than guessing gives", { correct: 1, test: "triangle", tasters: 18 }, "4: 1 of 18, fewer than guessing gives: check the key. | Were cups or codes swapped?"],
    // 25 tasters, 20 %: up to 7 (ISO 4120, B.3); at most .1933.
    ["alike enough", { correct: 7, test: "triangle", tasters: 25 }, "5: Treat them alike: at most 20 in 100 can tell (19 in 20). | For people who taste as these do."],
    ["one more is neither", { correct: 8, test: "triangle", tasters: 25 }, "6: Not shown: 8 of 25, 13 needed; nor shown alike. | 94 tasters would find it 4 times in 5 if 2 in 10 can tell."],
    ["alike enough where more may tell", { correct: 8, test: "triangle", tasters: 25, most: 0.3 }, "5: Treat them alike: at most 26 in 100 can tell (19 in 20). | For people who taste as these do."],
    ["a pair", { correct: 15, test: "paired", tasters: 20 }, "3: They can tell: 15 of 20 (15 needed); guessing gets that about once in 40 trials. | That says nothing of which is better."],
  ])("%s", (_, given, words) => expect(said(tasteAdvice(given))).toBe(words));

  it("claims a difference only where guessing reaches it seldom, and never before all are in", () => {
    for (let tasters = 3; tasters <= 60; tasters++) {
      for (let correct = 0; correct <= tasters; correct++) {
        const { branch } = tasteAdvice({ correct, test: "triangle", tasters });
        expect(branch === 3).toBe(binomialUpper(correct, tasters, 1 / 3) <= 0.05);
        if (branch === 4) expect(binomialLower(correct, tasters, 1 / 3)).toBeLessThan(0.025);
        if (tasters < 60) expect([0, 2]).toContain(tasteAdvice({ correct, test: "triangle", tasters, panel: 61 }).branch);
      }
    }
  });
});

/** Columns from rows, as a table of ranks is typed. */
const columnsOf = (rows: readonly (readonly (number | null)[])[]): (number | null)[][] => rows[0]!.map((_, column) => rows.map((row) => row[column]!));
const times = (count: number, row: readonly (number | null)[]): (readonly (number | null)[])[] => Array.from({ length: count }, () => row);

describe("a ranking", () => {
  type Asked = Parameters<ReturnType<typeof tasteRanksAdvice>>[0] & { readonly samples?: readonly string[] };
  it.each<[string, readonly (readonly (number | null)[])[], Asked, string]>([
    ["nothing is typed", times(8, [null, null, null]), {}, "1: Type two tasters’ ranks. | "],
    ["one taster", [[1, 2, 3], [null, null, null]], {}, "1: Type two tasters’ ranks. | "],
    ["one taster’s scores", [[6, 7, 8]], { given: "scores" }, "1: Type two tasters’ scores. | "],
    ["some are still to come", [...times(7, [1, 2, 3]), [2, 1, null]], { panel: 8 }, "0: 7 of 8 in. | "],
    ["no order", [[1, 2, 3], [3, 1, 2], [2, 3, 1], [1, 3, 2]], {}, "2: No common order is shown. | That does not show that they are alike."],
    ["one ahead of all", times(8, [2, 1, 3]).map((row, index) => (index % 2 === 0 ? row : [3, 1, 2])), { samples: ["Ada", "bee", "Cod"] }, "3: Bee is liked best, ahead of all. | Such an order would come about once in 500 trials by chance."],
    ["two, ahead of the others", [...times(5, [1, 2, 3, 4]), ...times(5, [2, 1, 4, 3])], {}, "4: A or B, ahead of C and D. | Such an order would come less than once in 1,000 trials by chance."],
    ["one ahead of the last only", times(4, [1, 2, 3]), {}, "5: A is ahead of C; no favourite is shown. | Such an order would come about once in 200 trials by chance."],
    ["an order of which no two are apart", [[2, 4, 1, 3], [2, 1, 3, 4], [1, 2, 4, 3], [2, 1, 3, 4], [1, 2, 3, 4], [2, 1, 4, 3]], {}, "6: An order is shown, no favourite. | Such an order would come about once in 30 trials by chance."],
    ["one ahead of the last at a higher risk", [[1, 2, 3], [1, 2, 3], [1, 3, 2], [1, 2, 3], [2, 1, 3]], { significance: 0.1 }, "5: A is ahead of C; no favourite is shown. | Such an order would come about once in 25 trials by chance."],
    ["scores, the highest liked best", times(9, [5, 8, 6]).map((row, index) => (index < 5 ? row : [6, 8, 5])), { given: "scores" }, "3: B is liked best, ahead of all. | Such an order would come less than once in 1,000 trials by chance."],
    ["a column that is blank is no sample", times(8, [2, null, 1, 3]), {}, "5: C is ahead of D; no favourite is shown. | Such an order would come less than once in 1,000 trials by chance."],
  ])("%s", (_, rows, { samples, ...asked }, words) => expect(said(tasteRanksAdvice({ ranks: columnsOf(rows), samples })(asked))).toBe(words));

  it("takes the distances of Nemenyi's test", () => {
    // Demšar (2006), J. Mach. Learn. Res. 7:1, table 5a: the quantile of the range over √2, for 2 to 5 samples.
    const published = { 2: 1.96, 3: 2.343, 4: 2.569, 5: 2.728 };
    for (const [samples, value] of Object.entries(published)) {
      // Printed to 3 decimals, some cut rather than rounded.
      expect(Math.abs(studentizedRange(Number(samples)).quantileUpper(0.05, Infinity) / Math.SQRT2 - value)).toBeLessThan(0.001);
    }
  });

  it("names a favourite, or one ahead of another, at most 6 times in 100 where nobody has a preference", () => {
    const { even } = chance(7);
    const shuffled = (count: number): number[] => {
      const ranks = Array.from({ length: count }, (_, index) => index + 1);
      for (let place = count - 1; place > 0; place--) {
        const other = Math.floor(even() * (place + 1));
        [ranks[place], ranks[other]] = [ranks[other]!, ranks[place]!];
      }
      return ranks;
    };
    for (const [tasters, samples] of [[6, 3], [8, 4], [12, 5], [24, 4]] as const) {
      let claimed = 0;
      const trials = 1500;
      for (let trial = 0; trial < trials; trial++) {
        const { branch } = tasteRanksAdvice({ ranks: columnsOf(Array.from({ length: tasters }, () => shuffled(samples))) })({});
        if (branch >= 3) claimed++;
      }
      // 5 % and three standard errors of the count.
      expect(claimed / trials).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / trials));
    }
  });
});
