/**
 * Workbooks by others, worked on in the grid's engine as a person does, saved, and read by an outside library: nothing differs but what was
 * done, and what follows from it.
 */
import { IUniverInstanceService } from "@univerjs/core";
import { ALL_IMPLEMENTED_FUNCTIONS_SET } from "@univerjs/engine-formula";
import { expect } from "vitest";
import { showKeepingDiffering } from "../../src/hosts/browser/first-results.ts";
import { growTables } from "../../src/hosts/browser/grid/growing-tables.ts";
import { WorkbookJournal } from "../../src/hosts/browser/grid/journal.ts";
import { repairEngine } from "../../src/hosts/browser/grid/repaired-engine.ts";
import { takeStep } from "../../src/hosts/browser/grid/step.ts";
import { describedReadySheet } from "../../src/ready-sheets/index.ts";
import { address, placeOf } from "../../src/sheet/references.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { openWorkbook } from "../../src/xlsx/open-workbook.ts";
import { withReadySheet } from "../../src/xlsx/ready-sheets.ts";
import { saveCopy } from "../../src/xlsx/save-copy.ts";
import type { Workbook } from "../../src/xlsx/workbook.ts";
import { Engine } from "../grid-repairs/engine.ts";
import { repaired } from "../recalculation/repaired-engine.ts";
import { newFaults } from "./faults.ts";
import { foreignBytes, outsideCells, outsideView, type OutsideCells } from "./foreign-files.ts";

const ours = new Set<string>();
const known = new Set([...[...ALL_IMPLEMENTED_FUNCTIONS_SET].map(String), "LET", "LAMBDA"]);
const typedText = "typed & <here>";
const newHeading = "Set anew [x]";
const recipe = describedReadySheet("Recipe", { units: defaultUnits, figures: "none" }).name;

/** Opened as the page does it: where a first result differs from the file's, the file's is kept. */
async function opened(name: string, bytes: Uint8Array) {
  const { workbook } = openWorkbook(bytes, { fileName: name, ours, knowsFunction: (one) => known.has(one) });
  let engine: Engine | undefined;
  const { calculated } = await showKeepingDiffering(workbook, ours, async (shown) => {
    engine = await Engine.open(shown, {
      ...repaired,
      started: (api, injector) => {
        growTables(api, injector, () => undefined);
        return repairEngine(api, injector);
      },
    });
    return engine.saved();
  });
  const { workbook: book, injector, api } = engine!;
  injector.get(IUniverInstanceService).focusUnit(book.getId());
  const journal = new WorkbookJournal(new Map(book.getSheets().map((sheet) => [sheet.getSheetId(), sheet.getSheetName()])));
  api.onCommandExecuted((command, options) => {
    if (command.id.startsWith("sheet.mutation.") && !options?.onlyLocal) journal.note(command);
  });
  return { engine: engine!, journal, before: calculated };
}

interface Done {
  /** The number of the row that was inserted, from 0. */
  readonly insertedRow?: number;
  readonly sheet: string;
  readonly typed: string;
  readonly heading?: string;
}

/** Types below everything; where there is a table, a row goes into it and its first heading is typed over. */
async function workedOn({ engine, before }: { engine: Engine; before: Workbook }): Promise<Done[]> {
  const done: Done[] = [];
  for (const sheet of before.sheets.filter(({ hidden }) => !hidden)) {
    const inGrid = engine.workbook.getSheetByName(sheet.name)!;
    const table = sheet.tables.find(({ area, headless }) => !headless && area.bottom > area.top + 1);
    const row = sheet.cells.length + 1;
    inGrid.getRange(row, 1).setValue(typedText);
    await engine.calculated();
    if (table) {
      inGrid.getRange(table.area.top, table.area.left).setValue(newHeading);
      await engine.calculated();
      inGrid.insertRowsBefore(table.area.top + 2, 1);
      await engine.calculated();
    }
    const insertedRow = table && table.area.top + 2;
    done.push({
      sheet: sheet.name,
      typed: address(insertedRow === undefined ? row : row + 1, 1),
      ...(table && { insertedRow, heading: address(table.area.top, table.area.left) }),
    });
  }
  takeStep(engine.injector, engine.workbook, engine.saved(), withReadySheet(engine.saved(), "Recipe", { units: defaultUnits, figures: "none" }).workbook);
  await engine.calculated();
  return done;
}

type Told = Record<string, { readonly v: unknown; readonly isFormula: boolean; readonly z: unknown }>;

function told(cells: OutsideCells): Told {
  return Object.fromEntries(Object.entries(cells).map(([at, { v, f, z }]) => [at, { v, isFormula: f !== undefined, z }]));
}

/** Holds that a copy differs only in what was done to the workbook; `validated` by Microsoft's validator too. */
export async function differsOnlyInWhatWasDone(name: string, { validated }: { readonly validated: boolean }): Promise<void> {
  const bytes = foreignBytes(name);
  const { engine, journal, before } = await opened(name, bytes);
  const done = await workedOn({ engine, before });
  const { bytes: copy } = await saveCopy(bytes, { before, now: engine.saved(), journal: journal.edits }, { fileName: name, ours });
  const [was, is] = [outsideView(bytes), outsideView(copy)];
  expect(is.SheetNames).toEqual([...was.SheetNames, recipe]);
  for (const sheet of was.SheetNames) {
    const here = done.find((one) => one.sheet === sheet);
    const cells = told(outsideCells(was.Sheets[sheet]!));
    expect(told(outsideCells(is.Sheets[sheet]!)), sheet).toEqual(here ? withWhatWasDone(cells, here) : cells);
  }
  if (validated) expect(await newFaults(name, bytes, copy)).toEqual([]);
}

/** The cells where they are after a row was inserted, with what was typed. */
function withWhatWasDone(cells: Told, { insertedRow, typed, heading }: Done): Told {
  const all: Record<string, Told[string]> = {};
  for (const [at, cell] of Object.entries(cells)) {
    const { row, column } = placeOf(at)!;
    all[address(insertedRow !== undefined && row >= insertedRow ? row + 1 : row, column)] = cell;
  }
  all[typed] = { v: typedText, isFormula: false, z: "General" };
  if (heading !== undefined) all[heading] = { ...all[heading]!, v: newHeading };
  return all;
}
