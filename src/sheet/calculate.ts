/**
 * One call of a worksheet function: its arguments read, its formula asked, its results laid out.
 * A formula over lists that gives a value or a row for each cell is prepared once a call, by its lists, and then asked for each cell.
 */
import { Problem } from "../../shared/problem";
import type { Argument, CellArgument, Cells, WholeArgument } from "./arguments";
import { Broadcast } from "./broadcast";
import { asProblem, cellError, isForeignError, noteProblems, withoutStackTraces } from "./cell-error";
import { readWhole, type WholeValues } from "./lists";
import { callingFunction } from "./recent-problems";
import { heading, otherCell, writerOf, type Shape, type Writer } from "./results";
import { sizeOf } from "./size";
import type { UnitChoice } from "./unit-choice";
import { withUnits } from "./workbook-units";

/* eslint-disable @typescript-eslint/no-explicit-any -- the worksheet boundary: a formula's own types meet cells of any kind here */

type RequiredNames<V> = { [K in keyof V]-?: object extends Pick<V, K> ? never : K }[keyof V];
type OptionalNames<V> = Exclude<keyof V, RequiredNames<V>>;
type Formula = (values: any) => unknown;

/** Everything that a formula takes by name, also where it takes its lists first and the rest afterwards. */
type Taken<F extends Formula> = F extends (lists: infer L) => infer R ? (R extends (cells: infer C) => unknown ? L & C : L) : never;

/** How the arguments of a formula are read, by their names; a bare range cell by cell. */
export type Arguments<F extends Formula> = { readonly [K in RequiredNames<Taken<F>>]: Cells | Argument } & {
  readonly [K in OptionalNames<Taken<F>>]?: Argument;
};

/**
 * Answers at once where the units of the workbook are known; else with a promise, which the host awaits (the declared type cannot say so).
 * Whatever is thrown reaches the cell in words.
 */
export function calculate<F extends Formula>(formula: F, given: Arguments<F>, gives: Shape): any[][] {
  const name = callingFunction();
  return withUnits(({ choice }) => {
    try {
      return withoutStackTraces(() => resultsOf(formula, sorted(given as Readonly<Record<string, Cells | Argument>>, choice), gives, choice));
    } catch (thrown) {
      return [[cellError(asProblem(thrown), choice)]];
    } finally {
      noteProblems(name);
    }
  }) as any[][];
}

interface Sorted {
  readonly each: Readonly<Record<string, CellArgument>>;
  readonly whole: Readonly<Record<string, WholeArgument>>;
  readonly constants: Readonly<Record<string, unknown>>;
}

function sorted(given: Readonly<Record<string, Cells | Argument>>, choice: UnitChoice): Sorted {
  const each: Record<string, CellArgument> = {};
  const whole: Record<string, WholeArgument> = {};
  const constants: Record<string, unknown> = {};
  for (const [name, argument] of Object.entries(given)) {
    if (!argument || Array.isArray(argument)) each[name] = { kind: "each", cells: argument };
    else if (argument.kind === "each") each[name] = argument;
    else if (argument.kind === "given") constants[name] = argument.value(choice);
    else whole[name] = argument;
  }
  return { each, whole, constants };
}

