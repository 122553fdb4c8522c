import { describe, expect, it } from "vitest";
import { logSignals } from "../../shared/log";
import { problemOf } from "../problem-of.ts";

describe("signals", () => {
  /** Values around 0 whose mean moving range makes one standard deviation exactly 1: the rules are then read off the numbers. */
  function signals(values: (number | null)[], rules: string): string[] {
    return logSignals({ values, rules });
  }
  /** Rows, counted from 1, where a rule signals. */
  function rowsOf(words: string[], rule: string): number[] {
    return words.flatMap((it, index) => (it.split(",").includes(rule) ? [index + 1] : []));
  }
  const quiet = Array.from({ length: 30 }, (_, index) => (index % 2 === 0 ? 0.5 : -0.5));

  it("rule 1: beyond three standard deviations", () => expect(rowsOf(signals([...quiet, 12, ...quiet], "1"), "1")).toEqual([31]));

  it("rule 2: nine on one side, from the ninth on", () => {
    const run = [1, -1, 1, -1, 1, -1, -3, 2, 2, 3, 2, 3, 2, 3, 2, 3, 2, -8, -7, -9];
    expect(rowsOf(signals(run, "2"), "2")).toEqual([16, 17]);
  });

  it("rule 3: six rising or falling", () => {
    expect(rowsOf(signals([5, 1, 2, 3, 4, 5, 6, 3, 3, 2, 1, 0, -1, -2, 4], "3"), "3")).toEqual([7, 14]);
    expect(rowsOf(signals([1, 2, 3, 3, 4, 5, 6, 7], "3"), "3")).toEqual([]);
  });

  it("rule 4: fourteen up and down in turn", () => expect(rowsOf(signals([0, 0, ...quiet.slice(0, 14), -0.5], "4"), "4")).toEqual([15, 16]));

  it("rules 5 and 6: two of three beyond two, four of five beyond one, on one side", () => {
    // Mean 0; the quiet part keeps the mean moving range near 1, so one standard deviation is about 1.1.
    const values = [...quiet, 2.8, 0, 2.8, ...quiet, -2.8, -0.1, -2.8, ...quiet];
    expect(rowsOf(signals(values, "5"), "5")).toEqual([33, 66]);
    const shifted = [...quiet, 1.8, 1.9, 0.2, 1.8, 1.9, ...quiet, -1.8, -1.9, -0.2, -1.8, -1.9, ...quiet];
    expect(rowsOf(signals(shifted, "6"), "6")).toEqual([35, 70]);
  });

  it("rules 7 and 8: fifteen close to the centre, eight away from it on both sides", () => {
    const calm = Array.from({ length: 16 }, (_, index) => (index % 2 === 0 ? 0.1 : -0.1));
    const wild = [5, -5, 5, 5, -5, -5, 5, -5];
    const words = signals([...wild, ...calm], "7 8");
    expect(rowsOf(words, "8")).toEqual([8]);
    expect(rowsOf(words, "7")).toEqual([23, 24]);
  });

  it("keep the rows of blanks and name every rule a value completes", () => {
    const values = [0.4, -0.4, null, ...quiet, null, 20];
    const words = signals(values, "1,2,5");
    expect(words).toHaveLength(values.length);
    expect(words[2]).toBe("");
    expect(words.at(-1)).toBe("1");
    expect(signals([1, 2, 3, 4, 5, 6, 7, 8, 100], "1;3").at(-1)).toBe("1,3");
  });

  it("are none where nothing varies", () => expect(signals(Array<number>(40).fill(3), "1,2,3,4,5,6,7,8").join("")).toBe(""));
  it("refuse a rule that is none", () => {
    expect(problemOf(() => signals([1, 2], "1,9")).message).toMatch(/rules must be numbers of Nelson's rules, 1 to 8.*“1,9”/);
  });
});
