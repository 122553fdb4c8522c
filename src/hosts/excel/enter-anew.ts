/**
 * Formulas of ours that Excel has not taken up from a file: it shows #NAME? for them until they are entered anew. Files spell an add-in's
 * functions with a prefix and with underscores for dots, and Excel does not always find its way back to the name.
 */
import type { Entered } from "../../pane/port";
import { respelled } from "../../sheet/respelled";
import { formulaBlocks } from "./formula-blocks";
import { inWords } from "./office-error";

/** Cells one below the other, with what they held and what they are to hold. */
interface Run {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly before: string[];
  readonly after: string[];
}

/** How many formulas wait to be entered anew. */
export function countNotTakenUp(): Promise<number> {
  return Excel.run({ delayForCellEdit: true }, async (context) => sumOf(await notTakenUp(context)));
}

/** Enters all of them, or none. */
export async function enterAnew(): Promise<Entered> {
  try {
    const runs = await Excel.run({ delayForCellEdit: true }, async (context) => {
      const found = await notTakenUp(context);
      await writeAll(context, found, "after", "before");
      return found;
    });
    return { formulas: sumOf(runs), sheets: new Set(runs.map(({ sheet }) => sheet)).size, takeBack: () => takeBack(runs) };
  } catch (error) {
    throw new Error(`The formulas could not be entered anew, and none was changed. ${inWords(error)}`);
  }
}

/** Puts back what the cells held, where they still hold what was entered; answers how many. */
async function takeBack(runs: readonly Run[]): Promise<number> {
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const sheets = new Map(runs.map(({ sheet }) => [sheet, context.workbook.worksheets.getItemOrNullObject(sheet)]));
      for (const sheet of sheets.values()) sheet.load({ name: true });
      await context.sync();
      const there = runs.filter(({ sheet }) => !sheets.get(sheet)!.isNullObject);
      const ranges = there.map((run) => rangeOf(context, run));
      for (const range of ranges) range.load({ formulas: true });
      await context.sync();
      const untouched = there.flatMap((run, index) => pieces(run, (row) => ranges[index]!.formulas[row]![0] === run.after[row]));
      await writeAll(context, untouched, "before", "after");
      return sumOf(untouched);
    });
  } catch (error) {
    throw new Error(`The formulas could not be put back. ${inWords(error)}`);
  }
}

async function notTakenUp(context: Excel.RequestContext): Promise<Run[]> {
  const runs: Run[] = [];
  for await (const { sheet, row, column, formulas, values } of formulaBlocks(context, true)) {
    for (let across = 0; across < formulas[0]!.length; across++) {
      const before = formulas.map((line) => String(line[across]));
      const wanted = before.map((formula, down) => enteredAs(formula, values[down]![across]));
      const whole: Run = { sheet: sheet.name, row, column: column + across, before, after: wanted.map((formula) => formula ?? "") };
      runs.push(...pieces(whole, (down) => wanted[down] !== undefined));
    }
  }
  return runs;
}

/** The stretches of a run whose cells are wanted. */
function pieces(run: Run, isWanted: (row: number) => boolean): Run[] {
  const found: Run[] = [];
  for (let row = 0; row < run.before.length; row++) {
    if (!isWanted(row)) continue;
    const last = found.at(-1);
    if (last && last.row + last.before.length === run.row + row) {
      last.before.push(run.before[row]!);
      last.after.push(run.after[row]!);
    } else found.push({ ...run, row: run.row + row, before: [run.before[row]!], after: [run.after[row]!] });
  }
  return found;
}

/** What to enter for a formula of ours that shows #NAME?; undefined for every other cell. */
export function enteredAs(formula: string, shown: unknown): string | undefined {
  if (shown !== "#NAME?" || !formula.startsWith("=")) return undefined;
  return respelled(formula);
}

/** So many stretches go to Excel together. */
const runsOfBatch = 200;

/** What was written is put back where the rest cannot be: Excel keeps the beginning of a batch that fails. */
async function writeAll(context: Excel.RequestContext, runs: readonly Run[], wanted: "before" | "after", otherwise: "before" | "after"): Promise<void> {
  const write = (run: Run, which: "before" | "after") => (rangeOf(context, run).formulas = run[which].map((formula) => [formula]));
  for (let start = 0; start < runs.length; start += runsOfBatch) {
    try {
      for (const run of runs.slice(start, start + runsOfBatch)) write(run, wanted);
      await context.sync();
    } catch (error) {
      const tried = runs.slice(0, start + runsOfBatch).map((run) => ({ run, range: rangeOf(context, run) }));
      for (const { range } of tried) range.load({ formulas: true });
      await context.sync();
      for (const { run, range } of tried) if (range.formulas[0]![0] === run[wanted][0]) write(run, otherwise);
      await context.sync();
      throw error;
    }
  }
}

function rangeOf(context: Excel.RequestContext, { sheet, row, column, before }: Run): Excel.Range {
  return context.workbook.worksheets.getItem(sheet).getRangeByIndexes(row, column, before.length, 1);
}

function sumOf(runs: readonly Run[]): number {
  return runs.reduce((sum, { before }) => sum + before.length, 0);
}
