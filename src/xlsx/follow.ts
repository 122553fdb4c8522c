/**
 * Makes every place in an opened file that holds a reference follow the edits of a journal: cells, formulas, names, tables, validations,
 * conditional formats, merges, comments, drawings, charts, pivot tables. What is not concerned keeps its very characters.
 */
import { filled } from "../sheet/formula-text";
import { address, areaOf, mostColumns, referenceTo } from "../sheet/references";
import type { Package } from "./package";
import { withColumnsMoved } from "./table-columns";
import { columnsXml } from "./patch-sheet";
import type { Relocation } from "./relocation";
import { readWorkbookPart, type SheetEntry } from "./workbook-part";
import type { Area } from "./workbook";
import { eachElement, escaped, rewritten, prefixOf, spliced, type Element, type ElementChange } from "./xml";

type Change = (element: Element, what: ElementChange) => void;

/** Answers what cannot follow, each as a full sentence. */
export function follow(file: Package, relocation: Relocation): string[] {
  if (relocation.isNothing) return [];
  const warnings: string[] = [];
  const { sheets } = readWorkbookPart(file);
  const done = new Set<string>();
  for (const entry of sheets) followSheet(file, entry, relocation, done, warnings);
  followNames(file, relocation);
  for (const { type, target, external } of file.relationsOf(file.main)) {
    if (type === "pivotCacheDefinition" && !external) followPivotSource(file, target, relocation);
  }
  return warnings;
}

function followSheet(file: Package, { name, relation }: SheetEntry, relocation: Relocation, done: Set<string>, warnings: string[]): void {
  if (!relation || relation.external || !file.has(relation.target)) return;
  const part = relation.target;
  if (relation.type === "worksheet") update(file, part, (xml) => followInWorksheet(xml, name, relocation, warnings));
  else if (relation.type === "xlMacrosheet" || relation.type === "dialogsheet") {
    warnings.push(`“${name}” is a sheet of old macros or dialogs: references in it do not follow the rows, columns and sheets that were changed.`);
  }
  followRelated(file, part, name, relocation, done, warnings);
}

/** The parts that a sheet owns, and theirs. */
function followRelated(file: Package, part: string, sheet: string, relocation: Relocation, done: Set<string>, warnings: string[]): void {
  for (const { type, target, external } of file.relationsOf(part)) {
    if (external || done.has(target) || !file.has(target)) continue;
    done.add(target);
    switch (type) {
      case "comments":
      case "threadedComment":
      case "tableSingleCells":
        update(file, target, (xml) => followOwnReferences(xml, sheet, relocation));
        break;
      case "drawing":
        update(file, target, (xml) => rewritten(xml, (element, change) => followAnchor(element, change, sheet, relocation)));
        followRelated(file, target, sheet, relocation, done, warnings);
        break;
      case "vmlDrawing":
        update(file, target, (text) => followVml(text, sheet, relocation));
        break;
      case "chart":
      case "chartEx":
        update(file, target, (xml) => followFormulas(xml, sheet, relocation));
        break;
      case "ctrlProp":
        update(file, target, (xml) => followControl(xml, sheet, relocation));
        break;
      case "table":
        update(file, target, (xml) => followTable(xml, sheet, relocation));
        break;
      case "pivotTable":
        update(file, target, (xml) => followPivotTable(xml, sheet, relocation, warnings));
        break;
    }
  }
}

function update(file: Package, part: string, change: (xml: string) => string): void {
  const xml = file.text(part);
  if (xml === undefined) return;
  file.setText(part, file.guarded(() => change(xml)));
}

/** Attributes with references to the element's own sheet, by the element. */
const ownReferences: Record<string, readonly string[]> = {
  dimension: ["ref"],
  sheetPr: ["syncRef"],
  mergeCell: ["ref"],
  autoFilter: ["ref"],
  sortState: ["ref"],
  sortCondition: ["ref"],
  conditionalFormatting: ["sqref"],
  dataValidation: ["sqref"],
  protectedRange: ["sqref"],
  ignoredError: ["sqref"],
  cellWatch: ["r"],
  inputCells: ["r"],
  hyperlink: ["ref"],
  comment: ["ref"],
  threadedComment: ["ref"],
  singleXmlCell: ["r"],
};

/** These mark a place for the view: where it is gone, the next one will do. */
const viewReferences: Record<string, readonly string[]> = {
  selection: ["activeCell", "sqref"],
  sheetView: ["topLeftCell"],
  customSheetView: ["topLeftCell"],
  pane: ["topLeftCell"],
};

