/**
 * Settings compared at the same shot time, beverage mass or whatever else was not held: analysis of covariance with common slopes.
 * Cochran 1957, Biometrics 13:261. The slopes come from within the settings, so a setting that ran long does not bend them.
 * Blocks are covariates too: a column for each but the first, 1 inside and 0 outside, compared at equal shares of all.
 */
import { badInput, noAnswer, Problem } from "../problem";
import { printed } from "../words";
import { extremesOf, mean, sum } from "../statistics/describe";
import { fUpper } from "../statistics/distributions";
import { leastSquares, quadraticForm, type Fit } from "../statistics/fit";
import { blockColumns, countOf, named, requireLinked, trialOfSeveral, type Comparison, type Group, type Trial } from "./groups";
import type { Setting } from "../settings";

type Columns = readonly (readonly number[])[];

interface AdjustedComparison extends Comparison {
  /** One list for each covariate, as long as the settings. */
  readonly covariates: Columns;
}

export interface AdjustedSetting {
  readonly setting: Setting;
  readonly shots: number;
  readonly adjustedMean: number | Problem;
  readonly standardError: number | Problem;
}

interface AdjustedArguments extends AdjustedComparison {
  /** One value for each covariate; their means if left out. */
  readonly at?: readonly number[];
}

/**
 * Means of the settings as if every shot had had the same covariates. Where `at` is given, a setting none of whose own shots came that
 * far has no mean: it would be a guess about shots that nobody pulled.
 */
export function compareAdjusted({ at, ...comparison }: AdjustedArguments): AdjustedSetting[] {
  const { covariates } = comparison;
  if (at && at.length !== covariates.length) {
    badInput(`at has ${at.length} values, but there are ${covariates.length} covariates. Give one value for each.`);
  }
  const { trial, fit, columns, blocks } = commonSlopes(comparison);
  const point = [...(at ?? covariates.map(mean)), ...blocks.map(() => 1 / (blocks.length + 1))];
  const variance = fit.residualSumOfSquares / fit.df;
  const compared = trial.groups.map((group) => {
    const { setting, count: shots } = group;
    const outside = at && outsideOf(group, at, covariates);
    if (outside) return { setting, shots, adjustedMean: outside, standardError: outside };
    const away = centresOf(group, columns).map((centre, k) => point[k]! - centre);
    return {
      setting,
      shots,
      adjustedMean: trial.level + group.mean + sum(away.map((distance, k) => fit.slopes[k]! * distance)),
      standardError: Math.sqrt(variance * (1 / shots + quadraticForm(fit.unscaledCovariance, away, away))),
    };
  });
  if (at && compared.every(({ adjustedMean }) => adjustedMean instanceof Problem)) refuseEverywhere(at, covariates);
  return compared;
}

/** Why this setting has no mean there: each covariate by itself must have come that far in its own shots. */
function outsideOf({ setting, places }: Group, at: readonly number[], covariates: Columns): Problem | null {
  for (const [k, covariate] of covariates.entries()) {
    const [least, most] = extremesOf(places.map((place) => covariate[place]!));
    if (at[k]! >= least && at[k]! <= most) continue;
    const own = least === most ? printed(least) : `${printed(least)} to ${printed(most)}`;
    return new Problem("no answer", `at ${printed(at[k]!)} is outside the covariates of setting ${named(setting)}, ${own}: it has no shot there to go by.`);
  }
  return null;
}

function refuseEverywhere(at: readonly number[], covariates: Columns): never {
  at.forEach((value, k) => {
    const [least, most] = extremesOf(covariates[k]!);
    if (!(value >= least && value <= most)) {
      noAnswer(`at ${printed(value)} is outside the covariates of the shots, ${printed(least)} to ${printed(most)}.`);
    }
  });
  return noAnswer(`No setting has shots on both sides of at ${at.map(printed).join(", ")}, so there is none to compare there.`);
}

export interface AdjustedTest {
  readonly f: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
  readonly slopesP: number | Problem;
}

