/**
 * What is wrong: a table that is loaded with a workbook takes the first style that there is, whatever style it was saved with.
 * How it shows: a table without a style of its own is banded after opening.
 */
import { TableManager, type ITableJson } from "@univerjs/sheets-table";

export function keepLooksOfTables(): void {
  const manager = TableManager.prototype;
  const load = manager.fromJSON;
  manager.fromJSON = function (unitId, data) {
    load.call(this, unitId, data);
    for (const { tables } of Object.values(data as Record<string, { tables?: ITableJson[] }>)) {
      for (const { id, options } of tables ?? []) {
        if (options.tableStyleId) this.setTableByConfig(unitId, id, { theme: options.tableStyleId });
      }
    }
  };
}
