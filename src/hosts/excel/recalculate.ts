/** Recalculating, and how much of a workbook that concerns. */
import { partsOf } from "../../sheet/formula-text";
import { spelled } from "../../sheet/spelling";
import { formulaBlocks } from "./formula-blocks";

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
    let count = 0;
    for await (const { formulas } of formulaBlocks(context)) count += formulas.flat().filter(usesOwnFunction).length;
    return count;
  });
}

function usesOwnFunction(formula: unknown): boolean {
  return typeof formula === "string" && formula.startsWith("=") && partsOf(formula).some(({ kind, text }) => kind === "name" && text.toUpperCase().startsWith(spelled("")));
}
