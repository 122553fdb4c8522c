import { expect, test } from "vitest";
import { findRoot } from "../../shared/statistics/root.ts";

test("finds roots from either side and at an end", () => {
  expect(findRoot((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 14);
  expect(findRoot((x) => x * x - 2, 2, 0)).toBeCloseTo(Math.SQRT2, 14);
  expect(findRoot((x) => Math.cos(x) - x, 0, 1)).toBeCloseTo(0.7390851332151607, 14);
  expect(findRoot((x) => x - 1, 1, 3)).toBe(1);
  expect(findRoot((x) => (x - 0.3) ** 9, -1, 1)).toBeCloseTo(0.3, 1);
  expect(findRoot((x) => (x < 0.25 ? -1 : 1), 0, 1)).toBeCloseTo(0.25, 13);
});
