/**
 * The units of a workbook: which choices there are, how they are kept in the file as one short text, and what they are called.
 * Kept in the file as the custom document property `unitsProperty`, which Excel and the browser sheet both read and write.
 */
import { units, unitsOf, type MeasureName, type Unit, type UnitName } from "../../shared/units";

/** The choices a workbook offers, by measure; the first is the default. A measure's unit names are those of units.ts. */
export const unitChoices = {
  percent: ["number", "cell"],
  mass: ["g", "oz"],
  time: ["s", "clock"],
  temperature: ["C", "F"],
  pressure: ["bar", "psi", "kPa"],
  volume: ["mL", "floz"],
  watervolume: ["L", "gal"],
  hardness: ["ppm", "dH", "fH", "e", "gpg", "mmol/L", "meq/L"],
  alkalinity: ["ppm", "dH", "fH", "e", "gpg", "mmol/L", "meq/L"],
} as const satisfies { readonly [M in MeasureName]: readonly UnitName<M>[] };

export type UnitChoice = { readonly [M in MeasureName]: (typeof unitChoices)[M][number] };

export const measureNames = Object.keys(units) as MeasureName[];

/** What a person reads for a measure. */
export const measureLabels: { readonly [M in MeasureName]: string } = {
  percent: "Percentages",
  mass: "Masses",
  time: "Shot times",
  temperature: "Temperatures",
  pressure: "Pressures",
  volume: "Beverage volumes",
  watervolume: "Water volumes",
  hardness: "Hardness",
  alkalinity: "Alkalinity",
};

/** What a person reads for a unit: its symbol, and an example where the symbol alone would not do. */
export function unitLabel(measure: MeasureName, unit: string): string {
  if (measure === "percent") return unit === "cell" ? "percent cells: 9.5 % is 0.095 in the cell" : "numbers: 9.5 means 9.5 %";
  if (measure === "time") return unit === "clock" ? "clock cells: 27 s is typed 0:00:27" : "s: 27 means 27 seconds";
  return unitOf(measure, unit).symbol;
}

export const defaultUnits = Object.fromEntries(measureNames.map((measure) => [measure, unitChoices[measure][0]])) as unknown as UnitChoice;

/** The name of the document property that carries the choice. */
export const unitsProperty = "Pucksheet units";

const version = 1;

/** The choice as the file keeps it: the version, then every measure that is not at its default, as in "1 mass=oz time=clock". */
export function unitsToText(choice: UnitChoice): string {
  const changed = measureNames.filter((measure) => choice[measure] !== defaultUnits[measure]);
  return [String(version), ...changed.map((measure) => `${measure}=${choice[measure]}`)].join(" ");
}

/**
 * Reads the choice back. A text that cannot be read, or one written by a newer version, gives the defaults
 * and a note that says so; no text at all is a workbook that has never chosen.
 */
export function unitsFromText(text: string | null | undefined): { choice: UnitChoice; note?: string } {
  if (text == null || text.trim() === "") return { choice: defaultUnits };
  const [written, ...entries] = text.trim().split(/\s+/);
  if (/^\d+$/.test(written!) && Number(written) > version) {
    return { choice: defaultUnits, note: `The unit settings in this file were written by a newer version of Pucksheet (“${text}”), so the default units are used.` };
  }
  const choice: Record<string, string> = { ...defaultUnits };
  let readable = written === String(version);
  for (const entry of entries) {
    const [measure = "", unit = ""] = entry.split("=");
    if (isUnitChoice(measure, unit)) choice[measure] = unit;
    else readable = false;
  }
  if (!readable) return { choice: defaultUnits, note: `The unit settings in this file cannot be read (“${text}”), so the default units are used.` };
  return { choice: choice as UnitChoice };
}

export function isUnitChoice(measure: string, unit: string): measure is MeasureName {
  return measure in unitChoices && (unitChoices[measure as MeasureName] as readonly string[]).includes(unit);
}

/** The unit that a workbook with this choice uses for a measure. */
export function chosenUnit(choice: UnitChoice, measure: MeasureName): Unit {
  return unitOf(measure, choice[measure]);
}

function unitOf(measure: MeasureName, unit: string): Unit {
  return unitsOf(measure)[unit]!;
}
