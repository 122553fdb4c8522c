/**
 * What is wrong: the columns of a table are saved in the order in which they were made, not in the order in which they stand.
 * How it shows: after a column was inserted into a table, saved and opened again, Shots[y] is the column before it.
 */
import { TableManager } from "@univerjs/sheets-table";

export function saveColumnsInOrder(): void {
  const manager = TableManager.prototype;
  const toJSON = manager.toJSON;
  manager.toJSON = function (unitId) {
    const saved = toJSON.call(this, unitId);
    for (const sheet of Object.values(saved)) {
      for (const table of sheet.tables) table.columns = this.getTableById(unitId, table.id)?.getTableInfo().columns ?? table.columns;
    }
    return saved;
  };
}