/** Elements whose text is a formula, apart from those of cells. */
const formulaElements = new Set(["formula", "formula1", "formula2", "f", "oddFormula", "calculatedColumnFormula", "totalsRowFormula"]);

function followOwnReferences(xml: string, sheet: string, relocation: Relocation): string {
  return relocation.shifts(sheet) ? rewritten(xml, (element, change) => followOwnReference(element, change, sheet, relocation)) : xml;
}

/** Answers false where the element is none with a reference. */
function followOwnReference(element: Element, change: Change, sheet: string, relocation: Relocation): boolean {
  const { name, attributes } = element;
  const gone = new Set<string>();
  for (const attribute of ownReferences[name] ?? []) {
    const text = attributes[attribute];
    if (text === undefined) continue;
    const to = relocation.references(sheet, text);
    if (to === undefined) gone.add(attribute);
    else if (to !== text) change(element, { attributes: { [attribute]: to } });
    // A cell by itself is not merged with any.
    if (name === "mergeCell" && to !== undefined && !to.includes(":")) gone.add(attribute);
  }
  if (gone.size > 0) change(element, name === "sheetPr" ? { attributes: { syncRef: undefined } } : name === "dimension" ? { attributes: { ref: "A1" } } : { drop: true });
  for (const attribute of viewReferences[name] ?? []) {
    const text = attributes[attribute];
    if (text !== undefined) change(element, { attributes: { [attribute]: nearReferences(text, sheet, relocation) } });
  }
  return name in ownReferences || name in viewReferences;
}

function nearReferences(text: string, sheet: string, relocation: Relocation): string {
  const near = text.split(/\s+/).map((reference) => {
    const to = relocation.reference(sheet, reference);
    const area = areaOf(reference);
    if (to !== undefined || !area) return to ?? reference;
    const [top, left] = [relocation.nearestLine(sheet, "row", area.top), relocation.nearestLine(sheet, "column", area.left)];
    return referenceTo({ top, left, bottom: top, right: left });
  });
  return near.join(" ");
}

function followInWorksheet(xml: string, sheet: string, relocation: Relocation, warnings: string[]): string {
  const shifts = relocation.shifts(sheet);
  const formulas = new CellFormulas(sheet, relocation, warnings);
  const rules = new RuleFormulas(sheet, relocation);
  const places = new CellPlaces(sheet, relocation);
  const columns = new ColumnStretches(sheet, relocation);
  const changed = rewritten(xml, (element, change) => {
    const { name, parent } = element;
    if (name === "f" && parent?.name === "c") formulas.add(element);
    else if (name === "c" && parent?.name === "row") {
      formulas.place(element, places.cell(element));
      if (shifts) places.moveCell(element, change);
    } else if (name === "row" && parent?.name === "sheetData") {
      places.row(element);
      if (shifts) places.moveRow(element, change);
    } else if (name === "sheetData") formulas.rewrite(change);
    else if (formulaElements.has(name) || name === "cfvo" || name === "sqref") rules.add(element);
    else if (/^(conditionalFormatting|dataValidation|sparkline|sparklineGroup|protectedRange|ignoredError)$/.test(name)) {
      rules.rewrite(element, change);
      if (shifts) followOwnReference(element, change, sheet, relocation);
    } else if (name === "hyperlink") {
      const { location } = element.attributes;
      if (location) change(element, { attributes: { location: relocation.formula(location, sheet) } });
      if (shifts) followOwnReference(element, change, sheet, relocation);
    } else if (name === "col") columns.add(element);
    else if (name === "cols") {
      const list = columns.moved(xml, element);
      if (list !== undefined) change(element, { instead: list });
    } else if (name === "brk") followBreak(element, change, sheet, relocation);
    else if (name === "dataRef" && element.attributes.ref && element.attributes.sheet) followSource(element, change, relocation);
    else if (shifts && !followOwnReference(element, change, sheet, relocation)) followAnchor(element, change, sheet, relocation);
  });
  return relocation.reorders(sheet) ? inOrder(changed) : changed;
}

/** The places of cells, also of those that do not say theirs. */
class CellPlaces {
  private readonly rows = new Map<Element, number>();
  private lastRow = -1;
  private lastRowElement: Element | undefined;
  private lastColumn = -1;

  constructor(
    private readonly sheet: string,
    private readonly relocation: Relocation,
  ) {}

