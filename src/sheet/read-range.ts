/** Ranges as functions need them: their size, a list read row by row, or a block. */
import { Problem } from "../../shared/problem";
import { argumentName, words } from "../../shared/words";
import { isCellError } from "./cell-error";
import type { CellReader, Cells, Reading } from "./read-cell";

export interface Size {
  readonly rows: number;
  readonly columns: number;
}

export function sizeOf(cells: unknown[][]): Size {
  return { rows: cells.length, columns: cells[0]?.length ?? 0 };
}

/** The size that all ranges repeat to: a dimension of 1 repeats, other sizes must match. */
export function commonSize(ranges: readonly (readonly [string, Cells])[]): Size {
  let rows = 1;
  let columns = 1;
  let tallest = "";
  let widest = "";
  for (const [name, cells] of ranges) {
    if (!cells) continue;
    const size = sizeOf(cells);
    if (size.rows !== 1 && size.rows !== rows) {
      if (rows !== 1) throw sizesDiffer(tallest, rows, name, size.rows, "row");
      [rows, tallest] = [size.rows, name];
    }
    if (size.columns !== 1 && size.columns !== columns) {
      if (columns !== 1) throw sizesDiffer(widest, columns, name, size.columns, "column");
      [columns, widest] = [size.columns, name];
    }
  }
  return { rows, columns };
}

function sizesDiffer(first: string, firstSize: number, second: string, secondSize: number, what: string): Problem {
  return new Problem(
    "bad input",
    `${first} has ${counted(firstSize, what)}, but ${second} has ${counted(secondSize, what)}. Give ranges of the same size, or single cells.`,
  );
}

export function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

/** Every cell of a range, row by row, as its reader understands it. Numbers, which are nearly all, lie together; NaN marks the others. */
export interface Readings {
  readonly numbers: Float64Array;
  /** What is no number, by index: texts, refusals, errors, and undefined for a blank. */
  readonly others: ReadonlyMap<number, Reading>;
}

export function readAll(cells: unknown[][], reader: CellReader): Readings {
  const numbers = new Float64Array(cells.length * (cells[0]?.length ?? 0));
  const others = new Map<number, Reading>();
  const { zero, size, least, most, excluded } = reader.plainly;
  let index = 0;
  for (const line of cells) {
    for (let column = 0; column < line.length; column++) {
      const cell = line[column];
      // Nearly every cell is a number within its limits, and needs no more than this.
      const plain = typeof cell === "number" ? (cell - zero) * size : NaN;
      if (plain >= least && plain <= most && plain !== excluded) numbers[index] = plain;
      else {
        const reading = reader.read(cell);
        if (typeof reading === "number") numbers[index] = reading;
        else {
          numbers[index] = NaN;
          others.set(index, reading);
        }
      }
      index++;
    }
  }
  return { numbers, others };
}

/** A list whose blanks may stay; a cell that cannot be read stops the whole list, saying where. */
export function readList(argument: string, cells: Cells, reader: CellReader): (number | string | boolean | undefined)[] {
  const parameter = argumentName(argument);
  if (!cells) throw new Problem("bad input", `${parameter} is missing: give a range.`);
  return cells.flat().map((cell, index) => {
    const reading = reader.read(cell);
    if (typeof reading !== "object") return reading;
    const where = place(index, sizeOf(cells));
    if (isCellError(reading)) throw new Problem("no answer", `${where} of ${parameter} holds the error ${reading.code}. Mend it, or clear it to leave it out.`);
    throw new Problem(reading.kind, words`In ${where} of ${parameter}: ${reading.words}`);
  });
}

/** Where an element of a range read row by row lies, in words. */
export function place(index: number, size: Size): string {
  if (size.columns === 1) return `row ${index + 1}`;
  if (size.rows === 1) return `column ${index + 1}`;
  return `row ${Math.floor(index / size.columns) + 1}, column ${(index % size.columns) + 1}`;
}
