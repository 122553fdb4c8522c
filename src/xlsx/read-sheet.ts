/** A worksheet's part as this page holds it: its cells, and what is clipped to what is used. */
import { filled } from "../sheet/formula-text";
import { address, areaOf, mostColumns, mostRows } from "../sheet/references";
import { formulaFromFile, type FunctionNames } from "./formula-in-file";
import { FilterReader } from "./filter";
import { FileProblem } from "./file-problem";
import { deepestFormula, inWords, longestFormula, longestText } from "./limits";
import type { Styles } from "./read-styles";
import { placeInFile, rowInFile, valueInFile, type ValueContext } from "./cell-in-file";
import { putCell, type Area, type Cell, type Sheet } from "./workbook";
import { isOn, walk, type Attributes } from "./xml";

/** What all sheets of a workbook share. */
export interface SheetContext {
  readonly fileName: string;
  readonly ours: FunctionNames;
  readonly strings: readonly string[];
  readonly styles: Styles;
  /** Dates are counted from 1904, in the file; here from 1900, as everywhere. */
  readonly from1904: boolean;
  /** Which numbers of cell metadata mark a formula whose results spill. */
  readonly spilling: ReadonlySet<string>;
  /** Told of each cell and its characters, to stop where there are too many. */
  count(cells: number, characters: number): void;
}

/** A formula as the file spells it, and what the file says about where it stands. */
export interface FormulaInFile {
  readonly row: number;
  readonly column: number;
  readonly cell: Cell;
  readonly text: string;
  readonly kind: "plain" | "fixed array" | "spilling";
  /** What an array formula fills, as the file says. */
  readonly area: Area;
}

export interface ReadSheet {
  readonly sheet: Sheet;
  readonly formulas: readonly FormulaInFile[];
  /** Areas that a what-if table fills. */
  readonly dataTables: readonly Area[];
  /** Cells whose text is longer than Excel takes. */
  readonly longTexts: readonly { row: number; column: number }[];
  /** Cells of numbers that hold none; they are shown as #NUM!. */
  readonly noNumbers: readonly { row: number; column: number; text: string }[];
}

/** Rows and columns that are kept beyond those with contents, for the looks and widths that are ready there. */
const spareRows = 200;
const spareColumns = 26;

export function readSheet(xml: string, name: string, context: SheetContext): ReadSheet {
  const reader = new SheetReader(name, context);
  walk(xml, reader);
  return reader.finished();
}

interface OpenCell {
  readonly type: string;
  readonly style: number;
  readonly spilling: boolean;
  value?: string;
  inline?: string;
  formula?: string;
  formulaAttributes?: Attributes;
}

interface Shared {
  readonly text: string;
  readonly row: number;
  readonly column: number;
}

class SheetReader {
  private readonly sheet: Sheet;
  private readonly values: ValueContext;
  private readonly formulas: FormulaInFile[] = [];
  private readonly dataTables: Area[] = [];
  private readonly longTexts: { row: number; column: number }[] = [];
  private readonly noNumbers: { row: number; column: number; text: string }[] = [];
  private readonly shared = new Map<string, Shared>();
  /** Cells that share a formula which stands further on. */
  private readonly waiting: { row: number; column: number; cell: Cell; group: string }[] = [];
  private readonly typed = new Map<string, string>();
  private readonly columnRanges: { from: number; to: number; width?: number; hidden: boolean }[] = [];
  private readonly merged: Area[] = [];
  private readonly filter = new FilterReader("worksheet");
  private row = -1;
  private column = -1;
  private cell: OpenCell | undefined;
  private phonetic = 0;
  private views = 0;
  private bottom = -1;
  private right = -1;

  constructor(
    name: string,
    private readonly context: SheetContext,
  ) {
    this.sheet = { name, cells: [], columns: [], rows: [], merges: [], tables: [] };
    this.values = {
      from1904: context.from1904,
      styles: context.styles,
      text: (number) => context.strings[Number(number)] ?? this.lackText(),
      isNoNumber: (text) => this.noNumbers.push({ row: this.row, column: this.column, text }),
    };
  }

