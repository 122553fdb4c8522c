/** A table's part. */
import { areaOf } from "../sheet/references";
import { FilterReader } from "./filter";
import type { Filter, Table } from "./workbook";
import { isOn, unescapedCellText, walk } from "./xml";

/** Excel’s lightest look, for a table whose cells have their own. */
export const plainTheme = "TableStyleLight1";

export interface ReadTable {
  readonly table: Table;
  readonly filter: Filter | undefined;
}

/** Undefined where the part does not say where the table stands. */
export function readTable(xml: string): ReadTable | undefined {
  const filter = new FilterReader("table");
  let table: Table | undefined;
  let plain = true;
  walk(xml, {
    open(name, attributes, parent) {
      filter.open(name, attributes, parent);
      if (name === "table" && parent === undefined) {
        const area = areaOf(attributes.ref ?? "");
        const called = attributes.displayName ?? attributes.name;
        if (!area || called === undefined) return;
        const totals = Number(attributes.totalsRowCount ?? 0) > 0;
        table = { name: called, area: { ...area, bottom: area.bottom - (totals ? 1 : 0) }, columns: [] };
        if (totals) table.totals = true;
        if (attributes.headerRowCount === "0") table.headless = true;
      } else if (name === "tableColumn") table?.columns.push(unescapedCellText(attributes.name ?? ""));
      else if (name === "tableStyleInfo") plain = attributes.name === undefined || (attributes.name === plainTheme && !isOn(attributes.showRowStripes));
    },
    close: (name) => filter.close(name),
  });
  if (table && plain) table.plain = true;
  return table && { table, filter: filter.finished() };
}
