/**
 * What the edits of a journal do to references: where cells go, what sheets are called, how a formula reads afterwards. Sheets go by the
 * name that they have in the opened file.
 */
import { joined, type Part } from "../sheet/formula-text";
import { areaOf, columnName, mostColumns, mostRows, referenceTo, sheetOfPrefix } from "../sheet/references";
import type { StructuralEdit } from "./journal";
import { deleted, inserted, moved, type LineMap } from "./line-map";
import { formulaParts, isOtherWorkbook, isSpan, sheetsPrefix } from "./formula-parts";
import { withHeadings } from "./structured-reference";
import type { Area } from "./workbook";

export type Axis = "row" | "column";

interface ShiftStep {
  readonly kind: "shift";
  readonly sheet: string;
  readonly axis: Axis;
  readonly map: LineMap;
  readonly reorders?: true;
}

interface RenameStep {
  readonly kind: "rename";
  readonly sheet: string;
  readonly to: string;
}

interface RemoveStep {
  readonly kind: "remove";
  readonly sheet: string;
}

/** Tables by their names in capitals. */
export type TableChanges = ReadonlyMap<string, TableChange>;

export interface TableChange {
  /** What the table is called now; undefined where it is gone. */
  readonly name: string | undefined;
  /** New headings by the old ones in lower case; undefined for a column that is gone. */
  readonly headings: ReadonlyMap<string, string | undefined>;
}

interface TablesStep {
  readonly kind: "tables";
  readonly tables: TableChanges;
}

type Step = ShiftStep | RenameStep | RemoveStep | TablesStep;

export class Relocation {
  private readonly steps: readonly Step[];
  private readonly formulas = new Map<string, string>();

  /** `tables` are renamed, and their headings, after all other edits. */
  constructor(edits: readonly StructuralEdit[], tables?: TableChanges) {
    this.steps = [...edits.flatMap((edit) => stepOf(edit) ?? []), ...(tables && tables.size > 0 ? [{ kind: "tables" as const, tables }] : [])];
  }

  get isNothing(): boolean {
    return this.steps.length === 0;
  }

  /** What a sheet of the opened file is called now; undefined where it is removed. */
  sheet(name: string): string | undefined {
    return this.trace(name);
  }

  /** Whether rows, or columns, of a sheet are not where they were. */
  shifts(sheet: string, axis?: Axis): boolean {
    let found = false;
    this.trace(sheet, (step) => {
      if (axis === undefined || step.axis === axis) found = true;
    });
    return found;
  }

  /** Whether some of them stand in another order. */
  reorders(sheet: string): boolean {
    let found = false;
    this.trace(sheet, ({ reorders }) => {
      if (reorders) found = true;
    });
    return found;
  }

  line(sheet: string, axis: Axis, index: number): number | undefined {
    let line: number | undefined = index;
    this.trace(sheet, (step) => {
      if (line !== undefined && step.axis === axis) line = step.map.line(line);
    });
    return line;
  }

  /** The line, or where it is gone the one that follows it now. */
  nearestLine(sheet: string, axis: Axis, index: number): number {
    for (let near = index; near < index + 10_000; near++) {
      const line = this.line(sheet, axis, near);
      if (line !== undefined) return line;
    }
    return index;
  }

  area(sheet: string, area: Area): Area | undefined {
    let result: Area | undefined = area;
    this.trace(sheet, (step) => {
      if (result) result = shiftedArea(result, step);
    });
    return result;
  }

  /** A reference to a cell or area of a sheet; undefined where nothing is left of it. What is no reference stays as it is. */
  reference(sheet: string, text: string): string | undefined {
    const area = areaOf(text);
    if (!area) return text;
    const to = this.area(sheet, area);
    if (!to) return undefined;
    if (to.top === area.top && to.left === area.left && to.bottom === area.bottom && to.right === area.right) return text;
    return respelled(text, to);
  }

  /** References with spaces between them. */
  references(sheet: string, text: string): string | undefined {
    const left = text.trim().split(/\s+/).flatMap((reference) => this.reference(sheet, reference) ?? []);
    return left.length > 0 ? left.join(" ") : undefined;
  }