function resultsOf(formula: Formula, given: Sorted, { kind, quantities }: Shape, choice: UnitChoice): unknown[][] {
  const writers = quantities.map((name) => writerOf(name, choice));
  if (kind === "value" || kind === "row") {
    const { broadcast, ask } = prepared(formula, given, choice);
    return kind === "value" ? valuesOf(broadcast, ask, writers[0]!) : rowsOf(broadcast, ask, quantities, writers, choice);
  }
  const whole = readWhole(given.whole, choice);
  const outcome = oneOutcome(formula, given, whole, choice);
  if (!Array.isArray(outcome)) return [[otherCell(outcome, choice)]];
  if (kind === "column") return outcome.map((it) => [writers[0]!(it)]);
  if (kind === "table") return tableOf(outcome as Record<string, unknown>[], quantities, writers, choice);
  const first = Object.values(given.whole)[0]!.cells!;
  const { spoiled } = whole;
  if (kind === "row for each") {
    if (sizeOf(first).columns > 1 && sizeOf(first).rows > 1) throw new Problem("bad input", "The list must be one column or one row: the results need the columns beside it.");
    return outcome.map((record: Record<string, unknown>, row) => quantities.map((name, index) => spoiled.get(row) ?? writers[index]!(record[name])));
  }
  let next = 0;
  return first.map((line) => line.map(() => {
    const element = next++;
    return spoiled.get(element) ?? writers[0]!(outcome[element]);
  }));
}

/** The formula as it is asked for each cell, with the cells it is asked for. */
function prepared(formula: Formula, { each, whole, constants }: Sorted, choice: UnitChoice): { broadcast: Broadcast; ask: Formula } {
  const broadcast = new Broadcast(each, choice, constants);
  if (Object.keys(whole).length === 0) return { broadcast, ask: formula };
  const { values } = readWhole(whole, choice);
  let ask: unknown;
  try {
    ask = formula(values);
  } catch (thrown) {
    const problem = asProblem(thrown);
    return { broadcast, ask: () => problem };
  }
  return { broadcast, ask: typeof ask === "function" ? (ask as Formula) : () => ask };
}

function valuesOf(broadcast: Broadcast, ask: Formula, write: Writer): unknown[][] {
  const { rows, columns } = broadcast.size;
  const grid = new Array<unknown[]>(rows);
  for (let row = 0; row < rows; row++) {
    const line = new Array<unknown>(columns);
    for (let column = 0; column < columns; column++) line[column] = write(broadcast.calculate(ask, row, column));
    grid[row] = line;
  }
  return grid;
}

/** Lays the results of each row out side by side; a refusal or a blank stands in every cell of its row. */
function rowsOf(broadcast: Broadcast, ask: Formula, quantities: readonly string[], writers: readonly Writer[], choice: UnitChoice): unknown[][] {
  const { rows, columns } = broadcast.size;
  if (columns > 1) {
    throw new Problem("bad input", `Each argument that is no list must be one column or one cell, but one is ${columns} columns wide: the results need the columns beside it.`);
  }
  const grid = new Array<unknown[]>(rows);
  for (let row = 0; row < rows; row++) {
    const outcome = broadcast.calculate(ask, row, 0);
    if (typeof outcome === "object" && !(outcome instanceof Problem) && !isForeignError(outcome)) {
      grid[row] = quantities.map((name, index) => writers[index]!((outcome as Record<string, unknown>)[name]));
    } else {
      const cell = otherCell(outcome, choice);
      grid[row] = quantities.map(() => cell);
    }
  }
  return grid;
}

/** What a formula gives that is asked once, not cell by cell. */
function oneOutcome(formula: Formula, { each, constants }: Sorted, { values }: WholeValues, choice: UnitChoice): unknown {
  const broadcast = new Broadcast(each, choice, { ...constants, ...values });
  if (broadcast.size.rows > 1 || broadcast.size.columns > 1) {
    throw new Problem("bad input", "This function makes one table, so each argument that is no list must be one cell.");
  }
  return broadcast.calculate(formula, 0, 0);
}

function tableOf(records: readonly Record<string, unknown>[], quantities: Shape["quantities"], writers: readonly Writer[], choice: UnitChoice): unknown[][] {
  const headings = quantities.flatMap((name) => {
    const first = records[0]?.[name];
    return Array.isArray(first) ? first.map((_, index) => `${heading(name, choice)} ${index + 1}`) : [heading(name, choice)];
  });
  return [headings, ...records.map((record) => quantities.flatMap((name, index) => [record[name]].flat().map((it) => writers[index]!(it))))];
}
