import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bestSetting, bestTwo, compare, compareAdjusted, compareAdjustedTest, comparePairs, compareTest, equivalent, runDrift } from "../shared/comparison/index.ts";
import { Problem } from "../shared/problem.ts";
import { messageOf, problemOf } from "./problem-of.ts";
import { call, CellError, grid } from "./worksheet.ts";

/** Settings and days of a trial of four settings over three days, two shots missing. */
const settings = [90, 92, 94, 96, 94, 90, 96, 92, 92, 96];
const days = ["Mon", "Mon", "Mon", "Mon", "Tue", "Tue", "Tue", "Tue", "Wed", "Wed"];
const results = [20.1, 20.9, 21.6, 21.1, 20.7, 19.2, 20.5, 20.1, 21.3, 21.4];

describe("how the spread is chosen", () => {
  const used = (...counts: number[]): string => {
    const listed = counts.flatMap((count, setting) => new Array<number>(count).fill(setting));
    return compareTest({ settings: listed, results: listed.map((_, shot) => Math.sin(7 * shot)) })({}).methodUsed;
  };

  it.each([
    [[2, 2], "one spread"],
    [[3, 3, 3, 3], "one spread"],
    [[5, 6, 6], "one spread"],
    [[5, 7], "own spreads"],
    [[6, 6], "one spread"],
    [[6, 7, 7], "one spread"],
    [[6, 8], "own spreads"],
    [[7, 7], "own spreads"],
    [[12, 12, 12, 4], "own spreads"],
    [[2, 4], "own spreads"],
  ])("%j shots: %s", (counts, method) => {
    expect(used(...counts)).toBe(method);
  });

  it("is one with blocks, and no other goes with them", () => {
    const thrice = <T>(list: readonly T[]): T[] => [...list, ...list, ...list];
    const many = { settings: thrice(settings), blocks: thrice(days), results: thrice(results).map((it, shot) => it + Math.sin(shot * shot)) };
    expect(compareTest(many)({}).methodUsed).toBe("blocks");
    for (const method of ["unequal", "rank"] as const) expect(problemOf(() => compareTest(many)({ method })).kind).toBe("bad input");
    expect(problemOf(() => comparePairs({ ...many, method: "unequal" })).message).toContain("“equal”");
    expect(problemOf(() => compare({ ...many, method: "unequal" })).kind).toBe("bad input");
  });

  it("is the same for letters and pairs", () => {
    const uneven = { settings: [1, 1, 1, 1, 1, 2, 2, 3, 3, 3], results: [20, 20.2, 20.1, 19.9, 20, 20.8, 21.9, 20.9, 21, 21.1] };
    for (const method of [undefined, "equal", "unequal"] as const) {
      const letters = new Map(compare({ ...uneven, method }).map(({ setting, group }) => [setting, group as string]));
      for (const { first, second, p } of comparePairs({ ...uneven, method })) {
        expect([...letters.get(first)!].some((letter) => letters.get(second)!.includes(letter))).toBe((p as number) >= 0.05);
      }
    }
  });
});