  /** A formula that stands on a sheet. */
  formula(text: string, sheet: string): string {
    if (this.isNothing || text === "") return text;
    const key = `${sheet}|${text}`;
    let result = this.formulas.get(key);
    if (result === undefined) {
      result = this.relocated(text, sheet);
      this.formulas.set(key, result);
    }
    return result;
  }

  private relocated(text: string, sheet: string): string {
    let parts: readonly Part[] = formulaParts(text);
    let own = sheet;
    let changed = false;
    for (const step of this.steps) {
      const next = changedParts(parts, own, step);
      if (next) {
        parts = next;
        changed = true;
      }
      if (step.kind === "rename" && same(own, step.sheet)) own = step.to;
    }
    return changed ? joined(parts) : text;
  }

  private trace(sheet: string, shift?: (step: ShiftStep) => void): string | undefined {
    let name: string | undefined = sheet;
    for (const step of this.steps) {
      if (name === undefined) break;
      if (step.kind === "tables" || !same(step.sheet, name)) continue;
      if (step.kind === "rename") name = step.to;
      else if (step.kind === "remove") name = undefined;
      else shift?.(step);
    }
    return name;
  }
}

function changedParts(parts: readonly Part[], own: string, step: Step): readonly Part[] | undefined {
  switch (step.kind) {
    case "shift":
      return shiftedParts(parts, own, step);
    case "rename":
      return renamedParts(parts, step);
    case "remove":
      return withoutSheet(parts, step);
    case "tables":
      return withTablesChanged(parts, step.tables);
  }
}

function same(a: string, b: string): boolean {
  return a.toLowerCase() === b.toLowerCase();
}

function stepOf(edit: StructuralEdit): Step | undefined {
  const { kind, sheet } = edit;
  switch (kind) {
    case "insert rows":
      return { kind: "shift", sheet, axis: "row", map: inserted(edit.at, edit.count, mostRows) };
    case "insert columns":
      return { kind: "shift", sheet, axis: "column", map: inserted(edit.at, edit.count, mostColumns) };
    case "delete rows":
      return { kind: "shift", sheet, axis: "row", map: deleted(edit.at, edit.count, mostRows) };
    case "delete columns":
      return { kind: "shift", sheet, axis: "column", map: deleted(edit.at, edit.count, mostColumns) };
    case "move rows":
      return { kind: "shift", sheet, axis: "row", map: moved(edit.at, edit.count, edit.before), reorders: true };
    case "move columns":
      return { kind: "shift", sheet, axis: "column", map: moved(edit.at, edit.count, edit.before), reorders: true };
    case "rename sheet":
      return { kind: "rename", sheet, to: edit.to };
    case "remove sheet":
      return { kind: "remove", sheet };
    case "add sheet":
      return undefined;
  }
}

function shiftedArea({ top, left, bottom, right }: Area, { axis, map }: ShiftStep): Area | undefined {
  const span = axis === "row" ? map.span(top, bottom) : map.span(left, right);
  if (!span) return undefined;
  return axis === "row" ? { top: span[0], bottom: span[1], left, right } : { top, bottom, left: span[0], right: span[1] };
}

/** The reference with other numbers, and its $ and form, such as A:C, kept. */
function respelled(text: string, { top, left, bottom, right }: Area): string {
  const [from, to] = text.split(":");
  const piece = (spelled: string, row: number, column: number) => {
    const [, columnLock = "", letters = "", rowLock = "", digits = ""] = /^(\$?)([A-Za-z]*)(\$?)(\d*)$/.exec(spelled)!;
    // In a row alone the first $ is the row's.
    return letters === "" ? `${columnLock}${row + 1}` : `${columnLock}${columnName(column) ?? ""}${rowLock}${digits === "" ? "" : row + 1}`;
  };
  if (to === undefined) return top === bottom && left === right ? piece(from!, top, left) : referenceTo({ top, left, bottom, right });
  return `${piece(from!, top, left)}:${piece(to, bottom, right)}`;
}

