/** The setting at the peak of the results. */
import { noAnswer, Problem } from "../problem";
import { printed } from "../words";
import { extremesOf, mean, sum } from "../statistics/describe";
import { fUpper, tQuantileTwoSided } from "../statistics/distributions";
import { leastSquares, type Fit } from "../statistics/fit";
import { lessBlockMeans, placesOf } from "../statistics/two-way";
import { areComparable, named, requireLinked, sortedTrial, type Trial } from "./groups";
import { oneSpread } from "./one-spread";
import type { Setting } from "../settings";

interface BestArguments {
  readonly settings: readonly number[];
  readonly results: readonly number[];
  readonly blocks?: readonly Setting[] | undefined;
}

export interface BestSetting {
  readonly setting: number;
  readonly low: number | Problem;
  readonly high: number | Problem;
  /** Averaged over the blocks, all weighing the same. */
  readonly result: number;
}

/** A curve that fits this badly comes by chance once in twenty where it is a parabola. */
const LACK_OF_FIT = 0.05;

/**
 * Peak of a parabola through the results, with Fieller's interval: all settings at which the slope may be 0.
 * Fieller 1954, J. R. Stat. Soc. B 16:175, applied to -b / 2c. Where the curvature is uncertain the interval has no end on one side.
 * Where settings repeat, the spread between their means and the curve is tested against the spread of repeats (lack of fit).
 */
export function bestSetting({ settings, results, blocks }: BestArguments): (wanted: { readonly confidence?: number }) => BestSetting {
  const different = new Set(settings).size;
  if (different < 3) noAnswer(`A peak needs at least 3 different settings, but there ${different === 1 ? "is" : "are"} only ${different}.`);
  const trial = sortedTrial({ settings, results, blocks });
  requireLinked(trial);
  const curve = parabolaOf(settings, trial);
  if (areComparable(trial)) requireFit(trial, curve);
  const peak = peakOf(curve, settings);
  return ({ confidence = 0.95 }) => withInterval(curve, peak, confidence, trial);
}

interface Parabola {
  /** In z = (setting - centre) / scale, from about -1 to 1, freed of block means. */
  readonly fit: Fit;
  readonly df: number;
  readonly centre: number;
  readonly scale: number;
  /** The value at z = 0, counted from the level, averaged over blocks. */
  readonly height: number;
}

function parabolaOf(settings: readonly number[], trial: Trial): Parabola {
  const { results, noise } = trial;
  const [least, most] = extremesOf(settings);
  const [centre, scale] = [least + (most - least) / 2, (most - least) / 2];
  const z = settings.map((setting) => (setting - centre) / scale);
  const columns = [z, z.map((value) => value * value)];
  const blocks = placesOf(trial.blockOf ?? settings.map(() => 0));
  const fit = leastSquares(columns.map((column) => lessBlockMeans(column, blocks)), lessBlockMeans(results, blocks));
  if (!fit) noAnswer("The settings lie too close together to show a curve, or change too little within the blocks.");
  if (fit.totalSumOfSquares <= noise) noAnswer("All results are alike, so no setting is best.");
  const overBlocks = (values: readonly number[]): number => mean(blocks.map((places) => mean(places.map((place) => values[place]!))));
  const height = overBlocks(results) - sum(columns.map((column, k) => fit.slopes[k]! * overBlocks(column)));
  return { fit, df: results.length - blocks.length - columns.length, centre, scale, height };
}

/** Refuses the curve where the settings' means lie further from it than their repeats explain, and names the best setting tried instead. */
function requireFit(trial: Trial, { fit, df }: Parabola): void {
  const { means, error } = oneSpread(trial);
  const df1 = trial.groups.length - 3;
  const pureDf = df - df1;
  if (df1 === 0 || pureDf === 0) return;
  const pure = error instanceof Problem ? 0 : error.variance * error.df;
  const away = fit.residualSumOfSquares - pure;
  if (away <= trial.noise) return;
  const p = pure === 0 ? 0 : fUpper(away / df1 / (pure / pureDf), df1, pureDf);
  if (p >= LACK_OF_FIT) return;
  const best = means.indexOf(Math.max(...means));
  noAnswer(
    `The results do not follow a curve with one peak (lack of fit, p ${p < 0.001 ? "below 0.001" : printed(Number(p.toPrecision(2)))}). Best of the settings tried: ` +
      `${named(trial.groups[best]!.setting)}, with ${printed(trial.level + means[best]!)}. A true parabola is refused so once in twenty.`,
  );
}

