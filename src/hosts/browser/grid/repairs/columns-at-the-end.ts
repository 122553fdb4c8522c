/**
 * What is wrong: a table that becomes wider on its right gets the new column before its last one, and one that becomes narrower loses another
 * column than its last.
 * How it shows: after the table Shots has taken in the column beside it, Shots[time], its last column, is the new one.
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
/** The library does not export its class; every table has columns of it. */
type ColumnClass = new (id: string, heading: string) => NonNullable<ReturnType<NonNullable<ReturnType<TableManager["getTableById"]>>["getTableColumnByIndex"]>>;

export function changeColumnsAtTheEnd(): void {
  const manager = TableManager.prototype;
  const update = manager.updateTableRange;
  manager.updateTableRange = function (unitId, tableId, config) {
    const table = this.getTableById(unitId, tableId);
    const { newRange: range } = config;
    const oldRange = table?.getRange();
    const isAtTheEnd = oldRange && range.startColumn === oldRange.startColumn && range.endColumn !== oldRange.endColumn;
    if (!table || !isAtTheEnd) return update.call(this, unitId, tableId, config);
    const Column = table.getTableColumnByIndex(0)!.constructor as ColumnClass;
    const headings = this.getColumnHeader(unitId, table.getSubunitId(), range);
    const wanted = range.endColumn - range.startColumn + 1;
    while (table.getColumnsCount() > wanted) table.removeColumn(table.getColumnsCount() - 1);
    for (let index = table.getColumnsCount(); index < wanted; index++) {
      table.insertColumn(index, new Column(`${tableId}-${index}-${headings[index]}`, headings[index]!));
    }
    table.setRange(range);
    const { _tableRangeChanged$: changes } = this as unknown as { _tableRangeChanged$: Subject<RangeChange> };
    changes.next({ unitId, subUnitId: table.getSubunitId(), tableId, range, oldRange });
  };
}
