/** Writes the tables of a sheet into the file: new ones, those with other headings or another area, and takes out those that are gone. */
import { referenceTo } from "../sheet/references";
import type { Package } from "./package";
import { patchTableParts } from "./patch-sheet";
import { plainTheme } from "./read-table";
import type { RelocatedSheet } from "./relocated-workbook";
import { withColumns } from "./table-columns";
import type { TablePair } from "./table-changes";
import type { Area, Table } from "./workbook";
import { cellSpelling, eachElement, escaped, rewritten, withAttributes } from "./xml";

const contentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml";

/** `sheetPart` is the part of the sheet that the tables are on. */
export function patchTables(file: Package, sheetPart: string, before: RelocatedSheet | undefined, pairs: readonly TablePair[]): void {
  const relations = file.relationsOf(sheetPart).filter(({ type, external }) => type === "table" && !external);
  const parts = new Map(relations.map(({ id, target }) => [nameOf(file.text(target) ?? "").toLowerCase(), { id, target }]));
  const dropped = new Set<string>();
  for (const name of [...(before?.tables ?? []).map((table) => table.name), ...(before?.goneTables ?? [])]) {
    const part = parts.get(name.toLowerCase());
    if (!part || pairs.some(({ was }) => was?.name === name)) continue;
    dropped.add(part.id);
    file.drop(part.target);
  }
  if (dropped.size > 0) file.dropRelations(sheetPart, ({ id }) => dropped.has(id));
  const added: string[] = [];
  for (const pair of pairs) {
    // In the file it may be called by its new name already.
    const part = pair.was && (parts.get(pair.was.name.toLowerCase()) ?? parts.get(pair.now.name.toLowerCase()));
    if (part) file.setText(part.target, changedTable(file.text(part.target)!, pair));
    else if (!pair.was) added.push(addTable(file, sheetPart, pair));
  }
  file.setText(sheetPart, patchTableParts(file.text(sheetPart)!, added, dropped, file.relationTypes));
}

function nameOf(xml: string): string {
  let name = "";
  eachElement(xml || "<none/>", ({ parent, attributes }) => {
    if (!parent) name = attributes.displayName ?? attributes.name ?? "";
  });
  return name;
}

function changedTable(xml: string, { was, now, columns, headings }: TablePair): string {
  const sameColumns = columns.length === was!.columns.length && columns.every((column, index) => column === index);
  const reshaped = sameColumns ? xml : withColumns(xml, columns);
  const resized = !sameArea(was!.area, now.area);
  let column = -1;
  return rewritten(reshaped, (element, change) => {
    const { name, parent, attributes } = element;
    if (name === "tableColumn") {
      const heading = headings[++column];
      if (heading !== undefined) change(element, { attributes: { name: cellSpelling(heading) } });
    } else if (name === "autoFilter" && parent && !parent.parent && resized) change(element, { attributes: { ref: referenceTo(now.area) } });
    else if (!parent) {
      const totals = Number(attributes.totalsRowCount ?? 0) > 0 ? 1 : 0;
      if (resized) change(element, { attributes: { ref: referenceTo({ ...now.area, bottom: now.area.bottom + totals }) } });
      if (now.name !== was!.name) change(element, { attributes: { name: now.name, displayName: now.name } });
    }
  });
}

function sameArea(a: Area, b: Area): boolean {
  return referenceTo(a) === referenceTo(b);
}

function addTable(file: Package, sheetPart: string, { now, headings }: TablePair): string {
  const part = file.freeName(`${file.folder}tables/table`, ".xml");
  file.setText(part, tableXml(now, headings.map((heading) => heading ?? ""), freeTableId(file), file.mainNamespace));
  file.addContentType(part, contentType);
  return file.addRelation(sheetPart, "table", part);
}

function tableXml({ name, area, plain }: Table, headings: readonly string[], id: number, namespace: string): string {
  const ref = referenceTo(area);
  const columns = headings.map((heading, index) => `<tableColumn id="${index + 1}" name="${escaped(cellSpelling(heading))}"/>`).join("");
  const theme = plain ? plainTheme : "TableStyleMedium2";
  return (
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n` +
    withAttributes("<table>", { xmlns: namespace, id, name, displayName: name, ref, totalsRowShown: 0 }) +
    `<autoFilter ref="${ref}"/><tableColumns count="${headings.length}">${columns}</tableColumns>` +
    `<tableStyleInfo name="${theme}" showFirstColumn="0" showLastColumn="0" showRowStripes="${plain ? 0 : 1}" showColumnStripes="0"/></table>`
  );
}

/** Tables have numbers that are their own in the whole workbook. */
function freeTableId(file: Package): number {
  let last = 0;
  for (const part of file.names) {
    if (!/tables\/[^/]+\.xml$/i.test(part) || /_rels/.test(part)) continue;
    eachElement(file.text(part) ?? "<none/>", ({ name, parent, attributes }) => {
      if (name === "table" && !parent) last = Math.max(last, Number(attributes.id ?? 0) || 0);
    });
  }
  return last + 1;
}

