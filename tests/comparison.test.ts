import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as formulas from "../shared/comparison/index.ts";
import { letterDisplay } from "../shared/comparison/compare.ts";
import type { TestMethod } from "../shared/comparison/overall-test.ts";
import { Problem } from "../shared/problem.ts";
import { chiSquareUpper } from "../shared/statistics/distributions.ts";
import sets from "./reference/numerics/nist-regression.json";
import cases from "./reference/numerics/group-tests.json";
import { messageOf, problemOf } from "./problem-of.ts";
import { column, nistRows } from "./statistics/nist.ts";
import { call, CellError, grid } from "./worksheet.ts";

type Lists = Parameters<typeof formulas.compareTest>[0];

/** The formulas with their lists and what is asked of them together, as one cell asks. */
const comparison = {
  ...formulas,
  compareTest: ({ method, ...lists }: Lists & { method?: TestMethod }) => formulas.compareTest(lists)({ method }),
  equivalent: ({ first, second, ...asked }: { first: number[]; second: number[]; margin: number; confidence?: number }) =>
    formulas.equivalent({ first, second })(asked),
  bestSetting: ({ confidence, ...lists }: Parameters<typeof formulas.bestSetting>[0] & { confidence?: number }) => formulas.bestSetting(lists)({ confidence }),
};

function listed(groups: readonly (readonly number[])[]): { settings: number[]; results: number[] } {
  return { settings: groups.flatMap((group, index) => group.map(() => index)), results: groups.flat() };
}

/** The allowance for rounding where SciPy works with the same digits: results near 20 with a spread down to 0.001 keep 11. */
function expectClose(value: unknown, expected: number, allowed = 1e-9): void {
  expect(value).toBeTypeOf("number");
  expect(Math.abs((value as number) - expected), `${String(value)} against ${expected}`).toBeLessThanOrEqual(allowed * Math.max(1, Math.abs(expected)));
}

describe("random trials, unbalanced, with ties, down to tiny spreads, against SciPy 1.17.1", () => {
  it.each(cases.map((one, index) => ({ index, one })))("trial $index", ({ one }) => {
    const data = listed(one.groups);
    const equal = comparison.compareTest({ ...data, method: "equal" });
    expectClose(equal.statistic, one.equal[0]!);
    expectClose(equal.p, one.equal[1]!);
    const unequal = comparison.compareTest({ ...data, method: "unequal" });
    expectClose(unequal.statistic, one.unequal[0]!);
    expectClose(unequal.p, one.unequal[1]!);
    const rank = comparison.compareTest({ ...data, method: "rank" });
    expectClose(rank.statistic, one.rank[0]!);
    expectClose(rank.p, one.rank[1]!);
    for (const [method, expected] of [["equal", one.tukey], ["unequal", one.gamesHowell]] as const) {
      comparison.comparePairs({ ...data, method }).forEach((pair, index) => {
        const [low, high, p] = expected[index] as [number, number, number];
        // SciPy finds its own quantile only to some 1e-8 of the interval's width.
        const width = 1e-7 * (high - low) + 1e-11;
        expect(Math.abs((pair.low as number) - low)).toBeLessThan(width);
        expect(Math.abs((pair.high as number) - high)).toBeLessThan(width);
        expectClose(pair.p, p, 1e-8);
      });
    }
    const [, df, , low, high] = one.welchT as [number, number, number, number, number];
    const same = comparison.equivalent({ first: one.groups[0]!, second: one.groups[1]!, margin: 1 });
    expectClose(same.low, low);
    expectClose(same.high, high);
    expect(df).toBeGreaterThanOrEqual(1);
  });

  it.each(cases.filter(({ block }) => block.length > 2).map((one, index) => ({ index, one })))("rank correlation of block $index", ({ one }) => {
    const { rho, p } = comparison.rankCorrelation({ first: column(one.block, 0), second: column(one.block, 1) });
    expectClose(rho, one.spearman[0]!);
    expect(p).toBeGreaterThan(0);
    expect(p).toBeLessThanOrEqual(1);
  });
});

