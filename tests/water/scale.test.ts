import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { waterFilterLife } from "../../shared/water/filter-life.ts";
import { waterScale } from "../../shared/water/scale.ts";
import { problemOf } from "../problem-of.ts";

/** Waters of a town, of any composition that the equation takes. */
const towns = fc.record({
  ph: fc.double({ min: 6, max: 9, noNaN: true }),
  temperature: fc.double({ min: 0, max: 30, noNaN: true }),
  calciumHardness: fc.double({ min: 5, max: 500, noNaN: true }),
  alkalinity: fc.double({ min: 5, max: 400, noNaN: true }),
  tds: fc.double({ min: 20, max: 1200, noNaN: true }),
  at: fc.double({ min: 0, max: 90, noNaN: true }),
  air: fc.constantFrom("closed" as const, "open" as const),
});

describe("waterScale", () => {
  const sample = { ph: 7.3, temperature: 15, calciumHardness: 250, alkalinity: 220, tds: 400 };

  it("has the sign of its index, and never more than there is", () => {
    fc.assert(fc.property(towns, (given) => {
      const { saturationIndex, precipitation } = waterScale(given);
      if (Math.abs(saturationIndex) > 1e-9) expect(Math.sign(precipitation)).toBe(Math.sign(saturationIndex));
      expect(precipitation).toBeLessThan(given.calciumHardness);
    }), { numRuns: 200 });
  });

  it("leaves a water behind that lays down nothing more", () => {
    fc.assert(fc.property(towns, (given) => {
      const { precipitation, phAfter } = waterScale(given);
      const left = {
        ph: phAfter, temperature: given.at, at: given.at, air: given.air,
        calciumHardness: given.calciumHardness - precipitation, alkalinity: given.alkalinity - precipitation,
        // Each mole of calcite takes 3 of ionic strength, at 40,000 mg/L for each.
        tds: given.tds - (40_000 * 3 * precipitation) / 100_086,
      };
      // Only where the dissolved solids, and not calcium and alkalinity alone, make the ionic strength, and where the equation still holds.
      const fromSolids = (water: typeof given | typeof left): boolean => water.tds / 40_000 > (2 * water.calciumHardness + water.alkalinity) / 100_086;
      fc.pre(fromSolids(given) && fromSolids(left) && phAfter > 5 && phAfter < 10 && left.alkalinity > 1 && left.calciumHardness > 1);
      const after = waterScale(left);
      expect(Math.abs(after.saturationIndex)).toBeLessThan(1e-6);
      expect(Math.abs(after.precipitation)).toBeLessThan(1e-3);
    }), { numRuns: 200 });
  });

  it("lays down more where it is hotter, and more where CO2 can leave a water that holds much of it", () => {
    const at = [10, 30, 50, 70, 90].map((temperature) => waterScale({ ...sample, at: temperature }).precipitation);
    expect([...at].sort((a, b) => a - b)).toEqual(at);
    expect(waterScale({ ...sample, air: "open" }).precipitation).toBeGreaterThan(waterScale(sample).precipitation);
  });

  it("heats to 90 °C where nothing else is said", () => expect(waterScale(sample)).toEqual(waterScale({ ...sample, at: 90, air: "closed" })));

  it.each([["at", 90.1, "0 to 90 °C"], ["at", -1, "0 to 90 °C"], ["temperature", 95, "0 to 90 °C"], ["ph", 4.9, "5 to 10"], ["ph", 10.1, "5 to 10"], ["calciumHardness", 0, "calcium"], ["alkalinity", 0, "alkalinity"]])(
    "has no answer for %s of %d", (name, value, why) => {
      const problem = problemOf(() => waterScale({ ...sample, [name]: value }));
      expect(problem.kind).toBe("no answer");
      expect(problem.message).toContain(why);
    });
});

describe("waterFilterLife", () => {
  it("takes out as much hardness as it is stated for, whatever the water and the bypass", () => {
    const positive = fc.double({ min: 1, max: 1000, noNaN: true });
    fc.assert(fc.property(positive, positive, positive, fc.double({ min: 0, max: 90, noNaN: true }), (capacity, reference, hardness, bypass) => {
      const delivered = waterFilterLife({ capacity, reference, hardness, bypass });
      expect((delivered * (1 - bypass / 100) * hardness) / (capacity * reference)).toBeCloseTo(1, 12);
    }));
  });

  it("has no end where there is nothing to take out", () => {
    expect(problemOf(() => waterFilterLife({ capacity: 1000, reference: 178, hardness: 0 })).message).toContain("nothing to do");
    expect(problemOf(() => waterFilterLife({ capacity: 1000, reference: 178, hardness: 100, bypass: 100 })).message).toContain("no water goes through");
  });
});