  open(name: string, attributes: Attributes, parent: string | undefined): void {
    this.filter.open(name, attributes, parent);
    switch (name) {
      case "row":
        if (parent === "sheetData") this.openRow(attributes);
        break;
      case "c":
        if (parent === "row") this.openCell(attributes);
        break;
      case "f":
        if (parent === "c" && this.cell) this.cell.formulaAttributes = attributes;
        break;
      case "is":
        if (this.cell) this.cell.inline = "";
        break;
      case "rPh":
        this.phonetic++;
        break;
      case "mergeCell":
        this.addMerge(attributes.ref);
        break;
      case "col":
        if (parent === "cols") this.addColumns(attributes);
        break;
      case "sheetFormatPr":
        if (Number(attributes.defaultColWidth) > 0) this.sheet.defaultWidth = Number(attributes.defaultColWidth);
        if (Number(attributes.defaultRowHeight) > 0 && isOn(attributes.customHeight)) this.sheet.defaultHeight = Number(attributes.defaultRowHeight);
        break;
      case "sheetView":
        if (++this.views === 1 && !isOn(attributes.showGridLines, true)) this.sheet.gridlines = false;
        break;
      case "pane":
        if (this.views === 1 && /^frozen/.test(attributes.state ?? "")) this.freeze(attributes);
        break;
    }
  }

  close(name: string, text: string, parent: string | undefined): void {
    const { cell } = this;
    this.filter.close(name);
    if (name === "rPh") this.phonetic--;
    if (!cell) return;
    if (name === "v" && parent === "c") cell.value = text;
    else if (name === "t" && cell.inline !== undefined && this.phonetic === 0) cell.inline += text;
    else if (name === "f" && parent === "c") cell.formula = text;
    else if (name === "c" && parent === "row") {
      this.closeCell(cell);
      this.cell = undefined;
    }
  }

  finished(): ReadSheet {
    for (const { row, column, cell, group } of this.waiting) {
      const shared = this.shared.get(group);
      if (!shared) continue;
      const text = filled(shared.text, row - shared.row, column - shared.column);
      this.setFormula(cell, row, column, text, "plain", { top: row, left: column, bottom: row, right: column });
    }
    this.clip();
    const filter = this.filter.finished();
    if (filter) this.sheet.filter = filter;
    const { sheet, formulas, dataTables, longTexts, noNumbers } = this;
    return { sheet, formulas, dataTables, longTexts, noNumbers };
  }

  private openRow({ r, ht, hidden }: Attributes): void {
    this.row = rowInFile(r, this.row, (what) => this.refuse(what));
    this.column = -1;
    const height = ht === undefined ? NaN : Number(ht);
    if (height >= 0 || isOn(hidden)) this.sheet.rows[this.row] = { ...(height >= 0 && { height }), ...(isOn(hidden) && { hidden: true }) };
  }

  private openCell({ r, t = "n", s = "0", cm }: Attributes): void {
    const place = placeInFile(r, { row: this.row, column: this.column }, (what) => this.refuse(what));
    this.column = place.column;
    this.row = place.row;
    this.cell = { type: t, style: Number(s), spilling: cm !== undefined && this.context.spilling.has(cm) };
  }

  private closeCell(open: OpenCell): void {
    const { row, column } = this;
    const cell: Cell = {};
    const value = valueInFile(open, this.values);
    if (value !== undefined) cell.value = value;
    if (open.formulaAttributes) this.addFormula(cell, open, open.formulaAttributes);
    const style = this.context.styles.of(open.style);
    if (style) cell.style = style;
    if (typeof value === "string" && value.length > longestText) this.longTexts.push({ row, column });
    this.context.count(1, typeof value === "string" ? value.length : 0);
    if (Object.keys(cell).length === 0) return;
    putCell(this.sheet, row, column, cell);
    if (cell.value !== undefined || cell.formula !== undefined) this.use(row, column);
  }

  private use(row: number, column: number): void {
    if (row > this.bottom) this.bottom = row;
    if (column > this.right) this.right = column;
  }

  private addFormula(cell: Cell, open: OpenCell, { t, si, ref }: Attributes): void {
    const { row, column } = this;
    const own: Area = { top: row, left: column, bottom: row, right: column };
    const text = (open.formula ?? "").replace(/^\s*=/, "");
    if (t === "dataTable") {
      this.dataTables.push((ref === undefined ? undefined : areaOf(ref)) ?? own);
    } else if (t === "shared" && si !== undefined) {
      if (text !== "") this.shared.set(si, { text, row, column });
      const shared = this.shared.get(si);
      const moved = shared && (text || filled(shared.text, row - shared.row, column - shared.column));
      if (moved !== undefined) this.setFormula(cell, row, column, moved, "plain", own);
      else this.waiting.push({ row, column, cell, group: si });
    } else if (text !== "") {
      const area = (t === "array" && ref !== undefined ? areaOf(ref) : undefined) ?? own;
      this.setFormula(cell, row, column, text, t !== "array" ? "plain" : open.spilling ? "spilling" : "fixed array", area);
    }
  }

