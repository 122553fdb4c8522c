/** Puts a sheet description together, with units, formats and limits taken from the table of quantities. */
import { spelled } from "../sheet/spelling";
import { isNumber, labelOf, quantity, type NumberQuantity, type QuantityName } from "../../shared/quantities";
import { fromCanonical, type MeasureName } from "../../shared/units";
import { absolute, address, columnName, moved, placeOf, referenceTo, tableColumn } from "../sheet/references";
import { chosenUnit, measureLabels, showsItself, type UnitChoice } from "../sheet/unit-choice";
import { lackingFunction, swallowsErrors } from "./lacking-functions";
import type { Figures } from "./ready-sheet";
import type { Allowed, CellRole, DescribedCell, DescribedChart, DescribedColumn, DescribedSpill, DescribedTable, SheetDescription } from "./sheet-description";

/** Where cells out of sight begin, counted from 0: beside the first row of a table. */
const firstWorkingRow = 7;

/** A column of a table: what its numbers are, or "text" for anything that may be typed. */
export type ColumnKind = QuantityName | "text";

export interface ColumnOptions {
  readonly choices?: readonly string[];
  readonly format?: string;
  /** Cells as they come, such as a pasted log: no limits. */
  readonly unchecked?: true;
  /** Fills the column until something else is typed over it, as it reads in the first row. */
  readonly formula?: string;
  /** What stands there at first, where the figures say nothing else. */
  readonly values?: readonly number[];
  /** What the number is called where a wrong one is refused, if not by the name of its quantity. */
  readonly label?: string;
}

export class SheetBuilder {
  private readonly cells: Record<string, DescribedCell> = {};
  private readonly tables: DescribedTable[] = [];
  private readonly spills: Record<string, DescribedSpill> = {};
  private readonly charts: DescribedChart[] = [];
  private readonly merged: string[] = [];

  private widths: readonly number[] = [];
  private workingCells = 0;
  private workingColumns = 0;

  constructor(
    readonly units: UnitChoice,
    private readonly id: string,
    private readonly copy: number,
    private readonly figures: Figures,
  ) {}

  /** What the names of this sheet's tables and cells begin with; it also names its first table. */
  get prefix(): string {
    return this.prefixOf(this.id);
  }

  /** What the names of a sheet begin with that was started along with this one. */
  prefixOf(id: string): string {
    return this.copy === 1 ? id : `${id}${this.copy}`;
  }

  /** A named cell of this sheet. */
  named(name: string): string {
    return `${this.prefix}_${name}`;
  }

  /** The cell of a column of a table of this sheet in the formula's own row. */
  ownCell(heading: string, suffix = ""): string {
    return `${this.prefix}${suffix}[[#This Row],[${heading}]]`;
  }

  /** A column of a table of this sheet. */
  column(heading: string, suffix = ""): string {
    return tableColumn(`${this.prefix}${suffix}`, heading);
  }

  /** Widths of the columns that a person sees, in characters. What charts and other cells need lies beyond, out of sight. */
  columns(widths: readonly number[]): void {
    this.widths = widths;
  }

  /** Answers the decision of the sheet in the rows under its title: what to do, how sure that is, what comes next. */
  decision(last: string, ...formulas: readonly string[]): void {
    formulas.forEach((formula, index) => this.across(`A${2 + index}`, last, index === 0 ? "decision" : "reason", formula));
  }

  /** A sentence that may run on to the last column; with a name, other sheets can say it too. */
  across(at: string, last: string, role: CellRole, formula: string, name?: string): void {
    this.cell(at, { role, formula, ...(name !== undefined && { name: this.named(name) }) });
    this.merged.push(`${at}:${last}${at.replace(/^[A-Z]+/, "")}`);
  }

  /** A formula that other cells need, out of sight, under its name. Answers its address. */
  working(name: string, formula: string, format?: string): string {
    const row = firstWorkingRow + this.workingCells++;
    this.put(address(row, this.widths.length), "working", name);
    const at = address(row, this.widths.length + 1);
    this.cell(at, { role: "working", formula, ...(format && { format }) });
    return absolute(at);
  }

