/** Writes the workbook's own part: its sheets in their order, its names, and the wish to be calculated. */
import { normalised } from "./compare";
import type { Package } from "./package";
import { withSection } from "./patch-sheet";
import { readWorkbookPart, worksheetPart, type SheetEntry } from "./workbook-part";
import type { DefinedName } from "./workbook";
import { eachElement, escaped, escapedText, spliced, withAttributes, type Element, type Splice } from "./xml";

/** The children of a workbook in the order that the format prescribes (ECMA-376 part 1, 18.2.27). */
const childOrder =
  `fileVersion fileSharing workbookPr workbookProtection bookViews sheets functionGroups externalReferences definedNames calcPr oleSize
  customWorkbookViews pivotCaches smartTagPr smartTagTypes webPublishing fileRecoveryPr webPublishObjects extLst`.split(/\s+/);

/** A sheet as it is to stand in the workbook. */
export interface SheetPlan {
  readonly name: string;
  /** What it was called in the opened file; undefined for a new one. */
  readonly openedAs?: string;
  /** The relation to the part of a new one. */
  readonly relation?: string;
  /** Whether it is to be hidden, where that is another now. */
  readonly hidden?: boolean;
}

export interface NamePlan {
  readonly dropped: readonly DefinedName[];
  readonly changed: readonly DefinedName[];
  readonly added: readonly DefinedName[];
}

/** What is to become of the names. `before` reads as after the journal. */
export function planNames(before: readonly DefinedName[], now: readonly DefinedName[]): NamePlan {
  const key = ({ name, sheet }: DefinedName) => `${name.toLowerCase()}|${(sheet ?? "").toLowerCase()}`;
  const known = new Map(before.map((entry) => [key(entry), entry]));
  const left = new Set(now.map(key));
  return {
    dropped: before.filter((entry) => !left.has(key(entry))),
    changed: now.filter((entry) => known.has(key(entry)) && normalised(known.get(key(entry))!.refersTo) !== normalised(entry.refersTo)),
    added: now.filter((entry) => !known.has(key(entry))),
  };
}

/** Sheets that are worksheets go in the order given; others, such as chart sheets, stay behind the sheet that they stood behind. */
export function patchWorkbook(file: Package, sheets: readonly SheetPlan[], names: NamePlan, formulaToFile: (formula: string) => string): void {
  const { sheets: entries } = readWorkbookPart(file);
  const order = orderedSheets(file, entries, sheets);
  const isAsOpened = ({ entry, plan }: Ordered, index: number) => entry === index && (plan === undefined || plan.name === plan.openedAs);
  const asOpened = order.length === entries.length && order.every(isAsOpened);
  if (!asOpened || sheets.some(({ hidden }) => hidden !== undefined)) {
    const active = activeSheet(file);
    file.setText(file.main, withSheets(file, order));
    const places = new Map(order.flatMap(({ entry }, place) => (entry === undefined ? [] : [[entry, place] as const])));
    file.setText(file.main, withPlaces(file.text(file.main)!, places, active));
  }
  const place = new Map(order.map(({ plan, entry }, index) => [(plan?.name ?? entries[entry!]!.name).toLowerCase(), index]));
  file.setText(file.main, withNames(file.text(file.main)!, names, place, formulaToFile));
}

interface Ordered {
  /** The place in the opened file. */
  readonly entry?: number;
  readonly plan?: SheetPlan;
}

function orderedSheets(file: Package, entries: readonly SheetEntry[], sheets: readonly SheetPlan[]): Ordered[] {
  const order: Ordered[] = sheets.map((plan) => {
    const entry = plan.openedAs === undefined ? -1 : entries.findIndex(({ name }) => name.toLowerCase() === plan.openedAs!.toLowerCase());
    return { plan, ...(entry >= 0 && { entry }) };
  });
  entries.forEach((sheet, index) => {
    if (worksheetPart(file, sheet) !== undefined) return;
    let before = index - 1;
    while (before >= 0 && !order.some(({ entry }) => entry === before)) before--;
    order.splice(before < 0 ? 0 : order.findIndex(({ entry }) => entry === before) + 1, 0, { entry: index });
  });
  return order;
}

function withSheets(file: Package, order: readonly Ordered[]): string {
  const xml = file.text(file.main)!;
  return withSection(
    xml,
    "sheets",
    (existing, prefix) => {
      const tags: string[] = [];
      let lastId = 0;
      eachElement(existing ?? "<sheets/>", ({ name, attributes, start, end }) => {
        if (name !== "sheet") return;
        tags.push(existing!.slice(start, end));
        lastId = Math.max(lastId, Number(attributes.sheetId ?? 0) || 0);
      });
      const written = order.map(({ entry, plan }) => {
        if (entry === undefined) {
          const tag = `<${prefix}sheet name="${escaped(plan!.name)}" sheetId="${++lastId}" xmlns:r="${file.relationTypes}" r:id="${plan!.relation!}"/>`;
          return plan!.hidden ? withAttributes(tag, { state: "hidden" }) : tag;
        }
        const tag = tags[entry]!;
        if (!plan) return tag;
        const renamed = plan.name === plan.openedAs ? tag : withAttributes(tag, { name: plan.name });
        return plan.hidden === undefined ? renamed : withAttributes(renamed, { state: plan.hidden ? "hidden" : undefined });
      });
      return `<${prefix}sheets>${written.join("")}</${prefix}sheets>`;
    },
    childOrder,
  );
}