  row(element: Element): number {
    let row = this.rows.get(element);
    if (row === undefined) {
      row = element.attributes.r === undefined ? this.lastRow + 1 : Number(element.attributes.r) - 1;
      this.rows.set(element, row);
      this.lastRow = row;
    }
    return row;
  }

  cell(element: Element): { row: number; column: number } {
    const parent = element.parent!;
    const row = this.row(parent);
    if (this.lastRowElement !== parent) this.lastColumn = -1;
    this.lastRowElement = parent;
    const own = element.attributes.r === undefined ? undefined : areaOf(element.attributes.r);
    this.lastColumn = own?.left ?? this.lastColumn + 1;
    return { row: own?.top ?? row, column: this.lastColumn };
  }

  moveCell(element: Element, change: Change): void {
    const own = element.attributes.r === undefined ? undefined : areaOf(element.attributes.r);
    const [row, column] = [own?.top ?? this.row(element.parent!), own?.left ?? this.lastColumn];
    const to = this.relocation.area(this.sheet, { top: row, bottom: row, left: column, right: column });
    if (!to) change(element, { drop: true });
    else if (!own || to.top !== row || to.left !== column) change(element, { attributes: { r: address(to.top, to.left) } });
  }

  moveRow(element: Element, change: Change): void {
    const row = this.row(element);
    const to = this.relocation.line(this.sheet, "row", row);
    if (to === undefined) change(element, { drop: true });
    else if (to !== row || element.attributes.r === undefined) change(element, { attributes: { r: to + 1 } });
    if (element.attributes.spans !== undefined && this.relocation.shifts(this.sheet, "column")) change(element, { attributes: { spans: undefined } });
  }
}

interface CellFormula {
  readonly element: Element;
  readonly row: number;
  readonly column: number;
  readonly to: { row: number; column: number } | undefined;
}

/** The formulas of a sheet's cells. Those that share one go on sharing it, as long as they still read alike. */
class CellFormulas {
  private open: Element | undefined;
  private readonly alone: CellFormula[] = [];
  private readonly groups = new Map<string, CellFormula[]>();

  constructor(
    private readonly sheet: string,
    private readonly relocation: Relocation,
    private readonly warnings: string[],
  ) {}

  add(element: Element): void {
    this.open = element;
  }

  place(cell: Element, { row, column }: { row: number; column: number }): void {
    const element = this.open;
    this.open = undefined;
    if (element?.parent !== cell) return;
    const area = this.relocation.area(this.sheet, { top: row, bottom: row, left: column, right: column });
    const formula = { element, row, column, to: area && { row: area.top, column: area.left } };
    const { t, si } = element.attributes;
    if (t !== "shared" || si === undefined) this.alone.push(formula);
    else {
      const group = this.groups.get(si) ?? [];
      group.push(formula);
      this.groups.set(si, group);
    }
  }

  rewrite(change: Change): void {
    for (const { element, to } of this.alone) if (to) this.rewriteAlone(element, to, change);
    for (const group of this.groups.values()) this.rewriteGroup(group, change);
  }

  private rewriteAlone(element: Element, to: { row: number; column: number }, change: Change): void {
    const { ref, r1, r2 } = element.attributes;
    const moved = (reference: string) => {
      const reached = this.relocation.reference(this.sheet, reference) ?? reference;
      return reference === ref && this.isTorn(element, ref, reached) ? address(to.row, to.column) : reached;
    };
    const text = this.relocation.formula(element.text, this.sheet);
    const attributes: Record<string, string> = {};
    for (const [name, reference] of Object.entries({ ref, r1, r2 })) if (reference !== undefined) attributes[name] = moved(reference);
    if (text !== element.text || Object.keys(attributes).length > 0) change(element, { attributes, text });
  }

  /** Whether rows or columns went into or out of an area that a formula was entered over, which Excel does not allow. */
  private isTorn({ attributes, parent }: Element, ref: string, reached: string): boolean {
    const [was, is] = [areaOf(ref), areaOf(reached)];
    if (attributes.t !== "array" || parent?.attributes.cm !== undefined || !was || !is) return false;
    if (is.bottom - is.top === was.bottom - was.top && is.right - is.left === was.right - was.left) return false;
    this.warnings.push(
      `“${this.relocation.sheet(this.sheet) ?? this.sheet}”: rows or columns were inserted or deleted inside ${ref}, which one formula fills as a whole. In the copy the other cells of it keep their values, and the formula no longer fills them.`,
    );
    return true;
  }

