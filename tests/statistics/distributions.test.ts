import { describe, expect, test } from "vitest";
import {
  binomialLower,
  binomialUpper,
  chiSquareLower,
  chiSquareUpper,
  fQuantileUpper,
  fUpper,
  noncentralFUpper,
  normalLower,
  normalQuantile,
  normalUpper,
  tQuantileTwoSided,
  tTwoSided,
} from "../../shared/statistics/distributions.ts";
import { studentizedRange } from "../../shared/statistics/studentized-range.ts";
import reference from "../reference/numerics/distributions.json";
import ranges from "../reference/numerics/studentized-range.json";

type Row = readonly number[];
const rowsOf = reference as unknown as Record<string, Row[]>;

/** The worst relative error over the reference rows: each is the arguments, then the value. */
function worstError(name: string, f: (...values: number[]) => number): number {
  const rows = rowsOf[name] ?? [];
  expect(rows.length).toBeGreaterThan(10);
  return Math.max(
    ...rows.map((row) => {
      const expected = row[row.length - 1] as number;
      const error = Math.abs(f(...row.slice(0, -1)) - expected);
      return expected === 0 ? error : error / expected;
    }),
  );
}

describe("against mpmath at 40 digits, 1e-12 relative in both tails", () => {
  const functions: Record<string, (...values: number[]) => number> = {
    tTwoSided,
    tQuantileTwoSided,
    fUpper,
    fQuantileUpper,
    normalLower,
    normalQuantileMinus: (p) => -normalQuantile(p as number),
    chiSquareUpper,
    binomialLower,
    binomialUpper,
  } as Record<string, (...values: number[]) => number>;
  test.each(Object.entries(functions))("%s", (name, f) => {
    expect(worstError(name, f)).toBeLessThan(1e-12);
  });

  test("noncentral F, and with it both tails of the noncentral t, 1e-12 absolute", () => {
    for (const [f, df1, df2, noncentrality, upper] of rowsOf["noncentralFUpper"] as unknown as [number, number, number, number, number][]) {
      expect(Math.abs(noncentralFUpper(f, df1, df2, noncentrality) - upper)).toBeLessThan(1e-12);
    }
    for (const [t, df, noncentrality, both] of rowsOf["noncentralTTwoSided"] as unknown as [number, number, number, number][]) {
      expect(Math.abs(noncentralFUpper(t * t, 1, df, noncentrality ** 2) - both)).toBeLessThan(1e-12);
    }
  });

  test("studentised range, 1e-10 absolute, also with 1 and 2 degrees of freedom", () => {
    const tables = new Map<number, ReturnType<typeof studentizedRange>>();
    for (const [q, means, df, upper] of ranges as [number, number, number, number][]) {
      const table = tables.get(means) ?? studentizedRange(means);
      tables.set(means, table);
      expect(Math.abs(table.upper(q, df) - upper)).toBeLessThan(1e-10);
    }
  });
});

test("the other tails are the complements, and the quantiles come back", () => {
  for (const x of [0.2, 1, 2.7]) {
    expect(chiSquareLower(x, 4)).toBeCloseTo(1 - chiSquareUpper(x, 4), 15);
    expect(normalUpper(x)).toBeCloseTo(1 - normalLower(x), 15);
    expect(normalQuantile(normalLower(-x))).toBeCloseTo(-x, 12);
    expect(tQuantileTwoSided(tTwoSided(x, 5.5), 5.5)).toBeCloseTo(x, 12);
  }
  expect(normalQuantile(0.5)).toBe(0);
});

test("without noncentrality the noncentral F is F, and with much of it nearly normal", () => {
  for (const f of [0, 0.7, 5]) expect(noncentralFUpper(f, 3, 6, 0)).toBeCloseTo(fUpper(f, 3, 6), 14);
  // Johnson, Kotz & Balakrishnan: (sqrt of 2 noncentralities) is the SD of the upper mean square; df2 so large that the lower one is 1.
  const noncentrality = 1e8;
  expect(noncentralFUpper((noncentrality + 2) / 2, 2, 1e13, noncentrality)).toBeCloseTo(0.5, 3);
});

// Critical values as published tables print them (four decimals).
test.each([
  [2, 10, 0.05, 3.1511],
  [3, 10, 0.05, 3.8768],
  [3, 12, 0.05, 3.7729],
  [4, 16, 0.05, 4.0461],
  [5, 20, 0.05, 4.2319],
  [3, 10, 0.01, 5.2702],
])("studentised range of %d means, %d df, upper %d: %d", (means, df, p, q) => {
  expect(studentizedRange(means).quantileUpper(p, df)).toBeCloseTo(q, 4);
});

test("a studentised range quantile gives its probability back", () => {
  const ten = studentizedRange(10);
  for (const [p, df] of [[0.001, 2], [0.9, 1], [0.05, 398]] as const) {
    expect(Math.abs(ten.upper(ten.quantileUpper(p, df), df) / p - 1)).toBeLessThan(1e-11);
  }
});
