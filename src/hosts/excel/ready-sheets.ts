/** Starts ready sheets in the workbook, and takes them away again. */
import { describedReadySheet, type ReadySheetId } from "../../ready-sheets/index";
import { freeCopy } from "../../ready-sheets/recognise";
import type { SheetDescription } from "../../ready-sheets/sheet-description";
import { defaultUnits, type UnitChoice } from "../../sheet/unit-choice";
import { writeDescribedSheet } from "./write-sheet";
import { inWords } from "./office-error";
import { findReadySheets } from "./ready-sheet-units";

/** Adds a new sheet with this ready sheet and shows it. Where that fails, nothing of it stays. Answers the sheet's name. */
export async function startSheet(id: ReadySheetId, units: UnitChoice, example: boolean): Promise<string> {
  let added: { readonly sheet: string; readonly names: readonly string[] } | undefined;
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const { worksheets, tables, names } = context.workbook;
      worksheets.load({ name: true });
      tables.load({ name: true });
      names.load({ name: true });
      await context.sync();
      const nameOf = ({ name }: { readonly name: string }) => name;
      const { copy, sheet: name } = freeCopy(id, { sheets: worksheets.items.map(nameOf), tables: tables.items.map(nameOf), names: names.items.map(nameOf) });
      const description = describedReadySheet(id, { units, copy, figures: example ? "example" : "none" });
      const sheet = worksheets.add(name);
      await context.sync();
      added = { sheet: name, names: namesOf(description) };
      await writeDescribedSheet(context, sheet, description);
      sheet.activate();
      sheet.getRange("A1").select();
      await context.sync();
      return name;
    });
  } catch (error) {
    if (added) await remove(added.sheet, added.names);
    throw new Error(`The sheet could not be added. ${inWords(error)}`);
  }
}

/** Takes a started sheet away again. */
export async function removeStarted(name: string): Promise<void> {
  try {
    const names = await Excel.run({ delayForCellEdit: true }, async (context) => {
      const found = await findReadySheets(context);
      for (const { sheet } of found) sheet.load({ name: true });
      await context.sync();
      const started = found.find(({ sheet }) => sheet.name === name);
      if (!started) throw new Error(`There is no sheet “${name}” that was started here.`);
      return namesOf(describedReadySheet(started.id, { units: defaultUnits, copy: started.copy }));
    });
    await remove(name, names);
  } catch (error) {
    throw new Error(`The sheet could not be removed. ${inWords(error)}`);
  }
}

async function remove(name: string, names: readonly string[]): Promise<void> {
  await Excel.run({ delayForCellEdit: true }, async (context) => {
    const items = names.map((one) => context.workbook.names.getItemOrNullObject(one));
    const sheet = context.workbook.worksheets.getItemOrNullObject(name);
    for (const item of items) item.load({ name: true });
    sheet.load({ name: true });
    await context.sync();
    // Names first: those of a deleted sheet would stay behind, referring to nothing.
    for (const item of items) if (!item.isNullObject) item.delete();
    if (!sheet.isNullObject) sheet.delete();
    await context.sync();
  });
}

function namesOf({ cells }: SheetDescription): string[] {
  return Object.values(cells).flatMap(({ name }) => name ?? []);
}
