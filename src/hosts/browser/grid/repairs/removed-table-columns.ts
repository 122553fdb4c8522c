/**
 * What is wrong: where a column of the sheet is removed that is a column of a table too, the engine moves the references of all formulas as it
 * should, and then writes the formulas of before into the same cells, to mark those that name the removed column.
 * How it shows: after column A of a table was removed, =B2-A2 in column C stands in column B and reads itself.
 * Here the second step is left out; a formula that names the removed column keeps its text and shows an error.
 */
import { UpdateFormulaController } from "@univerjs/sheets-formula";

interface Updates {
  _getUpdateFormula(command: { id: string; params?: object }): { redos: unknown[]; undos: unknown[] };
}

export function moveReferencesOnce(): void {
  const controller = UpdateFormulaController.prototype as unknown as Updates;
  const update = controller._getUpdateFormula;
  controller._getUpdateFormula = function (command) {
    const isSecondStep = command.id === "sheet.command.table-remove-col" && command.params && "range" in command.params;
    return isSecondStep ? { redos: [], undos: [] } : update.call(this, command);
  };
}
