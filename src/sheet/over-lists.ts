/**
 * Worksheet functions that read lists whole: a fit to many shots, a comparison of settings. The lists are ranges of any shape read row by row,
 * of equal length; further arguments may vary from cell to cell.
 */
import { Problem } from "../../shared/problem";
import { isNumber, quantity, type QuantityName } from "../../shared/quantities";
import { Broadcast, cellOf, gridOf, rowsOf, worksheetCall, writerOf, type AnyOptions, type Formula, type Options, type RequiredCells } from "./over-cells";
import { readerOf, type Cells } from "./read-cell";
import { counted, place, readList, sizeOf, type Size } from "./read-range";
import { chosenUnit, showsItself, type UnitChoice } from "./unit-choice";

/* eslint-disable @typescript-eslint/no-explicit-any -- the worksheet boundary: a formula's own types meet cells of any kind here */

type Lists = Readonly<Record<string, Cells>>;

export interface ListOptions<F extends Formula> extends Options<F> {
  /**
   * The lists that may have blanks: an element that is blank in one of these is left out of all lists (a shot not pulled yet).
   * By default the last list. "apart": the lists are groups of their own, of any length, and each leaves out its own blanks.
   */
  readonly leftOut?: readonly (keyof Parameters<F>[0])[] | "apart";
  /** A list of one column or several, with a row for each element of the other lists; the formula sees an array of columns. */
  readonly block?: keyof Parameters<F>[0];
  /** Lists of a length of their own that may be left out. */
  readonly ownLists?: { readonly [K in keyof Parameters<F>[0]]?: Cells };
}

/** A result for each cell of the further arguments, from lists that are the same for all. */
export function overLists<F extends Formula, L extends Lists>(
  formula: F, lists: L, cells: RequiredCells<F, keyof L>, result: QuantityName, options: ListOptions<F> = {},
): any[][] {
  return worksheetCall((choice) => {
    const fit = new Broadcast(cells, options as AnyOptions, choice, readLists(lists, options, choice));
    return gridOf(fit, formula, writerOf(result, choice));
  });
}

/** A row of results for each cell of the further arguments, which are one column or one cell. */
export function rowFromLists<F extends Formula, L extends Lists>(
  formula: F, lists: L, cells: RequiredCells<F, keyof L>, results: readonly QuantityName[], options: ListOptions<F> = {},
): any[][] {
  return worksheetCall((choice) => {
    const fit = new Broadcast(cells, options as AnyOptions, choice, readLists(lists, options, choice));
    if (fit.size.columns > 1) throw new Problem("bad input", "The arguments after the lists must be one column or one cell: the results need the columns beside it.");
    return rowsOf(fit, formula, results, choice);
  });
}

/**
 * A heading row, then a row for each record the formula gives; `columns` are the quantities of its fields, in order.
 * A field that holds a list takes as many columns, numbered in the heading.
 */
export function asTable<F extends Formula, L extends Lists>(
  formula: F, lists: L, cells: RequiredCells<F, keyof L>, columns: readonly QuantityName[], options: ListOptions<F> = {},
): any[][] {
  return worksheetCall((choice) => {
    const outcome = oneOutcome(formula, lists, cells, options, choice);
    if (!Array.isArray(outcome)) return [[cellOf(outcome, Number)]];
    const records = outcome as Record<string, unknown>[];
    const writers = columns.map((name) => writerOf(name, choice));
    return [
      columns.flatMap((name) => {
        const first = records[0]?.[name];
        return Array.isArray(first) ? first.map((_, index) => `${heading(name, choice)} ${index + 1}`) : [heading(name, choice)];
      }),
      ...records.map((record) => columns.flatMap((name, index) => [record[name]].flat().map((it) => cellOf(it, writers[index]!)))),
    ];
  });
}

/** One column without a heading: the list that the formula gives. */
export function asColumn<F extends Formula>(formula: F, cells: RequiredCells<F>, result: QuantityName, options: Options<F> = {}): any[][] {
  return worksheetCall((choice) => {
    const outcome = oneOutcome(formula, {}, cells, options, choice);
    if (!Array.isArray(outcome)) return [[cellOf(outcome, Number)]];
    const put = writerOf(result, choice);
    return outcome.map((it) => [cellOf(it, put)]);
  });
}

/** What a formula gives that is asked once, not cell by cell. */
function oneOutcome(formula: Formula, lists: Lists, cells: object, options: object, choice: UnitChoice): unknown {
  const fit = new Broadcast(cells, options as AnyOptions, choice, readLists(lists, options, choice));
  if (fit.size.rows > 1 || fit.size.columns > 1) throw new Problem("bad input", "This function makes one table, so each argument after the lists must be one cell.");
  return fit.calculate(formula, 0, 0);
}

