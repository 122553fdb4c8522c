/** Starts ready sheets in the workbook, and takes them away again. */
import { openLog, type OpenLog } from "../../log-file/open-log";
import type { Started } from "../../pane/port";
import { describedReadySheet, startingFigures, takesLog, withCompanion, type ReadySheetId } from "../../ready-sheets/index";
import { freeCopy, type UsedNames } from "../../ready-sheets/recognise";
import type { SheetDescription } from "../../ready-sheets/sheet-description";
import { defaultUnits, type UnitChoice } from "../../sheet/unit-choice";
import { writeDescribedSheet } from "./write-sheet";
import { inWords } from "./office-error";
import { findReadySheets } from "./ready-sheet-units";

/** A sheet that was added, with the names that its cells have. */
interface AddedSheet {
  readonly sheet: string;
  readonly names: readonly string[];
}

/** Adds a ready sheet, with what comes along with it, and shows it. Where that fails, nothing of it stays. */
export async function startSheet(id: ReadySheetId, units: UnitChoice, example: boolean): Promise<Started> {
  const added: AddedSheet[] = [];
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const { copy, sheets } = freeCopy(id, await namesInUse(context));
      const log = takesLog(id) && !example ? await logInSight(context, units) : undefined;
      const figures = startingFigures(example, log);
      for (const { id: one, name } of sheets) {
        const description = describedReadySheet(one, { units, copy, figures });
        const sheet = context.workbook.worksheets.add(name);
        await context.sync();
        added.push({ sheet: name, names: namesOf(description) });
        await writeDescribedSheet(context, sheet, description);
      }
      const first = context.workbook.worksheets.getItem(sheets[0]!.name);
      first.activate();
      first.getRange("A1").select();
      await context.sync();
      return { sheet: sheets[0]!.name, ...(log && { logRows: log.rows }) };
    });
  } catch (error) {
    await remove(added);
    throw new Error(`The sheet could not be added. ${inWords(error)}`);
  }
}

/** A sheet with more cells than this is too much to be asked for at once. */
const mostCells = 400_000;

async function logInSight(context: Excel.RequestContext, units: UnitChoice): Promise<OpenLog | undefined> {
  const used = context.workbook.worksheets.getActiveWorksheet().getUsedRangeOrNullObject(true);
  used.load({ rowCount: true, columnCount: true });
  await context.sync();
  if (used.isNullObject || used.rowCount * used.columnCount > mostCells) return undefined;
  used.load({ values: true });
  await context.sync();
  return openLog(used.values, units);
}

async function namesInUse(context: Excel.RequestContext): Promise<UsedNames> {
  const { worksheets, tables, names } = context.workbook;
  worksheets.load({ name: true });
  tables.load({ name: true });
  names.load({ name: true });
  await context.sync();
  const nameOf = ({ name }: { readonly name: string }) => name;
  return { sheets: worksheets.items.map(nameOf), tables: tables.items.map(nameOf), names: names.items.map(nameOf) };
}

/** Takes a started sheet away again, and what came along with it. */
export async function removeStarted(name: string): Promise<void> {
  try {
    const started = await Excel.run({ delayForCellEdit: true }, async (context) => {
      const found = await findReadySheets(context);
      for (const { sheet } of found) sheet.load({ name: true });
      await context.sync();
      const wanted = found.find(({ sheet }) => sheet.name === name);
      if (!wanted) throw new Error(`There is no sheet “${name}” that was started here.`);
      const together = found.filter(({ id, copy }) => copy === wanted.copy && withCompanion(wanted.id).includes(id));
      return together.map(({ id, copy, sheet }) => ({ sheet: sheet.name, names: namesOf(describedReadySheet(id, { units: defaultUnits, copy })) }));
    });
    await remove(started);
  } catch (error) {
    throw new Error(`The sheet could not be removed. ${inWords(error)}`);
  }
}

async function remove(added: readonly AddedSheet[]): Promise<void> {
  if (added.length === 0) return;
  await Excel.run({ delayForCellEdit: true }, async (context) => {
    const { names, worksheets } = context.workbook;
    const items = added.flatMap((one) => one.names.map((name) => names.getItemOrNullObject(name)));
    const sheets = added.map(({ sheet }) => worksheets.getItemOrNullObject(sheet));
    for (const item of items) item.load({ name: true });
    for (const sheet of sheets) sheet.load({ name: true });
    await context.sync();
    // Names first: those of a deleted sheet would stay behind, referring to nothing.
    for (const item of [...items, ...sheets]) if (!item.isNullObject) item.delete();
    await context.sync();
  });
}

function namesOf({ cells }: SheetDescription): string[] {
  return Object.values(cells).flatMap(({ name }) => name ?? []);
}
