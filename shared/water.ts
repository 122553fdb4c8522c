/** Brewing water: hardness and alkalinity, what they do to scale, blending, and minerals for pure water. Masses a litre are mg/L. */
import { calciumCarbonate } from "./atomic-masses";
import { badInput, noAnswer, requireRange } from "./problem";
import { amount, printed, words } from "./words";
import { ionMass, ionNames, ions, readSalt, type IonName, type Salt } from "./salts";
import { brewingWater, type StandardItem } from "./standards";

/** mg of CaCO3 for each mmol of charge. */
const equivalent = calciumCarbonate / 2;

/** Carbonate and non-carbonate hardness: the part of the hardness that alkalinity covers, and the rest. */
export function waterCarbonate({ hardness, alkalinity }: { hardness: number; alkalinity: number }): { carbonate: number; nonCarbonate: number } {
  const carbonate = Math.min(hardness, alkalinity);
  return { carbonate, nonCarbonate: hardness - carbonate };
}

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
  if (!(calciumHardness > 0)) noAnswer(words`calciumhardness is ${amount("calciumHardness", calciumHardness)}: water without calcium has no saturation with calcium carbonate.`);
  if (!(alkalinity > 0)) noAnswer(words`alkalinity is ${amount("alkalinity", alkalinity)}: water without alkalinity has no saturation with calcium carbonate.`);
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
  return secondDissociation(temperature) - calciteSolubility(temperature)
    - Math.log10(calcium) - Math.log10(bicarbonate) + 5 * monovalentActivity(temperature, tds / 40000);
}

/** pK2 of carbonic acid: Plummer & Busenberg (1982). */
export function secondDissociation(temperature: number): number {
  const kelvin = temperature + 273.15;
  return 107.8871 + 0.03252849 * kelvin - 5151.79 / kelvin - 38.92561 * Math.log10(kelvin) + 563713.9 / kelvin ** 2;
}

/** pKs of calcite: Plummer & Busenberg (1982). */
export function calciteSolubility(temperature: number): number {
  const kelvin = temperature + 273.15;
  return 171.9065 + 0.077993 * kelvin - 2839.319 / kelvin - 71.595 * Math.log10(kelvin);
}