/** A result for every element of one or more lists, blanks kept as blanks, in the shape of the first. The formula sees null for a blank. */
export function alongLists<F extends Formula, L extends Lists>(
  formula: F, lists: L, cells: RequiredCells<F, keyof L>, result: QuantityName, options: Options<F> = {},
): any[][] {
  return worksheetCall((choice) => {
    const read = Object.fromEntries(Object.entries(lists).map(([name, range]) => [name, listOf(name, range, options, choice).map((it) => it ?? null)]));
    requireEqualLengths(lists, read);
    const fit = new Broadcast(cells, options as AnyOptions, choice, read);
    const outcome = fit.calculate(formula, 0, 0);
    if (!Array.isArray(outcome)) return [[cellOf(outcome, Number)]];
    const put = writerOf(result, choice);
    const first = Object.values(lists)[0]!;
    let next = 0;
    return first.map((line) => line.map(() => cellOf(outcome[next++], put)));
  });
}

/** The name of a quantity with its unit in this workbook, as a column is headed. */
export function heading(name: QuantityName, choice: UnitChoice): string {
  const it = quantity(name);
  if (!isNumber(it)) return it.label;
  const unit = it.measure ? (showsItself(chosenUnit(choice, it.measure)) ? "" : chosenUnit(choice, it.measure).symbol) : it.unit;
  return unit ? `${it.label}, ${unit}` : it.label;
}

function listOf(name: string, range: Cells, options: AnyOptions, choice: UnitChoice): (number | string | boolean | undefined)[] {
  const standsFor = options.as?.[name] ?? (name as QuantityName);
  return readList(name, range, readerOf(name, standsFor, choice));
}

interface AnyListOptions extends AnyOptions {
  readonly leftOut?: unknown;
  readonly block?: PropertyKey;
  readonly ownLists?: object;
}

function readLists(lists: Lists, options: AnyListOptions, choice: UnitChoice): Record<string, unknown> {
  const names = Object.keys(lists);
  if (names.length === 0) return {};
  const read: Record<string, unknown[]> = Object.fromEntries(names.map((name) => [name, listOf(name, lists[name], options, choice)]));
  if (options.leftOut === "apart") {
    return Object.fromEntries(names.map((name) => [name, read[name]!.filter((it) => it !== undefined)]));
  }
  const block = options.block as string | undefined;
  if (block) read[block] = byRow(read[block]!, read[names[0]!]!.length, sizeOf(lists[block]!));
  requireEqualLengths(lists, read, block);
  const mayBeBlank = new Set((options.leftOut as string[] | undefined) ?? names.slice(-1));
  const kept: Record<string, unknown[]> = Object.fromEntries(names.map((name) => [name, []]));
  for (let index = 0; index < read[names[0]!]!.length; index++) {
    if (names.some((name) => mayBeBlank.has(name) && read[name]![index] === undefined)) continue;
    for (const name of names) {
      const value = read[name]![index];
      if (value === undefined) {
        const where = name === block ? `row ${index + 1}` : place(index, sizeOf(lists[name]!));
        throw new Problem("no answer", `${name} is blank in ${where}, where ${[...mayBeBlank].join(" and ")} has a value. Fill it in, or clear both.`);
      }
      kept[name]!.push(value);
    }
  }
  const own = Object.entries((options.ownLists ?? {}) as Lists).map(([name, range]) => [name, ownList(name, range, options, choice)]);
  return { ...kept, ...(block && { [block]: columnsOf(kept[block] as unknown[][]) }), ...Object.fromEntries(own) };
}

/** The cells of each row, or undefined where one of them is blank. A block as long as the other lists is one column, whatever its shape. */
function byRow(cells: readonly unknown[], length: number, size: Size): unknown[] {
  const width = cells.length === length ? 1 : size.columns;
  return Array.from({ length: cells.length / width }, (_, row) => {
    const line = cells.slice(row * width, (row + 1) * width);
    return line.includes(undefined) ? undefined : line;
  });
}

function columnsOf(rows: readonly unknown[][]): unknown[][] {
  return (rows[0] ?? []).map((_, column) => rows.map((row) => row[column]));
}

function ownList(name: string, range: Cells, options: AnyOptions, choice: UnitChoice): unknown[] | undefined {
  const values = range ? listOf(name, range, options, choice) : [];
  if (values.every((it) => it === undefined)) return undefined;
  const blank = values.indexOf(undefined);
  if (blank >= 0) throw new Problem("no answer", `${name} is blank in ${place(blank, sizeOf(range!))}. Fill it in, or leave ${name} out.`);
  return values;
}

/** Lists of one row each must be equally long. */
export function requireEqualLengths(lists: Lists, read: Readonly<Record<string, readonly unknown[]>>, block?: string): void {
  const [first, ...others] = Object.keys(lists);
  for (const other of others) {
    if (read[first!]!.length !== read[other]!.length) {
      const length = counted(read[other]!.length, other === block ? "row" : "cell");
      throw new Problem("bad input", `${first} has ${counted(read[first!]!.length, "cell")}, but ${other} has ${length}. They must be equally long.`);
    }
  }
}
