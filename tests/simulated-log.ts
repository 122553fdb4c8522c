/** A simulated shot log, seeded: recipes as bars keep them, shots that scatter around them, and the slips of people who type. Invented, no source. */
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { seededRandom } from "../shared/statistics/random.ts";

export interface PlainShot {
  readonly dose: number;
  readonly beverage: number;
  readonly time: number;
  readonly strength: number;
}

/** How finely a bar writes: decimals of masses, times and strengths. */
export interface Writing {
  readonly mass: number;
  readonly time: number;
  readonly strength: number;
}

export const fineWriting: Writing = { mass: 1, time: 1, strength: 2 };
export const coarseWriting: Writing = { mass: 0, time: 0, strength: 1 };

export interface Chance {
  /** Between 0 and 1. */
  even(): number;
  between(low: number, high: number): number;
  /** Normally distributed. */
  around(mean: number, spread: number): number;
}

/** Seeds are mixed, so that runs of neighbouring seeds are independent of one another. */
export function chance(seed: number): Chance {
  const generator = seededRandom(seed);
  const even = (): number => uniformFloat64(generator);
  return {
    even,
    between: (low, high) => low + (high - low) * even(),
    // Box and Muller's transform.
    around: (mean, spread) => mean + spread * Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even()),
  };
}

/** Plausible shots: a recipe for every hundred, from a single to a triple, from a ristretto to a lungo. */
export function plausibleShots(count: number, seed: number, writing: Writing = fineWriting): PlainShot[] {
  const luck = chance(seed);
  const shots: PlainShot[] = [];
  let recipe = { dose: 18, ratio: 2, time: 27, extraction: 19.5 };
  for (let index = 0; index < count; index++) {
    if (index % 100 === 0) {
      recipe = {
        dose: [8, 14, 16, 18, 18, 18, 19, 20, 21][Math.floor(luck.between(0, 9))]!,
        ratio: luck.between(1.4, 3), time: luck.between(20, 40), extraction: luck.between(17, 22),
      };
    }
    const dose = luck.around(recipe.dose, 0.15);
    const beverage = recipe.dose * recipe.ratio * luck.around(1, 0.04);
    const extraction = luck.around(recipe.extraction, 1);
    // Now and then a shot runs away or chokes: a poor shot, but a true entry.
    const pace = luck.even() < 0.02 ? luck.between(0.5, 1.8) : 1;
    shots.push({
      dose: rounded(dose, writing.mass),
      beverage: rounded(beverage, writing.mass),
      time: rounded(luck.around(recipe.time, 2.5) * pace, writing.time),
      strength: rounded((extraction * dose) / beverage, writing.strength),
    });
  }
  return shots;
}

export function rounded(value: number, decimals: number): number {
  return Number(value.toFixed(decimals));
}

/** A slip made with one shot, given the row above it. */
export type Mistake = (shot: PlainShot, above: PlainShot, luck: Chance) => PlainShot;

const ounce = 28.349523125;
const slip = (value: number, luck: Chance): number => (luck.even() < 0.5 ? value * 10 : value / 10);

export const mistakes: Readonly<Record<string, Mistake>> = {
  "seconds typed as minutes:seconds into a cell": (shot) => ({ ...shot, time: Math.round(shot.time) / 1440 }),
  "a clock cell for seconds": (shot) => ({ ...shot, time: shot.time / 86400 }),
  "minutes for seconds": (shot) => ({ ...shot, time: rounded(shot.time / 60, 2) }),
  "decimal point of the time slipped": (shot, _, luck) => ({ ...shot, time: slip(shot.time, luck) }),
  "dose in ounces": (shot) => ({ ...shot, dose: rounded(shot.dose / ounce, 2) }),
  "both masses in ounces": (shot) => ({ ...shot, dose: rounded(shot.dose / ounce, 2), beverage: rounded(shot.beverage / ounce, 2) }),
  "decimal point of the dose slipped": (shot, _, luck) => ({ ...shot, dose: slip(shot.dose, luck) }),
  "decimal point of the beverage slipped": (shot, _, luck) => ({ ...shot, beverage: slip(shot.beverage, luck) }),
  "dose and beverage swapped": (shot) => ({ ...shot, dose: shot.beverage, beverage: shot.dose }),
  "cup weighed along": (shot, _, luck) => ({ ...shot, beverage: rounded(shot.beverage + luck.between(70, 250), 1) }),
  "strength as a percent cell": (shot) => ({ ...shot, strength: rounded(shot.strength / 100, 4) }),
  "strength of a filter coffee": (shot, _, luck) => ({ ...shot, strength: rounded(luck.between(1.1, 1.6), 2) }),
  "decimal point of the strength slipped": (shot, _, luck) => ({ ...shot, strength: slip(shot.strength, luck) }),
  "the row above again": (_, above) => above,
};

/** What LOG.CHECK should say of each mistake, first of all. */
export const firstWords: Readonly<Record<keyof typeof mistakes, RegExp>> = {
  "seconds typed as minutes:seconds into a cell": /^Time .* typed as a clock time/,
  "a clock cell for seconds": /^Time .* a clock cell/,
  "minutes for seconds": /^Time .* minutes/,
  "decimal point of the time slipped": /^Time .* a slipped decimal/,
  "dose in ounces": /^Dose .* ounces/,
  "both masses in ounces": /^Dose .* and beverage .* ounces/,
  "decimal point of the dose slipped": /^Dose .* a slipped decimal/,
  "decimal point of the beverage slipped": /^Beverage .* a slipped decimal/,
  "dose and beverage swapped": /^Dose and beverage look swapped/,
  "cup weighed along": /^Beverage .* with its cup/,
  "strength as a percent cell": /^Strength .* a percent cell/,
  "strength of a filter coffee": /^Strength .* filter coffee/,
  "decimal point of the strength slipped": /^Strength .* a slipped decimal/,
  "the row above again": /^Exactly the same/,
};
