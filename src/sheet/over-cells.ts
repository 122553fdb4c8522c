/**
 * Worksheet functions that work cell by cell: one value, a row, a column or a block in, one result or one row of results for each out.
 * Written for whole columns: every argument is read once into an array, then the rows are calculated in one loop.
 */
import { Problem } from "../../shared/problem";
import { isNumber, quantity, type QuantityName } from "../../shared/quantities";
import { fromCanonical } from "../../shared/units";
import { argumentView, setArgument, type ArgumentView } from "./row-arguments";
import { asProblem, cellError, isCellError, noteProblems, withoutStackTraces } from "./cell-error";
import { readerOf, type Cells, type Reading } from "./read-cell";
import { commonSize, readAll, sizeOf, type Readings, type Size } from "./read-range";
import { callingFunction, setCallingFunction } from "./recent-problems";
import { chosenUnit, type UnitChoice } from "./unit-choice";
import { withUnits } from "./workbook-units";

/* eslint-disable @typescript-eslint/no-explicit-any -- the worksheet boundary: a formula's own types meet cells of any kind here */

type RequiredNames<F> = { [K in keyof F]-?: object extends Pick<F, K> ? never : K }[keyof F];
type OptionalNames<F> = Exclude<keyof F, RequiredNames<F>>;
export type Formula = (values: any) => unknown;
type Values<F extends Formula> = Parameters<F>[0];

/** The ranges of a formula's required arguments, by name. */
export type RequiredCells<F extends Formula, Given extends PropertyKey = never> = { [K in Exclude<RequiredNames<Values<F>>, Given>]: Cells };

export interface Options<F extends Formula> {
  /** The ranges of the arguments that may be left out; a blank means the formula's own default. */
  readonly optional?: { readonly [K in OptionalNames<Values<F>>]?: Cells };
  /** What an argument stands for, where its name alone does not say: target may be a strength or a time. */
  readonly as?: { readonly [K in keyof Values<F>]?: QuantityName };
}

/** One result for each cell; `result` is the quantity it is. */
export function overCells<F extends Formula>(formula: F, cells: RequiredCells<F>, result: QuantityName, options: Options<F> = {}): any[][] {
  return worksheetCall((choice) => {
    return gridOf(new Broadcast(cells, options as AnyOptions, choice), formula, writerOf(result, choice));
  });
}

/** The formula's result for every element, as cells. */
export function gridOf(fit: Broadcast, formula: Formula, write: (value: number) => unknown): unknown[][] {
  const { rows, columns } = fit.size;
  const grid = new Array<unknown[]>(rows);
  for (let row = 0; row < rows; row++) {
    const first = cellOf(fit.calculate(formula, row, 0), write);
    grid[row] = columns === 1 ? [first] : [first, ...rest(row)];
  }
  return grid;

  function rest(row: number): unknown[] {
    return Array.from({ length: columns - 1 }, (_, column) => cellOf(fit.calculate(formula, row, column + 1), write));
  }
}

/** A row of results for each row of arguments; `results` are the quantities it holds, in order. */
export function overRows<F extends Formula>(formula: F, cells: RequiredCells<F>, results: readonly QuantityName[], options: Options<F> = {}): any[][] {
  return worksheetCall((choice) => {
    const fit = new Broadcast(cells, options as AnyOptions, choice);
    if (fit.size.columns > 1) {
      throw new Problem("bad input", `Each argument must be one column or one cell, but one is ${fit.size.columns} columns wide: the results need the columns beside it.`);
    }
    return rowsOf(fit, formula, results, choice);
  });
}

/** Lays the results of each row out side by side; a refusal or a blank stands in every cell of its row. */
export function rowsOf(fit: Broadcast, formula: Formula, results: readonly QuantityName[], choice: UnitChoice): unknown[][] {
  const writers = results.map((name) => writerOf(name, choice));
  const grid: unknown[][] = [];
  for (let row = 0; row < fit.size.rows; row++) {
    const outcome = fit.calculate(formula, row, 0);
    if (typeof outcome === "object" && !(outcome instanceof Problem) && !isCellError(outcome)) {
      grid.push(results.map((name, index) => cellOf((outcome as Record<string, unknown>)[name], writers[index]!)));
    } else {
      const cell = cellOf(outcome, String);
      grid.push(results.map(() => cell));
    }
  }
  return grid;
}

/** Options without the names that a formula gives its arguments. */
export interface AnyOptions {
  readonly optional?: Readonly<Record<string, Cells>>;
  readonly as?: Readonly<Record<string, QuantityName | undefined>>;
}

/** One argument read whole, and how far its cells lie apart for the next row and the next column; 0 where it repeats. */
interface Argument extends Readings {
  readonly name: string;
  readonly required: boolean;
  readonly rowStep: number;
  readonly columnStep: number;
}

/** Arguments read once and repeated to one size. */
export class Broadcast {
  readonly size: Size;
  private readonly all: readonly Argument[];
  /** The arguments that change from element to element, with their places in the view. */
  private readonly varying: readonly { readonly it: Argument; readonly at: number }[];
  private readonly view: ArgumentView;
  private readonly onlyNumbers: boolean;

