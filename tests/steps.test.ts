/** What the page changes in the open workbook by itself is one step of Undo, and comes to the same as a workbook opened with it. */
import { IUniverInstanceService } from "@univerjs/core";
import { expect, it } from "vitest";
import { takeStep } from "../src/hosts/browser/grid/step.ts";
import { readySheetIds } from "../src/ready-sheets/index.ts";
import { address } from "../src/sheet/references.ts";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { demoWorkbook, withConvertedInputs, withFittedResults, withReadySheet } from "../src/xlsx/ready-sheets.ts";
import { cellsOf, type Workbook } from "../src/xlsx/workbook.ts";
import { Engine } from "./grid-repairs/engine.ts";
import { repaired } from "./recalculation/repaired-engine.ts";

function described({ sheets, names }: Workbook) {
  return {
    names: names.map(({ name, refersTo }) => `${name} ${refersTo}`).sort(),
    sheets: sheets.map((sheet) => ({
      name: sheet.name,
      // What a blank cell is made of is the grid's own affair.
      cells: [...cellsOf(sheet)]
        .filter(({ cell }) => Object.values(cell).some((part) => part !== undefined))
        .map(({ row, column, cell }) => [address(row, column), cell]),
      tables: sheet.tables,
      merges: sheet.merges,
      columns: sheet.columns,
      rows: sheet.rows,
    })),
  };
}

async function opened(workbook: Workbook): Promise<Engine> {
  const engine = await Engine.open(workbook, repaired);
  engine.injector.get(IUniverInstanceService).focusUnit(engine.workbook.getId());
  return engine;
}

async function sameAsOpened(engine: Engine, next: Workbook): Promise<void> {
  const before = described(engine.saved());
  takeStep(engine.injector, engine.workbook, engine.saved(), next);
  await engine.calculated();
  const wanted = described((await Engine.open(next, repaired)).saved());
  expect(described(engine.saved())).toEqual(wanted);
  await engine.api.undo();
  await engine.calculated();
  expect(described(engine.saved())).toEqual(before);
  await engine.api.redo();
  await engine.calculated();
  expect(described(engine.saved())).toEqual(wanted);
}

it.each(readySheetIds)("the ready sheet %s", async (id) => {
  const engine = await opened(demoWorkbook());
  await sameAsOpened(engine, withReadySheet(engine.saved(), id, { units: defaultUnits, figures: "example" }).workbook);
});

it("numbers converted and results fitted to other units", async () => {
  const engine = await opened(demoWorkbook());
  const units = { ...defaultUnits, mass: "oz", temperature: "F", percent: "cell" } as typeof defaultUnits;
  await sameAsOpened(engine, withConvertedInputs(engine.saved(), defaultUnits, units).workbook);
  await sameAsOpened(engine, withFittedResults(engine.saved(), defaultUnits, units)!);
});