  /** A formula that fills columns that only charts and other cells need, out of sight, under these headings. Answers the columns. */
  workingColumn(headings: readonly string[], formula: string, rows: number, formats: readonly (string | undefined)[] = headings.map(noFormat)): string[] {
    const left = this.widths.length + 2 + this.workingColumns;
    this.workingColumns += headings.length;
    headings.forEach((heading, index) => {
      const at = address(firstWorkingRow - 1, left + index);
      this.cell(at, heading.startsWith("=") ? { role: "working", formula: heading.slice(1) } : { role: "working", value: heading });
    });
    this.spills[address(firstWorkingRow, left)] = { role: "working", formula, rows, formats };
    const [top, bottom] = [firstWorkingRow, firstWorkingRow + rows - 1];
    return headings.map((_, index) => absolute(referenceTo({ top, bottom, left: left + index, right: left + index })));
  }

  /** The number format of a measure in this workbook. */
  format(measure: MeasureName): string {
    return chosenUnit(this.units, measure).format;
  }

  cell(at: string, cell: DescribedCell): void {
    if (this.cells[at]) throw new Error(`Two things are to stand in ${at} of ${this.prefix}.`);
    this.cells[at] = cell;
  }

  put(at: string, role: CellRole, value: string): void {
    this.cell(at, { role, value });
  }

  /** Lines of words that belong together, one a row, broken where the block is as wide as `characters`. */
  lines(at: string, role: CellRole, characters: number, texts: readonly string[]): void {
    texts.flatMap((text) => broken(text, characters)).forEach((line, index) => this.put(moved(at, index, 0), role, line));
  }

  /** The same with one decimal more, for small amounts. */
  finerFormat(measure: MeasureName): string {
    return this.format(measure).replace(/(\.0+)/, "$10");
  }

  /** A number of this measure in a sentence, with its unit. FIXED, not TEXT: the codes of TEXT differ from one language of the host to another. */
  said(cell: string, measure: MeasureName): string {
    const unit = chosenUnit(this.units, measure);
    const spoken = unit.saidIn ?? unit;
    const value = spoken.size === unit.size ? cell : `${unit.size / spoken.size}*${cell}`;
    const digits = /\.(0+)/.exec(spoken.format)?.[1]!.length ?? 0;
    return `FIXED(${value},${digits},TRUE)&" ${spoken.symbol}"`;
  }

  /** An amount that a formula compares with, in the workbook's unit. */
  amount(value: number, measure: MeasureName): string {
    return String(this.inUnits(value, measure));
  }

  /** Texts side by side from a cell on; an empty one leaves its cell alone, except that a row of headings has no gaps. */
  row(at: string, role: CellRole, texts: readonly string[]): void {
    texts.forEach((text, index) => {
      if (text !== "") this.put(moved(at, 0, index), role, text);
      else if (role === "heading" || role === "text heading") this.cell(moved(at, 0, index), { role });
    });
  }

  /** The units of a row of numbers, each a measure of the workbook or words as they are. */
  unitRow(at: string, units: readonly (MeasureName | { readonly words: string } | undefined)[]): void {
    units.forEach((unit, index) => {
      if (unit) this.unit(moved(at, 0, index), unit);
    });
  }

  /** The unit beside or above numbers. A measure's follows the workbook by itself, so that it is never wrong. */
  unit(at: string, unit: MeasureName | { readonly words: string }): void {
    if (typeof unit === "object") this.put(at, "unit", unit.words);
    else this.cell(at, { role: "unit", formula: unitFormula(unit) });
  }

  /** A cell for a number, with its unit in the cell to its right where `unitBeside` is not false. The value is in canonical units. */
  input(at: string, name: string, kind: QuantityName, value: number | undefined, options: ColumnOptions & { readonly unitBeside?: false } = {}): void {
    const record = quantity(kind);
    if (!isNumber(record)) throw new Error(`${kind} is not a number.`);
    const typed = this.figures.cells?.[name] ?? value;
    this.cell(at, {
      role: "input",
      name: `${this.prefix}_${name}`,
      ...(typed !== undefined && { value: typeof typed === "number" ? this.inUnits(typed, record.measure) : typed }),
      ...this.numberLook(kind, record, options),
    });
    if (options.unitBeside === false) return;
    if (record.measure) this.unit(moved(at, 0, 1), record.measure);
    else if (record.unit) this.unit(moved(at, 0, 1), { words: record.unit });
  }

