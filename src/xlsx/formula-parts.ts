/** Formulas in parts, of which those that say where a reference lies may name several sheets and other workbooks. */
import { partsOf, type Part } from "../sheet/formula-text";
import { sheetOfPrefix, sheetPrefix } from "../sheet/references";

/**
 * The parts of a formula, in which whatever says where a reference lies is one part of the kind "sheet": also First:Last! for several sheets,
 * and [1]Sheet1! and [1]! for another workbook.
 */
export function formulaParts(formula: string): Part[] {
  const parts: Part[] = [];
  for (const part of partsOf(formula)) {
    parts.push(part);
    if (part.kind === "sheet" || (part.text === "!" && parts.at(-2)?.kind === "structured")) joinPrefix(parts);
  }
  return parts;
}

/** Joins to the last part what belongs before it. */
function joinPrefix(parts: Part[]): void {
  let start = parts.length - 1;
  const first = parts[start - 2];
  if (parts[start - 1]?.text === ":" && (first?.kind === "name" || first?.kind === "reference") && parts[start - 3]?.kind !== "sheet") start -= 2;
  if (parts[start - 1]?.kind === "structured" && parts[start - 2]?.kind !== "name") start--;
  const text = parts.slice(start).map((part) => part.text).join("");
  parts.splice(start, parts.length - start, { kind: "sheet", text });
}

/** Whether a part that says where a reference lies names another workbook. */
export function isOtherWorkbook(prefix: string): boolean {
  return prefix.includes("[");
}

/** Whether it names several sheets. */
export function isSpan(prefix: string): boolean {
  return sheetOfPrefix(prefix).includes(":");
}

/** The first and last of several sheets as a formula spells them before a reference; or one sheet. */
export function sheetsPrefix(sheets: readonly string[]): string {
  const prefixes = sheets.map(sheetPrefix);
  if (prefixes.length === 1) return prefixes[0]!;
  return prefixes.some((prefix) => prefix.startsWith("'")) ? `'${sheets.join(":").replaceAll("'", "''")}'!` : `${sheets.join(":")}!`;
}
