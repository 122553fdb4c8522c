/**
 * What is wrong: the columns of a table are saved, and put back by Undo, in the order in which they were made, not in that in which they stand.
 * How it shows: after a column was inserted into a table, saved and opened again, Shots[y] is the column before it; so it is after one column was
 * inserted, and another one deleted and brought back by Undo.
 */
import { TableManager } from "@univerjs/sheets-table";

type Table = NonNullable<ReturnType<TableManager["getTableById"]>>;

export function saveColumnsInOrder(): void {
  // The class of tables is not exported; the library comes to them this way before it notes what they are.
  const manager = TableManager.prototype;
  const tablesOf = manager.getTablesBySubunitId;
  let repaired: Table | undefined;
  manager.getTablesBySubunitId = function (unitId, subUnitId) {
    const tables = tablesOf.call(this, unitId, subUnitId);
    const kind = tables[0] && (Object.getPrototypeOf(tables[0]) as Table);
    if (kind && kind !== repaired) {
      repaired = kind;
      const toJSON = kind.toJSON;
      kind.toJSON = function () {
        return { ...toJSON.call(this), columns: this.getTableInfo().columns };
      };
    }
    return tables;
  };
}
