/** Arguments that are read whole: lists of one length, lists of their own, blocks and records. */
import { Problem } from "../../shared/problem";
import { isNumber, labelOf, quantity, type QuantityName } from "../../shared/quantities";
import { toCanonical } from "../../shared/units";
import { argumentName, words } from "../../shared/words";
import type { Cells, WholeArgument } from "./arguments";
import { isForeignError, type ForeignError } from "./cell-error";
import { blankInWords, isBlank, readerOf } from "./read-cell";
import { counted, place, sizeOf, type Size } from "./size";
import { chosenUnit, type UnitChoice } from "./unit-choice";

type Value = number | string | boolean | undefined;

export interface WholeValues {
  /** By the names of the arguments, as the formula takes them. */
  readonly values: Readonly<Record<string, unknown>>;
  /** Errors of other cells, by the row of the result that they spoil. */
  readonly spoiled: ReadonlyMap<number, ForeignError>;
}

/** Arguments by their names, read for the formula. */
export function readWhole(given: Readonly<Record<string, WholeArgument>>, choice: UnitChoice): WholeValues {
  const spoiled = new Map<number, ForeignError>();
  const values: Record<string, unknown> = {};
  const entries = Object.entries(given);
  const ofKind = (...kinds: WholeArgument["kind"][]): [string, WholeArgument][] => entries.filter(([, { kind }]) => kinds.includes(kind));
  const listOf = (name: string, { cells, quantity: named }: WholeArgument): Value[] => readList(name, cells, named ?? (name as QuantityName), choice);

  Object.assign(values, readAligned(ofKind("list", "gaps", "optional list", "columns", "gap columns"), choice));
  for (const [name, it] of ofKind("own list")) values[name] = ownList(name, it, choice);
  for (const [name, it] of ofKind("own gaps")) values[name] = listOf(name, it).filter((value) => value !== undefined);
  const ownPlaces = ofKind("own in order", "optional own in order").filter(([, { kind, cells }]) => kind === "own in order" || cells);
  for (const [name, it] of ownPlaces) values[name] = listOf(name, it).map((value) => value ?? null);
  for (const [name, it] of ofKind("block")) values[name] = readBlock(name, it.cells, listOf(name, it), it.quantity ?? (name as QuantityName));
  for (const [name, it] of ofKind("records")) values[name] = readRecords(name, it, choice);
  const keepPlaces = ofKind("in order", "optional in order", "as typed").filter(([, { kind, cells }]) => kind !== "optional in order" || cells);
  for (const [name, it] of keepPlaces) {
    values[name] = it.kind === "as typed" ? typedCells(name, it.cells, choice, spoiled) : listOf(name, it).map((value) => value ?? null);
  }
  const lengths = keepPlaces.map(([name]) => [name, (values[name] as unknown[]).length, "cell"] as const);
  const columnRows = ofKind("columns in order").map(([name, it]) => {
    const cells = listOf(name, it).map((value) => value ?? null);
    const width = cells.length === lengths[0]?.[1] ? 1 : sizeOf(it.cells!).columns;
    values[name] = Array.from({ length: width }, (_, column) => cells.filter((__, place) => place % width === column));
    return [name, cells.length / width, "row"] as const;
  });
  requireEqualLengths([...lengths, ...columnRows]);
  return { values, spoiled };
}

/** A list whose blanks may stay; a cell that cannot be read stops the whole list, saying where. */
function readList(argument: string, cells: Cells, standsFor: QuantityName, choice: UnitChoice): Value[] {
  const name = argumentName(argument);
  if (!cells) throw new Problem("bad input", `${name} is missing: give a range.`);
  const reader = readerOf(argument, standsFor, choice);
  return inOneList(cells).map((cell, index) => {
    const reading = reader.read(cell);
    if (typeof reading !== "object") return reading;
    const where = place(index, sizeOf(cells));
    if (isForeignError(reading)) throw new Problem("no answer", `${where} of ${name} holds the error ${reading.code}. Mend it, or clear it to leave it out.`);
    throw new Problem(reading.kind, words`In ${where} of ${name}: ${reading.words}`);
  });
}