  private rewriteGroup(group: readonly CellFormula[], change: Change): void {
    const master = group.find(({ element }) => element.text !== "");
    if (!master) return;
    const unchanged = this.relocation.formula(master.element.text, this.sheet) === master.element.text && !this.relocation.shifts(this.sheet);
    // Its cells point to other places than the master does, but on the same sheets.
    if (unchanged && !/[!:[]|#REF/.test(master.element.text)) return;
    const texts = group.flatMap((formula) => {
      if (!formula.to) return [];
      const { element, row, column, to } = formula;
      const read = element.text || filled(master.element.text, row - master.row, column - master.column);
      return [{ element, to, text: this.relocation.formula(read, this.sheet) }];
    });
    // The first in the sheet carries what all share.
    texts.sort((a, b) => a.to.row - b.to.row || a.to.column - b.to.column);
    const first = texts[0];
    if (!first) return;
    const alike = texts.every(({ to, text }) => filled(first.text, to.row - first.to.row, to.column - first.to.column) === text);
    if (!alike) {
      for (const { element, text } of texts) change(element, { attributes: { t: undefined, si: undefined, ref: undefined }, text });
      return;
    }
    const rows = texts.map(({ to }) => to.row);
    const columns = texts.map(({ to }) => to.column);
    const ref = referenceTo({ top: least(rows), bottom: most(rows), left: least(columns), right: most(columns) });
    for (const { element, text } of texts) {
      if (element === first.element) change(element, { attributes: { ref }, text });
      else if (element.text !== "" || element.attributes.ref !== undefined) change(element, { attributes: { ref: undefined }, text: "" });
    }
  }
}

function least(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => Math.min(a, b));
}

function most(numbers: readonly number[]): number {
  return numbers.reduce((a, b) => Math.max(a, b));
}

/** Formulas of validations, conditional formats and sparklines. In the first two they read as in the first cell of the area. */
class RuleFormulas {
  private pending: Element[] = [];

  constructor(
    private readonly sheet: string,
    private readonly relocation: Relocation,
  ) {}

  add(element: Element): void {
    this.pending.push(element);
  }

  rewrite(rule: Element, change: Change): void {
    const own = this.pending;
    this.pending = [];
    const { sheet, relocation } = this;
    const areas = rule.attributes.sqref ?? own.find(({ name }) => name === "sqref")?.text;
    const base = areas === undefined || rule.name === "sparkline" ? undefined : this.base(areas);
    const read = (text: string) => relocation.formula(base ? filled(text, base.rows, base.columns) : text, sheet);
    let gone = false;
    for (const element of own) {
      if (element.name === "sqref") {
        const to = relocation.references(sheet, element.text);
        if (to === undefined) gone = true;
        else change(element, { text: to });
      } else if (element.name === "cfvo") {
        const { type, val } = element.attributes;
        if (type === "formula" && val !== undefined) change(element, { attributes: { val: read(val) } });
      } else if (element.text !== "") change(element, { text: read(element.text) });
    }
    if (gone) change(rule, { drop: true });
  }

