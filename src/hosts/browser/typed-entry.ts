/** What is typed as people type it where decimals have a comma: numbers, and formulas whose arguments stand apart by ";". */
import { joined, partsOf } from "../../sheet/formula-text";

/** Whether this language writes decimals with a comma. */
export function hasDecimalComma(language: string): boolean {
  return new Intl.NumberFormat(language).formatToParts(1.5).some(({ type, value }) => type === "decimal" && value === ",");
}

/** The number that a text with a decimal comma is, as in "18,2", "1.018,2" and "9,4 %"; undefined where it is none. */
export function numberWithComma(text: string): { readonly value: number; readonly percent: boolean } | undefined {
  const [, sign = "", whole = "", decimals = "", percent] = /^\s*([-+]?)(\d{1,3}(?:\.\d{3})+|\d+),(\d+)\s*(%?)\s*$/.exec(text) ?? [];
  if (whole === "") return undefined;
  const value = Number(`${sign}${whole.replaceAll(".", "")}.${decimals}`);
  return { value: percent ? value / 100 : value, percent: percent === "%" };
}

/** A formula with commas between its arguments. Where it holds ";" outside of texts and { }, its commas within numbers are decimal. */
export function withCommas(formula: string): string {
  const parts = partsOf(formula);
  let depth = 0;
  const outside = parts.map(({ kind, text }) => {
    if (kind === "other" && text === "{") depth++;
    const isOutside = depth === 0;
    if (kind === "other" && text === "}") depth--;
    return isOutside && kind === "other";
  });
  if (!parts.some(({ text }, index) => outside[index] && text === ";")) return formula;
  const isNumber = (index: number) => outside[index] === true && /^\d+$/.test(parts[index]?.text ?? "");
  return joined(
    parts.map((part, index) => {
      if (!outside[index]) return part;
      if (part.text === ";") return { ...part, text: "," };
      return part.text === "," && isNumber(index - 1) && isNumber(index + 1) ? { ...part, text: "." } : part;
    }),
  );
}