function activeSheet(file: Package): number {
  let active = 0;
  eachElement(file.text(file.main)!, ({ name, attributes }) => {
    if (name === "workbookView") active = Number(attributes.activeTab ?? 0) || 0;
  });
  return active;
}

/** Names that belong to a sheet, and the view, go by the sheet's place. */
function withPlaces(xml: string, places: ReadonlyMap<number, number>, active: number): string {
  const splices: Splice[] = [];
  eachElement(xml, (element) => {
    const { name, attributes, start, openEnd, end } = element;
    const tag = xml.slice(start, openEnd);
    if (name === "workbookView") {
      const first = Number(attributes.firstSheet ?? 0);
      const to = places.get(active) ?? 0;
      if (to === active && places.get(first) === first) return;
      splices.push({ from: start, to: openEnd, text: withAttributes(tag, { activeTab: to || undefined, firstSheet: undefined }) });
    } else if (name === "definedName" && attributes.localSheetId !== undefined) {
      const to = places.get(Number(attributes.localSheetId));
      if (to === undefined) splices.push({ from: start, to: end, text: "" });
      else splices.push({ from: start, to: openEnd, text: withAttributes(tag, { localSheetId: to }) });
    }
  });
  return spliced(xml, splices);
}

function withNames(xml: string, { dropped, changed, added }: NamePlan, place: ReadonlyMap<string, number>, formulaToFile: (formula: string) => string): string {
  if (dropped.length + changed.length + added.length === 0) return withoutEmptyNames(xml);
  const idOf = ({ sheet }: DefinedName) => (sheet === undefined ? undefined : place.get(sheet.toLowerCase()));
  const key = (name: string, id: string | number | undefined) => `${name.toLowerCase()}|${id ?? ""}`;
  const gone = new Set(dropped.map((entry) => key(entry.name, idOf(entry))));
  const altered = new Map(changed.map((entry) => [key(entry.name, idOf(entry)), entry.refersTo]));
  const patched = withSection(
    xml,
    "definedNames",
    (existing, prefix) => {
      const entries: string[] = [];
      eachElement(existing ?? "<definedNames/>", (element) => {
        if (element.name !== "definedName") return;
        const own = key(element.attributes.name ?? "", element.attributes.localSheetId);
        if (!gone.has(own)) entries.push(nameXml(existing!, element, altered.get(own), formulaToFile));
      });
      for (const entry of added) {
        const tag = withAttributes(`<${prefix}definedName>`, { name: entry.name, localSheetId: idOf(entry), hidden: entry.hidden ? 1 : undefined });
        entries.push(`${tag}${escapedText(formulaToFile(entry.refersTo))}</${prefix}definedName>`);
      }
      return entries.length === 0 ? "" : `<${prefix}definedNames>${entries.join("")}</${prefix}definedNames>`;
    },
    childOrder,
  );
  return withoutEmptyNames(patched);
}

function nameXml(xml: string, { start, openEnd, end, fullName }: Element, refersTo: string | undefined, formulaToFile: (formula: string) => string): string {
  return refersTo === undefined ? xml.slice(start, end) : `${xml.slice(start, openEnd)}${escapedText(formulaToFile(refersTo))}</${fullName}>`;
}

function withoutEmptyNames(xml: string): string {
  return xml.replace(/<(\w+:)?definedNames>\s*<\/\1definedNames>/, "");
}

/** Asks Excel to calculate everything when it opens the file, and leaves out the order of calculation, which is made anew then. */
export function calculateOnOpening(file: Package): void {
  for (const { type, target } of file.relationsOf(file.main)) if (type === "calcChain") file.drop(target);
  file.dropRelations(file.main, ({ type }) => type === "calcChain");
  const xml = withSection(
    file.text(file.main)!,
    "calcPr",
    (existing, prefix) => {
      const tag = existing ?? `<${prefix}calcPr/>`;
      const open = /^<(?:[^>"']|"[^"]*"|'[^']*')*>/.exec(tag)![0];
      return withAttributes(open, { fullCalcOnLoad: 1 }) + tag.slice(open.length);
    },
    childOrder,
  );
  file.setText(file.main, xml);
}

/** A signature holds for the file as it was signed. Answers whether there was one. */
export function dropSignatures(file: Package): boolean {
  const parts = file.names.filter((name) => /^_xmlsignatures\//i.test(name));
  for (const part of parts) file.drop(part);
  if (parts.length > 0) file.dropRelations("", ({ type }) => type === "origin");
  return parts.length > 0;
}

/** Takes out a sheet's part and what only it needs. */
export function dropSheet(file: Package, entry: SheetEntry): void {
  const { relation } = entry;
  if (!relation || relation.external) return;
  const { sheets } = readWorkbookPart(file);
  const kept = new Set<string>();
  const reach = (part: string, into: Set<string>) => {
    for (const { target, external } of file.relationsOf(part)) {
      if (external || into.has(target) || !file.has(target)) continue;
      into.add(target);
      reach(target, into);
    }
  };
  for (const { relation: other } of sheets) if (other && other.target !== relation.target && file.has(other.target)) reach(other.target, kept);
  // What the workbook itself points to, such as sources of pivot tables, stays.
  for (const { target, type, external } of file.relationsOf(file.main)) if (!external && type !== "worksheet") kept.add(target);
  const own = new Set([relation.target]);
  reach(relation.target, own);
  for (const part of own) if (!kept.has(part) && part !== file.main) file.drop(part);
  file.dropRelations(file.main, ({ id }) => id === relation.id);
}