/** pfm: minus the logarithm of the activity coefficient of an ion with one charge (Davies), at an ionic strength in mol/L. */
function monovalentActivity(temperature: number, ionicStrength: number): number {
  const kelvin = temperature + 273.15;
  const dielectric = 60954 / (kelvin + 116) - 68.937;
  const root = Math.sqrt(ionicStrength);
  return 1.82e6 * (dielectric * kelvin) ** -1.5 * (root / (1 + root) - 0.3 * ionicStrength);
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

/** What a blend has of anything that mixes by volume; `share` is the part of raw water, %. */
export function waterBlend({ raw, treated, share }: { raw: number; treated: number; share: number }): number {
  return treated + (share / 100) * (raw - treated);
}

/** The share of raw water, %, that brings a blend to the target. */
export function waterBlendShare({ raw, treated, target }: { raw: number; treated: number; target: number }): number {
  if (raw === treated) noAnswer(`raw and treated water both have ${printed(raw)}, so every blend has.`);
  if (target < Math.min(raw, treated) || target > Math.max(raw, treated)) {
    noAnswer(`target ${printed(target)} does not lie between treated, ${printed(treated)}, and raw, ${printed(raw)}: no blend of the two reaches it.`);
  }
  return (100 * (target - treated)) / (raw - treated);
}

/** Mass of a salt, g, that raises what it carries by `rise` mg/L CaCO3 in `volume` litres. */
export function waterSalt({ salt, rise, volume }: { salt: string; rise: number; volume: number }): number {
  const { formula, hardness, alkalinity } = readSalt(salt);
  // Calcium carbonate carries as much of one as of the other.
  const carried = hardness || alkalinity;
  if (carried === 0) badInput(`${formula} carries neither hardness nor alkalinity, so no amount of it raises either.`);
  return gramsOf(rise / carried, volume);
}

function gramsOf(milligramsPerLitre: number, litres: number): number {
  return (milligramsPerLitre * litres) / 1000;
}

/** Salts, g, that give pure water this hardness and alkalinity. Each salt is neutral, so the water is. */
export function waterRecipe(given: {
  hardness: number; alkalinity: number; volume: number;
  magnesiumShare?: number; magnesiumSalt?: string; calciumSalt?: string; alkalinitySalt?: string;
}): { salt: string; grams: number }[] {
  const { hardness, alkalinity, volume, magnesiumShare = 100 } = given;
  const magnesium = readSalt(given.magnesiumSalt ?? "MgSO4·7H2O", "magnesiumSalt");
  const calcium = readSalt(given.calciumSalt ?? "CaCl2·2H2O", "calciumSalt");
  const buffer = readSalt(given.alkalinitySalt ?? "NaHCO3", "alkalinitySalt");
  if (!magnesium.ions.Mg) badInput(`magnesiumsalt ${magnesium.formula} carries no magnesium.`);
  if (!calcium.ions.Ca) badInput(`calciumsalt ${calcium.formula} carries no calcium.`);
  if (buffer.alkalinity === 0 || buffer.hardness > 0) {
    badInput(`alkalinitysalt ${buffer.formula} must carry alkalinity and no hardness, as NaHCO3 and KHCO3 do.`);
  }
  const magnesiumDose = ((magnesiumShare / 100) * hardness) / magnesium.hardness;
  const calciumDose = ((1 - magnesiumShare / 100) * hardness) / calcium.hardness;
  const alreadyThere = magnesiumDose * magnesium.alkalinity + calciumDose * calcium.alkalinity;
  // A whisker of rounding must not refuse calcium carbonate that brings exactly the alkalinity asked for.
  const missing = Math.abs(alkalinity - alreadyThere) < 1e-9 * alkalinity ? 0 : alkalinity - alreadyThere;
  if (missing < 0) {
    noAnswer(words`${calcium.formula} brings ${amount("alkalinity", alreadyThere)} of alkalinity with the hardness, more than the ${amount("alkalinity", alkalinity)} asked for. Take another calciumsalt.`);
  }
  return [
    { salt: magnesium.formula, grams: gramsOf(magnesiumDose, volume) },
    { salt: calcium.formula, grams: gramsOf(calciumDose, volume) },
    { salt: buffer.formula, grams: gramsOf(missing / buffer.alkalinity, volume) },
  ];
}

/** The ions, mg/L, that salts leave in `volume` litres of pure water, then hardness and alkalinity as CaCO3 and the charge balance in %. */
export function waterIons({ salts, grams, volume }: {
  salts: readonly string[]; grams: readonly number[]; volume: number;
}): { ion: string; content: number }[] {
  if (grams.length === 0) noAnswer("No salt has a mass yet.");
  const millimoles = new Map<IonName, number>(ionNames.map((name) => [name, 0]));
  salts.forEach((text, index) => addIons(millimoles, readSalt(text, `salts, entry ${index + 1},`), (grams[index]! * 1000) / volume));
  const of = (name: IonName): number => millimoles.get(name)!;
  const charge = (sign: number): number =>
    ionNames.reduce((sum, name) => sum + (Math.sign(ions[name].charge) === sign ? Math.abs(ions[name].charge) * of(name) : 0), 0);
  const [positive, negative] = [charge(1), charge(-1)];
  const imbalance = positive + negative === 0 ? 0 : (100 * (positive - negative)) / (positive + negative);
  return [
    ...ionNames.map((name) => ({ ion: name, content: of(name) * ionMass(name) })),
    { ion: "Hardness as CaCO3", content: (of("Mg") + of("Ca")) * calciumCarbonate },
    { ion: "Alkalinity as CaCO3", content: of("HCO3") * equivalent },
    // Binary rounding alone would show as 1E-14 in a sheet.
    { ion: "Charge balance, %", content: Math.round(imbalance * 1e9) / 1e9 || 0 },
  ];
}

function addIons(millimoles: Map<IonName, number>, salt: Salt, milligramsPerLitre: number): void {
  for (const [name, count] of Object.entries(salt.ions) as [IonName, number][]) {
    millimoles.set(name, millimoles.get(name)! + (count * milligramsPerLitre) / salt.molarMass);
  }
}

/** Rise of conductivity for each degree, as a part of that at 25 °C: Standard Methods 2510 and ISO 7888, from memory. */
const conductivityRise = 0.0191;

/** Dissolved solids, mg/L, from the conductivity, µS/cm, read at a temperature; the factor belongs to the kind of water. */
export function waterTds({ conductivity, temperature = 25, factor = 0.5 }: { conductivity: number; temperature?: number; factor?: number }): number {
  requireRange("temperature", temperature, 0, 50);
  return (factor * conductivity) / (1 + conductivityRise * (temperature - 25));
}

const checked = ["hardness", "alkalinity", "ph", "tds", "sodium", "chlorine"] as const;

/** Brewing water held against published ranges. It says nothing of health. */
export function waterCheck(given: { hardness: number; alkalinity: number; ph: number; tds: number; sodium?: number; chlorine?: number }): {
  item: string; amount: number; low: number | ""; high: number | ""; verdict: string; source: string;
}[] {
  return checked.flatMap((name) => {
    const amount = given[name];
    if (amount === undefined) return [];
    const { item, unit, low, high, source }: StandardItem = brewingWater[name];
    return [{ item: unit ? `${item}, ${unit}` : item, amount, low, high, verdict: verdictOf(amount, low, high), source }];
  });
}

function verdictOf(amount: number, low: number | "", high: number | ""): string {
  if (low === "" || high === "") return "no published range";
  if (amount < low) return "below";
  return amount > high ? "above" : "within";
}