describe("blocks", () => {
  const shift = fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 3, maxLength: 3 });

  it("are taken out: whatever a day adds to all its shots changes no test, no pair and no spread", () => {
    fc.assert(
      fc.property(shift, (added) => {
        const shifted = results.map((it, shot) => it + added[["Mon", "Tue", "Wed"].indexOf(days[shot]!)]!);
        const [plain, moved] = [results, shifted].map((list) => ({ settings, results: list, blocks: days })) as [Trial, Trial];
        expect(compareTest(moved)({}).statistic).toBeCloseTo(compareTest(plain)({}).statistic, 7);
        comparePairs(moved).forEach((pair, index) => expect(pair.p).toBeCloseTo(comparePairs(plain)[index]!.p as number, 9));
        expect(bestSetting(moved)({}).setting).toBeCloseTo(bestSetting(plain)({}).setting, 8);
        expect(compare(moved)[0]!.meanValue - compare(plain)[0]!.meanValue).toBeCloseTo((added[0]! + added[1]! + added[2]!) / 3, 9);
      }),
      { numRuns: 30 },
    );
  });

  it("that all shots share change nothing", () => {
    const alone = { settings, results };
    const together = { ...alone, blocks: settings.map(() => "Mon") };
    expect(compareTest(together)({ method: "equal" }).statistic).toBeCloseTo(compareTest(alone)({ method: "equal" }).statistic, 10);
    expect(compare(together).map(({ meanValue }) => meanValue)).toEqual(compare(alone).map(({ meanValue }) => expect.closeTo(meanValue, 10) as number));
  });

  it("are the same one for 1 and “1”, Mon and “mon ”", () => {
    const numbers = { settings: [1, 1, 2, 2, 1, 2], results: [20, 20.3, 20.9, 21.2, 19, 20.1], blocks: [1, "1", 1, " 1", 2, "2"] };
    expect(compareTest(numbers)({}).df2).toBe(3);
    expect(compareTest({ ...numbers, blocks: ["Mon", "mon ", "MON", "Mon", "Tue", "tue"] })({}).df2).toBe(3);
  });

  it("that no setting links with the others are refused, naming what to pull together", () => {
    const apart = { settings: [88, 88, 90, 90], results: [20, 20.3, 20.9, 21.2], blocks: ["Mon", "Mon", "Tue", "Tue"] };
    const said = "No block links setting 88 with 90, so what differs may be the blocks and not the settings. Pull both in one block.";
    const covariates = [[27, 28, 27, 29]];
    for (const run of [
      () => compare(apart),
      () => compareTest(apart)({}),
      () => comparePairs(apart),
      () => compareAdjusted({ ...apart, covariates }),
      () => compareAdjustedTest({ ...apart, covariates }),
    ]) expect(problemOf(run)).toEqual({ kind: "no answer", message: said });
    expect(problemOf(() => bestSetting({ ...apart, settings: [88, 89, 90, 91] })).message).toContain("No block links setting 88 with 90");
  });

  it("that use up all shots leave means, and no spread to judge them by", () => {
    const tight = { settings: [88, 90, 90, 92], results: [20, 20.3, 20.9, 21.2], blocks: [1, 1, 2, 2] };
    const rows = compare(tight);
    expect(rows.map(({ meanValue }) => meanValue)).toEqual([20.3, 20.6, 20.9].map((it) => expect.closeTo(it, 10) as number));
    for (const row of rows) expect(messageOf(row.low)).toContain("only as many shots as the settings and blocks need");
    expect(messageOf(rows[0]!.group)).toContain("no spread to judge by");
    expect(problemOf(() => comparePairs(tight)).message).toContain("only as many shots");
    const exact = { settings: [88, 90, 88, 90, 88, 90], results: [20, 21, 22, 23, 19.5, 20.5], blocks: [1, 1, 2, 2, 3, 3] };
    expect(problemOf(() => compareTest(exact)({})).message).toContain("to the last digit");
  });

  it("with a gap are refused with its place, where a shot has a result", () => {
    const gap = [...days.slice(0, 4), "", ...days.slice(5)];
    expect((call("COMPARE", settings, results, null, gap) as CellError).message).toContain("blocks is blank in row 5");
    const lost = results.map((it, shot) => (shot === 4 ? "" : it));
    expect(grid("COMPARE", settings, lost, null, gap)).toHaveLength(5);
    expect((call("COMPARE.TEST", settings, results, null, days.slice(1)) as CellError).message).toContain("equally long");
  });
});

type Trial = { settings: number[]; results: number[]; blocks: string[] };

describe("results near 900 million keep their digits", () => {
  // Sevenths are no binary fractions, halves are: only those lose nothing when 900 million is added.
  const small = results.map((_, shot) => Math.round(64 * Math.sin(shot * shot)) / 64);
  const large = small.map((it) => it + 900_000_000);

  it.each([
    ["COMPARE.TEST", (list: number[]) => compareTest({ settings, results: list })({}).statistic],
    ["COMPARE.TEST, blocks", (list: number[]) => compareTest({ settings, results: list, blocks: days })({}).statistic],
    ["COMPARE.PAIRS", (list: number[]) => comparePairs({ settings, results: list })[2]!.difference],
    ["COMPARE.PAIRS, own spreads", (list: number[]) => comparePairs({ settings, results: list, method: "unequal" })[2]!.p as number],
    ["COMPARE.ADJUSTEDTEST", (list: number[]) => compareAdjustedTest({ settings, results: list, covariates: [settings.map((_, shot) => shot % 4)] }).f],
    ["EQUIVALENT", (list: number[]) => equivalent({ first: list.slice(0, 5), second: list.slice(5) })({ margin: 1 }).low],
    ["RUN.DRIFT", (list: number[]) => runDrift({ runs: list.map((_, run) => run), results: list, settings }).change],
  ])("%s", (_, of) => {
    expect(Math.abs(of(large) / of(small) - 1)).toBeLessThan(1e-12);
  });
});

