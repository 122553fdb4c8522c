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

/** How a typed number looks, and what may be typed there. */
interface Look {
  readonly format?: string;
  readonly allowed?: Allowed;
}

interface InputPlace extends Measured {
  readonly range: Excel.Range;
  readonly sheet: number;
  readonly was: Look;
  readonly now: Look;
}

/** Numbers to be written, and what stood there. */
interface Conversion extends InputPlace {
  readonly before: unknown[][];
  readonly after: unknown[][];
  readonly numbers: number;
}

/** Converts the numbers typed into ready sheets, all or none. */
export async function convertInputs(before: UnitChoice, after: UnitChoice): Promise<Converted> {
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const places = await inputPlaces(context, before, after);
      for (const { range } of places) range.load({ formulas: true });
      await context.sync();
      const conversions = places.flatMap((place): Conversion[] => {
        if (place.range.isNullObject) return [];
        const { cells, numbers } = convertedCells(place.range.formulas, place, before, after);
        return [{ ...place, before: place.range.formulas, after: cells, numbers }];
      });
      await writeAll(context, conversions);
      const converted = conversions.filter(({ numbers }) => numbers > 0);
      return { numbers: converted.reduce((sum, { numbers }) => sum + numbers, 0), sheets: new Set(converted.map(({ sheet }) => sheet)).size };
    });
  } catch (error) {
    throw new Error(`The numbers of the ready sheets could not be converted, and none was changed. ${inWords(error)}`);
  }
}

/** Where Excel refuses something on one sheet, what was written on it and on those before is put back. */
async function writeAll(context: Excel.RequestContext, conversions: readonly Conversion[]): Promise<void> {
  const sheets = [...new Set(conversions.map(({ sheet }) => sheet))];
  for (const [index, sheet] of sheets.entries()) {
    try {
      for (const { range, after, numbers, now } of conversions.filter((it) => it.sheet === sheet)) {
        if (numbers > 0) range.formulas = after;
        if (now.format) setFormat(range, now.format);
        if (now.allowed) allow(range, now.allowed);
      }
      await context.sync();
    } catch (error) {
      const tried = sheets.slice(0, index + 1);
      await putBack(context, conversions.filter((it) => tried.includes(it.sheet)));
      throw error;
    }
  }
}

/** One by one: what cannot be put back on a protected sheet was not written there either. */
async function putBack(context: Excel.RequestContext, conversions: readonly Conversion[]): Promise<void> {
  for (const { range, before, numbers, was } of conversions) {
    const ways = [
      ...(numbers > 0 ? [() => (range.formulas = before)] : []),
      ...(was.format ? [() => setFormat(range, was.format!)] : []),
      ...(was.allowed ? [() => allow(range, was.allowed!)] : []),
    ];
    for (const way of ways) {
      way();
      await context.sync().catch(() => undefined);
    }
  }
}

async function inputPlaces(context: Excel.RequestContext, before: UnitChoice, after: UnitChoice): Promise<InputPlace[]> {
  const found = await findReadySheets(context);
  const tables = context.workbook.tables;
  tables.load({ name: true, columns: { name: true } });
  await context.sync();
  return found.flatMap(({ id, copy }, sheet) => {
    const [was, now] = [before, after].map((units) => describedReadySheet(id, { units, copy })) as [SheetDescription, SheetDescription];
    const named = Object.entries(now.cells).flatMap(([at, cell]): InputPlace[] =>
      cell.role === "input" && cell.name && isConcerned(cell, before, after)
        ? [{ ...cell, sheet, was: was.cells[at]!, now: cell, range: context.workbook.names.getItemOrNullObject(cell.name).getRangeOrNullObject() }]
        : [],
    );
    const columns = now.tables.flatMap((table, place) => {
      const actual = tables.items.find(({ name }) => name.toLowerCase() === table.name.toLowerCase());
      return table.columns.flatMap((column, index): InputPlace[] => {
        // A column that a person has renamed or removed is theirs.
        if (!actual?.columns.items.some(({ name }) => name === column.heading) || !isConcerned(column, before, after)) return [];
        return [{ ...column, sheet, was: was.tables[place]!.columns[index]!, now: column, range: actual.columns.getItem(column.heading).getDataBodyRange() }];
      });
    });
    return [...named, ...columns];
  });
}
