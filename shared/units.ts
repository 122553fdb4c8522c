/**
 * Units by what they measure, each by its size in the canonical unit, from defined constants only.
 * Sources: NIST SP 811 (2008), appendix B; the international avoirdupois pound (0.45359237 kg exactly); the US gallon (231 in³ exactly);
 * hardness degrees by their definitions as mg/L of CaO or CaCO3, with the molar masses of atomic-masses.ts.
 */
import { bicarbonate, calciumCarbonate, calciumOxide } from "./atomic-masses";

export interface Unit {
  /** One of this unit in canonical units. */
  readonly size: number;
  /** Where this unit's zero lies, in this unit, when the canonical value is zero. Temperatures only. */
  readonly zero?: number;
  /** How the unit is written beside a number. */
  readonly symbol: string;
}

const grain = 64.79891; // mg, exact
const imperialGallon = 4.54609; // L, exact
const usGallon = 3.785411784; // L, exact
const poundForce = 4.4482216152605; // N, exact
const inch = 0.0254; // m, exact
const ounce = 28.349523125; // g, exact
const millimole = calciumCarbonate; // mg of CaCO3 for each mmol of alkaline earths

/** Hardness and alkalinity are both counted as calcium carbonate; only alkalinity is also written as bicarbonate. */
const asCalciumCarbonate = {
  ppm: { size: 1, symbol: "mg/L CaCO3" },
  dH: { size: (10 * calciumCarbonate) / calciumOxide, symbol: "°dH" },
  fH: { size: 10, symbol: "°fH" },
  e: { size: grain / imperialGallon, symbol: "°e" },
  gpg: { size: grain / usGallon, symbol: "gpg" },
  "mmol/L": { size: millimole, symbol: "mmol/L" },
  "meq/L": { size: millimole / 2, symbol: "meq/L" },
} as const satisfies Record<string, Unit>;

/** Every measure: its units by the name a formula writes, the canonical one first. */
export const units = {
  percent: {
    number: { size: 1, symbol: "%" },
    cell: { size: 100, symbol: "percent cell" },
  },
  mass: {
    g: { size: 1, symbol: "g" },
    oz: { size: ounce, symbol: "oz" },
  },
  time: {
    s: { size: 1, symbol: "s" },
    clock: { size: 86400, symbol: "clock cell" },
  },
  temperature: {
    C: { size: 1, symbol: "°C" },
    F: { size: 1 / 1.8, zero: 32, symbol: "°F" },
    K: { size: 1, zero: 273.15, symbol: "K" },
  },
  pressure: {
    bar: { size: 1, symbol: "bar" },
    psi: { size: poundForce / inch ** 2 / 1e5, symbol: "psi" },
    kPa: { size: 0.01, symbol: "kPa" },
    MPa: { size: 10, symbol: "MPa" },
    atm: { size: 1.01325, symbol: "atm" },
    at: { size: 0.980665, symbol: "at" },
  },
  volume: {
    mL: { size: 1, symbol: "mL" },
    floz: { size: (usGallon * 1000) / 128, symbol: "US fl oz" },
  },
  watervolume: {
    L: { size: 1, symbol: "L" },
    gal: { size: usGallon, symbol: "US gal" },
  },
  hardness: asCalciumCarbonate,
  alkalinity: {
    ...asCalciumCarbonate,
    HCO3: { size: millimole / 2 / bicarbonate, symbol: "mg/L HCO3" },
  },
} as const satisfies Record<string, Record<string, Unit>>;

export type MeasureName = keyof typeof units;
export type UnitName<M extends MeasureName = MeasureName> = M extends MeasureName ? Extract<keyof (typeof units)[M], string> : never;

/** The units of a measure by name; the first is the canonical one. */
export function unitsOf(measure: MeasureName): Readonly<Record<string, Unit>> {
  return units[measure];
}

export function toCanonical(value: number, unit: Unit): number {
  return (value - (unit.zero ?? 0)) * unit.size;
}

export function fromCanonical(value: number, unit: Unit): number {
  return value / unit.size + (unit.zero ?? 0);
}

/** The value in another unit of the same measure. The same unit gives the value back to the last digit. */
export function convert(value: number, from: Unit, to: Unit): number {
  return from === to ? value : fromCanonical(toCanonical(value, from), to);
}
