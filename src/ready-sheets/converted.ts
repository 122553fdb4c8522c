/** Numbers that were typed in one unit, in another. */
import { convert, type MeasureName } from "../../shared/units";
import { chosenUnit, type UnitChoice } from "../sheet/unit-choice";

export interface Measured {
  readonly measure?: MeasureName;
  readonly difference?: true;
}

/** Whether a change of units concerns the number. */
export function isConcerned({ measure }: Measured, before: UnitChoice, after: UnitChoice): boolean {
  return measure !== undefined && before[measure] !== after[measure];
}

/** The number in the new unit; converting back gives it as it was typed. */
export function convertedNumber(value: number, { measure, difference }: Measured, before: UnitChoice, after: UnitChoice): number {
  if (measure === undefined) return value;
  const from = chosenUnit(before, measure);
  const to = chosenUnit(after, measure);
  const exact = difference ? (value * from.size) / to.size : convert(value, from, to);
  // A number that differs from a short one by rounding only was that short one.
  const short = Number(exact.toPrecision(10));
  return Math.abs(exact - short) <= 1e-12 * Math.abs(exact) ? short : exact;
}

/** The cells of a block as the host reads them, converted; texts and formulas stay. Counts what changed. */
export function convertedCells(
  cells: readonly (readonly unknown[])[],
  measured: Measured,
  before: UnitChoice,
  after: UnitChoice,
): { cells: unknown[][]; numbers: number } {
  let numbers = 0;
  const converted = cells.map((row) =>
    row.map((cell) => {
      if (typeof cell !== "number") return cell;
      numbers++;
      return convertedNumber(cell, measured, before, after);
    }),
  );
  return { cells: converted, numbers };
}
