/** The workbook's own part: its sheets in order, its names, and how it counts. */
import type { Package, Relation } from "./package";
import { isOn, prefixed, walk } from "./xml";

export interface SheetEntry {
  readonly name: string;
  /** As in "visible", "hidden" and "veryHidden". */
  readonly state: string;
  readonly relation: Relation | undefined;
}

export interface NameEntry {
  readonly name: string;
  readonly text: string;
  /** The number of its sheet among all sheets, where it is known only there. */
  readonly sheet?: number;
  readonly hidden: boolean;
}

export interface WorkbookPart {
  /** All of them: worksheets, chart sheets and others. */
  readonly sheets: readonly SheetEntry[];
  readonly names: readonly NameEntry[];
  readonly from1904: boolean;
  /** Cycles are calculated over and over on purpose. */
  readonly iterates: boolean;
  /** The program that wrote the file leaves its results to the next: those in the file are not to be relied on. */
  readonly isOutdated: boolean;
  /** The number among all sheets of the one that was in sight last. */
  readonly inSight: number;
}

export function readWorkbookPart(file: Package): WorkbookPart {
  const relations = new Map(file.relationsOf(file.main).map((relation) => [relation.id, relation]));
  const sheets: SheetEntry[] = [];
  const names: NameEntry[] = [];
  let from1904 = false;
  let iterates = false;
  let isOutdated = false;
  let inSight = 0;
  let open: Omit<NameEntry, "text"> | undefined;
  file.reading(file.main, (xml) =>
    walk(xml, {
      open(name, attributes, parent) {
        if (name === "workbookPr") from1904 = isOn(attributes.date1904);
        else if (name === "workbookView") inSight = Number(attributes.activeTab ?? 0) || 0;
        else if (name === "calcPr") {
          iterates = isOn(attributes.iterate);
          isOutdated = isOn(attributes.fullCalcOnLoad);
        } else if (name === "sheet" && parent === "sheets") {
          sheets.push({ name: attributes.name ?? "", state: attributes.state ?? "visible", relation: relations.get(prefixed(attributes, "id") ?? "") });
        } else if (name === "definedName") {
          const { name: called = "", localSheetId, hidden } = attributes;
          open = { name: called, ...(localSheetId !== undefined && { sheet: Number(localSheetId) }), hidden: isOn(hidden) };
        }
      },
      close(name, text) {
        if (name === "definedName" && open) names.push({ ...open, text });
      },
    }),
  );
  return { sheets, names, from1904, iterates, isOutdated, inSight };
}

/** The part of a worksheet; undefined for a chart sheet and the like, and where the part is missing. */
export function worksheetPart(file: Package, { relation }: SheetEntry): string | undefined {
  return relation?.type === "worksheet" && file.has(relation.target) ? relation.target : undefined;
}
