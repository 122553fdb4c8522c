/** A sheet as data: what stands where, what it is for, and how it is to look, for every host that can show a sheet. */

/**
 * What a cell is for; each host has one look for each. title: the name of the sheet or of a block. note: words for the reader.
 * group: stands over several headings. heading: over a column. label: names the cell beside it. input: a person types here.
 * result: a formula's.
 */
export type CellRole = "title" | "note" | "group" | "heading" | "label" | "input" | "result";

export interface DescribedCell {
  readonly role: CellRole;
  readonly value?: number | string | boolean;
  /** Without "=". */
  readonly formula?: string;
  /** A number format code. */
  readonly format?: string;
}

export interface DescribedColumn {
  readonly heading: string;
  readonly role: "input" | "result";
  readonly format?: string;
  /** The values from the first row down, or a formula as it reads in the first row, filled down. */
  readonly values?: readonly (number | string | undefined)[];
  readonly formula?: string;
}

/** Headings with rows under them. */
export interface DescribedTable {
  /** A name that formulas may use: letters, digits and underscores. */
  readonly name: string;
  /** The address of its first heading. */
  readonly at: string;
  readonly rows: number;
  readonly columns: readonly DescribedColumn[];
}

export interface SheetDescription {
  readonly name: string;
  /** What the sheet is for, in a sentence. */
  readonly purpose: string;
  /** Widths of the columns from A, in characters. */
  readonly widths: readonly number[];
  /** How many rows from the top stay in sight. */
  readonly frozenRows?: number;
  /** Cells by address. */
  readonly cells: Readonly<Record<string, DescribedCell>>;
  readonly tables: readonly DescribedTable[];
}
