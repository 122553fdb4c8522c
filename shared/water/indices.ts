/** Indices that say how near a water is to laying down calcium carbonate, and how corrosive its anions are. */
import { calciumCarbonate } from "../atomic-masses";
import { noAnswer, requireRange } from "../problem";
import { amount, printed, words } from "../words";
import { carbonateConstants, equivalent, monovalentActivity, requireCalciumAndAlkalinity } from "./carbonate";
import { ionMass } from "./salts";

export const indexMethods = ["standard methods", "carrier"] as const;
export type IndexMethod = (typeof indexMethods)[number];

interface IndexArguments {
  ph: number;
  temperature: number;
  /** Calcium hardness and alkalinity as mg/L CaCO3, dissolved solids as mg/L. */
  calciumHardness: number;
  alkalinity: number;
  tds: number;
  method?: IndexMethod;
}

/** Langelier saturation index: above 0 the water can lay down calcium carbonate, below 0 it can dissolve it. */
export function waterLangelier(given: IndexArguments): number {
  return given.ph - saturationPh(given);
}

/** Ryznar stability index (1944). */
export function waterRyznar(given: IndexArguments): number {
  return 2 * saturationPh(given) - given.ph;
}

/** pH at which the water is saturated with calcium carbonate, by one method and never a mixture of the two. */
function saturationPh({ ph, temperature, calciumHardness, alkalinity, tds, method = "standard methods" }: IndexArguments): number {
  requireCalciumAndAlkalinity({ calciumHardness, alkalinity });
  if (!(tds >= 1)) noAnswer(`tds is ${printed(tds)} mg/L: water with calcium and alkalinity has at least 1 mg/L of dissolved solids.`);
  requireRange("temperature", temperature, 0, 90);
  return method === "carrier"
    ? saturationPhCarrier(temperature, calciumHardness, alkalinity, tds)
    : saturationPhStandardMethods(ph, temperature, calciumHardness, alkalinity, tds);
}

/**
 * Standard Methods 2330 B with the constants of Plummer & Busenberg (1982), Geochim. Cosmochim. Acta 46:1011, for 0 to 90 °C,
 * as carried by the data bases of USGS PHREEQC and WATEQ4F. All alkalinity counts as bicarbonate, which holds from about pH 6 to 9.
 */
function saturationPhStandardMethods(ph: number, temperature: number, calciumHardness: number, alkalinity: number, tds: number): number {
  requireRange("ph", ph, 6, 9);
  const calcium = calciumHardness / 1000 / calciumCarbonate; // mol/L
  const bicarbonate = alkalinity / 1000 / equivalent; // mol/L
  const constants = carbonateConstants(temperature);
  return constants.calcite - constants.second - Math.log10(calcium) - Math.log10(bicarbonate) + 5 * monovalentActivity(temperature, tds / 40000);
}

/** The short form printed with Carrier's design manual: four terms read off a chart. */
function saturationPhCarrier(temperature: number, calciumHardness: number, alkalinity: number, tds: number): number {
  const solids = (Math.log10(tds) - 1) / 10;
  const warmth = -13.12 * Math.log10(temperature + 273) + 34.55;
  return 9.3 + solids + warmth - (Math.log10(calciumHardness) - 0.4) - Math.log10(alkalinity);
}

/** Larson-Skold index: equivalents of chloride and sulfate for each equivalent of alkalinity. */
export function waterLarsonSkold({ chloride, sulfate, alkalinity }: { chloride: number; sulfate: number; alkalinity: number }): number {
  if (!(alkalinity > 0)) noAnswer(words`alkalinity is ${amount("alkalinity", alkalinity)}: the index is a ratio to alkalinity, so there must be some.`);
  return (chloride / ionMass("Cl") + (2 * sulfate) / ionMass("SO4")) / (alkalinity / equivalent);
}
