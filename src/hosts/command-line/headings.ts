/** What stands over the columns of the results; by it they are told from logs when they lie beside them. */
import { closeSync, openSync, readSync } from "node:fs";
import { basename } from "node:path";
import { fields } from "../../log-file/columns";
import { csvLines, utf8Mark } from "../../log-file/csv-writing";
import { separators } from "./arguments";

export const findingHeadings = ["file", "sheet", "line", ...fields.map((field) => (field === "cafe" ? "café" : field)), "finding"] as const;

export const summaryHeadings = [
  "rows", "café", "setting", "shots",
  "ratio mean", "ratio SD", "time mean, s", "time SD, s", "strength mean, %", "strength SD, %", "extraction mean, %", "extraction SD, %",
] as const;

/** Whether a file is a result of an earlier run. */
export function isResult(path: string): boolean {
  if (/(?:^|-)report\.xlsx$/.test(basename(path))) return true;
  const beginnings = [findingHeadings, summaryHeadings].flatMap((headings) => separators.map((separator) => `${utf8Mark}${csvLines([headings], separator)}`));
  const bytes = new Uint8Array(500);
  const file = openSync(path, "r");
  const length = readSync(file, bytes);
  closeSync(file);
  const begins = new TextDecoder("utf-8", { ignoreBOM: true }).decode(bytes.subarray(0, length));
  return beginnings.some((beginning) => begins.startsWith(beginning));
}