describe("settings compared at a shot time", () => {
  const shots = {
    settings: [6, 6, 6, 8, 8, 8, 9, 9, 9],
    results: [20, 20.4, 20.5, 20.6, 20.9, 21.3, 20.4, 20.9, 20.8],
    covariates: [[26, 28, 29, 25, 27, 30, 31, 33, 34]],
  };

  it("have no mean where none of their own shots came that far", () => {
    const [six, eight, nine] = compareAdjusted({ ...shots, at: [28] });
    expect([six!.adjustedMean, eight!.standardError]).toEqual([expect.any(Number), expect.any(Number)]);
    expect(nine).toMatchObject({ setting: 9, shots: 3 });
    expect(messageOf(nine!.adjustedMean)).toBe("at 28 is outside the covariates of setting 9, 31 to 34: it has no shot there to go by.");
    expect(compareAdjusted(shots).every(({ adjustedMean }) => typeof adjustedMean === "number")).toBe(true);
  });

  it("are refused as a whole where it is outside all of them", () => {
    expect(problemOf(() => compareAdjusted({ ...shots, at: [24] })).message).toContain("25 to 34");
    expect(problemOf(() => compareAdjusted({ ...shots, at: [30.5] })).message).toBe("No setting has shots on both sides of at 30.5, so there is none to compare there.");
  });

  it("must hold each covariate by itself", () => {
    const beverage = [36, 36.4, 35.8, 36.1, 36.6, 36.2, 37, 37.3, 37.1];
    const two = { ...shots, covariates: [...shots.covariates, beverage], at: [28, 36.1] };
    const [six, , nine] = compareAdjusted(two);
    expect(six!.adjustedMean).toBeTypeOf("number");
    expect(messageOf(nine!.adjustedMean)).toContain("at 28");
    expect(messageOf(compareAdjusted({ ...two, at: [28, 36.5] })[0]!.adjustedMean)).toContain("at 36.5 is outside the covariates of setting 6, 35.8 to 36.4");
  });

  it("with blocks say how many shots are needed", () => {
    const few = { settings: [6, 6, 8, 8], results: [20, 20.1, 20.5, 20.7], covariates: [[26, 28, 27, 29]], blocks: [1, 2, 1, 2] };
    expect(problemOf(() => compareAdjusted(few)).message).toBe("4 shots are too few for 2 settings, 2 blocks and 1 covariates: at least 5 are needed.");
  });
});

describe("a curve that is no parabola", () => {
  // Repeats 0.1 to 0.3 apart: the best at 7, a collapse beyond it.
  const collapsed = { settings: [6, 6, 7, 7, 8, 8, 9, 9, 10, 10], results: [19.2, 19.5, 21.4, 21.1, 19.0, 19.2, 18.9, 18.7, 18.6, 18.5] };

  it("is refused, naming the best setting tried", () => {
    expect(problemOf(() => bestSetting(collapsed)).message).toBe(
      "The results do not follow a curve with one peak (lack of fit, p below 0.001). Best of the settings tried: 7, with 21.25. A true parabola is refused so once in twenty.",
    );
  });

  it("is judged within the blocks, and its best setting is averaged over them", () => {
    const morning = collapsed.settings.map((_, shot) => shot % 2);
    const results = collapsed.results.map((it, shot) => it + 4 * morning[shot]!);
    expect(problemOf(() => bestSetting({ ...collapsed, results, blocks: morning })).message).toContain("Best of the settings tried: 7, with 23.25.");
  });

  it("cannot be told from a parabola without repeats", () => {
    expect(bestSetting({ settings: [6, 7, 8, 9, 10], results: [19.3, 21.2, 19.8, 19.2, 18.1] })({ confidence: 0.8 }).setting).toBeGreaterThan(6);
  });

  it("is seen where repeats are alike to the last digit", () => {
    expect(problemOf(() => bestSetting({ settings: [6, 6, 7, 7, 8, 8, 9, 9], results: [19, 19, 20, 20, 20.1, 20.1, 19.5, 19.5] })).message).toContain("p below 0.001");
  });

  it("may have a setting of its own for each of a hundred shots", () => {
    const many = Array.from({ length: 100 }, (_, shot) => 90 + shot / 20);
    const { setting } = bestSetting({ settings: many, results: many.map((it, shot) => 20 - (it - 92) ** 2 + Math.sin(shot) / 5) })({});
    expect(setting).toBeCloseTo(92, 0);
  });
});