  /** How far the first cell that is left lies from what was the first. */
  private base(areas: string): { rows: number; columns: number } | undefined {
    const { sheet, relocation } = this;
    if (!relocation.shifts(sheet)) return undefined;
    const first = areaOf(areas.trim().split(/\s+/)[0] ?? "");
    if (!first) return undefined;
    for (const reference of areas.trim().split(/\s+/)) {
      const area = areaOf(reference);
      const left = area && firstLeft(area, sheet, relocation);
      if (left) return { rows: left.row - first.top, columns: left.column - first.left };
    }
    return undefined;
  }
}

function firstLeft({ top, left, bottom, right }: Area, sheet: string, relocation: Relocation): { row: number; column: number } | undefined {
  const find = (axis: "row" | "column", from: number, to: number) => {
    for (let line = from; line <= to; line++) if (relocation.line(sheet, axis, line) !== undefined) return line;
    return undefined;
  };
  const [row, column] = [find("row", top, bottom), find("column", left, right)];
  return row === undefined || column === undefined ? undefined : { row, column };
}

function followBreak(element: Element, change: Change, sheet: string, relocation: Relocation): void {
  const axis = element.parent?.name === "rowBreaks" ? "row" : "column";
  const { id } = element.attributes;
  if (id === undefined || !relocation.shifts(sheet, axis)) return;
  const to = relocation.line(sheet, axis, Number(id));
  change(element, to === undefined ? { drop: true } : { attributes: { id: to } });
}

/** The corners of pictures, charts and controls: numbers of rows and columns from 0. */
function followAnchor(element: Element, change: Change, sheet: string, relocation: Relocation): boolean {
  const axis = element.name === "row" ? "row" : element.name === "col" ? "column" : undefined;
  const corner = element.parent;
  if (!axis || (corner?.name !== "from" && corner?.name !== "to") || corner.parent?.attributes.editAs === "absolute") return false;
  if (relocation.shifts(sheet, axis)) change(element, { text: String(relocation.nearestLine(sheet, axis, Number(element.text))) });
  return true;
}

/** Old drawings are not always well-formed XML. */
function followVml(text: string, sheet: string, relocation: Relocation): string {
  if (!relocation.shifts(sheet)) return followVmlFormulas(text, sheet, relocation);
  const near = (axis: "row" | "column", line: string) => String(relocation.nearestLine(sheet, axis, Number(line)));
  const moved = text
    .replace(/(<x:Row>\s*)(\d+)/g, (_, start: string, line: string) => start + near("row", line))
    .replace(/(<x:Column>\s*)(\d+)/g, (_, start: string, line: string) => start + near("column", line))
    .replace(/(<x:Anchor>)([^<]*)/g, (all, start: string, list: string) => {
      const numbers = list.split(",").map((number) => number.trim());
      if (numbers.length !== 8) return all as string;
      // Column and offset, row and offset, of the first corner and then the second.
      for (const index of [0, 4]) numbers[index] = near("column", numbers[index]!);
      for (const index of [2, 6]) numbers[index] = near("row", numbers[index]!);
      return start + numbers.join(", ");
    });
  return followVmlFormulas(moved, sheet, relocation);
}

function followVmlFormulas(text: string, sheet: string, relocation: Relocation): string {
  return text.replace(/(<x:Fmla(?:Link|Range|Pict|Group|Txbx)>)([^<]*)/g, (_, start: string, formula: string) => start + escaped(relocation.formula(unescapedVml(formula), sheet)));
}

function unescapedVml(text: string): string {
  return text.replaceAll("&lt;", "<").replaceAll("&gt;", ">").replaceAll("&quot;", '"').replaceAll("&apos;", "'").replaceAll("&amp;", "&");
}

function followFormulas(xml: string, sheet: string, relocation: Relocation): string {
  return rewritten(xml, (element, change) => {
    if (element.name === "f" && element.text !== "") change(element, { text: relocation.formula(element.text, sheet) });
  });
}

function followControl(xml: string, sheet: string, relocation: Relocation): string {
  return rewritten(xml, (element, change) => {
    for (const attribute of ["fmlaLink", "fmlaRange", "fmlaGroup", "fmlaTxbx"]) {
      const text = element.attributes[attribute];
      if (text) change(element, { attributes: { [attribute]: relocation.formula(text, sheet) } });
    }
  });
}

function followNames(file: Package, relocation: Relocation): void {
  const { sheets } = readWorkbookPart(file);
  update(file, file.main, (xml) =>
    rewritten(xml, (element, change) => {
      if (element.name !== "definedName") return;
      const { localSheetId } = element.attributes;
      const own = localSheetId === undefined ? "" : (sheets[Number(localSheetId)]?.name ?? "");
      change(element, { text: relocation.formula(element.text, own) });
    }),
  );
}

function followTable(xml: string, sheet: string, relocation: Relocation): string {
  let area: Area | undefined;
  eachElement(xml, ({ parent, attributes }) => {
    if (!parent) area = areaOf(attributes.ref ?? "");
  });
  if (!area) return xml;
  const was = area;
  const totalsGone = relocation.line(sheet, "row", was.bottom) === undefined;
  const followed = rewritten(xml, (element, change) => {
    const { name, parent, attributes } = element;
    if (!parent) {
      const to = relocation.reference(sheet, attributes.ref!);
      if (to !== undefined) change(element, { attributes: { ref: to } });
      if (totalsGone && attributes.totalsRowCount) change(element, { attributes: { totalsRowCount: undefined, totalsRowShown: 0 } });
    } else if (formulaElements.has(name)) change(element, { text: relocation.formula(element.text, sheet) });
    else if (relocation.shifts(sheet)) followOwnReference(element, change, sheet, relocation);
  });
  if (!relocation.shifts(sheet, "column")) return followed;
  return withColumnsMoved(followed, was, relocation.area(sheet, was), (column) => relocation.line(sheet, "column", column));
}

function followPivotTable(xml: string, sheet: string, relocation: Relocation, warnings: string[]): string {
  return rewritten(xml, (element, change) => {
    const { ref } = element.attributes;
    if (element.name !== "location" || ref === undefined) return;
    const [area, to] = [areaOf(ref), relocation.reference(sheet, ref)];
    const toArea = to === undefined ? undefined : areaOf(to);
    const sameSize = area && toArea && toArea.bottom - toArea.top === area.bottom - area.top && toArea.right - toArea.left === area.right - area.left;
    if (sameSize) change(element, { attributes: { ref: to } });
    else warnings.push(`“${sheet}”: the pivot table at ${ref} cannot follow the rows or columns that were inserted or deleted in it. Refresh it in Excel.`);
  });
}

function followPivotSource(file: Package, part: string, relocation: Relocation): void {
  update(file, part, (xml) =>
    rewritten(xml, (element, change) => {
      if (element.name === "worksheetSource" && element.attributes.sheet) followSource(element, change, relocation);
    }),
  );
}

/** A reference whose sheet stands beside it. */
function followSource(element: Element, change: Change, relocation: Relocation): void {
  const { sheet = "", ref } = element.attributes;
  const now = relocation.sheet(sheet);
  if (now === undefined) return;
  change(element, { attributes: { sheet: now, ...(ref !== undefined && { ref: relocation.reference(sheet, ref) ?? ref }) } });
}

/** The widths and looks of whole columns, of which a list names stretches. */
class ColumnStretches {
  private readonly stretches: Element[] = [];

