/* eslint-disable no-console -- the rates of the simulation are a result to be read */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkShot as checkShotInWords, logCheck, type ShotContext } from "../../shared/log/check";
import type { TypedShot } from "../../shared/log/plausible";
import { defaultUnits } from "../../src/sheet/unit-choice";
import { worded } from "../../src/sheet/wording";
import { chance, coarseWriting, fineWriting, firstWords, mistakes, plausibleShots, type PlainShot } from "../simulated-log";
import { call, CellError, grid, useUnits } from "../worksheet";

/** What is said of a row, in the default units. */
function checkShot(typed: TypedShot, context?: ShotContext): string {
  return worded(checkShotInWords(typed, context), defaultUnits);
}

function columnsOf(shots: readonly PlainShot[]): Parameters<typeof logCheck>[0] {
  const column = (name: keyof PlainShot): number[] => shots.map((shot) => shot[name]);
  return { dose: column("dose"), beverage: column("beverage"), time: column("time"), strength: column("strength") };
}

describe("what looks wrong in a row", () => {
  it.each([["finely", fineWriting], ["coarsely", coarseWriting]])("is hardly ever said of a plausible shot, written %s", (name, writing) => {
    const shots = plausibleShots(10_000, 20, writing);
    const flagged = logCheck(columnsOf(shots)).filter((words) => words !== "").length;
    console.log(`clean shots written ${name}: ${flagged} of ${shots.length} flagged`);
    expect(flagged).toBeLessThan(shots.length / 1000);
  });

  it("is said of 14 kinds of mistake, the true cause first", () => {
    const kinds = Object.entries(mistakes);
    expect(kinds).toHaveLength(14);
    const shots = plausibleShots(2001, 21);
    let foundOfAll = 0;
    for (const [kind, mistake] of kinds) {
      const luck = chance(22);
      let [found, named] = [0, 0];
      for (let row = 1; row < shots.length; row++) {
        const words = checkShot(mistake(shots[row]!, shots[row - 1]!, luck), { above: shots[row - 1]! });
        if (words !== "") found++;
        if (firstWords[kind]!.test(words)) named++;
      }
      const rows = shots.length - 1;
      foundOfAll += found / rows / kinds.length;
      console.log(`${kind}: ${((100 * found) / rows).toFixed(1)} % found, ${((100 * named) / rows).toFixed(1)} % with this cause first`);
      expect(found / rows, kind).toBeGreaterThanOrEqual(0.95);
      // A slip can look just like another one (7.2 g and 18 g may be a slipped point or a swap), so the cause is held less strictly.
      expect(named / rows, kind).toBeGreaterThanOrEqual(0.9);
    }
    console.log(`all kinds: ${(100 * foundOfAll).toFixed(2)} % found`);
  });

  const good: TypedShot = { dose: 18, beverage: 36, time: 27, strength: 9.5 };
  const says = (changes: Partial<TypedShot>, above?: TypedShot): string => checkShot({ ...good, ...changes }, { above });

  it("is nothing for a good row, a blank row or a shot whose strength was not read", () => {
    expect(says({})).toBe("");
    expect(says({ strength: null })).toBe("");
    expect(checkShot({ dose: null, beverage: "", time: 0, strength: null })).toBe("");
  });

  it.each<[Partial<TypedShot>, RegExp]>([
    [{ time: 0.01875 }, /^Time 0\.01875 s looks like 0:27 typed as a clock time, which a sheet takes for hours and minutes: 27 s\?$/],
    [{ time: 270 }, /^Time 270 s looks like a slipped decimal point: 27 s\?$/],
    [{ strength: 0.095 }, /^Strength 0\.095 % looks like a percent cell: 9\.5 %\?$/],
    [{ strength: 950 }, /^Strength 950 % looks like a number without its decimal point: 9\.5 %\?$/],
    [{ dose: 36, beverage: 18 }, /^Dose and beverage look swapped: 18 g and 36 g\?/],
    [{ dose: 0.64 }, /^Dose 0\.64 g looks like ounces: 18\.1437 g\?/],
    [{ strength: 1.35 }, /^Strength 1\.35 % is that of a filter coffee, not of an espresso\./],
    [{ strength: 19.5 }, /looks like the extraction: the strength would be 9\.75 %/],
    [{ beverage: 186 }, /weighed with its cup/],
    [{ dose: 0.64, time: 0.01875 }, /^Time .* clock time.*Dose 0\.64 g looks like ounces|^Dose 0\.64 g .*Time/],
    [{ dose: "18 g" }, /^Typed as text: dose “18 g” reads 18 g; ESPRESSO\.READ\.LOG makes a number of it\.$/],
    [{ dose: "18 g", time: "0:27" }, /^Typed as text: dose “18 g” reads 18 g, time “0:27” reads 27 s; ESPRESSO\.READ\.LOG makes numbers of them\.$/],
    [{ dose: 36, beverage: 18, time: "0:27" }, /^Dose and beverage look swapped: 18 g and 36 g\? Typed as text: time “0:27” /],
    [{ time: "quick" }, /^Time is not a number: “quick” is not a time/],
    [{ dose: true }, /^Dose is not a number: TRUE/],
    [{ beverage: null }, /^Beverage is blank or 0\.$/],
    [{ beverage: 17, strength: null }, /lighter than the dose|swapped/],
    [{ beverage: 50, strength: 12.5 }, /^Extraction would be 34\.7222 %, more than the 30 %/],
    [{ dose: -18 }, /outside 6 to 30 g/],
    [{ dose: 1e300, beverage: 1e300 }, /outside/],
  ])("is in words: %j", (changes, words) => expect(says(changes)).toMatch(words));

  it("names a repeat of the row above only where it can be no coincidence", () => {
    const fine = { ...good, beverage: 36.2, strength: 9.53 };
    expect(checkShot(fine, { above: fine })).toMatch(/^Exactly the same shot as in the row above/);
    expect(checkShot(good, { above: good })).toBe("");
    expect(checkShot({ ...fine, strength: null }, { above: { ...fine, strength: null } })).toBe("");
  });

  it("does not ask for a column that the log does not have", () => {
    const blank = [null, null];
    expect(logCheck({ dose: [18, 18], beverage: [36, 37], time: blank, strength: blank })).toEqual(["", ""]);
    expect(logCheck({ dose: [18, 18], beverage: [36, 37], time: [27, null], strength: blank })).toEqual(["", "Time is blank or 0."]);
  });

  it("is always words that can be read, whatever the cells hold", () => {
    const cell = fc.oneof(fc.double(), fc.integer({ min: -5, max: 500 }), fc.string(), fc.boolean(), fc.constant(null));
    fc.assert(fc.property(cell, cell, cell, cell, (dose, beverage, time, strength) => {
      expect(checkShot({ dose, beverage, time, strength })).toMatch(/^$|[.?]$/);
    }), { numRuns: 2000 });
  });
});

