/**
 * The carbonate equilibrium of a water that holds calcium: how its carbon stands between CO2, bicarbonate, carbonate and the ion pairs of
 * calcium, at a temperature and a pH. Amounts are mol for each kg of water, which a litre of cold water is; K is short for 10^-pK.
 * Constants: Plummer & Busenberg (1982), Geochim. Cosmochim. Acta 46:1011, 0 to 90 °C, as the data bases of USGS PHREEQC carry them.
 */
import { calciumCarbonate } from "../atomic-masses";
import { noAnswer } from "../problem";
import { findRoot } from "../statistics/root";
import { amount, words } from "../words";

/** mg of CaCO3 for each mmol of charge. */
export const equivalent = calciumCarbonate / 2;

/** Saturation with calcium carbonate asks for both of its parts. Written so that NaN is refused too. */
export function requireCalciumAndAlkalinity({ calciumHardness, alkalinity }: { calciumHardness: number; alkalinity: number }): void {
  if (!(calciumHardness > 0)) noAnswer(words`calciumhardness is ${amount("calciumHardness", calciumHardness)}: water without calcium has no saturation with calcium carbonate.`);
  if (!(alkalinity > 0)) noAnswer(words`alkalinity is ${amount("alkalinity", alkalinity)}: water without alkalinity has no saturation with calcium carbonate.`);
}

/** Logarithms of the constants at a temperature. */
export interface CarbonateConstants {
  /** CO2 in water for each atm of CO2 above it. */
  readonly henry: number;
  /** CO2 + H2O = H + HCO3. */
  readonly first: number;
  /** HCO3 = H + CO3. */
  readonly second: number;
  /** H2O = H + OH. */
  readonly water: number;
  /** Ca + HCO3 = CaHCO3. */
  readonly calciumBicarbonate: number;
  /** Ca + CO3 = CaCO3 in water. */
  readonly calciumCarbonate: number;
  /** Solid calcite = Ca + CO3. */
  readonly calcite: number;
}

export function carbonateConstants(temperature: number): CarbonateConstants {
  const t = temperature + 273.15;
  const log = Math.log10(t);
  return {
    henry: 108.3865 + 0.01985076 * t - 6919.53 / t - 40.45154 * log + 669365 / t ** 2,
    first: -356.3094 - 0.06091964 * t + 21834.37 / t + 126.8339 * log - 1684915 / t ** 2,
    second: -107.8871 - 0.03252849 * t + 5151.79 / t + 38.92561 * log - 563713.9 / t ** 2,
    // Not of that paper: the data bases carry it beside them.
    water: -283.971 - 0.05069842 * t + 13323 / t + 102.24447 * log - 1119669 / t ** 2,
    calciumBicarbonate: 1209.12 + 0.31294 * t - 34765.05 / t - 478.782 * log,
    calciumCarbonate: -1228.732 - 0.299444 * t + 35512.75 / t + 485.818 * log,
    calcite: -171.9065 - 0.077993 * t + 2839.319 / t + 71.595 * log,
  };
}

/** Minus the logarithm of the activity coefficient of an ion with one charge (Davies, with the factor 0.3 of Standard Methods 2330), at an ionic strength in mol/L. */
export function monovalentActivity(temperature: number, ionicStrength: number): number {
  const kelvin = temperature + 273.15;
  const dielectric = 60954 / (kelvin + 116) - 68.937;
  const root = Math.sqrt(ionicStrength);
  return 1.82e6 * (dielectric * kelvin) ** -1.5 * (root / (1 + root) - 0.3 * ionicStrength);
}

/** What the equilibrium needs of a water besides its pH. */
export interface CarbonateWater {
  readonly temperature: number;
  readonly ionicStrength: number;
  /** All calcium, ion pairs included. */
  readonly calcium: number;
}

/** One of three ways to say how much carbon there is: what an acid titration finds (equivalents), all of it, or the CO2 that air holds it to. */
export type Carbon = { readonly alkalinity: number } | { readonly total: number } | { readonly carbonDioxide: number };

export interface Speciation {
  /** Equivalents that an acid titration finds. */
  readonly alkalinity: number;
  readonly totalCarbon: number;
  /** Logarithm of the ion product of calcium and carbonate over that of calcite at equilibrium. */
  readonly saturationIndex: number;
}

/** How calcium and carbon stand at this pH. */
export function speciate(water: CarbonateWater, ph: number, carbon: Carbon): Speciation {
  const { temperature, ionicStrength, calcium } = water;
  const constants = carbonateConstants(temperature);
  const one = monovalentActivity(temperature, ionicStrength);
  const two = 4 * one;
  const hydrogen = 10 ** (one - ph);
  const hydroxide = 10 ** (constants.water + ph + one);
  // Each for one mole of free carbonate, or of free carbonate and free calcium; an activity is a concentration less its coefficient.
  const bicarbonate = 10 ** (-ph - constants.second + one - two);
  const carbonDioxide = 10 ** (-2 * ph - constants.first - constants.second - two);
  const bicarbonatePair = bicarbonate * 10 ** (constants.calciumBicarbonate - two);
  const carbonatePair = 10 ** (constants.calciumCarbonate - 2 * two);
  const pairs = bicarbonatePair + carbonatePair;

  const free = ((): number => {
    if ("carbonDioxide" in carbon) return carbon.carbonDioxide / carbonDioxide;
    const [alone, paired, sum] = "total" in carbon
      ? [1 + bicarbonate + carbonDioxide, pairs, carbon.total]
      : [2 + bicarbonate, bicarbonatePair + 2 * carbonatePair, carbon.alkalinity + hydrogen - hydroxide];
    // sum = free × (alone + paired × free calcium), free calcium = calcium ÷ (1 + pairs × free).
    return positiveRoot(alone * pairs, alone + paired * calcium - pairs * sum, -sum);
  })();
  const freeCalcium = calcium / (1 + pairs * free);
  return {
    alkalinity: free * (2 + bicarbonate + (bicarbonatePair + 2 * carbonatePair) * freeCalcium) + hydroxide - hydrogen,
    totalCarbon: free * (1 + bicarbonate + carbonDioxide + pairs * freeCalcium),
    saturationIndex: Math.log10(freeCalcium) + Math.log10(free) - 2 * two - constants.calcite,
  };
}

/** The positive root of a x² + b x + c, for a > 0 and c < 0, without losing digits. */
function positiveRoot(a: number, b: number, c: number): number {
  const root = Math.sqrt(b * b - 4 * a * c);
  return b > 0 ? (-2 * c) / (b + root) : (root - b) / (2 * a);
}

/** The pH at which a water with this carbon has this alkalinity: alkalinity rises with pH. */
export function phOfAlkalinity(water: CarbonateWater, alkalinity: number, carbon: Carbon): number {
  return findRoot((ph) => speciate(water, ph, carbon).alkalinity - alkalinity, 1, 13);
}
