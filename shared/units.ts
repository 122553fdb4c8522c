/**
 * Units by what they measure, each by its size in the canonical unit, from defined constants only.
 * Sources: NIST SP 811 (2008), appendix B; the international avoirdupois pound (0.45359237 kg exactly); the US gallon (231 in³ exactly);
 * hardness degrees by their definitions as mg/L of CaO or CaCO3, with the molar masses of atomic-masses.ts.
 */
import { bicarbonate, calciumCarbonate, calciumOxide } from "./atomic-masses";

/** All that is to be known of a unit: adding one is adding its record to a measure. */
export interface Unit {
  /** One of this unit in canonical units. */
  readonly size: number;
  /** Where this unit's zero lies, in this unit, when the canonical value is zero. Temperatures only. */
  readonly zero?: number;
  /** How the unit is written beside a number. */
  readonly symbol: string;
  /** The number format of cells that hold it. */
  readonly format: string;
  /** What stands beside a cell to be typed into, where that is not the symbol. */
  readonly typed?: string;
  /** What a person chooses by, where the symbol alone would not say. */
  readonly label?: string;
  /** The unit in which sentences say such a number, where cells hold it in a form that nobody speaks. */
  readonly saidIn?: Unit;
  /** For converting only: no workbook is kept in it. */
  readonly onlyConverts?: true;
}

const grain = 64.79891; // mg, exact
const imperialGallon = 4.54609; // L, exact
const usGallon = 3.785411784; // L, exact
const poundForce = 4.4482216152605; // N, exact
const inch = 0.0254; // m, exact
const ounce = 28.349523125; // g, exact
const millimole = calciumCarbonate; // mg of CaCO3 for each mmol of alkaline earths

const percent = { size: 1, symbol: "%", format: "0.00", label: "numbers: 9.5 means 9.5 %" } as const;
const second = { size: 1, symbol: "s", format: "0.0", label: "s: 27 means 27 seconds" } as const;

/** Hardness and alkalinity are both counted as calcium carbonate. */
const asCalciumCarbonate = {
  ppm: { size: 1, symbol: "mg/L CaCO3", format: "0" },
  dH: { size: (10 * calciumCarbonate) / calciumOxide, symbol: "°dH", format: "0.0" },
  fH: { size: 10, symbol: "°fH", format: "0.0" },
  e: { size: grain / imperialGallon, symbol: "°e", format: "0.0" },
  gpg: { size: grain / usGallon, symbol: "gpg", format: "0.0" },
  "mmol/L": { size: millimole, symbol: "mmol/L", format: "0.00" },
  "meq/L": { size: millimole / 2, symbol: "meq/L", format: "0.00" },
} as const satisfies Record<string, Unit>;

/** Every measure: its units by the name a formula writes, the canonical one first. A workbook is kept in that until it chooses another. */
export const units = {
  percent: {
    number: percent,
    cell: { size: 100, symbol: "%", format: "0.00%", label: "percent cells: 9.5 % is 0.095 in the cell", saidIn: percent },
  },
  mass: {
    g: { size: 1, symbol: "g", format: "0.0" },
    oz: { size: ounce, symbol: "oz", format: "0.000" },
  },
  time: {
    s: second,
    clock: { size: 86400, symbol: "s", format: "h:mm:ss", typed: "h:mm:ss", label: "clock cells: 27 s is typed 0:00:27", saidIn: second },
  },
  temperature: {
    C: { size: 1, symbol: "°C", format: "0.0" },
    F: { size: 1 / 1.8, zero: 32, symbol: "°F", format: "0" },
    K: { size: 1, zero: 273.15, symbol: "K", format: "0.0", onlyConverts: true },
  },
  pressure: {
    bar: { size: 1, symbol: "bar", format: "0.0" },
    psi: { size: poundForce / inch ** 2 / 1e5, symbol: "psi", format: "0" },
    kPa: { size: 0.01, symbol: "kPa", format: "0" },
    MPa: { size: 10, symbol: "MPa", format: "0.00", onlyConverts: true },
    atm: { size: 1.01325, symbol: "atm", format: "0.0", onlyConverts: true },
    at: { size: 0.980665, symbol: "at", format: "0.0", onlyConverts: true },
  },
  volume: {
    mL: { size: 1, symbol: "mL", format: "0" },
    floz: { size: (usGallon * 1000) / 128, symbol: "US fl oz", format: "0.00" },
  },
  watervolume: {
    L: { size: 1, symbol: "L", format: "0.0" },
    gal: { size: usGallon, symbol: "US gal", format: "0.0" },
  },
  hardness: asCalciumCarbonate,
  alkalinity: {
    ...asCalciumCarbonate,
    // What a report calls acid capacity (ISO 9963-1): acid, not calcium carbonate, is counted, so that it equals meq/L.
    "mmol/L": { size: millimole / 2, symbol: "mmol/L", format: "0.00", label: "mmol/L of acid" },
    HCO3: { size: millimole / 2 / bicarbonate, symbol: "mg/L HCO3", format: "0", onlyConverts: true },
  },
} as const satisfies Record<string, Record<string, Unit>>;

export type MeasureName = keyof typeof units;
export type UnitName<M extends MeasureName = MeasureName> = M extends MeasureName ? Extract<keyof (typeof units)[M], string> : never;

/** The names of the units in which a workbook may keep a measure. */
export type ChosenUnitName<M extends MeasureName = MeasureName> = M extends MeasureName
  ? { [U in UnitName<M>]: (typeof units)[M][U] extends { readonly onlyConverts: true } ? never : U }[UnitName<M>]
  : never;

/** The units of a measure by name; the first is the canonical one. */
export function unitsOf(measure: MeasureName): Readonly<Record<string, Unit>> {
  return units[measure];
}

/** What converting needs of a unit. */
export type Scale = Pick<Unit, "size" | "zero">;

export function toCanonical(value: number, unit: Scale): number {
  return (value - (unit.zero ?? 0)) * unit.size;
}

export function fromCanonical(value: number, unit: Scale): number {
  return value / unit.size + (unit.zero ?? 0);
}

/** The value in another unit of the same measure. The same unit gives the value back to the last digit. */
export function convert(value: number, from: Scale, to: Scale): number {
  return from === to ? value : fromCanonical(toCanonical(value, from), to);
}
