import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { convert, unitsOf } from "../shared/units.ts";
import { chosenUnit, defaultUnits, measureNames, unitChoices, unitsFromText, unitsToText, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { runs } from "./counts.ts";
import { call, CellError, grid, useUnits } from "./worksheet.ts";

const declarations = await readDeclarations();

const anyCell = fc.oneof(
  fc.constantFrom(null, "", 0, true, false, "abc", "18", " ", "0:27", "=1", "5 g", -1, 1e300, -1e300, 5e-324, new CellError("#N/A"), { basicValue: 3 }),
  fc.double({ noNaN: true }),
  fc.integer({ min: -10, max: 200 }),
  fc.double({ min: 0, max: 1, noNaN: true }),
);
const anyRange = fc.oneof(
  fc.constant(null),
  fc.tuple(fc.integer({ min: 1, max: 6 }), fc.integer({ min: 1, max: 3 })).chain(([rows, columns]) =>
    fc.array(fc.array(anyCell, { minLength: columns, maxLength: columns }), { minLength: rows, maxLength: rows })),
);

describe("whatever the cells hold", () => {
  it.each(declarations)("$name gives a rectangle of things a cell can hold, and never throws", ({ name, parameters }) => {
    fc.assert(
      fc.property(fc.tuple(...parameters.map(() => anyRange)), (cells) => {
        const result = grid(name, ...cells);
        expect(result.length).toBeGreaterThan(0);
        for (const row of result) {
          expect(row.length).toBe(result[0]!.length);
          expect(row.length).toBeGreaterThan(0);
          for (const cell of row) {
            if (cell instanceof CellError) expect(cell.message).not.toMatch(/fault in Pucksheet/);
            else if (typeof cell === "number") expect(Number.isFinite(cell)).toBe(true);
            else expect(["string", "boolean"]).toContain(typeof cell);
          }
        }
      }),
      { numRuns: runs(150) },
    );
  });
});

describe("a column", () => {
  const rowwise = ["RATIO", "EXTRACTION", "STRENGTH", "SOLIDS", "FLOW", "DILUTE", "EXTRACTION.FROMPUCK", "TIME.ATBEVERAGE", "SHOT"];
  it.each(rowwise)("of %s equals its cells one by one", (name) => {
    const parameters = declarations.find((it) => it.name === name)!.parameters.length;
    fc.assert(
      fc.property(fc.array(fc.tuple(...Array.from({ length: parameters }, () => anyCell)), { minLength: 1, maxLength: 8 }), (rows) => {
        const together = grid(name, ...Array.from({ length: parameters }, (_, column) => rows.map((row) => [row[column]])));
        const apart = rows.map((row) => grid(name, ...row.map((cell) => [[cell]]))[0]);
        expect(together).toEqual(apart);
      }),
      { numRuns: runs(100) },
    );
  });
});

const dose = fc.double({ min: 5, max: 30, noNaN: true });
const beverage = fc.double({ min: 5, max: 90, noNaN: true });
const strength = fc.double({ min: 1, max: 20, noNaN: true });

describe("inverses invert", () => {
  it("strength and extraction", () => {
    fc.assert(
      fc.property(dose, beverage, strength, (d, b, s) => {
        const extraction = call("EXTRACTION", d, b, s);
        fc.pre(typeof extraction === "number" && extraction >= 1);
        expect(call("STRENGTH", d, b, extraction)).toBeCloseTo(s, 9);
        expect(call("BEVERAGE.FORSTRENGTH", d, extraction, s)).toBeCloseTo(b, 9);
      }),
    );
  });

  it("ratio, beverage and dose", () => {
    fc.assert(
      fc.property(dose, fc.double({ min: 0.5, max: 5, noNaN: true }), (d, ratio) => {
        const cup = call("BEVERAGE", d, ratio);
        expect(call("RATIO", d, cup)).toBeCloseTo(ratio, 12);
        expect(call("DOSE", cup, ratio)).toBeCloseTo(d, 12);
      }),
    );
  });

  it("a diluted beverage has the strength it was diluted to", () => {
    fc.assert(
      fc.property(beverage, fc.double({ min: 5, max: 20, noNaN: true }), fc.double({ min: 1, max: 5, noNaN: true }), (b, s, target) => {
        const water = call("DILUTE", b, s, target) as number;
        expect((call("SOLIDS", b, s) as number) / (b + water)).toBeCloseTo(target / 100, 12);
      }),
    );
  });

  it("every unit converts there and back to 1e-12", () => {
    for (const measure of measureNames) {
      const all = Object.values(unitsOf(measure));
      for (const from of all) for (const to of all) {
        for (const value of [0.001, 1, 17.5, 12345]) {
          // Where a scale has its zero elsewhere, the digits are those of the distance from it.
          const size = Math.max(value, Math.abs(from.zero ?? 0), Math.abs(to.zero ?? 0));
          expect(Math.abs(convert(convert(value, from, to), to, from) - value) / size).toBeLessThan(1e-12);
        }
      }
    }
  });

  it("a unit choice is read back from its text, and no text is mistaken for one", () => {
    const choices = Object.fromEntries(measureNames.map((measure) => [measure, fc.constantFrom(...unitChoices(measure))]));
    const anyChoice = fc.record(choices) as fc.Arbitrary<UnitChoice>;
    fc.assert(fc.property(anyChoice, (choice) => {
      const text = unitsToText(choice);
      expect(unitsFromText(text)).toEqual({ choice });
      expect(text.length).toBeLessThanOrEqual(255); // the limit of a custom document property
    }));
    fc.assert(fc.property(fc.string(), (text) => {
      const { choice, note } = unitsFromText(text);
      if (note !== undefined) expect(choice).toEqual(defaultUnits);
    }));
  });
});

describe("units never change a result", () => {
  const changed: Partial<UnitChoice>[] = [
    { mass: "oz" }, { percent: "cell" }, { time: "clock" }, { volume: "floz", temperature: "F" },
    { mass: "oz", percent: "cell", time: "clock", temperature: "F", volume: "floz", pressure: "psi" },
  ];
  /** Arguments and result of a function by measure, so that both can be written in any unit. */
  const cases: { name: string; cells: [number, keyof UnitChoice | undefined][]; result: (keyof UnitChoice | undefined)[] }[] = [
    { name: "EXTRACTION", cells: [[18, "mass"], [36, "mass"], [9.5, "percent"], [2, "percent"]], result: ["percent"] },
    { name: "BEVERAGE", cells: [[18, "mass"], [2, undefined]], result: ["mass"] },
    { name: "FLOW", cells: [[36, "mass"], [25, "time"], [5, "time"]], result: [undefined] },
    { name: "SHOT", cells: [[18, "mass"], [36, "mass"], [9.5, "percent"], [25, "time"]], result: [undefined, "percent", "mass", undefined] },
    { name: "MASS.FROMVOLUME", cells: [[36, "volume"], [10, "percent"], [60, "temperature"]], result: ["mass"] },
    { name: "TIME.ATBEVERAGE", cells: [[28, "time"], [38, "mass"], [36, "mass"]], result: ["time"] },
  ];

  it.each(cases.flatMap((one) => changed.map((units) => ({ ...one, units }))))("$name in $units", ({ name, cells, result, units }) => {
    const inUnits = (value: number, measure: keyof UnitChoice | undefined): number =>
      measure ? convert(value, chosenUnit(defaultUnits, measure), chosenUnit({ ...defaultUnits, ...units }, measure)) : value;
    const usual = grid(name, ...cells.map(([value]) => value))[0]!;
    useUnits(units);
    const other = grid(name, ...cells.map(([value, measure]) => inUnits(value, measure)))[0]!;
    useUnits();
    other.forEach((cell, index) => {
      const want = inUnits(usual[index] as number, result[index]);
      expect(Math.abs((cell as number) - want) / Math.abs(want)).toBeLessThan(1e-12); // a few roundings of a double
    });
  });
});
