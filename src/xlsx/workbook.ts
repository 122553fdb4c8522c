/**
 * A workbook as this page holds it between the grid and a file: what is read from a file, shown, edited and written.
 * Rows and columns count from 0. Formulas are as a person types them, without the leading "=".
 */
import type { Area } from "../sheet/references";

export type { Area };

/** The value of an error cell, as in { error: "#N/A" }. */
export interface CellErrorValue {
  readonly error: string;
}

export type CellValue = number | string | boolean | CellErrorValue;

export interface Cell {
  /** A typed value, or the last result of the formula. */
  value?: CellValue;
  formula?: string;
  /** How many rows and columns the result of the formula fills, where that is more than the cell itself. */
  spill?: { rows: number; columns: number };
  /** The formula was entered over exactly the cells of `spill` (or its own one), which it fills whatever its shape: Excel shows it in braces. */
  fixedArea?: true;
  /** The value comes from a formula in another cell. */
  spilled?: true;
  /** Why this page does not calculate the formula, as a sentence. The value is the one in the file, and stays. */
  kept?: string;
  style?: CellStyle;
}

export type BorderLine = "thin" | "medium" | "thick" | "double" | "dashed" | "dotted" | "hair";

/** Colours are "#rrggbb". */
export interface CellStyle {
  bold?: boolean;
  italic?: boolean;
  underline?: boolean;
  strike?: boolean;
  font?: string;
  /** Points. */
  size?: number;
  color?: string;
  fill?: string;
  /** A number format code, as in "0.00". */
  format?: string;
  horizontal?: "left" | "center" | "right";
  vertical?: "top" | "middle" | "bottom";
  wrap?: boolean;
  borders?: { [side in "top" | "right" | "bottom" | "left"]?: { line: BorderLine; color?: string } };
}

export interface Table {
  name: string;
  /** Headings and rows, without a row of totals. */
  area: Area;
  columns: string[];
  /** The row below the area holds totals. Its cells are cells like others. */
  totals?: true;
  /** The first row of the area is one of data: the headings are not shown, and stand only in `columns`. */
  headless?: true;
  /** The cells have a look of their own, so the table adds none. */
  plain?: true;
}

/** What of a column stays in sight: cells that read like one of the values, or that meet one of the conditions. */
export interface FilterColumn {
  /** Of the sheet. */
  readonly column: number;
  readonly values?: readonly string[];
  /** Blank cells stay in sight along with the values. */
  readonly blanks?: true;
  /** Operators as in a file, such as "greaterThan"; without one, equal to the value, in which * and ? stand for others. */
  readonly conditions?: readonly { readonly operator?: string; readonly value: string }[];
  /** Every condition has to be met. */
  readonly all?: true;
}

/** Rows of an area are left out of sight; they are hidden rows besides. */
export interface Filter {
  /** With its headings. */
  area: Area;
  columns: FilterColumn[];
}

export interface Sheet {
  name: string;
  /** cells[row][column]; rows and cells may be missing. */
  cells: (Cell | undefined)[][];
  /** Widths in characters, as a file counts them. */
  columns: ({ width?: number; hidden?: boolean } | undefined)[];
  /** Heights in points. */
  rows: ({ height?: number; hidden?: boolean } | undefined)[];
  /** Of the columns and rows that have none of their own, in characters and points. */
  defaultWidth?: number;
  defaultHeight?: number;
  merges: Area[];
  tables: Table[];
  /** Its own or that of one of its tables. */
  filter?: Filter;
  frozen?: { rows: number; columns: number };
  gridlines?: boolean;
  hidden?: boolean;
}

/** A name for cells, a constant or a formula, with what it stands for as a formula without "=". */
export interface DefinedName {
  name: string;
  refersTo: string;
  /** The sheet on which alone it is known, where it is not known in the whole workbook. */
  sheet?: string;
  /** Not in the lists that a program shows, but formulas use it. */
  hidden?: true;
}

export interface Workbook {
  sheets: Sheet[];
  names: DefinedName[];
  /** The text of the document property that carries the units. */
  units?: string;
}

export function emptySheet(name: string): Sheet {
  return { name, cells: [], columns: [], rows: [], merges: [], tables: [] };
}

export function putCell(sheet: Sheet, row: number, column: number, cell: Cell): void {
  (sheet.cells[row] ??= [])[column] = cell;
}

export function isErrorValue(value: CellValue | undefined): value is CellErrorValue {
  return typeof value === "object";
}

/** Every cell that holds something, with its place. */
export function* cellsOf(sheet: Sheet): Generator<{ row: number; column: number; cell: Cell }> {
  for (const [row, line] of sheet.cells.entries()) {
    if (!line) continue;
    for (const [column, cell] of line.entries()) if (cell) yield { row, column, cell };
  }
}
