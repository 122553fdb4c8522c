/**
 * Settings compared at the same shot time, beverage mass or whatever else was not held: analysis of covariance with common slopes.
 * Cochran 1957, Biometrics 13:261 (from memory). The slopes come from within the settings, so a setting that ran long does not bend them.
 */
import { badInput, noAnswer, Problem } from "../problem";
import { printed } from "../words";
import { mean, sum } from "../statistics/describe";
import { fUpper } from "../statistics/distributions";
import { leastSquares, quadraticForm, type Fit } from "../statistics/fit";
import { atLeastTwoGroups, countOf, type Comparison, type Group } from "./groups";
import type { Setting } from "../settings";

interface AdjustedComparison extends Comparison {
  /** One list for each covariate, as long as the settings. */
  readonly covariates: readonly (readonly number[])[];
}

export interface AdjustedSetting {
  readonly setting: Setting;
  readonly shots: number;
  readonly adjustedMean: number;
  readonly standardError: number;
}

interface AdjustedArguments extends AdjustedComparison {
  /** One value for each covariate; their means if left out. */
  readonly at?: readonly number[];
}

/** Means of the settings as if every shot had had the same covariates. */
export function compareAdjusted({ at, ...comparison }: AdjustedArguments): AdjustedSetting[] {
  const { covariates } = comparison;
  if (at) requireInside(at, covariates);
  const point = at ?? covariates.map(mean);
  const { groups, fit, df } = withinFit(comparison);
  const variance = fit.residualSumOfSquares / df;
  return groups.map((group) => {
    const away = centresOf(group, covariates).map((centre, k) => point[k]! - centre);
    return {
      setting: group.setting,
      shots: group.count,
      adjustedMean: group.mean + sum(away.map((distance, k) => fit.slopes[k]! * distance)),
      standardError: Math.sqrt(variance * (1 / group.count + quadraticForm(fit.unscaledCovariance, away, away))),
    };
  });
}

function requireInside(at: readonly number[], covariates: readonly (readonly number[])[]): void {
  if (at.length !== covariates.length) {
    badInput(`at has ${at.length} values, but there are ${covariates.length} covariates. Give one value for each.`);
  }
  at.forEach((value, k) => {
    const [least, most] = [Math.min(...covariates[k]!), Math.max(...covariates[k]!)];
    if (!(value >= least && value <= most)) {
      noAnswer(`at ${printed(value)} is outside the covariates of the shots, ${printed(least)} to ${printed(most)}.`);
    }
  });
}

export interface AdjustedTest {
  readonly f: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
  readonly slopesP: number | Problem;
}

/** Do the settings differ once the covariates are taken into account, and may one slope serve for all of them? */
export function compareAdjustedTest(comparison: AdjustedComparison): AdjustedTest {
  const { groups, fit, df } = withinFit(comparison);
  const withoutSettings = leastSquares(comparison.covariates, comparison.results);
  if (!withoutSettings) noAnswer("One covariate follows from the others. Leave one out.");
  const df1 = groups.length - 1;
  const f = (withoutSettings.residualSumOfSquares - fit.residualSumOfSquares) / df1 / (fit.residualSumOfSquares / df);
  return { f: Math.max(0, f), df1, df2: df, p: fUpper(f, df1, df), slopesP: slopesTest(comparison, groups, fit, df) };
}

/** Common slopes: results and covariates, each less the mean of its setting, on one another. */
function withinFit({ covariates, ...comparison }: AdjustedComparison): { groups: Group[]; fit: Fit; df: number } {
  if (covariates.length === 0) badInput("covariates is empty: give at least one column, such as the shot times.");
  const groups = atLeastTwoGroups(comparison);
  const df = countOf(groups) - groups.length - covariates.length;
  if (df < 1) {
    const needed = groups.length + covariates.length + 1;
    noAnswer(`${countOf(groups)} shots are too few for ${groups.length} settings and ${covariates.length} covariates: at least ${needed} are needed.`);
  }
  const columns = covariates.map((covariate) => lessOwnMean(covariate, groups));
  const fit = leastSquares(columns, lessOwnMean(comparison.results, groups));
  if (columns.some((column) => column.every((value) => value === 0))) {
    noAnswer("A covariate is the same for all shots of each setting, so its effect cannot be told from that of the settings. Leave it out.");
  }
  if (!fit) noAnswer("Within the settings one covariate follows from the others, so their effects cannot be told apart. Leave one out.");
  if (fit.residualSumOfSquares <= 1e-24 * sum(comparison.results.map((value) => value * value))) {
    noAnswer("The covariates explain the results to the last digit, so there is no spread left to judge by.");
  }
  return { groups, fit, df };
}

/** Each value less the mean of its setting; 0 where only rounding is left. */
function lessOwnMean(values: readonly number[], groups: readonly Group[]): number[] {
  const result = new Array<number>(values.length).fill(0);
  const noise = 1e-14 * Math.max(...values.map(Math.abs));
  for (const { places } of groups) {
    const centre = mean(places.map((place) => values[place]!));
    for (const place of places) {
      const distance = values[place]! - centre;
      result[place] = Math.abs(distance) > noise ? distance : 0;
    }
  }
  return result;
}

function centresOf(group: Group, covariates: readonly (readonly number[])[]): number[] {
  return covariates.map((covariate) => mean(group.places.map((place) => covariate[place]!)));
}

/** p of "the slopes differ from setting to setting": each setting with its own slopes against common slopes. */
function slopesTest({ covariates, results }: AdjustedComparison, groups: readonly Group[], common: Fit, commonDf: number): number | Problem {
  const own = groups.map(({ places }) => {
    const ownPart = (list: readonly number[]): number[] => places.map((place) => list[place]!);
    return leastSquares(covariates.map(ownPart), ownPart(results));
  });
  const df1 = (groups.length - 1) * covariates.length;
  const df2 = commonDf - df1;
  const squares = sum(own.map((fit) => fit?.residualSumOfSquares ?? 0));
  if (own.includes(null) || df2 < 1 || squares === 0) {
    return new Problem("no answer", `Each setting needs at least ${covariates.length + 2} shots with different covariates to show whether its slope is its own.`);
  }
  return fUpper((common.residualSumOfSquares - squares) / df1 / (squares / df2), df1, df2);
}