describe("two settings at once", () => {
  const nine = [-1, 0, 1].flatMap((u) => [-1, 0, 1].map((v) => [u, v] as const));
  const surface = (of: (u: number, v: number) => number): ReturnType<typeof bestTwo> =>
    bestTwo({ first: nine.map(([u]) => 92 + 2 * u), second: nine.map(([, v]) => 2.1 + 0.3 * v), results: nine.map(([u, v]) => of(u, v)) });

  it.each([
    ["peak", (u: number, v: number) => 20 - (u - 0.5) ** 2 - 2 * (v + 0.25) ** 2, [93, 2.025, 20]],
    ["valley", (u: number, v: number) => 20 + (u - 0.5) ** 2 + 2 * (v + 0.25) ** 2, [93, 2.025, 20]],
    ["saddle", (u: number, v: number) => 20 - (u - 0.5) ** 2 + 2 * (v + 0.25) ** 2, [93, 2.025, 20]],
  ] as const)("show a %s", (kind, of, [first, second, result]) => {
    const best = surface(of);
    expect(best.kind).toBe(kind);
    expect([best.first, best.second, best.result]).toEqual([first, second, result].map((it) => expect.closeTo(it, 9) as number));
  });

  it.each([
    [(u: number, v: number) => 20 - (u - 1.5) ** 2 - (v - 0.1) ** 2, "The peak of the fitted surface lies outside the settings tried. Results rise with higher first: try there."],
    [(u: number, v: number) => 20 - (u + 1.5) ** 2 - (v - 2) ** 2, "The peak of the fitted surface lies outside the settings tried. Results rise with lower first and higher second: try there."],
    [(u: number, v: number) => 20 + (u - 1.5) ** 2 + (v - 1.5) ** 2, "The valley of the fitted surface lies outside the settings tried. Results rise with lower first and lower second: try there."],
  ])("say which way to go where the point lies outside", (of, said) => {
    const { first, second, result } = surface(of);
    for (const it of [first, second, result]) expect(messageOf(it)).toBe(said);
  });

  it("show a ridge before anything else, with its line", () => {
    const best = surface((u, v) => 20 - (u + v) ** 2 - 0.01 * u * u);
    expect(best.kind).toBe("ridge");
    expect(messageOf(best.first)).toBe(
      "The results are highest along a line, not at a point: from first 90.01, second 2.4 to first 93.99, second 1.8. Choose on it by ease or taste.",
    );
    expect(messageOf(surface((u, v) => 20 + (u - v) ** 2).result)).toContain("lowest along a line");
    // Even a ridge whose point is outside, and one along an axis.
    expect(messageOf(surface((u) => 20 - (u - 0.5) ** 2).first)).toBe("The results are highest along a line, not at a point: from first 93, second 1.8 to first 93, second 2.4. Choose on it by ease or taste.");
    expect(messageOf(surface((u) => 20 - (u - 3) ** 2).first)).toBe("The results change along one line only, and are highest outside the settings tried. Results rise with higher first: try there.");
  });

  it("say what they need", () => {
    const refusal = (first: number[], second: number[], list: number[], blocks?: number[]): string =>
      problemOf(() => bestTwo({ first, second, results: list, blocks })).message;
    const [u, v] = [nine.map(([it]) => it), nine.map(([, it]) => it)];
    expect(refusal(u.slice(0, 5), v.slice(0, 5), [1, 2, 3, 4, 5])).toContain("at least 6 shots");
    expect(refusal(u, v, u.map(() => 20))).toContain("alike");
    expect(refusal(u, u.map(() => 2), u.map(Math.sin))).toContain("All values of second are equal");
    expect(refusal(u, u, u.map((_, shot) => Math.sin(shot)))).toContain("must not only change together");
    expect(refusal(u, v, nine.map(([a, b]) => 20 + a - b))).toBe("The results rise evenly, without any curve. Go on with higher first and lower second.");
    expect(refusal(u, v, u.map((_, shot) => Math.sin(shot)), u)).toContain("within the blocks too");
    expect(refusal([], [], [])).toContain("no shot");
  });
});

describe("drift over the runs", () => {
  it("is the slope within the settings, whatever they add", () => {
    const runs = settings.map((_, run) => run + 1);
    const drifting = settings.map((setting, run) => 0.5 * (setting - 90) + 0.05 * run + 0.001 * Math.sin(run));
    const { change, low, high, p } = runDrift({ runs, results: drifting, settings });
    expect(change).toBeCloseTo(0.05, 3);
    expect([low, high].every((it) => Math.abs((it as number) - 0.05) < 0.001)).toBe(true);
    expect(p).toBeLessThan(1e-6);
  });

  it("says why there is none", () => {
    expect(problemOf(() => runDrift({ runs: [1], results: [20] })).message).toContain("at least 2 runs");
    expect(problemOf(() => runDrift({ runs: [3, 3], results: [20, 21] })).message).toContain("same number");
    expect(problemOf(() => runDrift({ runs: [1, 2, 3], results: [20, 21, 20], settings: [88, 90, 92] })).message).toContain("No setting was pulled twice");
    const two = runDrift({ runs: [1, 2], results: [20, 21] });
    expect(two.change).toBe(1);
    expect(two.p).toBeInstanceOf(Problem);
    expect(messageOf(runDrift({ runs: [1, 2, 3, 4], results: [20, 21, 22, 23] }).p)).toContain("exactly on a line");
  });
});
