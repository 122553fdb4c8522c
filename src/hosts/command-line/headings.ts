/** What stands over the columns of the results; by it they are told from logs when they lie beside them. */
import { fields } from "../../log-file/columns";

export const findingHeadings = ["file", "sheet", "line", ...fields, "finding"] as const;

export const summaryHeadings = [
  "rows", "café", "setting", "shots",
  "ratio mean", "ratio SD", "time mean, s", "time SD, s", "strength mean, %", "strength SD, %", "extraction mean, %", "extraction SD, %",
] as const;

export function isResult(row: readonly string[]): boolean {
  return [findingHeadings, summaryHeadings].some((headings) => headings.length === row.length && headings.every((heading, index) => row[index] === heading));
}
