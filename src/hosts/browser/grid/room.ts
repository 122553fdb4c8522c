/** Room for a cell that somebody goes to beyond the last row or column: a sheet of the grid ends not far below what it held when it was opened. */
import type { FUniver } from "@univerjs/core/facade";
import { SetSelectionsOperation, SetWorksheetColumnCountMutation, SetWorksheetRowCountMutation, type ISetSelectionsOperationParams } from "@univerjs/sheets";
import { mostColumns, mostRows } from "../../../sheet/references";

/** So many more rows and columns are made at once. */
const moreRows = 100;
const moreColumns = 10;

export function makeRoom(api: FUniver): void {
  api.onBeforeCommandExecute((command) => {
    if (command.id !== SetSelectionsOperation.id) return;
    const { unitId, subUnitId, selections } = command.params as ISetSelectionsOperationParams;
    const sheet = api.getWorkbook(unitId)?.getSheetBySheetId(subUnitId)?.getSheet();
    if (!sheet) return;
    // It is no change of the workbook: nothing is to be saved or undone.
    const resize = (id: string, size: object) => api.syncExecuteCommand(id, { unitId, subUnitId, ...size }, { onlyLocal: true });
    const last = (of: "endRow" | "endColumn") => Math.max(...selections.map(({ range }) => range[of] || 0));
    if (last("endRow") >= sheet.getRowCount()) resize(SetWorksheetRowCountMutation.id, { rowCount: Math.min(mostRows, last("endRow") + 1 + moreRows) });
    if (last("endColumn") >= sheet.getColumnCount()) {
      resize(SetWorksheetColumnCountMutation.id, { columnCount: Math.min(mostColumns, last("endColumn") + 1 + moreColumns) });
    }
  });
}
