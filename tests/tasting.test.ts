import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import * as discrimination from "../shared/tasting/discrimination.ts";
import * as ranking from "../shared/tasting/ranking.ts";
import { tasteCodes, tasteOrder } from "../shared/tasting/serving.ts";
import { binomialUpper } from "../shared/statistics/distributions.ts";
import { integrate } from "../shared/statistics/integrate.ts";
import { problemOf } from "./problem-of.ts";
import { call, CellError, grid } from "./worksheet.ts";

describe("integrate", () => {
  it.each([["sin x", Math.sin, 0, Math.PI, 2], ["exp x", Math.exp, 0, 1, Math.E - 1], ["1 / (1 + x²)", (x: number) => 1 / (1 + x * x), 0, 1, Math.PI / 4]])(
    "gives %s to 1e-14", (_, f, from, to, exact) => expect(Math.abs(integrate(f, from, to) - exact)).toBeLessThan(1e-14));
});

const anyTest = fc.constantFrom(...discrimination.discriminationTests);

describe("tasteNeeded", () => {
  it("is the smallest number with a chance of at most the significance, or refuses where there is none", () => {
    fc.assert(fc.property(
      fc.integer({ min: 1, max: 400 }), anyTest, fc.double({ min: 1e-6, max: 0.5, noNaN: true }),
      (tasters, test, significance) => {
        const chance = test === "triangle" ? 1 / 3 : 1 / 2;
        // Chances so near the significance that rounding decides have their own test.
        fc.pre(Array.from({ length: tasters + 1 }, (_, k) => binomialUpper(k, tasters, chance)).every((it) => Math.abs(it / significance - 1) > 1e-9));
        if (chance ** tasters > significance) {
          const { message } = problemOf(() => discrimination.tasteNeeded({ tasters, test, significance }));
          const enough = Number(/at least (\d+) tasters/.exec(message)![1]);
          expect(chance ** enough).toBeLessThanOrEqual(significance);
          expect(chance ** (enough - 1)).toBeGreaterThan(significance);
          return;
        }
        const needed = discrimination.tasteNeeded({ tasters, test, significance });
        expect(binomialUpper(needed, tasters, chance)).toBeLessThanOrEqual(significance);
        expect(binomialUpper(needed - 1, tasters, chance)).toBeGreaterThan(significance);
      }));
  });

  it("takes a chance equal to the significance: 4 of 4 at 1/16", () => {
    expect(discrimination.tasteNeeded({ tasters: 4, test: "duo-trio", significance: 0.0625 })).toBe(4);
  });
});

describe("tasteTasters", () => {
  it("looks far enough ahead: no later number of tasters falls short", () => {
    fc.assert(fc.property(
      fc.double({ min: 0.08, max: 1, noNaN: true }), anyTest,
      fc.constantFrom(0.2, 0.1, 0.05, 0.01), fc.double({ min: 0.3, max: 0.99, noNaN: true }),
      (discriminators, test, significance, power) => {
        const guessing = test === "triangle" ? 1 / 3 : 1 / 2;
        const { firstTasters, stableTasters } = discrimination.tasteTasters({ discriminators, test, significance, power });
        expect(stableTasters).toBeGreaterThanOrEqual(firstTasters);
        let needed = 0;
        for (let tasters = 1; tasters <= 3 * stableTasters + 50; tasters++) {
          while (binomialUpper(needed, tasters, guessing) > significance) needed++;
          const enough = binomialUpper(needed, tasters, guessing + discriminators * (1 - guessing)) >= power;
          if (tasters < firstTasters || tasters === stableTasters - 1) expect(enough).toBe(false);
          if (tasters === firstTasters || tasters >= stableTasters) expect(enough).toBe(true);
        }
      }), { numRuns: 40 });
  });

  it("refuses a panel beyond all means", () => {
    expect(problemOf(() => discrimination.tasteTasters({ discriminators: 0.001, test: "duo-trio" })).message).toContain("10000");
  });
});

