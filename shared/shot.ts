/**
 * One shot: strength, extraction, ratio, flow and what follows from them by mass balance.
 * Source of the balance: Lockhart (1957) as cited in Batali, Ristenpart & Guinard (2020), Scientific Reports 10:16450.
 */
import { waterDensity } from "./flow";
import { badInput, noAnswer } from "./problem";
import { amount, words } from "./words";

/** Beverage for each gram of dose. */
export function ratio({ dose, beverage }: { dose: number; beverage: number }): number {
  return beverage / dose;
}

/** Part of the dry dose that is dissolved in the beverage, %. */
export function extraction({ dose, beverage, strength, moisture = 0 }: { dose: number; beverage: number; strength: number; moisture?: number }): number {
  const extracted = (beverage * strength) / (dose * (1 - moisture / 100));
  if (extracted > 100) moreThanTheDose(extracted, dose);
  return extracted;
}

/** Strength, %, of a beverage with this extraction. */
export function strength({ dose, beverage, extraction }: { dose: number; beverage: number; extraction: number }): number {
  const result = (dose * extraction) / beverage;
  if (result > 100) badInput(words`A dose of ${amount("dose", dose)} extracted to ${amount("extraction", extraction)} gives more solids than the ${amount("beverage", beverage)} in the cup.`);
  return result;
}

/** Beverage mass, g, of a ratio. */
export function beverage({ dose, ratio }: { dose: number; ratio: number }): number {
  return dose * ratio;
}

/** Dose, g, of a ratio. */
export function dose({ beverage, ratio }: { beverage: number; ratio: number }): number {
  return beverage / ratio;
}

/** Beverage mass, g, at which this extraction gives this strength. */
export function beverageForStrength({ dose, extraction, strength }: { dose: number; extraction: number; strength: number }): number {
  return (dose * extraction) / strength;
}

/** Dissolved solids in the cup, g. */
export function solids({ beverage, strength }: { beverage: number; strength: number }): number {
  return (beverage * strength) / 100;
}

/** Mean flow after the first drop, g/s. */
export function flow({ beverage, time, firstDrip = 0 }: { beverage: number; time: number; firstDrip?: number }): number {
  if (firstDrip >= time) badInput(words`firstdrip, ${amount("firstDrip", firstDrip)}, must be less than time, ${amount("time", time)}.`);
  return beverage / (time - firstDrip);
}

/** Everything a shot's own numbers say; without a strength, extraction and solids stay blank. */
export function shot(given: { dose: number; beverage: number; strength?: number; time: number; firstDrip?: number }): {
  ratio: number; extraction: number | ""; solids: number | ""; flow: number;
} {
  const { dose, beverage, strength } = given;
  return {
    ratio: ratio(given),
    extraction: strength === undefined ? "" : extraction({ dose, beverage, strength }),
    solids: strength === undefined ? "" : solids({ beverage, strength }),
    flow: flow(given),
  };
}

/** Water to add, g, that takes a beverage down to the strength `target`, %. */
export function dilute({ beverage, strength, target }: { beverage: number; strength: number; target: number }): number {
  if (target > strength) badInput(words`target, ${amount("strength", target)}, must be at most the strength, ${amount("strength", strength)}: water can only weaken it.`);
  return beverage * (strength / target - 1);
}

/** Density of the dissolved solids, g/mL: an assumption within the usual 1.5 to 1.6 g/mL of plant solids in water. */
const solidsDensity = 1.6;

/** Density of the beverage, g/mL, as if water and solids kept their own volumes. */
export function density({ strength, temperature = 20 }: { strength: number; temperature?: number }): number {
  const share = strength / 100;
  return 1 / (share / solidsDensity + (1 - share) / (waterDensity({ temperature }) / 1000));
}

/** Mass, g, of a volume of beverage without foam. */
export function massFromVolume({ volume, strength, temperature = 20 }: { volume: number; strength: number; temperature?: number }): number {
  return volume * density({ strength, temperature });
}

/** Strength, %, from a sugar refractometer. */
export function strengthFromBrix({ brix, slope = 0.85 }: { brix: number; slope?: number }): number {
  return brix * slope;
}

/** Extraction, %, from the oven-dried puck. */
export function extractionFromPuck({ dose, puck, moisture = 0 }: { dose: number; puck: number; moisture?: number }): number {
  const dryDose = dose * (1 - moisture / 100);
  if (puck > dryDose) badInput(words`The dried puck, ${amount("puck", puck)}, is heavier than the dry dose, ${amount("dose", dryDose)}. Dry it longer, or check the dose.`);
  return 100 * (1 - puck / dryDose);
}

/** Extraction, %, where all the water has the same strength, also what stays in the grounds. */
export function extractionImmersion({ dose, water, strength }: { dose: number; water: number; strength: number }): number {
  const share = strength / 100;
  const extracted = (100 * share * water) / (dose * (1 - share));
  if (extracted > 100) moreThanTheDose(extracted, dose);
  return extracted;
}

/**
 * Beverage mass, g, that leaves drained grounds: water and what it dissolves, less the liquid that the grounds keep. `retained` is g of liquid
 * for each g of dose, solids in it included; `extraction`, %, is what dissolves of the dose.
 */
export function beverageFromWater({ dose, water, retained = 2, extraction = 20 }: {
  dose: number; water: number; retained?: number; extraction?: number;
}): number {
  const left = water + (dose * extraction) / 100 - retained * dose;
  if (left <= 0) noAnswer(words`${amount("dose", dose)} of coffee keeps ${amount("water", retained * dose)} of liquid, so nothing of the ${amount("water", water)} of water reaches the cup.`);
  return left;
}

function moreThanTheDose(extracted: number, dose: number): never {
  if (!Number.isFinite(extracted)) badInput(words`A dose of ${amount("dose", dose)} is next to nothing, so no extraction follows from it. Check the dose.`);
  badInput(words`That would be an extraction of ${amount("extraction", extracted)}, more than the whole dose of ${amount("dose", dose)}. Check dose, beverage and strength.`);
}
