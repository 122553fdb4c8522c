/** What differs between two states of a workbook, cell by cell and place by place. */
import { partsOf } from "../sheet/formula-text";
import { referenceTo } from "../sheet/references";
import { countsDays } from "./date-format";
import { simplestSpelling } from "./structured-reference";
import { cellsOf, isErrorValue, type Area, type Cell, type CellStyle, type CellValue, type Filter, type Sheet } from "./workbook";

/** What is to be written into a cell of the file. */
export interface CellChange {
  readonly row: number;
  readonly column: number;
  readonly now: Cell;
  /** "formula": formula, value and what it fills. "value": a typed value, or none. "result": only what the formula that stands there gives. */
  readonly content?: "formula" | "value" | "result";
  /** The look that it had, where it is another now. */
  readonly styleBefore?: CellStyle | "none";
}

export interface LineChange {
  readonly size?: number;
  readonly hidden: boolean;
}

export interface SheetChanges {
  readonly cells: CellChange[];
  readonly rows: Map<number, LineChange>;
  readonly columns: Map<number, LineChange>;
  readonly merged: Area[];
  readonly unmerged: Area[];
  /** The filter is another now. */
  readonly filter: boolean;
  /** The state of panes or lines, where it is another now. */
  readonly view: boolean;
}

/** `before` as it would stand where `now` stands; formulas of it with and without changed headings of tables. */
export function compareSheets(before: Sheet, now: Sheet, isSameFormula: (before: string, now: Cell) => boolean, from1904: boolean): SheetChanges {
  const cells: CellChange[] = [];
  const visit = (row: number, column: number, was: Cell, is: Cell) => {
    const content = contentChange(was, is, isSameFormula) ?? (from1904 && typeof is.value === "number" && isDate(was) !== isDate(is) ? "value" : undefined);
    const styleBefore = sameStyle(was.style, is.style) ? undefined : (was.style ?? "none");
    if (content || styleBefore) cells.push({ row, column, now: is, ...(content && { content }), ...(styleBefore && { styleBefore }) });
  };
  for (const { row, column, cell } of cellsOf(now)) visit(row, column, before.cells[row]?.[column] ?? {}, cell);
  for (const { row, column, cell } of cellsOf(before)) if (!now.cells[row]?.[column]) visit(row, column, cell, {});
  return {
    cells,
    rows: lineChanges(before.rows, now.rows, "height"),
    columns: lineChanges(before.columns, now.columns, "width"),
    merged: missing(now.merges, before.merges),
    unmerged: missing(before.merges, now.merges),
    filter: !sameFilter(before.filter, now.filter),
    view: !sameFrozen(before, now) || (before.gridlines === false) !== (now.gridlines === false),
  };
}

function isDate({ style }: Cell): boolean {
  return style?.format !== undefined && countsDays(style.format);
}

function contentChange(was: Cell, is: Cell, isSameFormula: (before: string, now: Cell) => boolean): CellChange["content"] {
  if (is.formula === undefined) {
    if (was.formula !== undefined) return "value";
    // What was a result and is typed now has to be written though it reads the same.
    if (was.spilled !== is.spilled && is.value !== undefined) return is.spilled ? "result" : "value";
    return sameValue(was.value, is.value) ? undefined : is.spilled ? "result" : "value";
  }
  if (was.formula === undefined || !isSameFormula(was.formula, is)) return "formula";
  return sameValue(was.value, is.value) && sameSpill(was, is) ? undefined : "result";
}

export function sameValue(a: CellValue | undefined, b: CellValue | undefined): boolean {
  if (isErrorValue(a) || isErrorValue(b)) return isErrorValue(a) && isErrorValue(b) && a.error === b.error;
  return (a ?? "") === (b ?? "");
}

function sameSpill({ spill: a }: Cell, { spill: b }: Cell): boolean {
  return (a?.rows ?? 1) === (b?.rows ?? 1) && (a?.columns ?? 1) === (b?.columns ?? 1);
}

export function sameStyle(a: CellStyle | undefined, b: CellStyle | undefined): boolean {
  if (a === b) return true;
  const { borders: aBorders, ...aRest } = a ?? {};
  const { borders: bBorders, ...bRest } = b ?? {};
  return sameFields(aRest, bRest) && (["top", "right", "bottom", "left"] as const).every((side) => sameFields(aBorders?.[side] ?? {}, bBorders?.[side] ?? {}));
}

function sameFields(a: object, b: object): boolean {
  const [from, to] = [a as Record<string, unknown>, b as Record<string, unknown>];
  return [...new Set([...Object.keys(from), ...Object.keys(to)])].every((key) => from[key] === to[key]);
}

type Lines = readonly ({ width?: number; height?: number; hidden?: boolean } | undefined)[];

/** Widths or heights that differ, by the number of the column or row. */
export function lineChanges(before: Lines, now: Lines, size: "width" | "height"): Map<number, LineChange> {
  const changes = new Map<number, LineChange>();
  const visit = (index: number) => {
    const [was, is] = [before[index], now[index]];
    if (was?.[size] === is?.[size] && (was?.hidden ?? false) === (is?.hidden ?? false)) return;
    changes.set(index, { ...(is?.[size] !== undefined && { size: is[size] }), hidden: is?.hidden ?? false });
  };
  // Lists with gaps: only what is there.
  now.forEach((_, index) => visit(index));
  before.forEach((_, index) => visit(index));
  return changes;
}

function missing(areas: readonly Area[], from: readonly Area[]): Area[] {
  const key = ({ top, left, bottom, right }: Area) => `${top},${left},${bottom},${right}`;
  const known = new Set(from.map(key));
  return areas.filter((area) => !known.has(key(area)));
}

function sameFilter(a: Filter | undefined, b: Filter | undefined): boolean {
  const key = (filter: Filter | undefined) =>
    filter && [referenceTo(filter.area), filter.columns.map(({ column, values, blanks, conditions, all }) => [column, values, blanks, conditions, all])];
  return JSON.stringify(key(a)) === JSON.stringify(key(b));
}

function sameFrozen({ frozen: a }: Sheet, { frozen: b }: Sheet): boolean {
  return (a?.rows ?? 0) === (b?.rows ?? 0) && (a?.columns ?? 0) === (b?.columns ?? 0);
}

/** One spelling for formulas that mean the same, for comparing only. */
export function normalised(formula: string): string {
  return partsOf(formula)
    .map(({ kind, text }) => {
      if (kind === "text") return text;
      if (kind === "structured") return simplestSpelling(text).toUpperCase();
      if (kind === "sheet" && text.startsWith("'") && /^'[\p{L}_][\p{L}\p{N}_.]*'!$/u.test(text)) return `${text.slice(1, -2)}!`.toUpperCase();
      return text.toUpperCase().replace(/\s+/g, "");
    })
    .join("");
}
