/** Conversions that a formula asks for by the names of the units. */
import { calciumCarbonate, atomicMasses } from "./atomic-masses";
import { noAnswer } from "./problem";
import { printed } from "./words";
import { convert, units, type Unit, type UnitName } from "./units";

type Request<M extends "pressure" | "temperature" | "hardness" | "alkalinity"> = { value: number; from: UnitName<M>; to: UnitName<M> };

export function pressureIn({ value, from, to }: Request<"pressure">): number {
  return convert(value, units.pressure[from], units.pressure[to]);
}

const absoluteZero = -273.15; // °C

export function temperatureIn({ value, from, to }: Request<"temperature">): number {
  const celsius = convert(value, units.temperature[from], units.temperature.C);
  const symbol = units.temperature[from].symbol;
  if (celsius < absoluteZero - 1e-9) {
    const least = printed(convert(absoluteZero, units.temperature.C, units.temperature[from]));
    noAnswer(`${printed(value)} ${symbol} is below absolute zero, ${least} ${symbol}.`);
  }
  return convert(value, units.temperature[from], units.temperature[to]);
}

export function hardnessIn({ value, from, to }: Request<"hardness">): number {
  return convert(notNegative(value, units.hardness[from]), units.hardness[from], units.hardness[to]);
}

export function alkalinityIn({ value, from, to }: Request<"alkalinity">): number {
  return convert(notNegative(value, units.alkalinity[from]), units.alkalinity[from], units.alkalinity[to]);
}

function notNegative(value: number, unit: Unit): number {
  if (value < 0) noAnswer(`${printed(value)} ${unit.symbol} is less than nothing: there is no such water.`);
  return value;
}

/** Total hardness, mg/L CaCO3, from calcium and magnesium, mg/L. */
export function hardnessFromIons({ calcium, magnesium }: { calcium: number; magnesium: number }): number {
  return calciumCarbonate * (calcium / atomicMasses.Ca + magnesium / atomicMasses.Mg);
}