  /** A cell for a give-or-take, in canonical units: of a difference no zero point is taken off. */
  difference(at: string, name: string, measure: MeasureName, value: number): void {
    const typed = this.figures.cells?.[name] ?? value;
    const { size } = chosenUnit(this.units, measure);
    this.cell(at, {
      role: "input",
      name: `${this.prefix}_${name}`,
      value: typeof typed === "number" && size !== 1 ? Number((typed / size).toPrecision(4)) : typed,
      format: this.format(measure),
      measure,
      difference: true,
      allowed: { least: 0, words: "A give-or-take is a number, 0 or more." },
    });
  }

  /** A cell for a text, or for one of a list; for a long text it reaches to the last column. */
  textInput(at: string, name: string, value = "", choices?: readonly string[], last?: string): void {
    const typed = this.figures.cells?.[name] ?? value;
    if (last !== undefined) this.merged.push(`${at}:${last}${at.replace(/^[A-Z]+/, "")}`);
    this.cell(at, {
      role: "input",
      name: `${this.prefix}_${name}`,
      ...(typed !== "" && { value: typed }),
      ...(choices && { allowed: listOf(choices) }),
    });
  }

  result(at: string, formula: string, format?: string): void {
    this.cell(at, { role: "result", formula, ...(format && { format }) });
  }

  /** A sentence that a formula puts together. */
  sentence(at: string, role: "verdict" | "note", formula: string): void {
    this.cell(at, { role, formula });
  }

  spill(at: string, formula: string, rows: number, formats: readonly (string | undefined)[], headings = false): void {
    this.spills[at] = { role: "result", formula, rows, formats, ...(headings && { headings: true }) };
  }

  /** Words, a row for each shot, on what looks wrong. */
  findings(at: string, formula: string, rows: number): void {
    this.spills[at] = { role: "finding", formula, rows, formats: [undefined] };
  }

  /** A table for typing into. Its name is the prefix with `suffix`. */
  table(suffix: string, at: string, rows: number, columns: readonly (readonly [heading: string, kind: ColumnKind, options?: ColumnOptions])[]): void {
    const name = `${this.prefix}${suffix}`;
    const figures = this.figures.columns?.[suffix];
    const longest = Math.max(rows, ...Object.values(figures ?? {}).map((values) => values.length));
    this.tables.push({
      name,
      at,
      rows: longest,
      columns: columns.map(([heading, kind, options = {}]): DescribedColumn => {
        const record = kind === "text" ? undefined : quantity(kind);
        const number = record && isNumber(record) ? record : undefined;
        const values = (figures?.[heading] ?? options.values)?.map((value) => (typeof value === "number" && number ? this.inUnits(value, number.measure) : value));
        const look = number && kind !== "text" ? this.numberLook(kind, number, options) : options.choices ? { allowed: listOf(options.choices) } : {};
        const isTyped = values !== undefined || options.formula === undefined;
        const typed = isTyped ? { role: "input" as const, ...(values && { values }) } : { role: "result" as const, formula: options.formula };
        const isWords = record === undefined || ("names" in record && record.names === true);
        return { heading, ...typed, ...(isWords && { words: true as const }), ...look };
      }),
    });
  }

  /** How many rows beside a table get the look of results: more than it has, because it will grow. */
  get besideRows(): number {
    return Math.max(500, ...this.tables.map(({ rows }) => rows));
  }

  /** A chart refers to its own sheet, where no formula is filled anywhere: references may be absolute or not. */
  chart({ xTitle, yTitle, series, ...chart }: DescribedChart): void {
    const plain = (reference: string) => reference.replaceAll("$", "");
    this.charts.push({ ...chart, xTitle: plain(xTitle), yTitle: plain(yTitle), series: series.map((one) => ({ ...one, x: plain(one.x), y: plain(one.y) })) });
  }

  described(about: Pick<SheetDescription, "name" | "purpose" | "frozenRows" | "print">): SheetDescription {
    // The name by which the sheet is recognised as this ready sheet, whatever it is later called.
    this.cells.A1 = { ...this.cells.A1!, name: `${this.prefix}_sheet` };
    this.guard();
    const seen = this.widths.length;
    const used = seen + 2 + this.workingColumns;
    const hidden = this.workingCells + this.workingColumns > 0 ? { hidden: `${columnName(seen)}:${columnName(used - 1)}` } : {};
    return { widths: this.widths, ...about, ...hidden, cells: this.cells, tables: this.tables, spills: this.spills, charts: this.charts, merged: this.merged };
  }

