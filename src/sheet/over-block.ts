/** Worksheet functions that read one block whole: a row for each taster, a column for each sample. */
import { Problem } from "../../shared/problem";
import type { QuantityName } from "../../shared/quantities";
import { Broadcast, rowsOf, worksheetCall, type Formula } from "./over-cells";
import { readerOf, type Cells } from "./read-cell";
import { place, readList, sizeOf } from "./read-range";

/* eslint-disable @typescript-eslint/no-explicit-any -- the worksheet boundary: a formula's own types meet cells of any kind here */

/** One row of results from a block; its name is the quantity it holds. Rows and columns that are wholly blank are left out, a single blank is not. */
export function rowFromBlock<F extends Formula, N extends QuantityName & keyof Parameters<F>[0]>(
  formula: F, block: { readonly [K in N]: Cells }, results: readonly QuantityName[],
): any[][] {
  return worksheetCall((choice) => {
    const [name, cells] = Object.entries(block)[0] as [N, Cells];
    const readings = readList(name, cells, readerOf(name, name, choice));
    const size = sizeOf(cells!);
    const rows = Array.from({ length: size.rows }, (_, row) => readings.slice(row * size.columns, (row + 1) * size.columns));
    const filledColumns = Array.from({ length: size.columns }, (_, column) => column).filter((column) => rows.some((row) => row[column] !== undefined));
    const filledRows = rows.filter((row) => row.some((it) => it !== undefined)).map((row) => filledColumns.map((column) => row[column]));
    for (const [row, line] of rows.entries()) {
      const blank = filledColumns.find((column) => line[column] === undefined);
      if (blank !== undefined && line.some((it) => it !== undefined)) {
        throw new Problem("no answer", `${name} is blank in ${place(row * size.columns + blank, size)}. Fill it in, or clear the whole row to leave it out.`);
      }
    }
    return rowsOf(new Broadcast({}, {}, choice, { [name]: filledRows }), formula, results, choice);
  });
}
