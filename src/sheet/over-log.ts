/**
 * Worksheet functions over a shot log as people type it: cells of any kind, rows with gaps. A gap keeps its row, and an error its own row only.
 */
import { Problem } from "../../shared/problem";
import { isNumber, quantity, type QuantityName } from "../../shared/quantities";
import { toCanonical } from "../../shared/units";
import { isCellError } from "./cell-error";
import { Broadcast, cellOf, gridOf, worksheetCall, writerOf, type Formula } from "./over-cells";
import { heading, requireEqualLengths } from "./over-lists";
import { readerOf, type Cells } from "./read-cell";
import { readList } from "./read-range";
import { chosenUnit, type UnitChoice } from "./unit-choice";

/* eslint-disable @typescript-eslint/no-explicit-any -- the worksheet boundary: a formula's own types meet cells of any kind here */

type Lists = Readonly<Record<string, Cells>>;

/** One result for each typed cell. A number without a unit is in the workbook's unit of the result, and so is the result. */
export function overEntries(formula: Formula, { text }: { text: Cells }, result: QuantityName): any[][] {
  return worksheetCall((choice) => {
    const it = quantity(result);
    const bareUnit = isNumber(it) && it.measure ? chosenUnit(choice, it.measure).size : 1;
    const fit = new Broadcast({ text }, { as: { text: "entry" } }, choice, { bareUnit });
    return gridOf(fit, formula, writerOf(result, choice));
  });
}

/**
 * One result for each row of columns as they were typed, in the shape of the first. Numbers reach the formula in canonical units,
 * and the units they were typed in beside them.
 */
export function alongTypedRows(formula: Formula, columns: Lists): any[][] {
  return worksheetCall((choice) => {
    const typed = Object.fromEntries(Object.entries(columns).map(([name, cells]) => [name, typedCells(name, cells, choice)]));
    requireEqualLengths(columns, typed);
    const values = Object.entries(typed).map(([name, list]) => [name, list.map((cell) => (isCellError(cell) ? null : cell))]);
    const results = formula({ ...Object.fromEntries(values), units: choice }) as unknown[];
    let next = 0;
    return Object.values(columns)[0]!.map((line) => line.map(() => {
      const row = next++;
      const error = Object.values(typed).find((list) => isCellError(list[row]))?.[row];
      return cellOf(error ?? results[row], Number);
    }));
  });
}

/** A heading row, then a row for each record the formula gives, from lists of equal length whose gaps reach the formula as null. */
export function tableOfRows(
  formula: Formula, lists: Lists, columns: readonly QuantityName[], { as = {} }: { as?: Readonly<Record<string, QuantityName>> } = {},
): any[][] {
  return worksheetCall((choice) => {
    const read = Object.fromEntries(Object.entries(lists).map(([name, cells]) =>
      [name, readList(name, cells, readerOf(name, as[name] ?? (name as QuantityName), choice)).map((it) => it ?? null)]));
    requireEqualLengths(lists, read);
    const records = formula(read) as Record<string, unknown>[];
    const writers = columns.map((name) => writerOf(name, choice));
    return [columns.map((name) => heading(name, choice)), ...records.map((record) => columns.map((name, index) => cellOf(record[name], writers[index]!)))];
  });
}

function typedCells(name: string, cells: Cells, choice: UnitChoice): unknown[] {
  if (!cells) throw new Problem("bad input", `${name} is missing: give a range.`);
  const it = quantity(name as QuantityName);
  const unit = isNumber(it) && it.measure ? chosenUnit(choice, it.measure) : undefined;
  const { read } = readerOf(name, "entry", choice);
  return cells.flat().map((cell) => {
    const reading = read(cell) ?? null;
    return typeof reading === "number" && unit ? toCanonical(reading, unit) : reading;
  });
}