/** Do the settings differ once covariates and blocks are taken into account, and may one slope serve for all of them? */
export function compareAdjustedTest(comparison: AdjustedComparison): AdjustedTest {
  const slopes = commonSlopes(comparison);
  const { trial, fit, columns } = slopes;
  const withoutSettings = leastSquares(columns, trial.results);
  if (!withoutSettings) noAnswer("One covariate follows from the others. Leave one out.");
  const df1 = trial.groups.length - 1;
  const f = (withoutSettings.residualSumOfSquares - fit.residualSumOfSquares) / df1 / (fit.residualSumOfSquares / fit.df);
  return { f: Math.max(0, f), df1, df2: fit.df, p: fUpper(f, df1, fit.df), slopesP: slopesTest(comparison, slopes) };
}

interface CommonSlopes {
  readonly trial: Trial;
  /** Results on columns, each less the mean of its setting; df counts the settings too. */
  readonly fit: Fit;
  /** The covariates, then the blocks but the first. */
  readonly columns: Columns;
  readonly blocks: Columns;
}

function commonSlopes({ covariates, ...comparison }: AdjustedComparison): CommonSlopes {
  if (covariates.length === 0) badInput("covariates is empty: give at least one column, such as the shot times.");
  const trial = trialOfSeveral(comparison);
  requireLinked(trial);
  const { groups, results } = trial;
  const blocks = blockColumns(trial.blockOf);
  const columns = [...covariates, ...blocks];
  const df = countOf(groups) - groups.length - columns.length;
  if (df < 1) {
    const within = blocks.length > 0 ? `, ${blocks.length + 1} blocks` : "";
    const needed = groups.length + columns.length + 1;
    noAnswer(`${countOf(groups)} shots are too few for ${groups.length} settings${within} and ${covariates.length} covariates: at least ${needed} are needed.`);
  }
  const within = columns.map((column) => lessOwnMean(column, groups));
  if (within.some((column) => column.every((value) => value === 0))) {
    noAnswer("A covariate is the same for all shots of each setting, so its effect cannot be told from that of the settings. Leave it out.");
  }
  const fit = leastSquares(within, lessOwnMean(results, groups));
  if (!fit) {
    const inside = blocks.length > 0 ? "settings and blocks" : "settings";
    noAnswer(`Within the ${inside} one covariate follows from the others or does not change, so its effect cannot be told apart. Leave it out.`);
  }
  if (fit.residualSumOfSquares <= trial.noise) {
    noAnswer("The covariates explain the results to the last digit, so there is no spread left to judge by.");
  }
  return { trial, fit: { ...fit, df }, columns, blocks };
}

/** Each value less the mean of its setting; 0 where only rounding is left. */
function lessOwnMean(values: readonly number[], groups: readonly Group[]): number[] {
  const result = new Array<number>(values.length).fill(0);
  const [least, most] = extremesOf(values);
  const noise = 1e-14 * Math.max(-least, most);
  for (const { places } of groups) {
    const centre = mean(places.map((place) => values[place]!));
    for (const place of places) {
      const distance = values[place]! - centre;
      result[place] = Math.abs(distance) > noise ? distance : 0;
    }
  }
  return result;
}

function centresOf(group: Group, columns: Columns): number[] {
  return columns.map((column) => mean(group.places.map((place) => column[place]!)));
}

/** p of "the slopes differ from setting to setting": each setting with its own slopes against common slopes. */
function slopesTest({ covariates }: AdjustedComparison, { trial, fit, blocks }: CommonSlopes): number | Problem {
  const { groups, results } = trial;
  const inside = (column: readonly number[]): number[] => lessOwnMean(column, groups);
  const ownColumns = covariates.map(inside).flatMap((column) =>
    groups.map((_, group) => column.map((value, place) => (trial.groupOf[place] === group ? value : 0))),
  );
  const own = leastSquares([...ownColumns, ...blocks.map(inside)], inside(results));
  const df1 = (groups.length - 1) * covariates.length;
  const df2 = fit.df - df1;
  if (!own || df2 < 1 || own.residualSumOfSquares <= trial.noise) {
    return new Problem("no answer", `Each setting needs at least ${covariates.length + 2} shots with different covariates to show whether its slope is its own.`);
  }
  return fUpper((fit.residualSumOfSquares - own.residualSumOfSquares) / df1 / (own.residualSumOfSquares / df2), df1, df2);
}