describe("NIST StRD one-way analysis of variance, certified F", () => {
  // Digits that double arithmetic can keep: SmLs07 has a spread of 0.1 on numbers near 1e12.
  it.each([
    ["SiRstv.dat", 1.18046237440255, 1e-12],
    ["AtmWtAg.dat", 15.9467335677930, 1e-9],
    ["SmLs01.dat", 21, 1e-12],
    ["SmLs07.dat", 21, 1e-3],
  ] as const)("%s", (file, certified, allowed) => {
    const rows = nistRows(file);
    const { statistic } = comparison.compareTest({ settings: column(rows, 0), results: column(rows, 1), method: "equal" });
    expect(Math.abs(statistic / certified - 1)).toBeLessThan(allowed);
  });
});

describe("letters", () => {
  const relation = fc.integer({ min: 1, max: 7 }).chain((size) =>
    fc.record({ size: fc.constant(size), bits: fc.array(fc.boolean(), { minLength: size * size, maxLength: size * size }) }));

  it("are shared exactly where two settings are not told apart", () => {
    fc.assert(
      fc.property(relation, ({ size, bits }) => {
        const apart = (a: number, b: number): boolean => a !== b && bits[Math.min(a, b) * size + Math.max(a, b)]!;
        const items = Array.from({ length: size }, (_, index) => index);
        const letters = letterDisplay(items, apart)!;
        for (const a of items) {
          expect(letters.get(a)).toMatch(/^[a-z]+$/);
          for (const b of items) expect([...letters.get(a)!].some((one) => letters.get(b)!.includes(one))).toBe(!apart(a, b));
        }
        expect(letters.get(0)).toMatch(/^a/);
      }),
    );
  });

  it("agree with the pairs", () => {
    for (const one of cases) {
      const data = listed(one.groups);
      const letters = comparison.compare(data).map(({ group }) => group as string);
      for (const { first, second, p } of comparison.comparePairs(data)) {
        const shared = [...letters[first as number]!].some((letter) => letters[second as number]!.includes(letter));
        expect(shared).toBe((p as number) >= 0.05);
      }
    }
  });
});

describe("p of a rank correlation", () => {
  const upTo = (n: number): number[] => Array.from({ length: n }, (_, index) => index);

  it("is never below 2 ÷ n!, which perfect agreement has where all orders are counted", () => {
    let factorial = 2;
    for (let n = 3; n <= 20; n++) {
      factorial *= n;
      for (const second of [upTo(n), upTo(n).reverse()]) {
        const { rho, p } = comparison.rankCorrelation({ first: upTo(n), second });
        expect(Math.abs(rho)).toBe(1);
        if (n <= 14) expect(p * factorial).toBeCloseTo(2, 9);
        else expect(p * factorial).toBeGreaterThanOrEqual(2);
      }
    }
  });

  // All orders of 15 pairs counted outside (tests/reference/scripts/rank-correlation.py): a small p may be made out too large, never too small.
  it("is on the safe side where it is approximated", () => {
    const { p } = comparison.rankCorrelation({ first: upTo(15), second: [4, 2, 6, 1, 5, 3, 11, 8, 9, 14, 7, 10, 13, 12, 15] });
    expect(p).toBeGreaterThan(0.00020467);
    expect(p).toBeLessThan(2 * 0.00020467);
  });

  it("does not depend on which list is first, nor on turning one round", () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 })), { minLength: 3, maxLength: 12 }), (pairs) => {
        const [first, second] = [pairs.map(([a]) => a), pairs.map(([, b]) => b)];
        fc.pre(new Set(first).size > 1 && new Set(second).size > 1);
        const { rho, p } = comparison.rankCorrelation({ first, second });
        const turned = comparison.rankCorrelation({ first: second, second: first.map((value) => -value) });
        expect(turned.rho).toBeCloseTo(-rho, 12);
        expect(turned.p).toBeCloseTo(p, 12);
        expect(p).toBeLessThanOrEqual(1);
      }),
      { numRuns: 60 },
    );
  });
});

