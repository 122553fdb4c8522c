/** The text of every .csv that is written here. */
import Papa from "papaparse";

/**
 * Texts that a spreadsheet would take for a formula when it opens the file: those that begin with = + - @, a tab or a line end. An
 * apostrophe before them keeps them texts. A number with its sign is none of them, nor is a sign that stands for "none".
 */
const formulaLike = /^[=@\t\r\n](?=.)|^[+-](?!$|(?:\d[\d.,]*|[.,]\d+)(?:e[+-]?\d+)?%?$)/is;

/** Rows of cells as lines, each with its end. Cells with the separator, quotes or line ends are quoted. */
export function csvLines(rows: readonly (readonly string[])[], separator: string): string {
  if (rows.length === 0) return "";
  return `${Papa.unparse(rows as string[][], { delimiter: separator, newline: "\r\n", escapeFormulae: formulaLike })}\r\n`;
}

/** With this mark at the start of a file, spreadsheets read its letters as UTF-8. */
export const utf8Mark = "\ufeff";
