/** Which column of a log file is the dose, the beverage, the shot time, the strength, the setting and the café, by the words in its heading row. */
import { badInput, Problem } from "../../shared/problem";
import { units } from "../../shared/units";

export const fields = ["dose", "beverage", "time", "strength", "setting", "cafe"] as const;
export type Field = (typeof fields)[number];

/** Columns named by whoever opens the log: a heading, or the number of a column from 1. */
export type ChosenColumns = Readonly<Partial<Record<Field, string>>>;

/** The heading row is among so many first rows. */
export const mostRowsAboveHeading = 30;

export interface Column {
  /** From 0. */
  readonly index: number;
  readonly heading: string;
  /** Size of the unit that the heading names, in the canonical unit. */
  readonly bareUnit: number;
}

export type LogColumns = Readonly<Partial<Record<Field, Column>>>;

/** Headings as bars write them, in the languages of a spreadsheet's users, the surest first. Common practice, no source. */
const headings: Readonly<Record<Field, readonly string[]>> = {
  dose: ["dose", "dose in", "coffee dose", "dry dose", "dry coffee", "coffee in", "coffee", "grounds", "in", "mass in", "weight in", "dosis", "einwaage", "dosi"],
  beverage: [
    "beverage", "beverage mass", "beverage weight", "beverage out", "drink", "drink mass", "shot mass", "shot weight", "output", "out", "mass out", "weight out",
    "coffee out", "liquid out", "in cup", "cup", "yield", "yield out", "getränk", "auslauf", "boisson", "bevanda", "bebida",
  ],
  time: [
    "shot time", "brew time", "extraction time", "total time", "seconds", "duration", "time", "sec", "secs", "bezugszeit", "zeit", "dauer", "temps", "tempo", "tiempo",
  ],
  strength: ["strength", "tds", "concentration", "strength tds", "tds strength", "stärke", "concentración", "concentrazione"],
  setting: ["setting", "grind setting", "grinder setting", "grind", "grind size", "pressure", "brew pressure", "recipe", "mahlgrad", "mouture", "macinatura", "molienda"],
  cafe: ["café", "cafe", "coffee shop", "shop", "site", "store", "branch", "location", "outlet", "filiale", "standort", "magasin", "negozio", "tienda"],
};

const sizes: Readonly<Partial<Record<Field, readonly (readonly [RegExp, number])[]>>> = {
  dose: [[/^(?:g|gr|grams?|gramm)$/, 1], [/^(?:oz|ounces?)$/, units.mass.oz.size], [/^kg$/, 1000]],
  beverage: [[/^(?:g|gr|grams?|gramm)$/, 1], [/^(?:oz|ounces?)$/, units.mass.oz.size], [/^kg$/, 1000]],
  time: [[/^(?:s|secs?|seconds?|sek|sekunden)$/, 1], [/^(?:min|mins|minutes?|minuten)$/, 60]],
  strength: [[/^(?:%|percent|pct|prozent)$/, 1]],
};

/** The columns of a heading row; undefined where it names fewer than two of dose, beverage, time and strength. */
export function columnsOf(row: readonly string[], chosen: ChosenColumns): LogColumns | undefined {
  const columns: Partial<Record<Field, Column>> = {};
  for (const field of fields) {
    const found = chosen[field] === undefined ? byWords(row, field) : byChoice(row, field, chosen[field]);
    if (found) columns[field] = found;
  }
  const named = fields.filter((field) => !isName(field) && columns[field]).length;
  const missing = fields.some((field) => chosen[field] !== undefined && !columns[field]);
  return named >= 2 && !missing ? columns : undefined;
}

/** Whether the column holds names instead of numbers of the shot. */
function isName(field: Field): boolean {
  return field === "setting" || field === "cafe";
}

/** Refuses a log in which one column would be read as two things. */
export function requireOneUse(columns: LogColumns): void {
  for (const field of fields) {
    const other = fields.find((it) => it !== field && columns[field] && columns[it]?.index === columns[field].index);
    if (other) badInput(`Column ${columns[field]!.index + 1} cannot be both ${field} and ${other}.`);
  }
}

function byWords(row: readonly string[], field: Field): Column | undefined {
  const parts = row.map((heading) => partsOf(heading, field));
  for (const name of headings[field]) {
    const matches = parts.flatMap((part, index) => (part?.name === name ? [{ index, heading: row[index]!.trim(), bareUnit: part.bareUnit }] : []));
    if (matches.length > 1) {
      throw new Problem("bad input", `Columns ${matches.map(({ index }) => index + 1).join(" and ")} are both headed “${name}”. Say which is the ${field}, as in --${field} ${matches[0]!.index + 1}.`);
    }
    if (matches[0]) return matches[0];
  }
  return undefined;
}

function byChoice(row: readonly string[], field: Field, choice: string): Column | undefined {
  const plain = (text: string): string => text.trim().toLowerCase();
  const byHeading = row.findIndex((heading) => plain(heading) === plain(choice));
  const index = byHeading >= 0 ? byHeading : /^\d+$/.test(choice) ? Number(choice) - 1 : -1;
  if (index < 0 || index >= row.length) return undefined;
  return { index, heading: row[index]!.trim(), bareUnit: partsOf(row[index]!, field)?.bareUnit ?? 1 };
}

/** The words of a heading without its unit; undefined where the unit is that of something else, as in “yield %”. */
function partsOf(heading: string, field: Field): { name: string; bareUnit: number } | undefined {
  const words = heading.toLowerCase().normalize("NFC").split(/[^\p{L}\p{N}%]+/u).filter((word) => word !== "");
  const unit = words[words.length - 1];
  if (unit === undefined) return undefined;
  if (words.length === 1 || !/^(?:%|percent|pct|prozent|g|gr|grams?|gramm|oz|ounces?|kg|ml|s|secs?|seconds?|sek|sekunden|min|mins|minutes?|minuten|bar|psi)$/.test(unit)) {
    return { name: words.join(" "), bareUnit: 1 };
  }
  const name = words.slice(0, -1).join(" ");
  if (isName(field)) return { name, bareUnit: 1 };
  const size = sizes[field]!.find(([pattern]) => pattern.test(unit))?.[1];
  return size === undefined ? undefined : { name, bareUnit: size };
}
