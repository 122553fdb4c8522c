/**
 * Arguments that are read cell by cell: one value, a row, a column or a block each, repeated to one size.
 * Written for whole columns: every argument is read once into an array, then the rows are calculated in one loop.
 */
import { Problem } from "../../shared/problem";
import type { QuantityName } from "../../shared/quantities";
import { argumentName } from "../../shared/words";
import type { CellArgument } from "./arguments";
import { asProblem } from "./cell-error";
import { blankInWords, readerOf, type CellReader, type Reading } from "./read-cell";
import { rowArguments, setArgument, type RowArguments } from "./row-arguments";
import { commonSize, sizeOf, type Size } from "./size";
import type { UnitChoice } from "./unit-choice";

/** Every cell of a range, row by row, as its reader understands it. Numbers, which are nearly all, lie together; NaN marks the others. */
interface Readings {
  readonly numbers: Float64Array;
  /** What is no number, by index: texts, refusals, errors, and undefined for a blank; null where all are numbers. */
  readonly others: readonly Reading[] | null;
}

/** One argument read whole, and how far its cells lie apart for the next row and the next column; 0 where it repeats. */
interface Column extends Readings {
  readonly name: string;
  readonly standsFor: QuantityName;
  readonly required: boolean;
  readonly rowStep: number;
  readonly columnStep: number;
}

export class Broadcast {
  readonly size: Size;
  private readonly all: readonly Column[];
  /** The arguments that change from element to element, with their places in the view. */
  private readonly varying: readonly { readonly column: Column; readonly at: number }[];
  /** The arguments that decide whether an element is blank: the required ones that vary, or all required where none does. */
  private readonly deciding: readonly Column[];
  private readonly row: RowArguments;
  private readonly onlyNumbers: boolean;

  /** `constants` are arguments that are the same for every element. */
  constructor(given: Readonly<Record<string, CellArgument>>, choice: UnitChoice, constants: Readonly<Record<string, unknown>> = {}) {
    const present = Object.entries(given).filter(([, { cells, optional }]) => cells || !optional);
    this.size = commonSize(present.map(([name, { cells }]) => [name, cells] as const));
    this.all = present.map(([name, { cells, quantity, optional }]) => {
      const range = cells ?? [[null]];
      const own = sizeOf(range);
      const standsFor = quantity ?? (name as QuantityName);
      const steps = { rowStep: own.rows === 1 ? 0 : own.columns, columnStep: own.columns === 1 ? 0 : 1 };
      return { ...readAll(range, readerOf(name, standsFor, choice)), name, standsFor, required: !optional, ...steps };
    });
    this.varying = this.all.flatMap((column, at) => (varies(column) ? [{ column, at }] : []));
    const required = this.all.filter((column) => column.required);
    this.deciding = required.some(varies) ? required.filter(varies) : required;
    this.onlyNumbers = this.all.every(({ others }) => others === null);
    const names = Object.keys(constants);
    this.row = rowArguments([...this.all.map(({ name }) => name), ...names]);
    this.all.forEach((column, at) => setArgument(this.row, at, pick(column, 0, 0)));
    names.forEach((name, index) => setArgument(this.row, this.all.length + index, constants[name]));
  }

  /** The formula's outcome for an element: its result, a refusal, an error that came in, or "" where the row is blank. */
  calculate(formula: (values: never) => unknown, row: number, column: number): unknown {
    if (this.onlyNumbers) {
      for (let k = 0; k < this.varying.length; k++) {
        const { column: it, at } = this.varying[k]!;
        this.row.numbers[at] = it.numbers[row * it.rowStep + column * it.columnStep]!;
      }
    } else {
      const obstacle = this.obstacle(row, column);
      if (obstacle !== undefined) return obstacle;
      for (const { column: it, at } of this.varying) setArgument(this.row, at, pick(it, row, column));
    }
    try {
      return formula(this.row.values as never);
    } catch (thrown) {
      return asProblem(thrown);
    }
  }

  /** Why this element is not calculated, if it is not. */
  private obstacle(row: number, column: number): unknown {
    let firstBlank: Column | undefined;
    for (const argument of this.all) {
      const reading = pick(argument, row, column);
      if (typeof reading === "object") return reading;
      if (argument.required && reading === undefined) firstBlank ??= argument;
    }
    if (!firstBlank) return undefined;
    return this.deciding.every((argument) => pick(argument, row, column) === undefined) ? "" : blankProblem(firstBlank);
  }
}

function varies({ rowStep, columnStep }: Column): boolean {
  return rowStep > 0 || columnStep > 0;
}

const blankProblems = new Map<string, Problem>();

/** One refusal for all rows with the same gap, so that they share its error. */
function blankProblem({ name, standsFor }: Column): Problem {
  const why = `${argumentName(name)} is ${blankInWords(standsFor)} in this row.`;
  let problem = blankProblems.get(why);
  if (!problem) blankProblems.set(why, (problem = new Problem("no answer", why)));
  return problem;
}

function pick({ numbers, others, rowStep, columnStep }: Column, row: number, column: number): Reading {
  const index = row * rowStep + column * columnStep;
  const value = numbers[index]!;
  return value === value ? value : others![index];
}

function readAll(cells: unknown[][], reader: CellReader): Readings {
  const numbers = new Float64Array(cells.length * (cells[0]?.length ?? 0));
  let others: Reading[] | null = null;
  const { zero, size, least, most, excluded } = reader.accepted;
  let index = 0;
  for (const line of cells) {
    for (let column = 0; column < line.length; column++) {
      const cell = line[column];
      // Nearly every cell is a number within its limits, and needs no more than this.
      const canonical = typeof cell === "number" ? (cell - zero) * size : NaN;
      if (canonical >= least && canonical <= most && canonical !== excluded) numbers[index] = canonical;
      else {
        const reading = reader.read(cell);
        if (typeof reading === "number") numbers[index] = reading;
        else {
          numbers[index] = NaN;
          (others ??= new Array<Reading>(numbers.length))[index] = reading;
        }
      }
      index++;
    }
  }
  return { numbers, others };
}