  /** `lists` are arguments that are the same for every element. */
  constructor(required: object, { optional = {}, as = {} }: AnyOptions, choice: UnitChoice, lists: Readonly<Record<string, unknown>> = {}) {
    const read = (cells: object, areRequired: boolean): Argument[] =>
      Object.entries(cells as Record<string, Cells>).flatMap(([name, range]) => {
        if (!range && !areRequired) return []; // left out: the formula's own default
        const cellsOf = range ?? [[null]];
        const own = sizeOf(cellsOf);
        const readings = readAll(cellsOf, readerOf(name, as[name] ?? (name as QuantityName), choice));
        return [{ ...readings, name, required: areRequired, rowStep: own.rows === 1 ? 0 : own.columns, columnStep: own.columns === 1 ? 0 : 1 }];
      });
    this.size = commonSize([...Object.entries(required as Record<string, Cells>), ...Object.entries(optional)]);
    this.all = [...read(required, true), ...read(optional, false)];
    this.varying = this.all.flatMap((it, at) => (it.rowStep > 0 || it.columnStep > 0 ? [{ it, at }] : []));
    this.onlyNumbers = this.all.every((it) => it.others.size === 0);
    const listNames = Object.keys(lists);
    this.view = argumentView([...this.all.map(({ name }) => name), ...listNames]);
    this.all.forEach((it, at) => setArgument(this.view, at, pick(it, 0, 0)));
    listNames.forEach((name, index) => setArgument(this.view, this.all.length + index, lists[name] as readonly unknown[]));
  }

  /** The formula's outcome for an element: its result, a refusal, an error that came in, or "" where the row is blank. */
  calculate(formula: Formula, row: number, column: number): unknown {
    if (this.onlyNumbers) {
      for (let k = 0; k < this.varying.length; k++) {
        const { it, at } = this.varying[k]!;
        this.view.numbers[at] = it.numbers[row * it.rowStep + column * it.columnStep]!;
      }
    } else {
      const obstacle = this.obstacle(row, column);
      if (obstacle !== undefined) return obstacle;
      for (const { it, at } of this.varying) setArgument(this.view, at, pick(it, row, column));
    }
    try {
      return formula(this.view.values);
    } catch (thrown) {
      return asProblem(thrown);
    }
  }

  /** Why this element is not calculated, if it is not. */
  private obstacle(row: number, column: number): unknown {
    let filled = 0;
    let firstBlank: Argument | undefined;
    for (const it of this.all) {
      const reading = pick(it, row, column);
      if (typeof reading === "object") return reading;
      if (!it.required) continue;
      if (reading !== undefined) filled++;
      else firstBlank ??= it;
    }
    if (!firstBlank) return undefined;
    return filled === 0 ? "" : blankProblem(firstBlank.name);
  }
}

const blankProblems = new Map<string, Problem>();

/** One refusal for all rows with the same gap, so that they share its error. */
function blankProblem(name: string): Problem {
  let problem = blankProblems.get(name);
  if (!problem) blankProblems.set(name, (problem = new Problem("no answer", `${name} is blank in this row.`)));
  return problem;
}

function pick(it: Argument, row: number, column: number): Reading {
  const index = row * it.rowStep + column * it.columnStep;
  const value = it.numbers[index]!;
  return value === value ? value : it.others.get(index);
}

/** A formula's outcome as a cell takes it: never NaN, Infinity, null or undefined. */
export function cellOf(outcome: unknown, write: (value: number) => unknown): unknown {
  if (typeof outcome === "number") {
    if (Number.isFinite(outcome)) return write(outcome);
    return cellError(new Problem("no answer", "The result is too large or too small to be a number. Check the sizes of the arguments."));
  }
  if (outcome instanceof Problem) return cellError(outcome);
  if (outcome === undefined || outcome === null) return "";
  return outcome;
}

/** How a result of a quantity is written in the workbook's unit. */
export function writerOf(name: QuantityName, choice: UnitChoice): (value: number) => unknown {
  const it = quantity(name);
  if (!isNumber(it) || !it.measure) return (value) => value;
  const unit = chosenUnit(choice, it.measure);
  return unit.size === 1 && !unit.zero ? (value) => value : (value) => fromCanonical(value, unit);
}

/**
 * Everything one call of a worksheet function needs around it: the workbook's units, words for whatever is thrown, and no stack traces.
 * Answers at once where the units are known; else with a promise, which the host awaits (the declared type cannot say so).
 */
export function worksheetCall(calculate: (choice: UnitChoice) => unknown[][]): any[][] {
  const name = callingFunction();
  return withUnits(({ choice }) => {
    setCallingFunction(name);
    try {
      return withoutStackTraces(() => calculate(choice));
    } catch (thrown) {
      return [[cellError(asProblem(thrown))]];
    } finally {
      noteProblems();
    }
  }) as any[][];
}
