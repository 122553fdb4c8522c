/** How well a number is known, and how many shots a question needs. */
import { badInput, noAnswer, Problem } from "./problem";
import { printed } from "./words";
import { extraction } from "./shot";
import { mean, standardDeviation } from "./statistics/describe";
import { fQuantileUpper, noncentralFUpper } from "./statistics/distributions";
import { findRoot } from "./statistics/root";

interface Errors {
  readonly dose: number;
  readonly beverage: number;
  readonly strength: number;
  readonly doseError?: number;
  readonly beverageError?: number;
  readonly strengthError?: number;
}

/**
 * Squared relative standard uncertainties of the three factors of an extraction; the errors default to a café scale and a
 * pocket refractometer. JCGM 100:2008 (GUM), 5.1.6: for a product they add up.
 */
function relativeVariances({ dose, beverage, strength, doseError = 0.1, beverageError = 0.1, strengthError = 0.05 }: Errors): number[] {
  return [(doseError / dose) ** 2, (beverageError / beverage) ** 2, (strengthError / strength) ** 2];
}

/** Expanded uncertainty of an extraction, percentage points. First order, as in the GUM. */
export function extractionUncertainty({ coverage = 2, ...errors }: Errors & { readonly coverage?: number }): number {
  const [fromDose, fromBeverage, fromStrength] = relativeVariances(errors) as [number, number, number];
  return coverage * extraction(errors) * Math.sqrt(fromDose + fromBeverage + fromStrength);
}

/** What part of the variance of an extraction each measurement brings, %. */
export function extractionShares(errors: Errors): { doseShare: number; beverageShare: number; strengthShare: number } {
  const [fromDose, fromBeverage, fromStrength] = relativeVariances(errors) as [number, number, number];
  const all = fromDose + fromBeverage + fromStrength;
  if (all === 0) noAnswer("doseerror, beverageerror and strengtherror are all 0, so there is no uncertainty to share out.");
  return { doseShare: (100 * fromDose) / all, beverageShare: (100 * fromBeverage) / all, strengthShare: (100 * fromStrength) / all };
}

const MOST_SHOTS = 100_000;
/** Beyond this noncentrality a difference shows at once; the sum over counts would only get long. */
const MOST_NONCENTRALITY = 1e9;

/**
 * Chance that the F test of several settings, `shots` each, finds two of them `effect` standard deviations apart where the rest lie
 * midway, which is the least favourable case; for two settings it is the two-sided t test. `critical` is that test's critical F.
 */
function powerOf(shots: number, effect: number, settings: number, critical: number): number {
  return noncentralFUpper(critical, settings - 1, settings * (shots - 1), Math.min(MOST_NONCENTRALITY, (shots * effect * effect) / 2));
}

interface Plan {
  readonly spread: number;
  readonly power?: number;
  readonly significance?: number;
}

/**
 * The smallest number of shots for each setting that finds this difference with this power: noncentral F distribution. With more
 * than two settings the test is the one over all of them; the one pair that differs is found a little less often.
 */
export function shotsNeeded({ difference, spread, power = 0.8, significance = 0.05, settings = 2 }: Plan & {
  readonly difference: number;
  readonly settings?: number;
}): number {
  requirePower(power, significance);
  const effect = Math.abs(difference) / spread;
  const enough = (shots: number): boolean => {
    const critical = fQuantileUpper(significance, settings - 1, settings * (shots - 1));
    return powerOf(shots, effect, settings, critical) >= power;
  };
  let [few, many] = [1, 2];
  while (!enough(many)) {
    if (many === MOST_SHOTS) {
      noAnswer(`More than ${MOST_SHOTS} shots for each setting would be needed: difference ${printed(difference)} is only ${printed(effect)} times spread.`);
    }
    [few, many] = [many, Math.min(2 * many, MOST_SHOTS)];
  }
  while (many - few > 1) {
    const middle = Math.floor((few + many) / 2);
    if (enough(middle)) many = middle;
    else few = middle;
  }
  return many;
}

/** The smallest difference between two settings that this many shots for each finds with this power. */
export function differenceDetectable({ shots, spread, power = 0.8, significance = 0.05 }: Plan & { readonly shots: number }): number {
  if (!(shots >= 2)) noAnswer(`With ${printed(shots)} shot for each setting there is no spread to judge by. Pull at least 2 for each.`);
  requirePower(power, significance);
  const critical = fQuantileUpper(significance, 1, 2 * (shots - 1));
  const short = (effect: number): number => powerOf(shots, effect, 2, critical) - power;
  let high = 1;
  while (short(high) < 0) high *= 2;
  return spread * findRoot(short, 0, high, 1e-12);
}

function requirePower(power: number, significance: number): void {
  if (power <= significance) {
    badInput(`power, ${printed(power)}, must be more than significance, ${printed(significance)}: that much power comes by chance alone.`);
  }
}

/**
 * Agreement of two readings of the same shots: mean of second - first, its standard deviation, and the limits between which
 * some 95 % of the differences fall. Bland & Altman 1986, Lancet 327:307.
 */
export function agreement({ first, second }: { readonly first: readonly number[]; readonly second: readonly number[] }): {
  meanDifference: number; differenceSd: number | Problem; lowerLimit: number | Problem; upperLimit: number | Problem;
} {
  if (first.length === 0) noAnswer("There is no pair of readings yet. Read the same shots both ways.");
  const differences = second.map((value, index) => value - first[index]!);
  const centre = mean(differences);
  if (differences.length === 1) {
    const alone = new Problem("no answer", "There is only one pair of readings, so there is no spread to judge by. Read at least 2 shots both ways; 20 give useful limits.");
    return { meanDifference: centre, differenceSd: alone, lowerLimit: alone, upperLimit: alone };
  }
  const sd = standardDeviation(differences);
  return { meanDifference: centre, differenceSd: sd, lowerLimit: centre - 1.96 * sd, upperLimit: centre + 1.96 * sd };
}
