/** Writes the filter of a sheet, which a file keeps with the sheet, or with the table whose rows it leaves out. */
import { filterXml } from "./filter";
import type { Package } from "./package";
import { withSection } from "./patch-sheet";
import type { Filter, Sheet, Table } from "./workbook";
import { eachElement } from "./xml";

/** `before` as it would stand now; `sheetPart` is the part of the sheet, with its tables. Answers what cannot be kept, as sentences. */
export function patchFilter(file: Package, sheetPart: string, before: Filter | undefined, sheet: Sheet): string[] {
  const { filter, tables, name } = sheet;
  const was = before && tableOf(before, tables);
  const is = filter && tableOf(filter, tables);
  if (was && was !== is) setTableFilter(file, sheetPart, was, undefined);
  if (before && !was && (is || !filter)) setSheetFilter(file, sheetPart, undefined);
  if (!filter) return [];
  if (!is) {
    setSheetFilter(file, sheetPart, filter);
    return [];
  }
  // Excel filters a table by its own columns, and no rows that a table shares with cells beside it.
  const own = filter.columns.filter(({ column }) => column <= is.area.right);
  setTableFilter(file, sheetPart, is, { area: is.area, columns: own });
  const left = filter.columns.length - own.length;
  if (left === 0) return [];
  return [`“${name}”: Excel filters the table ${is.name} by its own columns only. In the copy, what ${left === 1 ? "a column" : `${left} columns`} beside it left out are hidden rows.`];
}

function tableOf({ area }: Filter, tables: readonly Table[]): Table | undefined {
  return tables.find(({ area: { top, left, right } }) => top === area.top && left <= area.right && right >= area.left);
}

function setSheetFilter(file: Package, part: string, filter: Filter | undefined): void {
  file.setText(part, withSection(file.text(part)!, "autoFilter", (_, prefix) => (filter ? filterXml(filter, prefix) : "")));
}

/** A filter that is gone leaves the arrows of the table. */
function setTableFilter(file: Package, sheetPart: string, { name, area }: Table, filter: Filter | undefined): void {
  for (const { type, target, external } of file.relationsOf(sheetPart)) {
    const xml = type === "table" && !external ? file.text(target) : undefined;
    if (xml === undefined || !isNamed(xml, name)) continue;
    const to = withSection(xml, "autoFilter", (_, prefix) => filterXml(filter ?? { area, columns: [] }, prefix), ["autoFilter", "sortState", "tableColumns", "tableStyleInfo", "extLst"]);
    file.setText(target, to);
  }
}

function isNamed(xml: string, name: string): boolean {
  let found = false;
  eachElement(xml, ({ parent, attributes }) => {
    if (!parent) found = (attributes.displayName ?? attributes.name ?? "").toLowerCase() === name.toLowerCase();
  });
  return found;
}
