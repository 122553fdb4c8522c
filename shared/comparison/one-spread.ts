/** Settings that share one spread, with or without blocks: what every test of method "equal" stands on. */
import { noAnswer, Problem } from "../problem";
import { sum } from "../statistics/describe";
import { differenceVariance, twoWayFit } from "../statistics/two-way";
import { countOf, requireLinked, type Trial } from "./groups";

export interface OneSpread {
  /** The groups' means, counted from the level; with blocks least-squares means, all blocks weighing the same. */
  readonly means: readonly number[];
  /** What is left within settings and blocks, for each degree of freedom; or why nothing is. */
  readonly error: { readonly variance: number; readonly df: number } | Problem;
  /** Variance of a mean, and of the difference of two, for an error variance of 1. */
  readonly meanVariance: (group: number) => number;
  readonly differenceVariance: (first: number, second: number) => number;
  /** Sum of squares of the settings after the blocks. */
  readonly between: number;
}

/** Refuses settings that cannot be told from the blocks. */
export function oneSpread(trial: Trial): OneSpread {
  return trial.blockOf ? withinBlocks(trial, trial.blockOf) : withoutBlocks(trial);
}

function withoutBlocks({ groups }: Trial): OneSpread {
  const centre = sum(groups.map((group) => group.count * group.mean)) / countOf(groups);
  return {
    means: groups.map((group) => group.mean),
    error: errorOf(sum(groups.map(({ squares }) => squares)), 0, countOf(groups) - groups.length, {
      few: "Every setting has only one shot, so there is no spread to judge by. Repeat at least one setting.",
      alike: "The shots of each setting are all alike, so there is no spread to judge by. Give results with more decimals.",
    }),
    meanVariance: (group) => 1 / groups[group]!.count,
    differenceVariance: (first, second) => 1 / groups[first]!.count + 1 / groups[second]!.count,
    between: sum(groups.map((group) => group.count * (group.mean - centre) ** 2)),
  };
}

function withinBlocks(trial: Trial, blocks: readonly number[]): OneSpread {
  requireLinked(trial);
  const fit = twoWayFit({ treatments: trial.groupOf, blocks, results: trial.results });
  if (!fit) noAnswer("The settings cannot be told from the blocks.");
  return {
    means: fit.means,
    error: errorOf(fit.residualSumOfSquares, trial.noise, fit.df, {
      few: "There are only as many shots as the settings and blocks need, so there is no spread to judge by. Pull more settings in each block.",
      alike: "Settings and blocks explain the results to the last digit, so there is no spread to judge by. Give results with more decimals.",
    }),
    meanVariance: (group) => fit.unscaledCovariance[group]![group]!,
    differenceVariance: (first, second) => differenceVariance(fit, first, second),
    between: fit.treatmentSumOfSquares,
  };
}

function errorOf(squares: number, noise: number, df: number, none: { readonly few: string; readonly alike: string }): OneSpread["error"] {
  if (df === 0) return new Problem("no answer", none.few);
  return squares <= noise ? new Problem("no answer", none.alike) : { variance: squares / df, df };
}
