/** Writes changed cells into the XML of a sheet. All other cells keep their very characters. */
import { filled } from "../sheet/formula-text";
import { address, areaOf, contains, referenceTo } from "../sheet/references";
import type { CellChange, LineChange } from "./compare";
import { countsDays } from "./date-format";
import { daysTo1904 } from "./cell-in-file";
import { isErrorValue, type Area, type Cell, type CellStyle, type CellValue } from "./workbook";
import { eachElement, escapedCellText, escapedText, isOn, prefixOf, spliced, withAttributes, type Element, type Splice } from "./xml";

/** What a sheet needs of the whole file. */
export interface CellTools {
  /** The number of a look that is another by what differs between two. */
  styled(base: number, was: CellStyle | undefined, now: CellStyle | undefined): number;
  /** The number that marks a formula whose results spill. */
  spillMark(): string;
  formulaToFile(formula: string): string;
  /** Whether Excel needs the mark to read the formula as this page does. */
  needsMark(formula: string): boolean;
  readonly from1904: boolean;
}

export interface PatchedCells {
  readonly xml: string;
  /** Areas whose formula no longer fills them, because a cell inside was changed. */
  readonly cutAreas: readonly Area[];
}

export function patchCells(xml: string, changes: readonly CellChange[], rows: ReadonlyMap<number, LineChange>, tools: CellTools): PatchedCells {
  if (changes.length === 0 && rows.size === 0) return { xml, cutAreas: [] };
  const patch = new CellPatch(xml, changes, rows, tools);
  return { xml: patch.result(), cutAreas: patch.cutAreas };
}

/** The cells of a new sheet, as the inside of its sheetData. */
export function cellsXml(changes: readonly CellChange[], rows: ReadonlyMap<number, LineChange>, tools: CellTools): string {
  return patchCells("<sheetData/>", changes, rows, tools).xml.replace(/^<sheetData\/?>|<\/sheetData>$/g, "");
}

interface FileCell {
  readonly element: Element;
  readonly row: number;
  readonly column: number;
  readonly formula?: Element;
}

interface FileRow {
  readonly element: Element;
  readonly number: number;
  readonly cells: FileCell[];
}

interface Group {
  readonly cells: FileCell[];
  master?: FileCell;
}

class CellPatch {
  private readonly splices: Splice[] = [];
  private readonly wanted = new Map<number, Map<number, CellChange>>();
  private readonly rows: FileRow[] = [];
  private readonly groups = new Map<string, Group>();
  /** Formulas that are spelled anew without their cell being changed. */
  private readonly replaced = new Map<Element, string>();
  private readonly arrays: { cell: FileCell; area: Area }[] = [];
  private readonly columnStyles: { from: number; to: number; style: number }[] = [];
  private data: Element | undefined;
  private dimension: Element | undefined;
  private prefix = "";
  readonly cutAreas: Area[] = [];

  constructor(
    private readonly xml: string,
    changes: readonly CellChange[],
    private readonly rowChanges: ReadonlyMap<number, LineChange>,
    private readonly tools: CellTools,
  ) {
    for (const change of changes) {
      const line = this.wanted.get(change.row) ?? new Map<number, CellChange>();
      line.set(change.column, change);
      this.wanted.set(change.row, line);
    }
    this.read();
  }

  result(): string {
    this.cutArrays();
    this.promoteShared();
    const numbers = [...new Set([...this.wanted.keys(), ...this.rowChanges.keys()])].sort((a, b) => a - b);
    const known = new Map(this.rows.map((row) => [row.number, row]));
    const inserted = new Map<number, string[]>();
    for (const number of numbers) {
      const row = known.get(number);
      if (row) this.patchRow(row);
      else this.insertRow(number, inserted);
    }
    this.insertAll(inserted);
    this.widenDimension();
    return spliced(this.xml, this.splices);
  }

  private read(): void {
    const { xml } = this;
    let formula: Element | undefined;
    let lastRow = -1;
    let row: FileRow | undefined;
    let column = -1;
    const openRow = (element: Element): FileRow => {
      const number = element.attributes.r === undefined ? lastRow + 1 : Number(element.attributes.r) - 1;
      column = -1;
      lastRow = number;
      const opened = { element, number, cells: [] };
      this.rows.push(opened);
      return opened;
    };
    eachElement(xml, (element) => {
      const { name, parent, attributes } = element;
      if (name === "f" && parent?.name === "c") formula = element;
      else if (name === "c" && parent?.name === "row") {
        if (row?.element !== parent) row = openRow(parent);
        const own = attributes.r === undefined ? undefined : areaOf(attributes.r);
        column = own?.left ?? column + 1;
        this.readCell({ element, row: own?.top ?? row.number, column, ...(formula?.parent === element && { formula }) }, row);
        formula = undefined;
      } else if (name === "row" && parent?.name === "sheetData") {
        if (row?.element !== element) row = openRow(element);
      } else if (name === "sheetData") this.data = element;
      else if (name === "dimension") this.dimension = element;
      else if (name === "col" && parent?.name === "cols" && attributes.style !== undefined) {
        this.columnStyles.push({ from: Number(attributes.min) - 1, to: Number(attributes.max) - 1, style: Number(attributes.style) });
      }
    });
    this.prefix = prefixOf(this.data?.fullName ?? "");
  }

