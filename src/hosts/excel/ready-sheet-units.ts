/** What a change of the workbook's units means for its ready sheets: how results are shown, and the numbers that were typed. */
import type { Converted } from "../../pane/port";
import { convertedCells, isConcerned, type Measured } from "../../ready-sheets/converted";
import { describedReadySheet, type ReadySheetId } from "../../ready-sheets/index";
import { readySheetOfName } from "../../ready-sheets/recognise";
import type { Allowed, SheetDescription } from "../../ready-sheets/sheet-description";
import type { UnitChoice } from "../../sheet/unit-choice";
import { allow, setFormat, spillColumn } from "./write-sheet";
import { inWords } from "./office-error";

interface FoundSheet {
  readonly id: ReadySheetId;
  readonly copy: number;
  readonly sheet: Excel.Worksheet;
}

/** The ready sheets that are still there, whatever they are called now. */
export async function findReadySheets(context: Excel.RequestContext): Promise<FoundSheet[]> {
  const { names } = context.workbook;
  names.load({ name: true });
  await context.sync();
  const marked = names.items.flatMap((item) => {
    const readySheet = readySheetOfName(item.name);
    return readySheet ? [{ ...readySheet, cell: item.getRangeOrNullObject() }] : [];
  });
  for (const { cell } of marked) cell.load({ address: true });
  await context.sync();
  return marked.filter(({ cell }) => !cell.isNullObject).map(({ id, copy, cell }) => ({ id, copy, sheet: cell.worksheet }));
}

/** Shows the results of ready sheets in the new units. Only formulas that still read as they were written are touched. */
export async function fitResults(before: UnitChoice, after: UnitChoice): Promise<void> {
  await Excel.run({ delayForCellEdit: true }, async (context) => {
    for (const { id, copy, sheet } of await findReadySheets(context)) {
      const was = describedReadySheet(id, { units: before, copy });
      const now = describedReadySheet(id, { units: after, copy });
      const formulas = formulasOf(was).map(([at, formula]) => ({ at, formula, range: sheet.getRange(at) }));
      for (const { range } of formulas) range.load({ formulas: true });
      await context.sync();
      for (const { at, formula, range } of formulas) {
        if (range.formulas[0]![0] !== `=${formula}`) continue;
        const cell = now.cells[at];
        const spill = now.spills?.[at];
        const wanted = cell?.formula ?? spill!.formula;
        if (wanted !== formula) range.formulas = [[`=${wanted}`]];
        if (cell?.format && cell.format !== was.cells[at]!.format) setFormat(range, cell.format);
        spill?.formats.forEach((format, index) => {
          if (format && format !== was.spills![at]!.formats[index]) setFormat(spillColumn(sheet, at, spill.rows, index), format);
        });
      }
    }
    await context.sync();
  });
}

function formulasOf({ cells, spills = {} }: SheetDescription): (readonly [at: string, formula: string])[] {
  return [...Object.entries(cells), ...Object.entries(spills)].flatMap(([at, { formula }]) => (formula === undefined ? [] : [[at, formula] as const]));
}

interface InputPlace extends Measured {
  readonly range: Excel.Range;
  readonly sheet: number;
  readonly format?: string;
  readonly allowed?: Allowed;
}

/** Converts the numbers typed into ready sheets. */
export async function convertInputs(before: UnitChoice, after: UnitChoice): Promise<Converted> {
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const places = await inputPlaces(context, before, after);
      for (const { range } of places) range.load({ formulas: true });
      await context.sync();
      let numbers = 0;
      const sheets = new Set<number>();
      for (const { range, format, allowed, sheet, ...measured } of places) {
        if (range.isNullObject) continue;
        const converted = convertedCells(range.formulas, measured, before, after);
        if (converted.numbers > 0) sheets.add(sheet);
        numbers += converted.numbers;
        if (converted.numbers > 0) range.formulas = converted.cells;
        if (format) setFormat(range, format);
        if (allowed) allow(range, allowed);
      }
      await context.sync();
      return { numbers, sheets: sheets.size };
    });
  } catch (error) {
    throw new Error(`The numbers of the ready sheets could not be converted. ${inWords(error)}`);
  }
}

async function inputPlaces(context: Excel.RequestContext, before: UnitChoice, after: UnitChoice): Promise<InputPlace[]> {
  const found = await findReadySheets(context);
  const tables = context.workbook.tables;
  tables.load({ name: true, columns: { name: true } });
  await context.sync();
  return found.flatMap(({ id, copy }, sheet) => {
    const { cells, tables: described } = describedReadySheet(id, { units: after, copy });
    const named = Object.values(cells).flatMap((cell): InputPlace[] =>
      cell.role === "input" && cell.name && isConcerned(cell, before, after) ? [{ ...cell, sheet, range: context.workbook.names.getItemOrNullObject(cell.name).getRangeOrNullObject() }] : [],
    );
    const columns = described.flatMap((table) => {
      const actual = tables.items.find(({ name }) => name.toLowerCase() === table.name.toLowerCase());
      return table.columns.flatMap((column): InputPlace[] => {
        // A column that a person has renamed or removed is theirs.
        if (!actual?.columns.items.some(({ name }) => name === column.heading) || !isConcerned(column, before, after)) return [];
        return [{ ...column, sheet, range: actual.columns.getItem(column.heading).getDataBodyRange() }];
      });
    });
    return [...named, ...columns];
  });
}