  private setFormula(cell: Cell, row: number, column: number, text: string, kind: FormulaInFile["kind"], area: Area): void {
    if (text.length > longestFormula) {
      // Spelled as in the file a formula may be longer than as typed.
      if (text.replace(/_xl\w+\./g, "").length > longestFormula) {
        this.refuse(`the formula in ${address(row, column)} with ${inWords(text.length)} characters, and a formula has up to ${inWords(longestFormula)}`);
      }
    }
    let typed = this.typed.get(text);
    if (typed === undefined) {
      if (depthOf(text) > deepestFormula) this.refuse(`the formula in ${address(row, column)} with more than ${deepestFormula} levels of brackets`);
      typed = formulaFromFile(text, this.context.ours);
      this.typed.set(text, typed);
    }
    this.context.count(0, text.length);
    cell.formula = typed;
    this.formulas.push({ row, column, cell, text, kind, area });
  }

  private addMerge(ref: string | undefined): void {
    const area = ref === undefined ? undefined : areaOf(ref);
    if (area) this.merged.push(area);
  }

  private addColumns({ min, max, width, hidden }: Attributes): void {
    const [from, to] = [Number(min) - 1, Math.min(Number(max), mostColumns) - 1];
    if (!(from >= 0 && to >= from)) return;
    this.columnRanges.push({ from, to, ...(width !== undefined && Number(width) >= 0 && { width: Number(width) }), hidden: isOn(hidden) });
  }

  private freeze({ xSplit, ySplit }: Attributes): void {
    const within = (value: string | undefined, most: number) => Math.min(Math.max(0, Math.floor(Number(value ?? 0)) || 0), most - 1);
    const frozen = { rows: within(ySplit, mostRows), columns: within(xSplit, mostColumns) };
    if (frozen.rows > 0 || frozen.columns > 0) this.sheet.frozen = frozen;
  }

  /** Looks, widths and merges may reach over the whole sheet; here they end a little beyond the last cell with contents. */
  private clip(): void {
    const { sheet } = this;
    const lastRow = Math.min(mostRows, this.bottom + 1 + spareRows) - 1;
    const lastColumn = Math.min(mostColumns, this.right + 1 + spareColumns) - 1;
    if (sheet.cells.length > lastRow + 1) sheet.cells.length = lastRow + 1;
    sheet.cells.forEach((line) => {
      if (line && line.length > lastColumn + 1) line.length = lastColumn + 1;
    });
    for (const { from, to, width, hidden } of this.columnRanges) {
      for (let column = from; column <= Math.min(to, lastColumn); column++) {
        sheet.columns[column] = { ...(width !== undefined && { width }), ...(hidden && { hidden: true }) };
      }
    }
    if (sheet.rows.length > lastRow + 1) sheet.rows.length = lastRow + 1;
    for (const { top, left, bottom, right } of this.merged) {
      if (top > lastRow || left > lastColumn) continue;
      const area = { top, left, bottom: Math.min(bottom, lastRow), right: Math.min(right, lastColumn) };
      if (area.bottom > top || area.right > left) sheet.merges.push(area);
    }
  }

  private address(): string {
    return address(this.row, this.column);
  }

  /** Texts stand in a part of their own, by number; a copy would not hold it. */
  private lackText(): never {
    throw new FileProblem(`${this.context.fileName} is damaged: it lacks the text of the cell ${this.address()} of the sheet “${this.sheet.name}”. It was not opened.`);
  }

  private refuse(what: string): never {
    throw new FileProblem(`${this.context.fileName} goes beyond what Excel can hold: the sheet “${this.sheet.name}” has ${what}. It was not opened.`);
  }
}

function depthOf(formula: string): number {
  let depth = 0;
  let deepest = 0;
  let quoted = "";
  for (const character of formula) {
    if (quoted) quoted = character === quoted ? "" : quoted;
    else if (character === '"' || character === "'") quoted = character;
    else if (character === "(") deepest = Math.max(deepest, ++depth);
    else if (character === ")") depth--;
  }
  return deepest;
}
