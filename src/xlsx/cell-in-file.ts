/** A cell as a worksheet's part has it: where it stands and what it holds. */
import { columnIndex, mostColumns, mostRows } from "../sheet/references";
import { inWords } from "./limits";
import type { Styles } from "./read-styles";
import type { CellValue } from "./workbook";
import { unescapedCellText } from "./xml";

/** The row, from 0, of a row's own number, if it has one, and the row before. `refuse` is told what is beyond Excel. */
export function rowInFile(own: string | undefined, before: number, refuse: (what: string) => never): number {
  const row = own === undefined ? before + 1 : Number(own) - 1;
  if (!Number.isInteger(row) || row < 0) refuse(`a row with the number “${own}”`);
  if (row >= mostRows) refuse(`a row with the number ${inWords(row + 1)}, and a sheet has ${inWords(mostRows)}`);
  return row;
}

interface Place {
  readonly row: number;
  readonly column: number;
}

/** Where a cell stands by its own name, if it has one, and by the cell before in its row. */
export function placeInFile(own: string | undefined, before: Place, refuse: (what: string) => never): Place {
  let [row, column] = [before.row, before.column + 1];
  if (own !== undefined) {
    const [, letters, number] = /^\$?([A-Za-z]{1,7})\$?(\d{1,9})$/.exec(own) ?? [];
    if (letters === undefined) refuse(`a cell that calls itself “${own}”`);
    column = columnIndex(letters!);
    row = Number(number) - 1;
  }
  if (column >= mostColumns || row >= mostRows) {
    refuse(`the cell ${own ?? inWords(column + 1)}, and a sheet has ${inWords(mostRows)} rows and ${inWords(mostColumns)} columns`);
  }
  return { row: Math.max(0, row), column };
}

/** The attributes and the inside of a cell. */
export interface CellInFile {
  readonly type: string;
  readonly style: number;
  readonly value?: string;
  readonly inline?: string;
}

export interface ValueContext {
  /** Dates are counted from 1904, in the file; here from 1900, as everywhere. */
  readonly from1904: boolean;
  readonly styles: Styles;
  /** The text that stands in a part of its own under this number. */
  text(number: string): string;
  /** Told of what is written as a number and is none. */
  isNoNumber(text: string): void;
}

/** Days by which a date is counted further from 1900 than from 1904. */
export const daysTo1904 = 1462;

export function valueInFile({ type, value, inline, style }: CellInFile, context: ValueContext): CellValue | undefined {
  switch (type) {
    case "s":
      // Without a number it is no text, not the first one.
      return value === undefined || value.trim() === "" ? undefined : context.text(value);
    case "inlineStr":
      return unescapedCellText(inline ?? value ?? "");
    case "str":
      return value === undefined ? undefined : unescapedCellText(value);
  }
  const text = value?.trim() ?? "";
  if (text === "") return undefined;
  if (type === "b") return text === "1" || text === "true";
  if (type === "e") return { error: text };
  const number = type === "d" ? dateInFile(text) : Number(text);
  if (!Number.isFinite(number)) {
    if (type === "d") return text;
    context.isNoNumber(text);
    return { error: "#NUM!" };
  }
  return context.from1904 && type !== "d" && context.styles.isDate(style) ? number + daysTo1904 : number;
}

/** A date in ISO 8601 as days since the end of 1899; without a zone it is meant as it stands. */
function dateInFile(text: string): number {
  const zoned = /(Z|[+-]\d\d:\d\d)$/.test(text) ? text : text.includes("T") ? `${text}Z` : `${text}T00:00Z`;
  return (Date.parse(zoned) - Date.UTC(1899, 11, 30)) / 86_400_000;
}