describe("too little to judge by is said in words", () => {
  const one = { settings: [6, 6, 8, 8, 9], results: [20, 20.4, 20.6, 20.9, 20.3] };

  it("a setting with one shot shows its mean and no spread", () => {
    const [, , alone] = comparison.compare(one);
    expect(alone).toMatchObject({ setting: 9, shots: 1, meanValue: 20.3 });
    for (const cell of [alone!.sdValue, alone!.low, alone!.high]) expect(messageOf(cell)).toContain("Setting 9 has only one shot");
    expect(comparison.compare(one).map(({ group }) => group)).toEqual(["a", "a", "a"]);
    const own = comparison.compare({ ...one, method: "unequal" }).map(({ group }) => group);
    expect(own.slice(0, 2)).toEqual(["a", "a"]);
    expect(messageOf(own[2])).toContain("Setting 9 has only one shot");
  });

  it("its pairs have a difference, and a p only where the spread is pooled", () => {
    const [, unknown] = comparison.comparePairs({ ...one, method: "unequal" });
    expect(unknown).toMatchObject({ first: 6, second: 9 });
    expect(unknown!.p).toBeInstanceOf(Problem);
    expect(comparison.comparePairs(one)[1]!.p).toBeTypeOf("number");
    expect(problemOf(() => comparison.compareTest({ ...one, method: "unequal" })).message).toContain("Setting 9 has only one shot");
  });

  it("one setting only, no repeats, no spread", () => {
    const same = { settings: [6, 6, 6], results: [20, 20.1, 20.3] };
    expect(problemOf(() => comparison.compareTest(same)).message).toContain("nothing to compare");
    expect(problemOf(() => comparison.comparePairs(same)).message).toContain("nothing to compare");
    expect(messageOf(comparison.compare(same)[0]!.group)).toContain("only one setting");
    const single = { settings: [6, 8, 9], results: [20, 20.1, 20.3] };
    for (const method of ["equal", "unequal", "rank"] as const) expect(problemOf(() => comparison.compareTest({ ...single, method })).message).toMatch(/only one shot/);
    const flat = { settings: [6, 6, 8, 8], results: [20.1, 20.1, 20.2, 20.2] };
    for (const method of ["equal", "unequal"] as const) expect(problemOf(() => comparison.compareTest({ ...flat, method })).message).toContain("all alike");
    expect(comparison.comparePairs({ ...flat, method: "unequal" })[0]!.p).toBeInstanceOf(Problem);
    expect(problemOf(() => comparison.comparePairs(flat)).message).toContain("all alike");
    expect(comparison.compare(flat).map(({ group }) => group)).toEqual([expect.any(Problem), expect.any(Problem)]);
    // 0.1 + 0.2 differs from 0.3 by rounding alone
    const rounding = { settings: [6, 6, 8, 8], results: [0.1 + 0.2, 0.3, 0.4, 0.4] };
    expect(problemOf(() => comparison.compareTest({ ...rounding, method: "equal" })).message).toContain("all alike");
    expect(problemOf(() => comparison.compareTest({ settings: [6, 6, 8, 8], results: [1, 1, 1, 1], method: "rank" })).message).toContain("equal");
    expect(problemOf(() => comparison.equivalent({ first: [1], second: [1, 2], margin: 1 })).message).toContain("only one result");
    expect(problemOf(() => comparison.equivalent({ first: [1, 1], second: [2, 2], margin: 1 })).message).toContain("alike");
    expect(problemOf(() => comparison.rankCorrelation({ first: [1, 2], second: [1, 2] })).message).toContain("at least 3");
    expect(problemOf(() => comparison.rankCorrelation({ first: [1, 1, 1], second: [1, 2, 3] })).message).toContain("first");
    expect(problemOf(() => comparison.repeatability({ values: [1, 2], operators: ["a", "a"] })).message).toContain("one operator");
    expect(problemOf(() => comparison.repeatability({ values: [1, 2], operators: ["a", "b"] })).message).toContain("only one reading");
  });

  it("covariates that tell nothing apart", () => {
    const settings = [6, 6, 6, 8, 8, 8];
    const results = [20, 20.4, 20.5, 20.6, 20.9, 21];
    const adjust = (...covariates: number[][]): string => problemOf(() => comparison.compareAdjusted({ settings, results, covariates })).message;
    expect(adjust([28, 28, 28, 28, 28, 28])).toContain("same for all shots of each setting");
    expect(adjust([28, 28, 28, 30, 30, 30])).toContain("same for all shots of each setting");
    expect(adjust([27, 28, 29, 27, 29, 30], [54, 56, 58, 54, 58, 60])).toContain("follows from the others");
    expect(adjust([27, 28, 29, 27, 29, 30], [1, 3, 2, 2, 3, 4], [5, 4, 6, 1, 2, 9], [1, 0, 0, 1, 0, 1])).toContain("too few");
    expect(problemOf(() => comparison.compareAdjusted({ settings, results, covariates: [[27, 28, 29, 27, 29, 30]], at: [35] })).message).toContain("27 to 30");
    expect(problemOf(() => comparison.compareAdjusted({ settings, results, covariates: [[27, 28, 29, 27, 29, 30]], at: [28, 36] })).message).toContain("2 values");
  });

  it("slopes of their own need shots of their own", () => {
    const test = comparison.compareAdjustedTest({ settings: [6, 6, 8, 8, 9], results: [20, 20.4, 20.6, 20.9, 20.3], covariates: [[26, 28, 27, 29, 28]] });
    expect(test.slopesP).toBeInstanceOf(Problem);
    expect(test).toMatchObject({ df1: 2, df2: 1 });
  });

  it("hundreds of settings are a column given by mistake", () => {
    const results = Array.from({ length: 300 }, (_, index) => index);
    expect(problemOf(() => comparison.compare({ settings: results, results })).message).toContain("300 different settings");
  });
});

