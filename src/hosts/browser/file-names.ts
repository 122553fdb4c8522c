/** Names of the files that this page saves. */

/** A name for a copy that is never the name of the file itself: "log.xlsx" gives "log (Pucksheet copy).xlsx", that one "log (Pucksheet copy 2).xlsx". */
export function copyName(name: string, extension: "xlsx" | "csv"): string {
  const base = name.replace(/\.[^.]*$/, "");
  const [, original = base, number] = /^(.*) \(Pucksheet copy(?: (\d+))?\)$/.exec(base) ?? [];
  const isCopy = original !== base;
  return `${original} (Pucksheet copy${isCopy ? ` ${Number(number ?? 1) + 1}` : ""}).${extension}`;
}