  constructor(
    private readonly sheet: string,
    private readonly relocation: Relocation,
  ) {}

  add(element: Element): void {
    this.stretches.push(element);
  }

  /** The list as it is to be; undefined where it stays as it is. */
  moved(xml: string, columns: Element): string | undefined {
    if (!this.relocation.shifts(this.sheet, "column")) return undefined;
    const tags: (string | undefined)[] = [];
    for (const { start, end, attributes } of this.stretches) {
      const tag = xml.slice(start, end);
      for (let column = Number(attributes.min) - 1; column < Math.min(Number(attributes.max), mostColumns); column++) {
        const to = this.relocation.line(this.sheet, "column", column);
        if (to !== undefined) tags[to] = tag;
      }
    }
    // What was inserted inside a stretch belongs to it.
    let before: string | undefined;
    let gap = 0;
    for (let column = 0; column < tags.length; column++) {
      if (tags[column] === undefined) {
        gap++;
        continue;
      }
      if (gap > 0 && before === tags[column]) tags.fill(before, column - gap, column);
      before = tags[column];
      gap = 0;
    }
    return columnsXml(tags, prefixOf(columns.fullName));
  }
}

/** Rows and cells that were moved stand in order again. */
function inOrder(xml: string): string {
  const rows: { element: Element; cells: Element[] }[] = [];
  let cells: Element[] = [];
  let data: Element | undefined;
  eachElement(xml, (element) => {
    if (element.name === "c" && element.parent?.name === "row") cells.push(element);
    else if (element.name === "row" && element.parent?.name === "sheetData") {
      rows.push({ element, cells });
      cells = [];
    } else if (element.name === "sheetData") data = element;
  });
  const rowOf = ({ element }: { element: Element }) => Number(element.attributes.r);
  const columnOf = (cell: Element) => areaOf(cell.attributes.r ?? "")?.left ?? 0;
  const isSorted = (numbers: readonly number[]) => numbers.every((number, index) => index === 0 || number > numbers[index - 1]!);
  if (!data || (isSorted(rows.map(rowOf)) && rows.every((row) => isSorted(row.cells.map(columnOf))))) return xml;
  const text = [...rows]
    .sort((a, b) => rowOf(a) - rowOf(b))
    .map(({ element, cells: own }) => {
      if (isSorted(own.map(columnOf))) return xml.slice(element.start, element.end);
      const sorted = [...own].sort((a, b) => columnOf(a) - columnOf(b)).map(({ start, end }) => xml.slice(start, end));
      return xml.slice(element.start, element.openEnd) + sorted.join("") + xml.slice(element.closeStart, element.end);
    });
  return spliced(xml, [{ from: data.openEnd, to: data.closeStart, text: text.join("") }]);
}
