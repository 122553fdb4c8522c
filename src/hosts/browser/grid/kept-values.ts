/**
 * Cells that show a value of their file in place of calculating their formula. They carry a mark in their corner and the reason in words,
 * and stop being such cells once something else is put into them.
 */
import { InterceptorEffectEnum, type ICellData, type ICellDataForSheetInterceptor, type Injector, type Nullable } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { INTERCEPTOR_POINT, SetRangeValuesMutation, SheetInterceptorService, type ISetRangeValuesMutationParams } from "@univerjs/sheets";
import type { CellExtras } from "./snapshot";

const mark = { tr: { size: 7, color: "#b26b00" } };

export function showKeptValues(api: FUniver, injector: Injector): void {
  injector.get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
    id: "kept-values",
    priority: 8,
    effect: InterceptorEffectEnum.Style,
    handler: (cell, location, next) => {
      if (!isKept(location.rawData)) return next(cell);
      return next({ ...(cell ?? location.rawData), markers: mark } as ICellDataForSheetInterceptor);
    },
  });
  api.onBeforeCommandExecute((command) => {
    if (command.id !== SetRangeValuesMutation.id) return;
    const { unitId, subUnitId, cellValue } = command.params as ISetRangeValuesMutationParams;
    const sheet = api.getWorkbook(unitId)?.getSheetBySheetId(subUnitId)?.getSheet();
    for (const [row, line] of Object.entries(cellValue ?? {})) {
      for (const [column, change] of Object.entries(line as Record<string, Nullable<ICellData>>)) {
        // Undo says what the cell carried before; everything else is new contents, or only a new look.
        if (change && change.custom === undefined && hasContents(change) && isKept(sheet?.getCellRaw(Number(row), Number(column)))) change.custom = null;
      }
    }
  });
}

function isKept(cell: Nullable<ICellData>): boolean {
  return (cell?.custom as CellExtras | undefined)?.kept !== undefined;
}

function hasContents(change: ICellData): boolean {
  return change.v !== undefined || change.f !== undefined || change.p !== undefined || change.si !== undefined;
}
