/** Recalculating, and how much of a workbook that concerns. */
import { partsOf } from "../../sheet/formula-text";
import { spelled } from "../../sheet/spelling";

/** Formulas are read in blocks of about this many cells: Excel on the web refuses answers of more than 5 MB. */
const blockCells = 20_000;

/** Marks every cell of the open workbooks as changed and recalculates them: functions of an add-in are otherwise kept as they are. */
export async function recalculateAll(): Promise<void> {
  await Excel.run({ delayForCellEdit: true }, async (context) => {
    context.workbook.application.calculate(Excel.CalculationType.full);
    await context.sync();
  });
}

/** How many formula cells of the workbook use our functions. */
export async function countOwnFormulas(): Promise<number> {
  return Excel.run({ delayForCellEdit: true }, async (context) => {
    const sheets = context.workbook.worksheets;
    sheets.load({ name: true });
    await context.sync();
    const used = sheets.items.map((sheet) => sheet.getUsedRangeOrNullObject(true));
    for (const range of used) range.load({ rowCount: true, columnCount: true });
    await context.sync();
    let count = 0;
    for (const range of used) {
      if (range.isNullObject) continue;
      const rows = Math.max(1, Math.floor(blockCells / range.columnCount));
      for (let row = 0; row < range.rowCount; row += rows) {
        const height = Math.min(rows, range.rowCount - row);
        const block = range.getCell(row, 0).getResizedRange(height - 1, range.columnCount - 1);
        block.load({ formulas: true });
        // One block at a time, on purpose: together they could exceed what Excel sends.
        await context.sync();
        count += block.formulas.flat().filter(usesOwnFunction).length;
      }
    }
    return count;
  });
}

function usesOwnFunction(formula: unknown): boolean {
  return typeof formula === "string" && formula.startsWith("=") && partsOf(formula).some(({ kind, text }) => kind === "name" && text.toUpperCase().startsWith(spelled("")));
}
