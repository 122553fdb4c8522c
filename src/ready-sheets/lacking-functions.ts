/** What a ready sheet says in a program that does not have the functions it needs. */
import { isFunctionName, partsOf } from "../sheet/formula-text";
import { spelled } from "../sheet/spelling";
import { call, firstOf, quoted } from "./formulas";

/** Functions of later programs, each with a call that has an answer wherever it is known. Everything else is in every spreadsheet program of today. */
const later: Readonly<Record<string, string>> = {
  FILTER: "FILTER(1,TRUE)",
  SEQUENCE: "SEQUENCE(1)",
  TEXTJOIN: 'TEXTJOIN("",TRUE,"a")',
  UNIQUE: "UNIQUE(1)",
};

/** A formula that says which function of these formulas is not known, and what to do; "" where all are. */
export function lackingFunction(formulas: readonly string[]): string {
  const used = new Set(formulas.flatMap(functionsOf));
  const probes = Object.entries(later).filter(([name]) => used.has(name));
  return firstOf(
    [
      [`ISERROR(${call("VERSION")})`, quoted("Pucksheet’s functions are not here: open this in Excel with the add-in, or in the browser sheet.")],
      ...probes.map(([name, probe]) => [`ISERROR(${probe})`, quoted(`This program lacks ${name}: open this in Microsoft 365, or in the browser sheet.`)] as const),
    ],
    '""',
  );
}

export function swallowsErrors(formula: string): boolean {
  return functionsOf(formula).some((name) => name === "IFERROR" || name === "ISERROR" || name === "ISNUMBER");
}

function functionsOf(formula: string): string[] {
  const parts = partsOf(formula);
  return parts.flatMap(({ text }, index) => (isFunctionName(parts, index) && !text.startsWith(spelled("")) ? [text.toUpperCase()] : []));
}