interface Peak {
  readonly z: number;
  readonly setting: number;
  /** Why there is none inside the settings tried. */
  readonly outside: string | null;
}

function peakOf({ fit, centre, scale }: Parabola, settings: readonly number[]): Peak {
  const [b, c] = fit.slopes as [number, number];
  const [least, most] = extremesOf(settings);
  const tried = `the settings tried, ${printed(least)} to ${printed(most)}`;
  const z = -b / (2 * c);
  const setting = centre + scale * z;
  if (c >= 0) {
    noAnswer(
      setting > least && setting < most
        ? `The results have their lowest point, not a peak, near ${printed(setting)}: the best of ${tried}, is at an end.`
        : `The results rise towards an end of ${tried}, without a peak. Try settings beyond it.`,
    );
  }
  const inside = setting >= least && setting <= most;
  const outside = inside ? null : `The fitted peak, ${printed(setting)}, lies outside ${tried}. Try settings beyond ${printed(setting > most ? most : least)}.`;
  return { z, setting, outside };
}

function withInterval({ fit, df, centre, scale, height }: Parabola, peak: Peak, confidence: number, { level, noise }: Trial): BestSetting {
  const judged = df > 0 && fit.residualSumOfSquares > noise;
  const reach = judged ? tQuantileTwoSided(1 - confidence, df) * Math.sqrt(fit.residualSumOfSquares / df) : 0;
  const ends = fiellerEnds(fit.slopes, fit.unscaledCovariance, peak.z, reach);
  if (ends.low === -Infinity && ends.high === Infinity) {
    noAnswer(`The results are too flat for their spread: at confidence ${printed(confidence)} any setting could be the best. Pull more shots, or try settings further apart.`);
  }
  if (peak.outside) noAnswer(peak.outside);
  const end = (value: number, side: string): number | Problem => {
    if (!judged) return new Problem("no answer", "The results lie exactly on the curve, so there is no spread to judge by. Pull more shots.");
    if (Number.isFinite(value)) return centre + scale * value;
    return new Problem("no answer", `The results set no ${side} limit to the best setting. Pull more shots, or try settings further ${side === "lower" ? "down" : "up"}.`);
  };
  const result = level + height + (fit.slopes[0]! * peak.z) / 2;
  return { setting: peak.setting, low: end(ends.low, "lower"), high: end(ends.high, "upper"), result };
}

/** The part of {x: (b + 2cx)² <= reach² · variance of it} that holds the peak; infinite where it has no end. */
function fiellerEnds(
  [b, c]: readonly number[],
  covariance: readonly (readonly number[])[],
  peak: number,
  reach: number,
): { low: number; high: number } {
  const squared = reach * reach;
  const [vb, vbc, vc] = [covariance[0]![0]! * squared, covariance[0]![1]! * squared, covariance[1]![1]! * squared];
  const curvature = 4 * (c! * c! - vc);
  const half = 2 * (b! * c! - vbc);
  const root = half * half - curvature * (b! * b! - vb);
  if (curvature <= 0 && root <= 0) return { low: -Infinity, high: Infinity };
  const steep = -(half + Math.sign(half || 1) * Math.sqrt(Math.max(0, root)));
  const [one, other] = [steep / curvature, (b! * b! - vb) / steep].sort((p, q) => p - q) as [number, number];
  if (curvature > 0) return { low: one, high: other };
  return peak >= other ? { low: other, high: Infinity } : { low: -Infinity, high: one };
}