  private readCell(cell: FileCell, row: FileRow): void {
    const { formula } = cell;
    if (formula) {
      const { t, si, ref } = formula.attributes;
      if (t === "shared" && si !== undefined) {
        const group: Group = this.groups.get(si) ?? { cells: [] };
        if (formula.text !== "") group.master = cell;
        group.cells.push(cell);
        this.groups.set(si, group);
      } else if ((t === "array" || t === "dataTable") && ref !== undefined) {
        const area = areaOf(ref);
        if (area) this.arrays.push({ cell, area });
      }
    }
    if (this.wanted.has(row.number) || this.rowChanges.has(row.number)) row.cells.push(cell);
  }

  private change(row: number, column: number): CellChange | undefined {
    return this.wanted.get(row)?.get(column);
  }

  /** A typed cell inside an array formula or what-if table that this page does not calculate: the formula lets go of its other cells. */
  private cutArrays(): void {
    for (const { cell, area } of this.arrays) {
      if (area.top === area.bottom && area.left === area.right) continue;
      const own = this.change(cell.row, cell.column)?.content;
      if (own !== undefined) continue;
      if (!this.isTypedIn(area)) continue;
      this.cutAreas.push(area);
      const { formula } = cell;
      const tag = withAttributes(this.slice(formula!), { ref: address(cell.row, cell.column) });
      this.replaceFormula(cell, formula!.attributes.t === "dataTable" ? "" : tag + this.xml.slice(formula!.openEnd, formula!.end));
    }
  }

  private isTypedIn(area: Area): boolean {
    for (const line of this.wanted.values()) for (const change of line.values()) if (cuts(change, area)) return true;
    return false;
  }

  /** Where the first cell of those that share a formula is replaced, the next one carries the formula. */
  private promoteShared(): void {
    const isReplaced = (cell: FileCell) => ["formula", "value"].includes(this.change(cell.row, cell.column)?.content ?? "");
    for (const { cells, master } of this.groups.values()) {
      if (!master || !isReplaced(master)) continue;
      const left = cells.filter((cell) => !isReplaced(cell));
      const next = left[0];
      if (!next) continue;
      const text = filled(master.formula!.text, next.row - master.row, next.column - master.column);
      const { formula } = next;
      const tag = withAttributes(this.slice(formula!), { ref: referenceTo(around(left)) }).replace(/\s*\/>$/, ">");
      this.replaceFormula(next, `${tag}${escapedText(text)}</${formula!.fullName}>`);
    }
  }

  /** Where the cell itself is written anew, this goes into it. */
  private replaceFormula({ element, formula }: FileCell, xml: string): void {
    this.replaced.set(element, xml);
    this.splices.push({ from: formula!.start, to: formula!.end, text: xml });
  }

  private patchRow(row: FileRow): void {
    const { element, number } = row;
    const line = this.wanted.get(number);
    const columns = [...(line?.values() ?? [])].sort((a, b) => a.column - b.column);
    const written = new Set<number>();
    const splices: Splice[] = [];
    let next = 0;
    const insertedBefore = (column: number) => {
      let text = "";
      for (; next < columns.length && columns[next]!.column < column; next++) text += this.newCell(columns[next]!, element, written);
      return text;
    };
    for (const cell of row.cells) {
      const { start, openEnd, end, attributes } = cell.element;
      const before = insertedBefore(cell.column);
      if (before) splices.push({ from: start, to: start, text: before });
      if (columns[next]?.column === cell.column) splices.push({ from: start, to: end, text: this.changedCell(columns[next++]!, cell, written) });
      else if (attributes.r === undefined) {
        splices.push({ from: start, to: openEnd, text: withAttributes(this.slice(cell.element), { r: address(number, cell.column) }) });
      }
    }
    const tail = insertedBefore(Infinity);
    const open = this.rowTag(element, number, written);
    if (element.selfClosing && tail) {
      this.splices.push({ from: element.start, to: element.end, text: `${open.replace(/\s*\/>$/, ">")}${tail}</${element.fullName}>` });
    } else {
      if (open !== this.slice(element)) this.splices.push({ from: element.start, to: element.openEnd, text: open });
      this.splices.push(...splices);
      if (tail) this.splices.push({ from: element.closeStart, to: element.closeStart, text: tail });
    }
  }

