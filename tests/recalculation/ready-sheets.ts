/** Edits of ready sheets, at random. */
import type { ICellData } from "@univerjs/core";
import fc from "fast-check";
import { expect } from "vitest";
import type { ReadySheetId } from "../../src/ready-sheets/index.ts";
import { address, placeOf } from "../../src/sheet/references.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { withReadySheet } from "../../src/xlsx/ready-sheets.ts";
import { cellsOf, type CellValue, type Workbook } from "../../src/xlsx/workbook.ts";
import { Engine } from "../grid-repairs/engine.ts";
import { repaired } from "./repaired-engine.ts";

/** Every value of the workbook by sheet and address. */
function valuesOf(workbook: Workbook): Record<string, CellValue | undefined> {
  const found: Record<string, CellValue | undefined> = {};
  for (const sheet of workbook.sheets) {
    for (const { row, column, cell } of cellsOf(sheet)) if (cell.value !== undefined) found[`${sheet.name}!${address(row, column)}`] = cell.value;
  }
  return found;
}

/** The cells of a sheet that a person fills: numbers, and all the cells of tables that hold no formula. */
function inputsOf(workbook: Workbook): string[] {
  const [sheet] = workbook.sheets;
  const found = new Set<string>();
  const add = (row: number, column: number) => sheet!.cells[row]?.[column]?.formula === undefined && found.add(address(row, column));
  for (const { area } of sheet!.tables) {
    for (let row = area.top + 1; row <= area.bottom; row++) for (let column = area.left; column <= area.right; column++) add(row, column);
  }
  for (const { row, column, cell } of cellsOf(sheet!)) if (typeof cell.value === "number") add(row, column);
  return [...found];
}

const changed = (value: unknown, how: string): string | number | null => {
  if (how === "blank") return null;
  if (how === "text") return "not a number";
  if (typeof value !== "number") return 18;
  return { zero: 0, more: value * 1.1, less: value * 0.9, whole: Math.round(value) + 1 }[how]!;
};

/** After each edit the sheet is as when newly opened, and as before when the edit is taken back. */
export async function everyEditAsNewlyOpened(id: ReadySheetId, runs: number): Promise<void> {
  const { workbook } = withReadySheet({ sheets: [], names: [] }, id, { units: defaultUnits, figures: "example" });
  const inputs = inputsOf(workbook);
  const how = fc.constantFrom("more", "less", "whole", "more", "less", "zero", "blank", "text");
  const edits = fc.array(fc.record({ at: fc.constantFrom(...inputs), how }), { minLength: 6, maxLength: 6 });
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
        // With its type, as a text may read like a number; as it is held, since what is shown may have fewer digits.
        const { row, column } = placeOf(at)!;
        const { v, t } = engine.workbook.getSheets()[0]!.getSheet().getCellRaw(row, column) ?? {};
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
}
