import { describe, expect, it, test } from "vitest";
import { neighbourTest } from "../../shared/statistics/von-neumann.ts";
import { chance } from "../simulated-log.ts";

/** n values with a given ratio: a mixture of a slow wave and a fast one, moved from one to the other until the ratio is met. */
function withRatio(n: number, ratio: number): number[] {
  const mixed = (share: number): number[] =>
    Array.from({ length: n }, (_, k) => (1 - share) * Math.cos((Math.PI * (k + 0.5)) / n) + share * Math.cos((Math.PI * (n - 1) * (k + 0.5)) / n));
  let [low, high] = [0, 1];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (neighbourTest(mixed(middle)).ratio < ratio) low = middle;
    else high = middle;
  }
  return mixed(low);
}

describe("von Neumann's ratio", () => {
  it("is squared steps over squared distances from the mean", () => {
    // 1, 2, 4: steps 1 and 4 squared; distances from 7/3: 16/9 + 1/9 + 25/9. With 7: steps 1, 4, 9; mean 3.5; 6.25 + 2.25 + 0.25 + 12.25.
    expect(neighbourTest([1, 2, 4, 7]).ratio).toBeCloseTo(14 / 21, 12);
  });

  test.each([
    // Exact, by the integral of Imhof (1961): tests/reference/scripts/von_neumann.py.
    [10, 0.7, 0.0070339], [10, 0.95, 0.0303052], [10, 1.25, 0.0996382], [15, 1.1, 0.0295079],
    [20, 1.2, 0.0287821], [20, 2.6, 0.9186893], [40, 1.42, 0.0294972], [100, 1.63, 0.0306656],
  ])("of %d values, %d, has its exact chance to within what the approximation is good for", (n, ratio, exact) => {
    const found = neighbourTest(withRatio(n, ratio));
    expect(found.ratio).toBeCloseTo(ratio, 9);
    expect(Math.abs(found.alike / exact - 1)).toBeLessThan(n < 15 && exact < 0.02 ? 0.06 : 0.01);
    expect(found.alike + found.inTurn).toBeCloseTo(1, 12);
  });

  it("shows nothing where all values are the same", () => {
    expect(neighbourTest([5, 5, 5, 5, 5])).toEqual({ ratio: 2, alike: 1, inTurn: 1 });
  });

  it("has evenly spread chances where the order means nothing", () => {
    const luck = chance(3);
    const chances = Array.from({ length: 2000 }, () => neighbourTest(Array.from({ length: 12 }, () => luck.around(27, 2))).alike);
    for (const part of [0.03, 0.1, 0.5, 0.9]) {
      const share = chances.filter((it) => it < part).length / chances.length;
      // Three and a half binomial spreads.
      expect(Math.abs(share - part)).toBeLessThan(3.5 * Math.sqrt((part * (1 - part)) / chances.length));
    }
  });
});
