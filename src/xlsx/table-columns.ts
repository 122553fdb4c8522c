/** The columns in a table's part: reordered, taken out, added and renamed. */
import type { Area } from "./workbook";
import { cellSpelling, eachElement, escaped, prefixOf, spliced, withAttributes, type Element, type Splice } from "./xml";

/** A column that the table has had, by its place from 0, or a new one with a heading. */
export type TableColumn = number | { readonly heading: string };

/** The part with these columns, in this order, and what belongs to single columns following them. */
export function withColumns(xml: string, columns: readonly TableColumn[]): string {
  const had: Element[] = [];
  let list: Element | undefined;
  let lastId = 0;
  const filters: Element[] = [];
  eachElement(xml, (element) => {
    if (element.name === "tableColumn") {
      had.push(element);
      lastId = Math.max(lastId, Number(element.attributes.id ?? 0) || 0);
    } else if (element.name === "tableColumns") list = element;
    else if (element.name === "filterColumn") filters.push(element);
  });
  if (!list) return xml;
  const prefix = prefixOf(list.fullName);
  const inner = columns.map((column) => {
    if (typeof column !== "number") return `<${prefix}tableColumn id="${++lastId}" name="${escaped(cellSpelling(column.heading))}"/>`;
    const element = had[column];
    return element ? xml.slice(element.start, element.end) : "";
  });
  const splices: Splice[] = [
    { from: list.start, to: list.end, text: `${withAttributes(xml.slice(list.start, list.openEnd), { count: columns.length })}${inner.join("")}</${list.fullName}>` },
  ];
  for (const { start, openEnd, end, attributes } of filters) {
    const to = columns.indexOf(Number(attributes.colId));
    splices.push(to < 0 ? { from: start, to: end, text: "" } : { from: start, to: openEnd, text: withAttributes(xml.slice(start, openEnd), { colId: to }) });
  }
  return spliced(xml, splices);
}

/** The part after columns of its sheet were inserted, deleted or moved. `now` is the whole area then. */
export function withColumnsMoved(xml: string, was: Area, now: Area | undefined, line: (column: number) => number | undefined): string {
  if (!now) return xml;
  const columns: (TableColumn | undefined)[] = Array.from({ length: now.right - now.left + 1 }, () => undefined);
  for (let column = was.left; column <= was.right; column++) {
    const to = line(column);
    if (to !== undefined && to >= now.left && to <= now.right) columns[to - now.left] = column - was.left;
  }
  if (columns.length === was.right - was.left + 1 && columns.every((column, index) => column === index)) return xml;
  const names = new Set(headingsIn(xml).map((name) => name.toLowerCase()));
  return withColumns(xml, columns.map((column) => column ?? { heading: freeHeading(names) }));
}

export function headingsIn(xml: string): string[] {
  const headings: string[] = [];
  eachElement(xml, ({ name, attributes }) => {
    if (name === "tableColumn") headings.push(attributes.name ?? "");
  });
  return headings;
}

/** As in "Column1"; it is taken then. */
export function freeHeading(taken: Set<string>): string {
  let number = 1;
  while (taken.has(`column${number}`)) number++;
  taken.add(`column${number}`);
  return `Column${number}`;
}
