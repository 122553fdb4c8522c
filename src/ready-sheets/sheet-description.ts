/** A sheet as data: what stands where, what it is for, and how it is to look, for every host that can show a sheet. */
import type { MeasureName } from "../../shared/units";

/**
 * What a cell is for; each host has one look for each. title: the name of the sheet. note: words for the reader.
 * group: stands over several headings. heading: over a column of numbers. text heading: over one of words. label: names the cell beside it. unit: of the numbers beside or below.
 * input: a person types here. result: a formula's. finding: what looks wrong. entry: a line of a list, which may take two. working: what only charts and other cells need.
 * decision: what to do, the first thing to read. reason: how sure that is, and what comes next. verdict: a sentence to act on further down. footnote: the method behind it.
 */
export type CellRole =
  | "title" | "note" | "group" | "heading" | "text heading" | "label" | "unit" | "input" | "result" | "finding" | "entry" | "working" | "decision" | "large" | "reason" | "verdict" | "footnote";

/** What may be typed: numbers within limits, in the unit of the cell, or one of a list. */
export interface Allowed {
  readonly least?: number;
  readonly most?: number;
  readonly whole?: true;
  readonly choices?: readonly string[];
  /** What a person reads when something else is typed. */
  readonly words: string;
}

export interface DescribedCell {
  readonly role: CellRole;
  readonly value?: number | string | boolean;
  /** Without "=". */
  readonly formula?: string;
  /** A number format code. */
  readonly format?: string;
  /** A name for formulas, as in "ShotLog_dose". */
  readonly name?: string;
  /** What the number measures, where a workbook may choose the unit. */
  readonly measure?: MeasureName;
  /** Its unit, where that is fixed. */
  readonly unit?: string;
  /** The number is a difference, so a unit's zero point does not count. */
  readonly difference?: true;
  readonly allowed?: Allowed;
}

/** A formula whose result fills the cells beside and below it. */
export interface DescribedSpill {
  readonly formula: string;
  /** How many rows get the look of a result; what exceeds them is shown all the same. */
  readonly rows: number;
  /** A number format for each column that it fills. */
  readonly formats: readonly (string | undefined)[];
  /** The first row of the result is headings. */
  readonly headings?: true;
  readonly role: "result" | "finding" | "working";
}

export interface DescribedColumn {
  readonly heading: string;
  readonly role: "input" | "result";
  /** The column holds words rather than numbers. */
  readonly words?: true;
  readonly format?: string;
  /** The values from the first row down, or a formula as it reads in the first row, filled down. */
  readonly values?: readonly (number | string | undefined)[];
  readonly formula?: string;
  readonly measure?: MeasureName;
  readonly unit?: string;
  readonly allowed?: Allowed;
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

/**
 * How a series is drawn. points: a mark for each. line: straight from point to point. marked line: both. dashed: a limit.
 * segments: each row of x and of y is a line of its own. band: x and y run in a zigzag from one edge to the other, two points for each x.
 * target: one mark that stands out.
 */
export type SeriesLook = "points" | "line" | "marked line" | "dashed" | "segments" | "band" | "target" | "alarm";

/** x and y are addresses on the same sheet. Errors, texts and blanks are left out. */
export interface DescribedSeries {
  readonly name: string;
  readonly look: SeriesLook;
  readonly x: string;
  readonly y: string;
}

/** A chart over x and y, both numbers. Titles are addresses of cells, so that they follow the units. */
export interface DescribedChart {
  readonly title: string;
  readonly from: string;
  readonly to: string;
  readonly xTitle: string;
  readonly yTitle: string;
  /** Where the axis of y begins and ends in a file; by itself where left out. */
  readonly yEnds?: readonly [from: number, to: number];
  /** The address of a cell that says what the chart shows: its text alternative. */
  readonly words: string;
  readonly series: readonly DescribedSeries[];
}

export interface DescribedPrint {
  /** The part that is printed, one page wide. */
  readonly area: string;
  readonly landscape?: true;
  /** Also one page high. */
  readonly onePage?: true;
  /** Rows that every page repeats, as in "3:5". */
  readonly repeated?: string;
}

export interface SheetDescription {
  readonly name: string;
  /** What the sheet is for, in a sentence. */
  readonly purpose: string;
  /** Widths of the columns from A, in characters. */
  readonly widths: readonly number[];
  /** Columns out of sight, as in "X:AC": they hold what charts and other cells need. */
  readonly hidden?: string;
  /** Areas whose cells are one, for words that take room. */
  readonly merged?: readonly string[];
  /** How many rows from the top stay in sight. */
  readonly frozenRows?: number;
  /** Cells by address. */
  readonly cells: Readonly<Record<string, DescribedCell>>;
  readonly tables: readonly DescribedTable[];
  /** Formulas that fill several cells, by address. */
  readonly spills?: Readonly<Record<string, DescribedSpill>>;
  readonly charts?: readonly DescribedChart[];
  readonly print?: DescribedPrint;
}