  private rowTag(element: Element, number: number, written: ReadonlySet<number>): string {
    let tag = this.slice(element);
    if (element.attributes.r === undefined) tag = withAttributes(tag, { r: number + 1 });
    const [, from, to] = /^(\d+):(\d+)$/.exec(element.attributes.spans ?? "") ?? [];
    const isOutside = [...written].some((column) => column + 1 < Number(from) || column + 1 > Number(to));
    if (from !== undefined && isOutside) tag = withAttributes(tag, { spans: undefined });
    const change = this.rowChanges.get(number);
    return change ? withAttributes(tag, rowAttributes(change)) : tag;
  }

  private insertRow(number: number, inserted: Map<number, string[]>): void {
    const written = new Set<number>();
    const line = [...(this.wanted.get(number)?.values() ?? [])].sort((a, b) => a.column - b.column);
    const body = line.map((change) => this.newCell(change, undefined, written)).join("");
    const change = this.rowChanges.get(number);
    if (body === "" && !change) return;
    const tag = withAttributes(`<${this.prefix}row r="${number + 1}">`, change ? rowAttributes(change) : {});
    const following = this.rows.find((row) => row.number > number);
    const at = following?.element.start ?? this.data!.closeStart;
    inserted.set(at, [...(inserted.get(at) ?? []), `${tag}${body}</${this.prefix}row>`]);
    // A row that does not say its number counts on from the one before.
    const element = following?.element;
    if (element && element.attributes.r === undefined && !this.wanted.has(following.number) && !this.rowChanges.has(following.number)) {
      this.splices.push({ from: element.start, to: element.openEnd, text: withAttributes(this.slice(element), { r: following.number + 1 }) });
    }
  }

  private insertAll(inserted: ReadonlyMap<number, string[]>): void {
    const data = this.data!;
    if (!data.selfClosing) {
      for (const [at, rows] of inserted) this.splices.push({ from: at, to: at, text: rows.join("") });
      return;
    }
    const all = [...inserted.values()].flat().join("");
    if (all) this.splices.push({ from: data.start, to: data.end, text: `${this.slice(data).replace(/\s*\/>$/, ">")}${all}</${data.fullName}>` });
  }

  private newCell(change: CellChange, row: Element | undefined, written: Set<number>): string {
    const { column } = change;
    const ofColumn = this.columnStyles.find(({ from, to }) => column >= from && column <= to)?.style;
    const inherited = row && isOn(row.attributes.customFormat) ? Number(row.attributes.s ?? 0) : ofColumn;
    return this.cell(change, inherited, undefined, written);
  }

  private changedCell(change: CellChange, cell: FileCell, written: Set<number>): string {
    const { s } = cell.element.attributes;
    if (change.content === undefined) {
      const style = this.style(change, s === undefined ? undefined : Number(s));
      const tag = withAttributes(this.slice(cell.element), { r: address(cell.row, cell.column), s: style });
      const inner = this.replaced.get(cell.element);
      const rest = this.xml.slice(cell.element.openEnd, cell.element.end);
      return tag + (inner === undefined ? rest : rest.replace(this.xml.slice(cell.formula!.start, cell.formula!.end), () => inner));
    }
    return this.cell(change, s === undefined ? undefined : Number(s), cell, written);
  }

  private style({ styleBefore, now }: CellChange, base: number | undefined): number | undefined {
    if (styleBefore === undefined) return base;
    return this.tools.styled(base ?? 0, styleBefore === "none" ? undefined : styleBefore, now.style);
  }

  private cell(change: CellChange, base: number | undefined, old: FileCell | undefined, filledColumns: Set<number>): string {
    const { row, column, content, now } = change;
    const { prefix, tools } = this;
    const style = this.style(change, base);
    const attributes = style ? ` s="${style}"` : "";
    const r = address(row, column);
    const written = content === "formula" ? this.newFormula(row, column, now) : undefined;
    const formula = written ?? (content === "result" ? this.keptFormula(old, row, column, now) : noFormula);
    const value = valueXml(inFile(now, tools.from1904), prefix, formula.xml !== "");
    if (formula.xml === "" && value.xml === "" && attributes === "") return "";
    if (formula.xml !== "" || value.xml !== "") filledColumns.add(column);
    const inner = formula.xml + value.xml;
    const open = `<${prefix}c r="${r}"${attributes}${value.type}${formula.mark}`;
    return inner === "" ? `${open}/>` : `${open}>${inner}</${prefix}c>`;
  }

