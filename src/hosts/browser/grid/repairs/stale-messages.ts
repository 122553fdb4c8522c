/**
 * What is wrong: the words that a result carries stay on its cell when the next result carries none.
 * How it shows: a cell that now holds an error of the engine's own is explained with the words of the error that it held before.
 */
import type { ICellData, Nullable } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { SetFormulaCalculationResultMutation, type ISetFormulaCalculationResultMutation } from "@univerjs/engine-formula";
import type { CellExtras } from "../snapshot";

export function dropStaleMessages(api: FUniver): void {
  api.onCommandExecuted((command) => {
    if (command.id !== SetFormulaCalculationResultMutation.id) return;
    const { unitData } = command.params as ISetFormulaCalculationResultMutation;
    for (const [unitId, sheets] of Object.entries(unitData)) {
      for (const [sheetId, rows] of Object.entries(sheets ?? {})) {
        const sheet = api.getWorkbook(unitId)?.getSheetBySheetId(sheetId)?.getSheet();
        for (const [row, line] of Object.entries(rows as Record<string, Record<string, Nullable<ICellData>>>)) {
          for (const [column, result] of Object.entries(line ?? {})) {
            const cell = sheet?.getCellRaw(Number(row), Number(column));
            if (cell?.custom && !result?.custom && !(cell.custom as CellExtras).kept) delete cell.custom;
          }
        }
      }
    }
  });
}