describe("the peak", () => {
  const x = [6, 6, 7, 7, 8, 8, 9, 9, 10, 10];
  const y = [19.2, 19.5, 20.4, 20.1, 20.9, 21.2, 20.8, 20.6, 19.9, 20.2];
  const refusal = (settings: number[], results: number[]): string => problemOf(() => comparison.bestSetting({ settings, results })).message;

  it("does not depend on where the settings start", () => {
    const far = comparison.bestSetting({ settings: x.map((value) => value + 1000), results: y });
    const near = comparison.bestSetting({ settings: x, results: y });
    for (const key of ["setting", "low", "high"] as const) expect((far[key] as number) - 1000).toBeCloseTo(near[key] as number, 9);
  });

  it("is refused where it lies outside: NIST Pontius, peak at 1.158e8, far beyond the data", () => {
    expect(refusal(sets.Pontius.x, sets.Pontius.y)).toMatch(/outside the settings tried/);
  });

  it("is refused where there is none", () => {
    expect(refusal(x, y.map((value) => -value))).toContain("lowest point");
    expect(refusal([1, 2, 3, 4, 5, 6], [1, 4.1, 8.9, 16, 25.1, 36])).toContain("without a peak");
    expect(refusal(x, x.map(() => 20))).toContain("alike");
    expect(refusal(x, [20.1, 19.8, 20.3, 19.9, 20.0, 20.4, 19.8, 20.2, 20.1, 19.9])).toContain("too flat");
    expect(refusal([6, 6, 8, 8], [1, 2, 3, 2])).toContain("only 2");
  });

  it("of three shots, or of shots without any spread, has no interval", () => {
    for (const best of [
      comparison.bestSetting({ settings: [6, 8, 10], results: [19, 21, 20] }),
      comparison.bestSetting({ settings: [6, 7, 8, 9, 10], results: [-4, -1, 0, -1, -4] }),
    ]) {
      expect(best.setting).toBeTypeOf("number");
      expect([best.low, best.high]).toEqual([expect.any(Problem), expect.any(Problem)]);
    }
  });

  it("moves its interval as confidence says, always round the peak", () => {
    let last = 0;
    for (const confidence of [0.5, 0.8, 0.95, 0.99]) {
      const { setting, low, high } = comparison.bestSetting({ settings: x, results: y, confidence });
      expect(low as number).toBeLessThan(setting);
      expect(high as number).toBeGreaterThan(setting);
      expect((high as number) - (low as number)).toBeGreaterThan(last);
      last = (high as number) - (low as number);
    }
  });
});

