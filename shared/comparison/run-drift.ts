/** Do results drift over the runs of a trial, whatever the setting? */
import { noAnswer, Problem } from "../problem";
import { extremesOf } from "../statistics/describe";
import { tQuantileTwoSided, tTwoSided } from "../statistics/distributions";
import { leastSquares } from "../statistics/fit";
import { lessBlockMeans, placesOf } from "../statistics/two-way";
import { blockColumns, levelledOf, numbered } from "./groups";
import type { Setting } from "../settings";

interface Runs {
  /** The number of each run, in the order pulled. */
  readonly runs: readonly number[];
  readonly results: readonly number[];
  readonly settings?: readonly Setting[] | undefined;
  /** Taken out too where given; the drift is then that within a block. */
  readonly blocks?: readonly Setting[] | undefined;
}

export interface Drift {
  /** Change of the result from one run to the next. */
  readonly change: number;
  readonly low: number | Problem;
  readonly high: number | Problem;
  readonly p: number | Problem;
}

/** The slope of the results on the runs, the mean of each setting taken out of both, with its 95 % interval. */
export function runDrift({ runs, results, settings, blocks }: Runs): Drift {
  if (results.length < 2) noAnswer("A drift needs at least 2 runs with a result.");
  const [least, most] = extremesOf(runs);
  if (least === most) noAnswer("All runs have the same number, so no drift can be seen. Number them in the order pulled.");
  const levelled = levelledOf(results);
  const places = placesOf(settings ? numbered(settings).numbers : runs.map(() => 0));
  const columns = [runs, ...blockColumns(blocks ? numbered(blocks).numbers : null)];
  const fit = leastSquares(columns.map((column) => lessBlockMeans(column, places)), lessBlockMeans(levelled.results, places));
  if (!fit) noAnswer("No setting was pulled twice, so a drift cannot be told from the settings. Repeat settings, in mixed order.");
  const change = fit.slopes[0]!;
  const df = results.length - places.length - columns.length;
  if (df === 0 || fit.residualSumOfSquares <= levelled.noise) {
    const alone = new Problem("no answer", df === 0 ? "There are too few runs to judge a drift by. Pull more." : "The results lie exactly on a line, so there is no spread to judge by.");
    return { change, low: alone, high: alone, p: alone };
  }
  const error = Math.sqrt((fit.residualSumOfSquares / df) * fit.unscaledCovariance[0]![0]!);
  const reach = tQuantileTwoSided(0.05, df) * error;
  return { change, low: change - reach, high: change + reach, p: tTwoSided(change / error, df) };
}
