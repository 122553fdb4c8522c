/** Which formulas of a file this page does not calculate, and why: they keep the value that the file holds. */
import { isFunctionName, type Part } from "../sheet/formula-text";
import { areaOf, sheetOfPrefix } from "../sheet/references";
import { nameFromFile, type FunctionNames } from "./formula-in-file";
import { cutsARange } from "./range-operands";
import type { FormulaInFile } from "./read-sheet";
import { formulaParts, isOtherWorkbook, isSpan } from "./formula-parts";

/** What a formula may refer to, by names in capitals. */
export interface Surroundings {
  readonly ours: FunctionNames;
  knowsFunction(name: string): boolean;
  /** Names that this page cannot work out, with the reason. */
  readonly unusableNames: ReadonlyMap<string, string>;
  /** Names that stand for more than a cell. */
  readonly wideNames: ReadonlySet<string>;
  readonly headlessTables: ReadonlySet<string>;
  /** Tables with a row of totals, which this page does not count as part of them. */
  readonly totalled: ReadonlySet<string>;
  readonly from1904: boolean;
  /** Whether an area of a sheet holds a date; undefined for the sheet is the formula's own. */
  holdsDate(sheet: string | undefined, reference: string): boolean;
}

/** A clause that completes "because …", or undefined where the formula is calculated. `text` is as the file spells it. */
export function reasonToKeep(text: string, kind: FormulaInFile["kind"], fills: number, isDate: boolean, around: Surroundings): string | undefined {
  const parts = formulaParts(text);
  const callsOurs = parts.some((part, index) => part.kind === "name" && isFunctionName(parts, index) && around.ours.has(functionName(part.text, around.ours)));
  return (
    reasonInParts(parts, around) ??
    (around.from1904 ? dateReason(parts, isDate, around) : undefined) ??
    (kind === "fixed array" && fills > 1 && !callsOurs ? "it does not calculate array formulas that were entered over a fixed area" : undefined) ??
    (kind === "plain" && !callsOurs && cutsARange(parts, (name) => around.wideNames.has(name.toUpperCase()))
      ? "it does not take from a range the one cell in the formula’s own row or column, as the formula asks (@ in Excel)"
      : undefined)
  );
}

/** The reasons that lie in a formula alone, wherever it stands; for names too. */
export function reasonInParts(parts: readonly Part[], around: Pick<Surroundings, "ours" | "knowsFunction" | "unusableNames" | "headlessTables" | "totalled">): string | undefined {
  for (const [index, { kind, text }] of parts.entries()) {
    if (kind === "sheet" && isOtherWorkbook(text)) return "it does not follow links to other workbooks";
    if (kind === "sheet" && isSpan(text)) return "it does not calculate over several sheets at once";
    if (kind !== "name" || /^_xlpm\./i.test(text)) continue;
    const following = parts[index + 1];
    const upper = text.toUpperCase();
    if (isFunctionName(parts, index)) {
      const name = functionName(text, around.ours);
      if (!around.ours.has(name) && !around.knowsFunction(name)) return `it does not have the function ${name}`;
      // The engine reads what such a reference leads to before that is calculated, where it is a formula itself.
      if (name === "INDIRECT") return "it does not follow the references that INDIRECT makes out of text";
    } else if (following?.kind === "structured") {
      if (around.headlessTables.has(upper)) return `the table ${text} has no row of headings`;
      if (around.totalled.has(upper) && /#(?:Totals|All)\b/i.test(following.text)) return `it does not read the totals of the table ${text}`;
    } else if (around.unusableNames.has(upper)) {
      return `of the name ${text}: ${around.unusableNames.get(upper)!}`;
    } else if (around.headlessTables.has(upper)) return `the table ${text} has no row of headings`;
  }
  return undefined;
}

function functionName(text: string, ours: FunctionNames): string {
  return nameFromFile(text, ours).toUpperCase();
}

/** Functions that count days from the start of a calendar. */
const calendar = new Set(
  `DATE DATEVALUE DAY MONTH YEAR WEEKDAY WEEKNUM ISOWEEKNUM TODAY NOW EDATE EOMONTH NETWORKDAYS NETWORKDAYS.INTL WORKDAY WORKDAY.INTL TEXT
  YEARFRAC DATEDIF DAYS DAYS360`.split(/\s+/),
);

function dateReason(parts: readonly Part[], isDate: boolean, around: Surroundings): string | undefined {
  const reason = "the workbook counts its days from 1904, and this page from 1900";
  if (isDate) return reason;
  for (const [index, { kind, text }] of parts.entries()) {
    if (kind === "name" && isFunctionName(parts, index) && calendar.has(text.toUpperCase().replace(/^_XLFN\./, ""))) return reason;
    // Of a table or a name nothing more is looked up: they are taken to hold dates.
    if (kind === "structured" || (kind === "name" && !isFunctionName(parts, index) && !/^(?:TRUE|FALSE)$/i.test(text))) return reason;
    if (kind !== "reference" || parts[index - 1]?.text === ":") continue;
    const sheet = parts[index - 1]?.kind === "sheet" ? sheetOfPrefix(parts[index - 1]!.text) : undefined;
    const reference = parts[index + 1]?.text === ":" ? `${text}:${parts[index + 2]?.text ?? ""}` : text;
    if (areaOf(reference) && around.holdsDate(sheet, reference)) return reason;
  }
  return undefined;
}