/** The cells row by row. In a loop, as `flat` takes longer than all that is worked out of a long column. */
function inOneList(cells: NonNullable<Cells>): unknown[] {
  const all: unknown[] = [];
  for (const line of cells) for (const cell of line) all.push(cell);
  return all;
}

/** A list or a set of columns on its way: an element for each row, undefined where the row is blank in it. */
interface Aligned {
  readonly name: string;
  readonly kind: WholeArgument["kind"];
  readonly standsFor: QuantityName;
  readonly size: Size;
  readonly rows: readonly unknown[];
}

/** Lists of one length, without the rows that a gap leaves out. */
function readAligned(lists: readonly [string, WholeArgument][], choice: UnitChoice): Record<string, unknown> {
  const present = lists.filter(([, { kind, cells }]) => kind !== "optional list" || cells?.some((line) => line.some((cell) => !isBlank(cell))));
  const length = lengthOf(present, choice);
  const aligned = present.map(([name, it]): Aligned => {
    const standsFor = it.quantity ?? (name as QuantityName);
    const values = readList(name, it.cells, standsFor, choice);
    const size = sizeOf(it.cells!);
    const inColumns = it.kind === "columns" || it.kind === "gap columns";
    return { name, kind: it.kind, standsFor, size, rows: inColumns ? byRow(values, length, size, it.kind === "gap columns") : values };
  });
  requireEqualLengths(aligned.map(({ name, kind, rows }) => [name, rows.length, kind === "columns" || kind === "gap columns" ? "row" : "cell"]));
  const leaving = aligned.filter(({ kind }) => kind === "gaps" || kind === "gap columns");
  const kept: unknown[][] = aligned.map(() => []);
  for (let row = 0; row < length; row++) {
    if (leaving.some(({ rows }) => rows[row] === undefined)) continue;
    aligned.forEach((it, index) => {
      const value = it.rows[row];
      if (value === undefined) throw gapProblem(it, row, leaving);
      kept[index]!.push(value);
    });
  }
  return Object.fromEntries(aligned.map(({ name, kind }, index) =>
    [name, kind === "columns" || kind === "gap columns" ? columnsOf(kept[index] as unknown[][]) : kept[index]!]));
}

/** How many rows the lists have: that of the first list which is no set of columns. */
function lengthOf(lists: readonly [string, WholeArgument][], choice: UnitChoice): number {
  const first = lists.find(([, { kind }]) => kind !== "columns" && kind !== "gap columns");
  if (!first) return Math.max(0, ...lists.map(([, { cells }]) => cells?.length ?? 0));
  const [name, { cells, quantity: named }] = first;
  return cells ? cells.reduce((count, line) => count + line.length, 0) : readList(name, cells, named ?? (name as QuantityName), choice).length;
}

function gapProblem({ name, kind, size, standsFor }: Aligned, row: number, leaving: readonly Aligned[]): Problem {
  const where = kind === "columns" ? `row ${row + 1}` : place(row, size);
  const others = leaving.map((left) => argumentName(left.name)).join(" and ");
  const because = others === "" ? "Fill it in." : `Fill it in, or clear both.`;
  return new Problem("no answer", `${argumentName(name)} is ${blankInWords(standsFor)} in ${where}${others === "" ? "" : `, where ${others} has a value`}. ${because}`);
}

/** The cells of each row; undefined where one of them is blank, or all are where gaps may stay. As long as the lists, it is one column whatever its shape. */
function byRow(cells: readonly unknown[], length: number, size: Size, gapsStay: boolean): unknown[] {
  const width = cells.length === length ? 1 : size.columns;
  return Array.from({ length: Math.ceil(cells.length / width) }, (_, row) => {
    const line = cells.slice(row * width, (row + 1) * width);
    if (gapsStay) return line.every((cell) => cell === undefined) ? undefined : line.map((cell) => cell ?? null);
    return line.includes(undefined) ? undefined : line;
  });
}

