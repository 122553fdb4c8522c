import { describe, expect, it } from "vitest";
import { tasteAgreement } from "../../shared/tasting/agreement.ts";
import { tasteRanks } from "../../shared/tasting/ranking.ts";
import { messageOf, problemOf } from "../problem-of.ts";

describe("agreement of tasters", () => {
  it("is that of Shrout & Fleiss (1979), table 2: ICC(2,1) .2898, ICC(3,1) .7148, ICC(3,k) .9093", () => {
    // Their six targets across, their four judges down. The printed .29, .71 and .91, recomputed to four decimals.
    const it = tasteAgreement({ scores: [[9, 6, 8, 7, 10, 6], [2, 1, 4, 1, 5, 2], [5, 3, 6, 2, 6, 4], [8, 2, 8, 6, 9, 7]] });
    expect(it.oneTaster).toBeCloseTo(0.2898, 4);
    expect(it.oneTasterLevelled).toBeCloseTo(0.7148, 4);
    expect(it.meanOfTasters).toBeCloseTo(0.9093, 4);
  });

  it("has the W of ISO 8587's example: eight tasters, five samples, rank sums 17, 31, 32, 23 and 17 give .33125", () => {
    // Rankings made to have those sums, on which alone W depends; as scores they run the other way.
    const ranks = [[1, 4, 5, 2, 3], [1, 5, 4, 3, 2], [2, 1, 5, 3, 4], [1, 3, 4, 5, 2], [3, 4, 5, 2, 1], [5, 4, 2, 3, 1], [3, 5, 4, 1, 2], [1, 5, 3, 4, 2]];
    expect([0, 1, 2, 3, 4].map((column) => ranks.reduce((sum, row) => sum + row[column]!, 0))).toEqual([17, 31, 32, 23, 17]);
    const it = tasteAgreement({ scores: ranks.map((row) => row.map((rank) => 6 - rank)) });
    expect(it.concordance).toBeCloseTo(0.33125, 12);
    expect(it.p).toBe(tasteRanks({ ranks })({}).p);
  });

  it("corrects for ties, and its chance is exact for small panels", () => {
    // SciPy's ranks, and every order of every taster's own ranks: tests/reference/scripts/tasting_scores.py.
    const it = tasteAgreement({ scores: [[7, 5, 5, 8], [6, 6, 4, 9], [5, 4, 3, 6]] });
    const expected = [0.9404761904761905, 0.006944444444444444, 0.6335877862595419, 0.846938775510204, 0.9431818181818181];
    [it.concordance, it.p, it.oneTaster, it.oneTasterLevelled, it.meanOfTasters].forEach((value, index) => expect(value).toBeCloseTo(expected[index]!, 12));
  });

  it("is whole where all order alike, and 0 or less where they oppose each other", () => {
    const same = tasteAgreement({ scores: [[1, 2, 3], [2, 4, 9], [5, 6, 7]] });
    expect(same.concordance).toBeCloseTo(1, 12);
    const opposed = tasteAgreement({ scores: [[1, 2], [2, 1]] });
    expect(opposed.concordance).toBe(0);
    expect(messageOf(opposed.oneTaster)).toMatch(/^All samples have the same mean score/);
    expect(opposed.oneTasterLevelled).toBe(-1);
    expect(messageOf(opposed.meanOfTasters)).toMatch(/^All samples have the same mean score/);
  });

  it.each<[string, number[][], RegExp]>([
    ["one taster", [[1, 2, 3]], /^scores holds fewer than two tasters/],
    ["one sample", [[1], [2]], /^scores holds fewer than two samples/],
    ["no differences", [[3, 3], [4, 4]], /^Every taster scored all samples alike/],
  ])("has no answer for %s", (_, scores, words) => {
    const refusal = problemOf(() => tasteAgreement({ scores }));
    expect(refusal.kind).toBe("no answer");
    expect(refusal.message).toMatch(words);
  });
});