  private newFormula(row: number, column: number, { formula = "", spill, value, fixedArea }: Cell): { xml: string; mark: string } {
    const text = escapedText(this.tools.formulaToFile(formula));
    const fills = isErrorValue(value) && !fixedArea ? undefined : spill;
    if (!fills && !fixedArea && !this.tools.needsMark(formula)) return { xml: `<${this.prefix}f>${text}</${this.prefix}f>`, mark: "" };
    const ref = spillReference(row, column, fills);
    return { xml: `<${this.prefix}f t="array" ref="${ref}">${text}</${this.prefix}f>`, mark: fixedArea ? "" : ` cm="${this.tools.spillMark()}"` };
  }

  /** The formula as it stands in the file; one whose results spill fills as many cells as it does now. */
  private keptFormula(old: FileCell | undefined, row: number, column: number, { spill, value }: Cell): { xml: string; mark: string } {
    if (!old?.formula) return { xml: "", mark: "" };
    const { cm } = old.element.attributes;
    const { formula } = old;
    const mark = cm === undefined ? "" : ` cm="${cm}"`;
    const replaced = this.replaced.get(old.element);
    if (replaced !== undefined) return { xml: replaced, mark };
    const text = this.xml.slice(formula.openEnd, formula.end);
    const tag = this.slice(formula);
    const refilled = formula.attributes.t === "array" && cm !== undefined;
    const ref = spillReference(row, column, isErrorValue(value) ? undefined : spill);
    return { xml: (refilled ? withAttributes(tag, { ref }) : tag) + text, mark };
  }

  private widenDimension(): void {
    const area = areaOf(this.dimension?.attributes.ref ?? "");
    if (!this.dimension || !area) return;
    const wide = { ...area };
    for (const [row, line] of this.wanted) {
      for (const { column, now } of line.values()) {
        if (now.value === undefined && now.formula === undefined) continue;
        wide.top = Math.min(wide.top, row);
        wide.bottom = Math.max(wide.bottom, row);
        wide.left = Math.min(wide.left, column);
        wide.right = Math.max(wide.right, column);
      }
    }
    const ref = referenceTo(wide);
    if (ref === referenceTo(area)) return;
    this.splices.push({ from: this.dimension.start, to: this.dimension.openEnd, text: withAttributes(this.slice(this.dimension), { ref }) });
  }

  private slice({ start, openEnd }: Element): string {
    return this.xml.slice(start, openEnd);
  }
}

function around(cells: readonly { row: number; column: number }[]): Area {
  const area = { top: Infinity, left: Infinity, bottom: 0, right: 0 };
  for (const { row, column } of cells) {
    area.top = Math.min(area.top, row);
    area.bottom = Math.max(area.bottom, row);
    area.left = Math.min(area.left, column);
    area.right = Math.max(area.right, column);
  }
  return area;
}

function cuts({ row, column, content }: CellChange, area: Area): boolean {
  return (content === "value" || content === "formula") && contains(area, row, column);
}

function spillReference(row: number, column: number, spill: Cell["spill"]): string {
  return referenceTo({ top: row, left: column, bottom: row + (spill?.rows ?? 1) - 1, right: column + (spill?.columns ?? 1) - 1 });
}

function rowAttributes({ size, hidden }: LineChange): Record<string, string | number | undefined> {
  return { ht: size, customHeight: size === undefined ? undefined : 1, hidden: hidden ? 1 : undefined };
}

/** Dates count from 1904 in some files. */
function inFile({ value, style }: Cell, from1904: boolean): CellValue | undefined {
  return from1904 && typeof value === "number" && style?.format !== undefined && countsDays(style.format) ? value - daysTo1904 : value;
}

const noFormula = { xml: "", mark: "" };

/** Errors that came after the format was fixed are kept there as the one that every program knows; Excel finds the real one when it calculates. */
const errorsInFile = new Set(["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#GETTING_DATA"]);

function valueXml(value: CellValue | undefined, prefix: string, isResult: boolean): { xml: string; type: string } {
  const plain = (text: string) => `<${prefix}v>${text}</${prefix}v>`;
  if (value === undefined || (value === "" && !isResult)) return { xml: "", type: "" };
  if (typeof value === "number") return Number.isFinite(value) ? { xml: plain(String(value)), type: "" } : { xml: plain("#NUM!"), type: ' t="e"' };
  if (typeof value === "boolean") return { xml: plain(value ? "1" : "0"), type: ' t="b"' };
  if (isErrorValue(value)) return { xml: plain(errorsInFile.has(value.error) ? value.error : "#VALUE!"), type: ' t="e"' };
  const text = escapedCellText(value);
  if (isResult) return { xml: plain(text), type: ' t="str"' };
  return { xml: `<${prefix}is><${prefix}t xml:space="preserve">${text}</${prefix}t></${prefix}is>`, type: ' t="inlineStr"' };
}
