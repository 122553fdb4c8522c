/** What comes out of a worksheet function: the shapes of results, and their cells in the workbook's units. */
import { Problem } from "../../shared/problem";
import { isNumber, labelOf, quantity, type QuantityName } from "../../shared/quantities";
import { fromCanonical } from "../../shared/units";
import { Phrase } from "../../shared/words";
import { cellError } from "./cell-error";
import { chosenUnit, showsItself, type UnitChoice } from "./unit-choice";
import { worded } from "./wording";

export interface Shape {
  readonly kind: "value" | "row" | "table" | "column" | "value for each" | "row for each";
  /** The quantities of its columns, in order. */
  readonly quantities: readonly QuantityName[];
}

const shape = (kind: Shape["kind"]) => (...quantities: readonly QuantityName[]): Shape => ({ kind, quantities });

export const gives = {
  /** A value for each cell. */
  value: (of: QuantityName): Shape => shape("value")(of),
  /** A row for each row of the arguments, which are then one column or one cell each. The formula gives a record. */
  row: shape("row"),
  /** A heading row, then a row for each record the formula gives. A field that holds a list takes as many columns, numbered in the heading. */
  table: shape("table"),
  /** The list that the formula gives, as one column without a heading. */
  column: (of: QuantityName): Shape => shape("column")(of),
  /** A value for every element of the first list, in its shape. The formula gives a list. */
  valueForEach: (of: QuantityName): Shape => shape("value for each")(of),
  /** A row for every element of the first list, which is one column or one row. The formula gives a list of records. */
  rowForEach: shape("row for each"),
};

/** Puts an outcome of a formula into a cell. */
export type Writer = (outcome: unknown) => unknown;

/** How a result of a quantity is written: never NaN, Infinity, null or undefined; words and numbers in the workbook's unit. */
export function writerOf(name: QuantityName, choice: UnitChoice): Writer {
  const record = quantity(name);
  const unit = isNumber(record) && record.measure ? chosenUnit(choice, record.measure) : undefined;
  const inUnit = unit && (unit.size !== 1 || unit.zero) ? (value: number) => fromCanonical(value, unit) : undefined;
  return (outcome) => {
    if (typeof outcome === "number") {
      const value = inUnit ? inUnit(outcome) : outcome;
      return Number.isFinite(value) ? value : cellError(notANumber, choice);
    }
    return otherCell(outcome, choice);
  };
}

const notANumber = new Problem("no answer", "The result is too large or too small to be a number. Check the sizes of the arguments.");

/** Words, a refusal, a blank or a text in a cell. */
export function otherCell(outcome: unknown, choice: UnitChoice): unknown {
  if (outcome instanceof Problem) return cellError(outcome, choice);
  if (outcome instanceof Phrase) return worded(outcome, choice);
  return outcome ?? "";
}

/** The name of a quantity with its unit in this workbook, as a column is headed. */
export function heading(name: QuantityName, choice: UnitChoice): string {
  const record = quantity(name);
  if (!isNumber(record)) return labelOf(name);
  const chosen = record.measure && chosenUnit(choice, record.measure);
  const unit = chosen ? (showsItself(chosen) ? "" : chosen.symbol) : record.unit;
  return unit ? `${labelOf(name)}, ${unit}` : labelOf(name);
}
