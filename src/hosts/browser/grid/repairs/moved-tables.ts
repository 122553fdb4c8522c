/**
 * What is wrong: a table that moves sideways as a whole is taken for one that changes its width: it loses its first column and gets a new one
 * before its last.
 * How it shows: after a column was inserted before the table Shots, Shots[dose] is #NAME?.
 */
import type { IRange } from "@univerjs/core";
import { TableManager } from "@univerjs/sheets-table";
import type { Subject } from "rxjs";

interface RangeChange {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly tableId: string;
  readonly range: IRange;
  readonly oldRange: IRange;
}

export function keepColumnsOfMovedTables(): void {
  const manager = TableManager.prototype;
  const update = manager.updateTableRange;
  manager.updateTableRange = function (unitId, tableId, config) {
    const table = this.getTableById(unitId, tableId);
    const { newRange: range } = config;
    const oldRange = table?.getRange();
    const isMove = oldRange && range.startColumn !== oldRange.startColumn && range.endColumn - range.startColumn === oldRange.endColumn - oldRange.startColumn;
    if (!table || !isMove) return update.call(this, unitId, tableId, config);
    table.setRange(range);
    const { _tableRangeChanged$: changes } = this as unknown as { _tableRangeChanged$: Subject<RangeChange> };
    changes.next({ unitId, subUnitId: table.getSubunitId(), tableId, range, oldRange });
  };
}