describe("in a sheet", () => {
  it("LOG.CHECK knows the units of the workbook", () => {
    useUnits({ mass: "oz", time: "clock", percent: "cell" });
    try {
      const ounces = (grams: number): number => grams / 28.349523125;
      expect(call("LOG.CHECK", ounces(18), ounces(36), 27 / 86400, 0.095)).toBe("");
      expect(call("LOG.CHECK", 18, ounces(36), 27 / 86400, 0.095)).toMatch(/Dose 18 oz looks like grams where ounces are expected: 0\.634931 oz/);
      expect(call("LOG.CHECK", ounces(18), ounces(36), 27, 0.095)).toMatch(/seconds where clock cells are expected: 27 s/);
      expect(call("LOG.CHECK", ounces(18), ounces(36), 27 / 1440, 0.095)).toMatch(/0:27 typed as a clock time/);
      expect(call("LOG.CHECK", ounces(18), ounces(36), 27 / 86400, 9.5)).toMatch(/a number where percent cells are expected: 9\.5 %/);
    } finally {
      useUnits();
    }
  });

  it("LOG.CHECK keeps an error of another cell in its own row", () => {
    const error = new CellError("#DIV/0!");
    const words = grid("LOG.CHECK", [18, error, 36, null], [36, 36, 18, null], [27, 27, 27, null], [9.5, 9.5, 9.5, null]);
    expect(words).toEqual([[""], [error], [expect.stringMatching(/^Dose and beverage look swapped/)], [""]]);
  });
});
