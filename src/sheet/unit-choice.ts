/**
 * The units of a workbook: which choices there are, how they are kept in the file as one short text, and what they are called.
 * Kept in the file as the custom document property `unitsProperty`, which Excel and the browser sheet both read and write.
 */
import { isNumber, quantity, type QuantityName } from "../../shared/quantities";
import { units, unitsOf, type ChosenUnitName, type MeasureName, type Unit } from "../../shared/units";

export type UnitChoice = { readonly [M in MeasureName]: ChosenUnitName<M> };

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

/** The choices a workbook offers for a measure; the first is the default. */
export function unitChoices(measure: MeasureName): string[] {
  return Object.entries(unitsOf(measure)).filter(([, unit]) => !unit.onlyConverts).map(([name]) => name);
}

/** What a person reads for a unit: its symbol, and an example where the symbol alone would not do. */
export function unitLabel(measure: MeasureName, unit: string): string {
  const { label, symbol } = unitOf(measure, unit);
  return label ?? symbol;
}

/** What stands beside a cell to be typed into. */
export function unitBeside(choice: UnitChoice, measure: MeasureName): string {
  const { typed, symbol } = chosenUnit(choice, measure);
  return typed ?? symbol;
}

/** Whether cells in this unit show it by their format, as 9.5% and 0:00:27 do. */
export function showsItself({ format }: Unit): boolean {
  return /[%:]/.test(format);
}

export const defaultUnits = Object.fromEntries(measureNames.map((measure) => [measure, unitChoices(measure)[0]])) as unknown as UnitChoice;

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
  return measure in units && unitChoices(measure as MeasureName).includes(unit);
}

/** The unit that a workbook with this choice uses for a measure. */
export function chosenUnit(choice: UnitChoice, measure: MeasureName): Unit {
  return unitOf(measure, choice[measure]);
}

function unitOf(measure: MeasureName, unit: string): Unit {
  return unitsOf(measure)[unit]!;
}

/** Canonical units in one of the workbook's unit of a quantity: what a bare number of it is multiplied by. */
export function sizeOfUnit(name: QuantityName): (choice: UnitChoice) => number {
  const record = quantity(name);
  return (choice) => (isNumber(record) && record.measure ? chosenUnit(choice, record.measure).size : 1);
}
