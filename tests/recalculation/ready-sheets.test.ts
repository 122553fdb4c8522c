import type { ICellData } from "@univerjs/core";
import fc from "fast-check";
import { expect, it } from "vitest";
import { repairedFunctions, repairEngine, repairLibrary } from "../../src/hosts/browser/grid/repaired-engine.ts";
import { address } from "../../src/sheet/formula-text.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { starterIds } from "../../src/starters/index.ts";
import { withStarter } from "../../src/xlsx/ready-sheets.ts";
import { cellsOf, type CellValue, type Workbook } from "../../src/xlsx/workbook.ts";
import { Engine } from "../grid-repairs/engine.ts";
import { ourFunctions } from "./our-functions.ts";

repairLibrary();
const repaired = { functions: [...ourFunctions(), ...repairedFunctions()], started: repairEngine };
const runs = Number(process.env.RUNS ?? 3);

/** Every value of the workbook by sheet and address. */
function valuesOf(workbook: Workbook): Record<string, CellValue | undefined> {
  const found: Record<string, CellValue | undefined> = {};
  for (const sheet of workbook.sheets) for (const { row, column, cell } of cellsOf(sheet)) if (cell.value !== undefined) found[`${sheet.name}!${address(row, column)}`] = cell.value;
  return found;
}

/** The cells of a sheet that a person fills: numbers, and all the cells of tables that hold no formula. */
function inputsOf(workbook: Workbook): string[] {
  const [sheet] = workbook.sheets;
  const inTables = sheet!.tables.flatMap(({ area }) =>
    Array.from({ length: area.bottom - area.top }, (_, down) => Array.from({ length: area.right - area.left + 1 }, (_, across) => [area.top + 1 + down, area.left + across] as const)).flat(),
  );
  const numbers = [...cellsOf(sheet!)].filter(({ cell }) => typeof cell.value === "number").map(({ row, column }) => [row, column] as const);
  const free = [...inTables, ...numbers].filter(([row, column]) => sheet!.cells[row]?.[column]?.formula === undefined);
  return [...new Set(free.map(([row, column]) => address(row, column)))];
}

const changed = (value: unknown, how: string): string | number | null => {
  if (how === "blank") return null;
  if (how === "text") return "not a number";
  if (typeof value !== "number") return 18;
  return { zero: 0, more: value * 1.1, less: value * 0.9, whole: Math.round(value) + 1 }[how]!;
};

it.each(starterIds)("%s is after every edit as when newly opened, and as before when the edit is taken back", async (id) => {
  const { workbook } = withStarter({ sheets: [], names: [] }, id, { units: defaultUnits, figures: "example" });
  const inputs = inputsOf(workbook);
  const edits = fc.array(fc.record({ at: fc.constantFrom(...inputs), how: fc.constantFrom("more", "less", "whole", "more", "less", "zero", "blank", "text") }), { minLength: 6, maxLength: 6 });
  await fc.assert(
    fc.asyncProperty(edits, async (changes) => {
      const engine = await Engine.open(workbook, repaired);
      const put = async (at: string, content: ICellData | string | number | null | undefined) => {
        if (content === null || content === undefined) engine.cell(at).clearContent();
        else engine.cell(at).setValue(content);
        await engine.calculated();
      };
      const first = valuesOf(engine.saved());
      for (const { at, how } of changes) {
        // With its type, as a text may read like a number.
        const { v, t } = engine.cell(at).getCellData() ?? {};
        const before = v === undefined || v === null ? null : { v, t };
        await put(at, changed(v, how));
        const now = valuesOf(engine.saved());
        const fresh = await Engine.open(engine.saved(), repaired);
        expect(now, `${at} ${how}`).toEqual(valuesOf(fresh.saved()));
        await put(at, before);
        expect(valuesOf(engine.saved()), `${at} ${how} and back`).toEqual(first);
        await put(at, changed(v, how));
        expect(valuesOf(engine.saved()), `${at} ${how} again`).toEqual(now);
        await put(at, before);
      }
    }),
    { numRuns: runs },
  );
}, 600_000);