describe("tasteDistance", () => {
  it("gives an open end in words where all were right, and still a low end", () => {
    const [distance, low, high] = call("TASTE.DISTANCE", 8, 8, "triangle") as unknown[];
    expect(distance).toBeInstanceOf(CellError);
    expect((high as CellError).message).toContain("no upper limit");
    expect(low).toBeGreaterThan(0);
  });

  it("puts the distance inside its interval, and finds no distance in guessing", () => {
    fc.assert(fc.property(
      fc.integer({ min: 2, max: 300 }), fc.double({ min: 0, max: 0.999, noNaN: true }), anyTest,
      (tasters, part, test) => {
        const correct = Math.floor(part * tasters);
        const { distance, low, high } = discrimination.tasteDistance({ correct, tasters, test });
        expect(low).toBeLessThanOrEqual(distance as number);
        expect(high).toBeGreaterThanOrEqual(distance as number);
        if (correct / tasters <= 1 / 3) expect(distance).toBe(0);
      }), { numRuns: 60 });
  });
});

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
    const problem = problemOf(() => ranking.tasteRanks({ ranks: [[1, 2, 3, 4], [1, 2, 2, 4]] }));
    expect(problem.kind).toBe("bad input");
    expect(problem.message).toContain("Taster 2");
    expect(problem.message).toContain("1, 2.5, 2.5, 4");
  });

  it.each([[[[1, 2, 3]]], [[[1], [1]]], [[[2, 2, 2], [2, 2, 2]]]])("have no answer for %j", (ranks) => {
    expect(problemOf(() => ranking.tasteRanks({ ranks })).kind).toBe("no answer");
    expect(problemOf(() => ranking.tasteTrend({ ranks })).kind).toBe("no answer");
  });

  it("leave out wholly blank rows and columns, and refuse a single blank", () => {
    const full = [[1, 2, 3], [1, 3, 2], [2, 1, 3]];
    const spaced = [[1, 2, 3, ""], ["", "", "", ""], [1, 3, 2, ""], [2, 1, 3, null]];
    expect(grid("TASTE.RANKS", spaced)).toEqual(grid("TASTE.RANKS", full));
    const [cell] = grid("TASTE.RANKS", [[1, 2, 3], [1, "", 2], [2, 1, 3]])[0]!;
    expect((cell as CellError).message).toContain("row 2, column 2");
  });
});

describe("tasteOrder", () => {
  it.each(Array.from({ length: 25 }, (_, index) => index + 2))("of %d samples balances places and neighbours", (samples) => {
    const tasters = samples % 2 === 0 ? samples : 2 * samples;
    const orders = tasteOrder({ samples, tasters, seed: samples }).map((it) => it.serving);
    const places = new Map<string, number>();
    const neighbours = new Map<string, number>();
    const add = (counts: Map<string, number>, key: string): void => void counts.set(key, (counts.get(key) ?? 0) + 1);
    for (const order of orders) {
      order.forEach((sample, place) => {
        add(places, `${sample} at ${place}`);
        if (place > 0) add(neighbours, `${order[place - 1]} before ${sample}`);
      });
    }
    const sets = tasters / samples;
    expect(places.size).toBe(samples ** 2);
    expect(new Set(places.values())).toEqual(new Set([sets]));
    expect(neighbours.size).toBe(samples * (samples - 1));
    expect(new Set(neighbours.values())).toEqual(new Set([sets]));
  });

  it("balances the places already for one square of an odd number", () => {
    const orders = tasteOrder({ samples: 5, tasters: 5 }).map((it) => it.serving);
    for (let place = 0; place < 5; place++) expect(orders.map((order) => order[place]).sort()).toEqual([1, 2, 3, 4, 5]);
  });

  it("is the same for the same seed for ever, and another for another", () => {
    expect(tasteOrder({ samples: 4, tasters: 4, seed: 7 }).map((it) => it.serving)).toEqual([[4, 1, 2, 3], [2, 4, 3, 1], [3, 2, 1, 4], [1, 3, 4, 2]]);
    expect(tasteOrder({ samples: 4, tasters: 4, seed: 8 })).not.toEqual(tasteOrder({ samples: 4, tasters: 4, seed: 7 }));
  });

  it("spills a heading and a column for each serving", () => {
    const table = grid("TASTE.ORDER", 3, 6);
    expect(table[0]).toEqual(["Taster", "Serving 1", "Serving 2", "Serving 3"]);
    expect(table.length).toBe(7);
  });
});

describe("tasteCodes", () => {
  it("are different, of three digits, the same for the same seed for ever", () => {
    const all = tasteCodes({ count: 900 });
    expect(new Set(all).size).toBe(900);
    expect(Math.min(...all)).toBe(100);
    expect(Math.max(...all)).toBe(999);
    expect(tasteCodes({ count: 5, seed: 2 })).toEqual([516, 169, 580, 896, 521]);
  });
});

it("gives every test with people its cautions: caffeine, spitting, allergens", async () => {
  const declarations = (await readDeclarations()).filter(({ topic, name }) => topic === "tasting" && name !== "TASTE.CODES");
  expect(declarations.length).toBe(9);
  for (const { caution } of declarations) for (const words of ["caffeine", "spit", "allergens"]) expect(caution).toContain(words);
});