describe("the order of the runs", () => {
  it("is what it always was", () => {
    const order = (seed: number): string => comparison.runOrder({ settings: ["6", "8", "9", "10"], repeats: 3, seed }).map(({ setting }) => setting).join(" ");
    expect([order(1), order(2), order(3)]).toEqual(["8 9 10 6 9 6 10 8 10 6 8 9", "10 9 8 6 10 9 6 8 9 6 8 10", "9 10 8 6 9 8 10 6 8 10 9 6"]);
  });

  it("has every setting once in each block, and numbers the runs", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 2147483647 }), (count, repeats, seed) => {
        const settings = Array.from({ length: count }, (_, index) => index * 0.5);
        const order = comparison.runOrder({ settings, repeats, seed });
        expect(order.map(({ run }) => run)).toEqual(Array.from({ length: count * repeats }, (_, index) => index + 1));
        for (let block = 0; block < repeats; block++) {
          const part = order.slice(block * count, (block + 1) * count).map(({ setting }) => setting as number);
          expect(part.sort((a, b) => a - b)).toEqual(settings);
        }
      }),
    );
  });

  it("gives every order of a block equally often, whichever block", () => {
    const counts = [new Map<string, number>(), new Map<string, number>()];
    for (let seed = 1; seed <= 6000; seed++) {
      const order = comparison.runOrder({ settings: [6, 8, 9], repeats: 2, seed }).map(({ setting }) => setting);
      counts.forEach((count, block) => {
        const key = order.slice(block * 3, block * 3 + 3).join(" ");
        count.set(key, (count.get(key) ?? 0) + 1);
      });
    }
    for (const count of counts) {
      const misfit = [...count.values()].reduce((sum, seen) => sum + (seen - 1000) ** 2 / 1000, 0);
      expect(count.size).toBe(6);
      expect(chiSquareUpper(misfit, 5)).toBeGreaterThan(0.01);
    }
  });
});

describe("on the sheet", () => {
  it("a shot without a result yet is left out; text settings go by letter, whatever their case", () => {
    const table = grid("COMPARE", ["Fine", "coarse", "fine ", "Coarse", "fine"], [20.1, 19.2, 20.3, 19.4, ""]);
    expect(table.map((row) => row.slice(0, 2))).toEqual([["Setting", "Shots"], ["coarse", 2], ["Fine", 2]]);
  });

  it("an error in the results says where", () => {
    const cell = call("COMPARE", [6, 6, 8, 8], [20, new CellError("#DIV/0!"), 21, 21.2]) as CellError;
    expect(cell.message).toContain("row 2 of results holds the error #DIV/0!");
  });

  it("a setting or covariate that is missing for a shot with a result says where", () => {
    expect((call("COMPARE", [6, "", 8, 8], [20, 20.1, 21, 21.2]) as CellError).message).toContain("settings is blank in row 2");
    const covariates = [[26, 36], [28, ""], [27, 36], [29, 35], [28, 36]];
    expect((call("COMPARE.ADJUSTED", [6, 6, 6, 8, 8], [20, 20.1, 20.4, 21, 21.2], covariates) as CellError).message).toContain("covariates is blank in row 2");
    expect((call("COMPARE.ADJUSTED", [6, 6, 6, 8], [20, 20.1, 20.4, 21], [[26, 28], [27, 29], [28, 30]]) as CellError).message).toContain("3 rows");
  });

  it("lists may lie in rows, and each covariate in a column of its own", () => {
    const down = grid("COMPARE.ADJUSTED", [6, 6, 6, 8, 8, 8], [20, 20.1, 20.4, 21, 21.2, 21.1], [26, 28, 31, 29, 28, 30]);
    expect(grid("COMPARE.ADJUSTED", [[6, 6, 6, 8, 8, 8]], [[20, 20.1, 20.4, 21, 21.2, 21.1]], [[26, 28, 31, 29, 28, 30]])).toEqual(down);
    const two = [[26, 36], [28, 37], [31, 36], [29, 35], [28, 36], [30, 35.5], [27, 36]];
    const at = grid("COMPARE.ADJUSTED", [6, 6, 6, 8, 8, 8, 6], [20, 20.1, 20.4, 21, 21.2, 21.1, 20.3], two, [[28, 36]]);
    expect(at).toHaveLength(3);
    expect((call("COMPARE.ADJUSTED", [6, 6, 6, 8, 8, 8, 6], [20, 20.1, 20.4, 21, 21.2, 21.1, 20.3], two, 28) as CellError).message).toContain("at has 1 value");
  });
});
