/** Names of the files that this page saves. */

/**
 * A name for a copy that is never the name of the file itself: "log.xlsx" gives "log (Pucksheet copy).xlsx", that one "log (Pucksheet copy 2).xlsx".
 * A copy with plain values gives "log (Pucksheet values).xlsx".
 */
export function copyName(name: string, extension: "xlsx" | "xlsm" | "csv", kind: "copy" | "values" = "copy"): string {
  const base = name.replace(/\.[^.]*$/, "");
  const [, original = base, earlier, number = "1"] = /^(.*) \(Pucksheet (copy|values)(?: (\d+))?\)$/.exec(base) ?? [];
  return `${original} (Pucksheet ${kind}${earlier === kind ? ` ${Number(number) + 1}` : ""}).${extension}`;
}

/** A name for the .xlsx file of a workbook that came from no such file: "Monday" gives "Monday.xlsx". */
export function plainName(name: string): string {
  return /\.xls[xm]$/i.test(name) ? name : `${name.replace(/\.(csv|tsv|txt)$/i, "")}.xlsx`;
}
