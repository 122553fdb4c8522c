/** The ready sheets as data: what a host would refuse, and what the sheets promise. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { toCanonical, unitsOf } from "../shared/units.ts";
import { convertedNumber } from "../src/ready-sheets/converted.ts";
import { allReadySheetIds, describedReadySheet } from "../src/ready-sheets/index.ts";
import { freeCopy, readySheetOfName } from "../src/ready-sheets/recognise.ts";
import type { SheetDescription } from "../src/ready-sheets/sheet-description.ts";
import { partsOf } from "../src/sheet/formula-text.ts";
import { spelled } from "../src/sheet/spelling.ts";
import { chosenUnit, defaultUnits, measureNames, unitChoices, unitsToText, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { rules } from "./ready-sheet-rules.ts";

/** A unit of every measure that nobody has thought of: adding one is adding its record. */
for (const measure of measureNames) {
  const zero = measure === "temperature" ? { zero: 11 } : {};
  Object.assign(unitsOf(measure), { invented: { size: 7, symbol: `${measure.slice(0, 4)}u`, format: "0.000", ...zero } });
}

const choices: UnitChoice[] = [
  defaultUnits,
  ...measureNames.flatMap((measure) => unitChoices(measure).slice(1).map((unit) => ({ ...defaultUnits, [measure]: unit }))),
  Object.fromEntries(measureNames.map((measure) => [measure, unitChoices(measure)[1]])) as unknown as UnitChoice,
];

describe.each(allReadySheetIds)("the sheet %s, in every unit there is and one more,", (id) => {
  const described = choices.flatMap((units) => (["none", "example"] as const).map((figures) => ({ units, figures, sheet: describedReadySheet(id, { units, figures }) })));

  it.each(Object.keys(rules))("%s", (rule) => {
    const faults = described.flatMap(({ units, figures, sheet }) => rules[rule]!(sheet, units).map((fault) => `${unitsToText(units)}, ${figures}: ${fault}`));
    expect(faults).toEqual([]);
  });

  it("holds the same amounts, shown in the unit's own format", () => {
    for (const { units, figures, sheet } of described) {
      const canonical = numbersOf(describedReadySheet(id, { units: defaultUnits, figures }));
      const numbers = numbersOf(sheet);
      expect(numbers.length).toBe(canonical.length);
      numbers.forEach(({ at, value, format, measure, difference }, index) => {
        if (!measure) return expect(value, at).toEqual(canonical[index]!.value);
        const unit = chosenUnit(units, measure);
        // Defaults are rounded to seven digits and more, give-or-takes to four.
        const back = difference ? value * unit.size : toCanonical(value, unit);
        expect(Math.abs(back - canonical[index]!.value), `${at} in ${unit.symbol}`).toBeLessThanOrEqual((difference ? 5e-4 : 1e-6) * Math.abs(back));
        // A pasted log shows what it holds, in no format.
        if (format !== undefined) expect(format, at).toBe(unit.format);
      });
    }
  });
});

function numbersOf({ cells, tables }: SheetDescription) {
  const typed = Object.entries(cells).flatMap(([at, cell]) => (cell.role === "input" && typeof cell.value === "number" ? [{ ...cell, at, value: cell.value }] : []));
  const columns = tables.flatMap(({ name, columns }) =>
    columns.flatMap(({ values = [], format, measure, heading }) =>
      values.flatMap((value) => (typeof value === "number" ? [{ at: `${name}[${heading}]`, value, format, measure, difference: undefined }] : [])),
    ),
  );
  return [...typed, ...columns];
}

it("formulas call functions that there are", async () => {
  const names = new Set((await readDeclarations()).map(({ name }) => spelled(name)));
  for (const id of allReadySheetIds) {
    const { cells, spills = {} } = describedReadySheet(id, { units: defaultUnits });
    for (const { formula } of [...Object.values(cells), ...Object.values(spills)]) {
      const called = partsOf(formula ?? "").filter(({ kind, text }) => kind === "name" && text.startsWith(spelled(""))).map(({ text }) => text);
      expect(called.filter((name) => !names.has(name))).toEqual([]);
    }
  }
});

describe("a second sheet of a kind", () => {
  it("gets names and a sheet name that nothing else has", () => {
    const used = { sheets: ["Shot Log", "shot log 2"], tables: ["ShotLog"], names: ["shotlog2_dose"] };
    expect(freeCopy("ShotLog", used)).toEqual({ copy: 3, sheets: [{ id: "ShotLog", name: "Shot log 3" }] });
    expect(freeCopy("Recipe", used)).toEqual({ copy: 1, sheets: [{ id: "Recipe", name: "Recipe card" }] });
    const third = describedReadySheet("ShotLog", { units: defaultUnits, copy: 3 });
    expect(third.tables[0]!.name).toBe("ShotLog3");
    expect(third.cells.A1!.name).toBe("ShotLog3_sheet");
  });

  it("is recognised by the name on its first cell", () => {
    expect(readySheetOfName("ShotLog_sheet")).toEqual({ id: "ShotLog", copy: 1 });
    expect(readySheetOfName("audit12_SHEET")).toEqual({ id: "Audit", copy: 12 });
    expect(readySheetOfName("ShotLog_dose")).toBeUndefined();
    expect(readySheetOfName("MyShotLog_sheet")).toBeUndefined();
  });
});

describe("converting typed numbers", () => {
  it("uses the defined sizes of the units, with zero points except for differences", () => {
    // 93 °C is 199.4 °F; a give-or-take of 1 °C is 1.8 °F. 1 oz is 28.349523125 g, exactly.
    const after = { ...defaultUnits, temperature: "F", mass: "oz" } as const;
    expect(convertedNumber(93, { measure: "temperature" }, defaultUnits, after)).toBe(199.4);
    expect(convertedNumber(1, { measure: "temperature", difference: true }, defaultUnits, after)).toBe(1.8);
    expect(convertedNumber(28.349523125, { measure: "mass" }, defaultUnits, after)).toBe(1);
  });

  it("gives a number back as it was typed", () => {
    const each = Object.fromEntries(measureNames.map((measure) => [measure, fc.constantFrom<string>(...unitChoices(measure))]));
    const choices = fc.record(each) as unknown as fc.Arbitrary<UnitChoice>;
    // Four decimals at most, as people type them.
    const typed = fc.integer({ min: 1, max: 9_999_999 }).map((number) => number / 10_000);
    fc.assert(
      fc.property(choices, choices, fc.constantFrom(...measureNames), typed, (before, after, measure, value) => {
        const there = convertedNumber(value, { measure }, before, after);
        expect(convertedNumber(there, { measure }, after, before)).toBeCloseTo(value, 9);
      }),
    );
  });
});
