/** How much calcium carbonate a water can lay down, or dissolve, once it is heated. */
import { calciumCarbonate } from "../atomic-masses";
import { noAnswer, requireRange } from "../problem";
import { findRoot } from "../statistics/root";
import { amount, range, words } from "../words";
import { carbonateConstants, equivalent, phOfAlkalinity, requireCalciumAndAlkalinity, speciate, type Carbon, type CarbonateWater } from "./carbonate";

export const airContacts = ["closed", "open"] as const;
export type AirContact = (typeof airContacts)[number];

/** CO2 in air, atm. */
const carbonDioxideInAir = 10 ** -3.4;

export interface ScaleArguments {
  /** pH of the water and the temperature, °C, at which it was read. */
  readonly ph: number;
  readonly temperature: number;
  /** mg/L CaCO3. */
  readonly calciumHardness: number;
  readonly alkalinity: number;
  /** mg/L. */
  readonly tds: number;
  /** Temperature, °C, that it is heated to. */
  readonly at?: number;
  /** "closed": no CO2 comes or goes. "open": in equilibrium with air. */
  readonly air?: AirContact;
}

export interface Scale {
  /** Before anything is laid down, at the pH that the water has there. */
  readonly saturationIndex: number;
  /** mg/L CaCO3 that have to fall out, or dissolve where negative, until the water is saturated. */
  readonly precipitation: number;
  /** The pH then. */
  readonly phAfter: number;
}

/**
 * Saturation index and calcite precipitation potential at a temperature. Heating keeps alkalinity and calcium; closed, also all carbon.
 * Each mole of calcite that falls out takes one of calcium, two equivalents of alkalinity and, closed, one mole of carbon.
 */
export function waterScale({ ph, temperature, calciumHardness, alkalinity, tds, at = 90, air = "closed" }: ScaleArguments): Scale {
  requireCalciumAndAlkalinity({ calciumHardness, alkalinity });
  requireRange("ph", ph, 5, 10);
  requireRange("temperature", temperature, 0, 90);
  if (!(at >= 0 && at <= 90)) noAnswer(words`at ${amount("heatedTo", at)} is outside ${range("heatedTo", 0, 90)}, the range of this formula's source.`);

  const calcium = calciumHardness / 1000 / calciumCarbonate;
  const acidCapacity = alkalinity / 1000 / equivalent;
  // Dissolved solids as Standard Methods 2330 counts them, but at least what calcium and alkalinity themselves make of it.
  const ionicStrength = Math.max(tds / 40_000, 2 * calcium + acidCapacity / 2);
  const { totalCarbon } = speciate({ temperature, ionicStrength, calcium }, ph, { alkalinity: acidCapacity });
  if (!(totalCarbon > 0)) noAnswer(words`At pH ${ph} all the alkalinity of ${amount("alkalinity", alkalinity)} is hydroxide: check ph and alkalinity.`);

  const after = (fallen: number): { water: CarbonateWater; carbon: Carbon; ph: number } => {
    const water = { temperature: at, ionicStrength: ionicStrength - 3 * fallen, calcium: calcium - fallen };
    const carbon = air === "open" ? { carbonDioxide: carbonDioxideInAir * 10 ** carbonateConstants(at).henry } : { total: totalCarbon - fallen };
    return { water, carbon, ph: phOfAlkalinity(water, acidCapacity - 2 * fallen, carbon) };
  };
  const index = (fallen: number): number => {
    const { water, carbon, ph: its } = after(fallen);
    return speciate(water, its, carbon).saturationIndex;
  };

  const saturationIndex = index(0);
  const most = Math.min(calcium, air === "open" ? calcium : totalCarbon) * (1 - 1e-9);
  let least = 0;
  for (let step = 1e-3; least === 0 && saturationIndex < 0; step *= 2) if (index(-step) >= 0) least = -step;
  const fallen = saturationIndex < 0 ? findRoot(index, least, 0) : findRoot(index, 0, most);
  return { saturationIndex, precipitation: fallen * calciumCarbonate * 1000, phAfter: after(fallen).ph };
}
