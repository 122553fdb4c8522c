/** The ready sheets as data: what a host would refuse, and what the sheets promise. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { measureNames, unitChoices, defaultUnits, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { isFunctionName, partsOf } from "../src/sheet/formula-text.ts";
import { placeOf } from "../src/sheet/references.ts";
import { convertedNumber } from "../src/ready-sheets/converted.ts";
import { describedReadySheet, readySheetIds } from "../src/ready-sheets/index.ts";
import { freeCopy, readySheetOfName } from "../src/ready-sheets/recognise.ts";
import type { SheetDescription } from "../src/ready-sheets/sheet-description.ts";

const otherUnits: UnitChoice = { percent: "cell", mass: "oz", time: "clock", temperature: "F", pressure: "psi", volume: "floz", watervolume: "gal", hardness: "dH", alkalinity: "meq/L" };

interface Area {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

function areaAt(at: string, rows = 1, columns = 1): Area {
  const { row, column } = placeOf(at)!;
  return { top: row, left: column, bottom: row + rows - 1, right: column + columns - 1 };
}

function meet(a: Area, b: Area): boolean {
  return a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;
}

/** Everything that fills cells, with its formula where it has one. */
function partsOfSheet({ cells, tables, spills = {} }: SheetDescription): { at: string; area: Area; formula?: string }[] {
  return [
    ...Object.entries(cells).map(([at, { formula }]) => ({ at, area: areaAt(at), formula })),
    ...tables.map(({ at, rows, columns }) => ({ at, area: areaAt(at, rows + 1, columns.length) })),
    ...Object.entries(spills).map(([at, { rows, formats, formula }]) => ({ at, area: areaAt(at, rows, formats.length), formula })),
  ];
}

/** Our functions inside one another in a formula. */
function nested(formula: string): number {
  const parts = partsOf(formula);
  const open: boolean[] = [];
  let deepest = 0;
  parts.forEach((part, index) => {
    if (part.text === "(") {
      open.push(isFunctionName(parts, index - 1) && parts[index - 1]!.text.startsWith("ESPRESSO."));
      deepest = Math.max(deepest, open.filter(Boolean).length);
    } else if (part.text === ")") open.pop();
  });
  return deepest;
}

/** The areas that a formula refers to: addresses, ranges and names of cells. */
function referred(formula: string, { cells }: SheetDescription): Area[] {
  const parts = partsOf(formula);
  const found: Area[] = [];
  parts.forEach((part, index) => {
    const named = part.kind === "name" ? Object.entries(cells).find(([, { name }]) => name === part.text) : undefined;
    if (named) found.push(areaAt(named[0]));
    if (part.kind !== "reference" || parts[index - 1]?.text === ":") return;
    const from = placeOf(part.text)!;
    const to = parts[index + 1]?.text === ":" ? placeOf(parts[index + 2]!.text)! : from;
    found.push({ top: from.row, left: from.column, bottom: to.row, right: to.column });
  });
  return found;
}

describe.each(readySheetIds.flatMap((id) => [defaultUnits, otherUnits].map((units) => [id, units] as const)))("the sheet %s", (id, units) => {
  const sheet = describedReadySheet(id, { units, figures: "example" });
  const parts = partsOfSheet(sheet);

  it("puts nothing over anything else", () => {
    const clashes = parts.flatMap((one, index) => parts.slice(index + 1).flatMap((other) => (meet(one.area, other.area) ? [`${one.at} and ${other.at}`] : [])));
    expect(clashes).toEqual([]);
  });

  it("keeps to Excel's limits and says nothing that Excel would read as a formula", () => {
    for (const { at, formula } of parts) {
      if (formula === undefined) continue;
      // Microsoft, "Excel specifications and limits": 8,192 characters a formula; a text in a formula has 255 (from memory).
      expect(formula.length, at).toBeLessThan(8192);
      expect(partsOf(formula).filter(({ kind, text }) => kind === "text" && text.length > 257).map(({ text }) => text), at).toEqual([]);
    }
    for (const [at, { value, allowed }] of Object.entries(sheet.cells)) {
      if (typeof value === "string") expect(value, at).not.toMatch(/^[=+\-@]/);
      expect(allowed?.words.length ?? 0, at).toBeLessThan(256);
      expect(allowed?.choices?.join(",").length ?? 0, at).toBeLessThan(256);
    }
    expect(sheet.name.length).toBeLessThan(32);
  });

  it("chains our functions at most two deep, as Excel takes half a second for each level", () => {
    const depthOf = (formula: string, seen: readonly string[] = []): number => {
      const calculated = parts.filter((part) => part.formula !== undefined && !seen.includes(part.at));
      const before = referred(formula, sheet).flatMap((area) => calculated.filter((part) => meet(part.area, area)));
      return nested(formula) + Math.max(0, ...before.map((part) => depthOf(part.formula!, [...seen, part.at])));
    };
    for (const { at, formula } of parts) if (formula !== undefined) expect(depthOf(formula, [at]), at).toBeLessThanOrEqual(2);
  });

  it("refers to its tables by their columns, so that rows can be inserted", () => {
    const bodies = sheet.tables.map(({ at, rows, columns }) => areaAt(at, rows + 1, columns.length));
    for (const { at, formula } of parts) {
      if (formula === undefined) continue;
      const intoTable = referred(formula, sheet).filter((area) => bodies.some((body) => meet(body, area)));
      // Setting trial's tastes are plotted beside extractions that no table holds.
      if (!(id === "Trial" && at === "AP6")) expect(intoTable, at).toEqual([]);
    }
  });

  it("names a method under every verdict, and every input has its unit or is a text, a count or a share", () => {
    const roles = Object.values(sheet.cells).map(({ role }) => role);
    if (roles.includes("verdict")) expect(Object.values(sheet.cells).some(({ role, value }) => role === "footnote" && /^Methods?:/.test(String(value)))).toBe(true);
    expect(sheet.purpose).toMatch(/^[^.]+\.$/);
  });

  it("has words for each chart, and titles and numbers in cells that exist", () => {
    const filled = (at: string) => parts.some(({ area }) => meet(area, areaAt(at)));
    for (const { words, xTitle, yTitle, series } of sheet.charts ?? []) {
      for (const at of [words, xTitle, yTitle]) expect(filled(at), at).toBe(true);
      for (const reference of series.flatMap(({ x, y }) => [x, y])) {
        if (!reference.includes("[")) expect(filled(reference.split(":")[0]!), reference).toBe(true);
      }
    }
  });
});

describe("a second sheet of a kind", () => {
  it("gets names and a sheet name that nothing else has", () => {
    const used = { sheets: ["Shot Log", "shot log 2"], tables: ["ShotLog"], names: ["shotlog2_dose"] };
    expect(freeCopy("ShotLog", used)).toEqual({ copy: 3, sheet: "Shot log 3" });
    expect(freeCopy("Recipe", used)).toEqual({ copy: 1, sheet: "Recipe card" });
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