  /**
   * A program that lacks a function gives #NAME?, which IFERROR takes for "nothing found". So a cell beside the title says which one is lacking,
   * a verdict gives way to it, and what would swallow an error stays blank.
   */
  private guard(): void {
    const { widths } = this;
    if (widths.length === 0) throw new Error(`${this.prefix} says no widths of its columns.`);
    const at = address(0, widths.length);
    const lacks = absolute(at);
    const formulas = [...Object.values(this.cells), ...Object.values(this.spills)].flatMap(({ formula }) => formula ?? []);
    this.cell(at, { role: "working", formula: lackingFunction(formulas) });
    let isFirst = true;
    for (const place of Object.keys(this.cells).sort(byRow)) {
      const { role, formula } = this.cells[place]!;
      if (formula === undefined || place === at) continue;
      const isVerdict = role === "decision" || role === "verdict" || role === "reason";
      if (!isVerdict && !swallowsErrors(formula)) continue;
      const instead = isVerdict && isFirst ? lacks : '""';
      if (isVerdict) isFirst = false;
      this.cells[place] = { ...this.cells[place]!, formula: `IF(${lacks}="",${formula},${instead})` };
    }
    for (const [place, spill] of Object.entries(this.spills)) {
      if (swallowsErrors(spill.formula)) this.spills[place] = { ...spill, formula: `IF(${lacks}="",${spill.formula},"")` };
    }
  }

  private numberLook(kind: QuantityName, record: NumberQuantity, { format, unchecked, label = labelOf(kind) }: ColumnOptions): Pick<DescribedCell, "format" | "measure" | "unit" | "allowed"> {
    // Pasted cells show what they hold, to the last digit.
    const look = unchecked ? undefined : (format ?? (record.measure ? this.format(record.measure) : undefined));
    return {
      ...(look && { format: look }),
      ...(record.measure ? { measure: record.measure } : record.unit !== undefined && { unit: record.unit }),
      ...(!unchecked && { allowed: this.limitsOf(label, record) }),
    };
  }

  private limitsOf(label: string, record: NumberQuantity): Allowed {
    const unit = record.measure ? chosenUnit(this.units, record.measure) : undefined;
    const inUnit = (value: number) => (unit ? Number(fromCanonical(value, unit).toPrecision(6)) : value);
    const low = record.least ?? record.above;
    const symbol = unit && (showsItself(unit) || record.measure === "percent") ? "" : (unit?.symbol ?? record.unit ?? "");
    const from = low === undefined ? "" : `${record.above === undefined ? "at least" : "above"} ${inUnit(low)}`;
    const to = record.most === undefined ? "" : `at most ${inUnit(record.most)}`;
    const bounds = [from, to].filter((part) => part !== "").join(" and ");
    const words = `${label} is a ${record.whole ? "whole " : ""}number${bounds === "" ? "" : `, ${bounds}`}${symbol === "" ? "" : ` ${symbol}`}.`;
    return {
      ...(low !== undefined && { least: inUnit(low) }),
      ...(record.most !== undefined && { most: inUnit(record.most) }),
      ...(record.whole && { whole: true as const }),
      words,
    };
  }

  /** A canonical number in the workbook's unit, without the digits that only the conversion makes. */
  private inUnits(value: number, measure: MeasureName | undefined): number {
    if (!measure) return value;
    const unit = chosenUnit(this.units, measure);
    return unit.size === 1 && !unit.zero ? value : Number(fromCanonical(value, unit).toPrecision(8));
  }
}

/** A formula that gives what stands beside a number: the symbol of the workbook's unit, or how it is typed. */
export function unitFormula(measure: MeasureName): string {
  return `VLOOKUP("${measureLabels[measure]}",${spelled("UNITS")}(),3,FALSE)`;
}

/** The text in lines of so many characters at most, but for words that are longer. */
export function broken(text: string, characters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= characters) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function byRow(one: string, other: string): number {
  const [a, b] = [placeOf(one)!, placeOf(other)!];
  return a.row - b.row || a.column - b.column;
}

function noFormat(): undefined {
  return undefined;
}

function listOf(choices: readonly string[]): Allowed {
  return { choices, words: `One of: ${choices.join(", ")}.` };
}