function columnsOf(rows: readonly unknown[][]): unknown[][] {
  return (rows[0] ?? []).map((_, column) => rows.map((row) => row[column]));
}

function ownList(name: string, { cells, quantity: named }: WholeArgument, choice: UnitChoice): unknown[] | undefined {
  const standsFor = named ?? (name as QuantityName);
  const values = cells ? readList(name, cells, standsFor, choice) : [];
  if (values.every((it) => it === undefined)) return undefined;
  const blank = values.indexOf(undefined);
  if (blank >= 0) {
    const shown = argumentName(name);
    throw new Problem("no answer", `${shown} is ${blankInWords(standsFor)} in ${place(blank, sizeOf(cells!))}. Fill it in, or leave ${shown} out.`);
  }
  return values;
}

function readBlock(name: string, cells: Cells, values: readonly Value[], standsFor: QuantityName): unknown[][] {
  const size = sizeOf(cells!);
  const rows = Array.from({ length: size.rows }, (_, row) => values.slice(row * size.columns, (row + 1) * size.columns));
  const filledColumns = Array.from({ length: size.columns }, (_, column) => column).filter((column) => rows.some((row) => row[column] !== undefined));
  for (const [row, line] of rows.entries()) {
    const blank = filledColumns.find((column) => line[column] === undefined);
    if (blank !== undefined && line.some((it) => it !== undefined)) {
      const where = place(row * size.columns + blank, size);
      throw new Problem("no answer", `${argumentName(name)} is ${blankInWords(standsFor)} in ${where}. Fill it in, or clear the whole row to leave it out.`);
    }
  }
  return rows.filter((row) => row.some((it) => it !== undefined)).map((row) => filledColumns.map((column) => row[column]));
}

function readRecords(name: string, { cells, fields = [] }: WholeArgument, choice: UnitChoice): Record<string, unknown>[] | undefined {
  if (!cells) return undefined;
  const size = sizeOf(cells);
  if (size.columns !== fields.length) {
    const wanted = fields.map((field) => labelOf(field).toLowerCase()).join(", ");
    throw new Problem("bad input", `${argumentName(name)} has ${counted(size.columns, "column")}, but takes ${fields.length}: ${wanted}.`);
  }
  const read = fields.map((field, column) => readList(name, cells.map((row) => [row[column]]), field, choice));
  const rows = cells.map((_, row) => Object.fromEntries(fields.map((field, column) => [field, read[column]![row] ?? null])));
  const filled = rows.filter((row) => Object.values(row).some((value) => value !== null));
  return filled.length > 0 ? filled : undefined;
}

function typedCells(argument: string, cells: Cells, choice: UnitChoice, spoiled: Map<number, ForeignError>): unknown[] {
  if (!cells) throw new Problem("bad input", `${argumentName(argument)} is missing: give a range.`);
  const record = quantity(argument as QuantityName);
  const unit = isNumber(record) && record.measure ? chosenUnit(choice, record.measure) : undefined;
  const { read } = readerOf(argument, "entry", choice);
  return inOneList(cells).map((cell, row) => {
    const reading = read(cell) ?? null;
    if (isForeignError(reading)) {
      if (!spoiled.has(row)) spoiled.set(row, reading);
      // Where the result is no row for each row, the formula says that this cell is no number.
      return reading.code;
    }
    return typeof reading === "number" && unit ? toCanonical(reading, unit) : reading;
  });
}

function requireEqualLengths(lists: readonly (readonly [name: string, length: number, what: string])[]): void {
  const [first, ...others] = lists;
  for (const [name, length, what] of others) {
    if (length !== first![1]) {
      const [firstName, firstLength, firstWhat] = first!;
      throw new Problem("bad input",
        `${argumentName(firstName)} has ${counted(firstLength, firstWhat)}, but ${argumentName(name)} has ${counted(length, what)}. They must be equally long.`);
    }
  }
}
