import { readFileSync } from "node:fs";
import fc from "fast-check";
import { afterEach, describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { isNumber, quantities, quantity, type Quantity, type QuantityName } from "../shared/quantities.ts";
import { fromCanonical, unitsOf, type MeasureName } from "../shared/units.ts";
import { amount, words } from "../shared/words.ts";
import { chosenUnit, defaultUnits, measureNames, unitChoices, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { worded } from "../src/sheet/wording.ts";
import { CellError, grid, parseExample, useUnits } from "./worksheet.ts";

/** A workbook that has chosen a unit is spoken to in that unit, whatever a function has to say. */
afterEach(() => useUnits());

/**
 * Their unit is an argument, or they quote a publication or the help pages. WATER.ADVICE says hardness and alkalinity side by side, rounded:
 * tests/decisions/water-advice.test.ts reads its sentences in other units.
 */
const ownUnits = ["PRESSURE", "TEMPERATURE", "WATER.HARDNESS", "WATER.ALKALINITY", "WATER.ADVICE", "STANDARD", "SOURCE", "FUNCTIONS", "COMPARE.DECISION"];

const declarations = (await readDeclarations()).filter(({ name, parameters }) => parameters.length > 0 && !ownUnits.includes(name));

const choices = measureNames.flatMap((measure) => unitChoices(measure).map((unit) => [measure, unit] as const));

/** Numbers of canonical units, from too small to too large for anything. */
const odd = [-1, -300, 0.0001, 0.5, 7.5, 200, 400, 5001, 1e300];

/** What a bar types beside numbers. */
const texts = ["abc", "18 scoops", "0:99", "900"];

interface Parameter {
  readonly measure?: MeasureName;
  /** The symbol of its own unit, where a workbook has no choice. */
  readonly fixed?: string;
}

function parametersOf({ exportName, topic, parameters }: (typeof declarations)[number]): Parameter[] {
  const text = readFileSync(`src/functions/${topic}.ts`, "utf8");
  const start = text.indexOf(`export function ${exportName}(`);
  const body = text.slice(start, text.indexOf("\n}", start));
  return parameters.map(({ argument }) => {
    const standsFor = new RegExp(`\\(${argument}, "(\\w+)"`).exec(body)?.[1] ?? argument;
    const it = (quantities as Record<string, Quantity>)[standsFor];
    if (!it || !isNumber(it)) return {};
    return it.measure ? { measure: it.measure } : it.unit ? { fixed: it.unit } : {};
  });
}

const parametersByName = new Map(declarations.map((declaration) => [declaration.name, parametersOf(declaration)]));

/** An argument in canonical units as it would be typed under a choice of units. */
function typedIn(choice: UnitChoice, cell: unknown, measure: MeasureName | undefined): unknown {
  if (Array.isArray(cell)) return cell.map((inner: unknown) => typedIn(choice, inner, measure));
  return typeof cell === "number" && measure ? fromCanonical(cell, chosenUnit(choice, measure)) : cell;
}

/** Everything said by a call, cell by cell: errors in words, and results that are texts. */
function said(choice: UnitChoice, name: string, cells: readonly unknown[], parameters: readonly Parameter[]): string[] {
  useUnits(choice);
  const results = grid(name, ...cells.map((cell, index) => typedIn(choice, cell, parameters[index]?.measure)));
  return results.flat().map((cell) => (cell instanceof CellError ? cell.message : typeof cell === "string" ? cell : ""));
}

const inDefaults = new Map<string, string[]>();

/** The same in default units, which every choice is compared with: said once. */
function saidInDefaults(key: string, name: string, cells: readonly unknown[], parameters: readonly Parameter[]): string[] {
  let known = inDefaults.get(key);
  if (!known) inDefaults.set(key, (known = said(defaultUnits, name, cells, parameters)));
  return known;
}

/** The numbers that stand before this symbol, also as “6 to 9 bar”. */
function numbersBefore(symbol: string, text: string): number[] {
  if (!text.includes(symbol)) return [];
  const number = "-?\\d[\\d.]*(?:e[+-]?\\d+)?";
  const pattern = new RegExp(`(?:(${number}) to )?(${number}) ${symbol.replace(/[/°]/g, "\\$&")}(?![\\w/])`, "g");
  return [...text.matchAll(pattern)].flatMap(([, low, high]) => [low, high]).filter((it) => it !== undefined).map(Number);
}

describe.each(choices)("%s in %s", (measure, unit) => {
  const choice: UnitChoice = { ...defaultUnits, [measure]: unit };
  const chosen = chosenUnit(choice, measure);
  const spoken = chosen.saidIn ?? chosen;
  const canonical = Object.values(unitsOf(measure))[0]!;
  const others = Object.values(unitsOf(measure)).filter(({ symbol }) => symbol !== spoken.symbol);

  it("is all that a function says, and value and limits are those of the canonical unit", () => {
    for (const declaration of declarations) {
      const { name, examples } = declaration;
      const parameters = parametersByName.get(declaration.name)!;
      const { cells: example } = parseExample(examples[0]!);
      const cells = parameters.map((_, index) => example[index] ?? null);
      // Hardness and alkalinity have the same units, and either may be chosen without the other.
      const beside = parameters.flatMap((it) => (it.measure && it.measure !== measure ? [chosenUnit(choice, it.measure).symbol] : [it.fixed]));
      const elsewhere = others.filter(({ symbol }) => !beside.includes(symbol));
      for (const [index] of parameters.entries()) {
        for (const cell of [...odd, ...texts, null]) {
          const given = cells.map((it, at) => (at === index ? cell : it));
          const here = said(choice, name, given, parameters);
          const there = saidInDefaults(`${name} ${index} ${JSON.stringify(cell)}`, name, given, parameters);
          here.forEach((text, at) => {
            if (text === "" && !there[at]) return;
            const place = `${name}, ${JSON.stringify(cell)} as argument ${index + 1}: ${text}`;
            for (const { symbol } of elsewhere) expect(numbersBefore(symbol, text), place).toEqual([]);
            // Cells read as they were typed mean another number in another unit, and which slips the log functions think of depends on it.
            if (["LOG.CHECK", "LOG.FINDINGS", "SHOT.CHECK", "SHOT.ADVICE"].includes(name) || !parameters.some((it) => it.measure === measure)) return;
            // A recipe and a reading are said as finely as they are weighed and read.
            if (name === "RECIPE.ADVICE" || name === "INSTRUMENT.ADVICE") return;
            // Percentages and times have a hint at the other style where the number can only be of that; it says the number as it was typed.
            if (spoken !== chosen || typeof cell === "string" || beside.includes(canonical.symbol)) return;
            const [numbers, wanted] = [numbersBefore(spoken.symbol, text), numbersBefore(canonical.symbol, there[at] ?? "")];
            expect(numbers.length, place).toBe(wanted.length);
            // Six digits are said: half a unit of the sixth in either, seen from the larger of number and zero point.
            numbers.forEach((number, k) => {
              const expected = fromCanonical(wanted[k]!, spoken);
              expect(Math.abs(number - expected), place).toBeLessThanOrEqual(1.1e-5 * Math.max(Math.abs(expected), Math.abs(spoken.zero ?? 0)));
            });
          });
        }
      }
    }
  });
});

describe("an amount", () => {
  const measured = (Object.keys(quantities) as QuantityName[]).filter((name) => {
    const it = quantity(name);
    return isNumber(it) && it.measure;
  });

  it("is said so that it converts back, for every quantity in every unit", () => {
    const anyValue = fc.double({ min: 0.001, max: 1000, noNaN: true });
    fc.assert(fc.property(fc.constantFrom(...measured), fc.constantFrom(...choices), anyValue, (name, [measure, unit], value) => {
      const it = quantity(name);
      fc.pre(isNumber(it) && it.measure === measure);
      const choice: UnitChoice = { ...defaultUnits, [measure]: unit };
      const chosen = chosenUnit(choice, measure);
      const { size, zero = 0, symbol } = chosen.saidIn ?? chosen;
      const text = worded(words`${amount(name, value)}`, choice);
      expect(text.endsWith(` ${symbol}`)).toBe(true);
      // Six digits are said.
      const number = Number(text.slice(0, -symbol.length - 1));
      expect(Math.abs((number - zero) * size - value)).toBeLessThanOrEqual(1e-5 * Math.max(value, Math.abs(zero * size)));
    }));
  });
});
