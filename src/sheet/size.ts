/** Sizes of ranges, and places in them, in words. */
import { Problem } from "../../shared/problem";
import { argumentName } from "../../shared/words";
import type { Cells } from "./arguments";

export interface Size {
  readonly rows: number;
  readonly columns: number;
}

export function sizeOf(cells: readonly unknown[][]): Size {
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
  const has = (name: string, size: number): string => `${argumentName(name)} has ${counted(size, what)}`;
  return new Problem("bad input", `${has(first, firstSize)}, but ${has(second, secondSize)}. Give ranges of the same size, or single cells.`);
}

export function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? "" : "s"}`;
}

/** Where an element of a range read row by row lies, in words. */
export function place(index: number, size: Size): string {
  if (size.columns === 1) return `row ${index + 1}`;
  if (size.rows === 1) return `column ${index + 1}`;
  return `row ${Math.floor(index / size.columns) + 1}, column ${(index % size.columns) + 1}`;
}
