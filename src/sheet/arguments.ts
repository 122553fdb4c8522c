/**
 * How each argument of a worksheet function is read. A bare range is read cell by cell and repeats to the size of the others;
 * everything else says so here. What a name alone does not say, such as a target that is a time, stands as the quantity.
 */
import type { QuantityName } from "../../shared/quantities";
import type { UnitChoice } from "./unit-choice";

/** A range as the host hands it over; null or undefined where the argument was left out. */
export type Cells = unknown[][] | null | undefined;

/** Read cell by cell. */
export interface CellArgument {
  readonly kind: "each";
  readonly cells: Cells;
  readonly quantity?: QuantityName;
  readonly optional?: true;
}

/** Read whole, once for the call. */
export interface WholeArgument {
  readonly kind: "list" | "gaps" | "optional list" | "columns" | "gap columns" | "own list" | "own gaps" | "own in order" | "optional own in order" | "in order" | "optional in order" | "columns in order" | "as typed" | "block" | "records";
  readonly cells: Cells;
  readonly quantity?: QuantityName;
  /** The quantities of the columns of "records". */
  readonly fields?: readonly QuantityName[];
}

/** No argument of the function, but something that its formula needs of the workbook. */
export interface Given {
  readonly kind: "given";
  readonly value: (choice: UnitChoice) => unknown;
}

export type Argument = CellArgument | WholeArgument | Given;

/** Cell by cell, as a bare range is. */
export function each(cells: Cells, quantity: QuantityName): CellArgument {
  return { kind: "each", cells, quantity };
}

/** Cell by cell; left out or blank, the formula's own default holds. */
export function optional(cells: Cells, quantity?: QuantityName): CellArgument {
  return { kind: "each", cells, optional: true, ...(quantity && { quantity }) };
}

type Whole = (cells: Cells, quantity?: QuantityName) => WholeArgument;
const whole = (kind: WholeArgument["kind"]): Whole => (cells, quantity) => ({ kind, cells, ...(quantity && { quantity }) });

/** A list with a value in every row that counts; a blank is refused with its place. Lists of one call are equally long. */
export const list: Whole = whole("list");

/** A list whose blanks leave their row out of all lists: a shot not pulled yet. */
export const gaps: Whole = whole("gaps");

/** A list like the others that may be left out altogether. */
export const optionalList: Whole = whole("optional list");

/** One column or several, with a row for each element of the lists. The formula sees an array of columns. */
export const columns: Whole = whole("columns");

/** Columns whose blanks stay, as null; a row that is blank in all of them is left out of all lists. */
export const gapColumns: Whole = whole("gap columns");

/** A list of a length of its own that may be left out; a blank inside is refused. */
export const ownList: Whole = whole("own list");

/** A list of a length of its own, without its blanks. */
export const ownGaps: Whole = whole("own gaps");

/** A list of a length of its own whose blanks stay, as null. */
export const ownInOrder: Whole = whole("own in order");

/** The same that may be left out altogether. */
export const optionalOwnInOrder: Whole = whole("optional own in order");

/** A list whose blanks stay, as null, so that its elements keep their places. */
export const inOrder: Whole = whole("in order");

/** A list whose blanks stay, like the others, that may be left out altogether. */
export const optionalInOrder: Whole = whole("optional in order");

/** Columns whose blanks stay, as null, with a row for each element of the lists in order. The formula sees an array of columns. */
export const columnsInOrder: Whole = whole("columns in order");

/** The cells of a log as they were typed, numbers in canonical units; a blank is null; an error is its code, and spoils its row of the result. */
export const asTyped: Whole = whole("as typed");

/** Rows and columns: tasters down, samples across. Those wholly blank are left out; a single blank is refused. */
export const block: Whole = whole("block");

/** Rows of several things side by side, each an object for the formula; may be left out. Blank rows are passed over, a blank field is null. */
export function records(cells: Cells, ...fields: readonly QuantityName[]): WholeArgument {
  return { kind: "records", cells, fields };
}

/** Something of the workbook, such as the unit of a bare number. */
export function given(value: (choice: UnitChoice) => unknown): Given {
  return { kind: "given", value };
}
