/** Writes what a sheet has besides its cells into its XML: widths, merges, panes, and references to other parts. */
import { address, areaOf, mostColumns, referenceTo } from "../sheet/references";
import type { LineChange } from "./compare";
import type { Area, Sheet } from "./workbook";
import { eachElement, prefixOf, spliced, withAttributes, type Element } from "./xml";

/** The children of a worksheet in the order that the format prescribes (ECMA-376 part 1, 18.3.1.99). */
const childOrder =
  `sheetPr dimension sheetViews sheetFormatPr cols sheetData sheetCalcPr sheetProtection protectedRanges scenarios autoFilter sortState dataConsolidate
  customSheetViews mergeCells phoneticPr conditionalFormatting dataValidations hyperlinks printOptions pageMargins pageSetup headerFooter rowBreaks
  colBreaks customProperties cellWatches ignoredErrors smartTags drawing legacyDrawing legacyDrawingHF drawingHF picture oleObjects controls
  webPublishItems tableParts extLst`.split(/\s+/);

/** The part with a child of its root put where it belongs, in place of one of that name that is there; `write` gets that and the prefix. */
export function withSection(
  xml: string,
  name: string,
  write: (existing: string | undefined, prefix: string) => string,
  order: readonly string[] = childOrder,
): string {
  const children: Element[] = [];
  let root: Element | undefined;
  eachElement(xml, (element) => {
    if (element.parent && !element.parent.parent) children.push(element);
    else if (!element.parent) root = element;
  });
  const prefix = prefixOf(root!.fullName);
  const existing = children.find((child) => child.name === name);
  if (existing) return spliced(xml, [{ from: existing.start, to: existing.end, text: write(xml.slice(existing.start, existing.end), prefix) }]);
  const text = write(undefined, prefix);
  if (text === "") return xml;
  const rank = order.indexOf(name);
  const following = children.find((child) => order.indexOf(child.name) > rank);
  const at = following?.start ?? root!.closeStart;
  return spliced(xml, [{ from: at, to: at, text }]);
}

export function patchColumns(xml: string, changes: ReadonlyMap<number, LineChange>): string {
  if (changes.size === 0) return xml;
  return withSection(xml, "cols", (existing, prefix) => {
    const tags: (string | undefined)[] = [];
    eachElement(existing ?? "<cols/>", ({ name, attributes, start, end }) => {
      if (name !== "col") return;
      const tag = existing!.slice(start, end);
      for (let column = Number(attributes.min) - 1; column < Math.min(Number(attributes.max), mostColumns); column++) tags[column] = tag;
    });
    for (const [column, { size, hidden }] of changes) {
      const tag = tags[column] ?? `<${prefix}col/>`;
      tags[column] = withAttributes(tag, { width: size, customWidth: size === undefined ? undefined : 1, hidden: hidden ? 1 : undefined });
    }
    return columnsXml(tags, prefix);
  });
}

/** A list of columns from a tag for each; columns that are alike share one. */
export function columnsXml(tags: readonly (string | undefined)[], prefix: string): string {
  const stretches: string[] = [];
  for (let from = 0; from < tags.length; from++) {
    const tag = tags[from];
    if (tag === undefined) continue;
    const start = from;
    while (tags[from + 1] === tag) from++;
    if (/\s(width|hidden|style|outlineLevel|collapsed)=/.test(tag)) stretches.push(withAttributes(tag, { min: start + 1, max: from + 1 }));
  }
  return stretches.length === 0 ? "" : `<${prefix}cols>${stretches.join("")}</${prefix}cols>`;
}

export function patchMerges(xml: string, merged: readonly Area[], unmerged: readonly Area[]): string {
  if (merged.length === 0 && unmerged.length === 0) return xml;
  const gone = new Set(unmerged.map(referenceTo));
  return withSection(xml, "mergeCells", (existing, prefix) => {
    const references: string[] = [];
    eachElement(existing ?? "<mergeCells/>", ({ name, attributes }) => {
      const area = name === "mergeCell" ? areaOf(attributes.ref ?? "") : undefined;
      // One that reaches beyond what this page shows goes by its first cell.
      if (area && !gone.has(referenceTo(area)) && !unmerged.some(({ top, left }) => top === area.top && left === area.left)) references.push(attributes.ref!);
    });
    references.push(...merged.map(referenceTo));
    if (references.length === 0) return "";
    return `<${prefix}mergeCells count="${references.length}">${references.map((ref) => `<${prefix}mergeCell ref="${ref}"/>`).join("")}</${prefix}mergeCells>`;
  });
}

export function patchView(xml: string, { frozen, gridlines }: Sheet): string {
  return withSection(xml, "sheetViews", (existing, prefix) => {
    const text = existing ?? `<${prefix}sheetViews><${prefix}sheetView workbookViewId="0"/></${prefix}sheetViews>`;
    let view: Element | undefined;
    const kept: string[] = [];
    const later: string[] = [];
    eachElement(text, (element) => {
      const { name, parent, start, end } = element;
      if (name === "sheetView" && !view) view = element;
      else if (parent?.name === "sheetView" && !view) {
        if (name === "pane" || (name === "selection" && (frozen !== undefined || element.attributes.pane !== undefined))) return;
        (name === "selection" ? kept : later).push(text.slice(start, end));
      }
    });
    if (!view) return text;
    const open = withAttributes(text.slice(view.start, view.openEnd), { showGridLines: gridlines === false ? 0 : undefined });
    const pane = frozen ? paneXml(frozen, prefix) : "";
    const inner = pane + kept.join("") + later.join("");
    const changed = inner === "" ? open : `${open.replace(/\s*\/?>$/, ">")}${inner}</${view.fullName}>`;
    const closed = inner === "" && !view.selfClosing ? `${changed}</${view.fullName}>` : changed;
    return spliced(text, [{ from: view.start, to: view.end, text: closed }]);
  });
}

function paneXml({ rows, columns }: NonNullable<Sheet["frozen"]>, prefix: string): string {
  const active = rows > 0 && columns > 0 ? "bottomRight" : rows > 0 ? "bottomLeft" : "topRight";
  const split = `${columns > 0 ? ` xSplit="${columns}"` : ""}${rows > 0 ? ` ySplit="${rows}"` : ""}`;
  return `<${prefix}pane${split} topLeftCell="${address(rows, columns)}" activePane="${active}" state="frozen"/><${prefix}selection pane="${active}"/>`;
}

/** The list of the sheet's tables, by the ids of their relations; `relationTypes` is the namespace of those ids. */
export function patchTableParts(xml: string, added: readonly string[], dropped: ReadonlySet<string>, relationTypes: string): string {
  if (added.length === 0 && dropped.size === 0) return xml;
  return withSection(xml, "tableParts", (existing, prefix) => {
    const parts: string[] = [];
    eachElement(existing ?? "<tableParts/>", ({ name, attributes, start, end }) => {
      const id = Object.entries(attributes).find(([key]) => key.endsWith(":id"))?.[1];
      if (name === "tablePart" && !dropped.has(id ?? "")) parts.push(existing!.slice(start, end));
    });
    parts.push(...added.map((id) => `<${prefix}tablePart xmlns:r="${relationTypes}" r:id="${id}"/>`));
    return parts.length === 0 ? "" : `<${prefix}tableParts count="${parts.length}">${parts.join("")}</${prefix}tableParts>`;
  });
}