function shiftedParts(parts: readonly Part[], own: string, step: ShiftStep): Part[] | undefined {
  const result: Part[] = [];
  let changed = false;
  for (let index = 0; index < parts.length; index++) {
    const part = parts[index]!;
    if (part.kind !== "reference") {
      result.push(part);
      continue;
    }
    const second = parts[index + 1]?.text === ":" && parts[index + 2]?.kind === "reference" ? parts[index + 2] : undefined;
    const text = second ? `${part.text}:${second.text}` : part.text;
    if (second) index += 2;
    const sheet = sheetBefore(parts, second ? index - 2 : index, own);
    const to = sheet !== undefined && same(sheet, step.sheet) ? shiftedReference(text, step) : text;
    if (to !== text) changed = true;
    result.push({ kind: "reference", text: to });
  }
  // Read anew where something changed, so that two cells joined by ":" are two parts again.
  return changed ? formulaParts(joined(result)) : undefined;
}

/** The sheet that a reference lies on; undefined where that is in another workbook or on several sheets. */
function sheetBefore(parts: readonly Part[], index: number, own: string): string | undefined {
  const before = parts[index - 1];
  if (before?.kind !== "sheet") return own;
  return isOtherWorkbook(before.text) || isSpan(before.text) ? undefined : sheetOfPrefix(before.text);
}

function shiftedReference(text: string, step: ShiftStep): string {
  const [from = ""] = text.split(":");
  const area = areaOf(text);
  if (!area) return text;
  // Whole columns know nothing of rows, and whole rows nothing of columns.
  const hasRows = /\d/.test(from);
  const hasColumns = /[A-Za-z]/.test(from);
  if ((step.axis === "row" && !hasRows) || (step.axis === "column" && !hasColumns)) return text;
  const shifted = shiftedArea(area, step);
  if (!shifted) return "#REF!";
  return respelled(text, shifted);
}

function renamedParts(parts: readonly Part[], { sheet, to }: RenameStep): Part[] | undefined {
  let changed = false;
  const result = parts.map((part): Part => {
    if (part.kind !== "sheet" || isOtherWorkbook(part.text)) return part;
    const names = sheetOfPrefix(part.text).split(":");
    if (!names.some((name) => same(name, sheet))) return part;
    changed = true;
    return { kind: "sheet", text: sheetsPrefix(names.map((name) => (same(name, sheet) ? to : name))) };
  });
  return changed ? result : undefined;
}

/** What lay on a sheet that is removed is lost. Several sheets of which one end is removed stay as they are. */
function withoutSheet(parts: readonly Part[], { sheet }: RemoveStep): Part[] | undefined {
  let changed = false;
  const result: Part[] = [];
  for (let index = 0; index < parts.length; index++) {
    const part = parts[index]!;
    if (part.kind !== "sheet" || isOtherWorkbook(part.text) || !same(sheetOfPrefix(part.text), sheet)) {
      result.push(part);
      continue;
    }
    changed = true;
    result.push({ kind: "other", text: "#REF!" });
    index++;
    if (parts[index + 1]?.text === ":" && parts[index + 2]?.kind === "reference") index += 2;
  }
  return changed ? result : undefined;
}

function withTablesChanged(parts: readonly Part[], tables: TableChanges): Part[] | undefined {
  let changed = false;
  const result: Part[] = [];
  for (const [index, part] of parts.entries()) {
    const table = part.kind === "name" ? tables.get(part.text.toUpperCase()) : undefined;
    const columns = part.kind === "structured" && parts[index - 1]?.kind === "name" ? tables.get(parts[index - 1]!.text.toUpperCase()) : undefined;
    if (table && table.name?.toUpperCase() !== part.text.toUpperCase()) {
      changed = true;
      result.push(table.name === undefined ? { kind: "other", text: "#REF!" } : { kind: "name", text: table.name });
    } else if (columns && columns.name === undefined) {
      continue;
    } else if (columns) {
      const text = withHeadings(part.text, columns.headings);
      if (text !== part.text) changed = true;
      // What is gone takes the name of the table with it.
      if (text === undefined) result.splice(-1, 1, { kind: "other", text: "#REF!" });
      else result.push({ kind: "structured", text });
    } else result.push(part);
  }
  return changed ? result : undefined;
}
