/**
 * What scores of several tasters say about the samples. Every taster has a scale of their own, so the taster is a block: samples are compared
 * within tasters, against how differently the tasters see the samples (taster × sample). Intervals and tests speak for these tasters only.
 */
import { letterDisplay } from "../comparison/compare";
import { named } from "../comparison/groups";
import { noAnswer, Problem } from "../problem";
import { inSettingOrder, settingKey, type Setting } from "../settings";
import { largestSizeOf, mean } from "../statistics/describe";
import { fUpper, tQuantileTwoSided } from "../statistics/distributions";
import { studentizedRange } from "../statistics/studentized-range";
import { connectedTreatments, differenceVariance, twoWayFit, type TwoWayFit } from "../statistics/two-way";

interface ScoreLists {
  /** Who gave each score. */
  readonly tasters: readonly Setting[];
  /** To which sample. */
  readonly samples: readonly Setting[];
  readonly scores: readonly number[];
}

export interface ScoredSample {
  readonly sample: Setting;
  /** Tasters who scored it. */
  readonly tasters: number;
  /** Least-squares mean: as if every taster had scored every sample, each weighing the same. */
  readonly meanValue: number;
  readonly low: number | Problem;
  readonly high: number | Problem;
  readonly group: string | Problem;
}

/** The samples in order, each with its mean over the tasters, its t interval, and letters by Tukey and Kramer: those that share one are not told apart. */
export function tasteScores({ confidence = 0.95, ...lists }: ScoreLists & { readonly confidence?: number }): ScoredSample[] {
  const table = tableOf(lists);
  const { samples, fit } = table;
  const error = errorOf(table);
  const groups = error instanceof Problem ? error : lettersOf(table, error, confidence);
  return samples.map((sample, index) => {
    const meanValue = fit.means[index]!;
    const known = { sample, tasters: table.cells.filter((cell) => cell.sample === index).length, meanValue };
    if (error instanceof Problem) return { ...known, low: error, high: error, group: error };
    const reach = tQuantileTwoSided(1 - confidence, fit.df) * Math.sqrt(error * fit.unscaledCovariance[index]![index]!);
    return { ...known, low: meanValue - reach, high: meanValue + reach, group: groups instanceof Problem ? groups : groups.get(index)! };
  });
}

/** Do the samples differ at all in the eyes of these tasters? */
export function tasteScoresTest(lists: ScoreLists): { f: number; df1: number; df2: number; p: number } {
  const table = tableOf(lists);
  const error = errorOf(table);
  if (error instanceof Problem) throw error;
  const { treatmentSumOfSquares, treatmentDf: df1, df: df2 } = table.fit;
  const f = treatmentSumOfSquares / df1 / error;
  return { f, df1, df2, p: fUpper(f, df1, df2) };
}

/** The scores of one taster for one sample, averaged; taster and sample by their places. */
interface Cell {
  readonly taster: number;
  readonly sample: number;
  readonly score: number;
}

interface ScoreTable {
  readonly samples: readonly Setting[];
  readonly cells: readonly Cell[];
  readonly fit: TwoWayFit;
}

/** More of them than this is a column given by mistake. */
const mostSamples = 60;

function tableOf({ tasters, samples, scores }: ScoreLists): ScoreTable {
  if (scores.length === 0) noAnswer("There is no score with a taster and a sample yet.");
  const tasterNames = distinct(tasters);
  const sampleNames = [...distinct(samples)].sort(([, a], [, b]) => inSettingOrder(a, b));
  if (sampleNames.length > mostSamples) {
    noAnswer(`There are ${sampleNames.length} different samples, more than the ${mostSamples} that can be compared. Is samples the right column?`);
  }
  const tasterPlaces = placesOf(tasterNames.keys());
  const samplePlaces = placesOf(sampleNames.map(([key]) => key));
  const given = new Map<string, { taster: number; sample: number; scores: number[] }>();
  scores.forEach((score, row) => {
    const [taster, sample] = [tasterPlaces.get(settingKey(tasters[row]!))!, samplePlaces.get(settingKey(samples[row]!))!];
    const key = `${taster} ${sample}`;
    const known = given.get(key);
    if (known) known.scores.push(score);
    else given.set(key, { taster, sample, scores: [score] });
  });
  const cells = [...given.values()].map((cell) => ({ taster: cell.taster, sample: cell.sample, score: mean(cell.scores) }));
  const names = sampleNames.map(([, name]) => name);
  return { samples: names, cells, fit: fitOrRefuse(cells, names) };
}

/** The first spelling of each name, by its key. */
function distinct(names: readonly Setting[]): Map<string, Setting> {
  const found = new Map<string, Setting>();
  for (const name of names) if (!found.has(settingKey(name))) found.set(settingKey(name), name);
  return found;
}

function placesOf(keys: Iterable<string>): Map<string, number> {
  return new Map([...keys].map((key, place) => [key, place]));
}

function fitOrRefuse(cells: readonly Cell[], samples: readonly Setting[]): TwoWayFit {
  const treatments = cells.map(({ sample }) => sample);
  const blocks = cells.map(({ taster }) => taster);
  const fit = twoWayFit({ treatments, blocks, results: cells.map(({ score }) => score) });
  if (fit) return fit;
  const together = connectedTreatments({ treatments, blocks });
  const apart = samples.findIndex((_, index) => !together.has(index));
  return noAnswer(
    `No taster links sample ${named(samples[0]!)} with ${named(samples[apart]!)}, so what differs may be the tasters and not the samples. Let one taster score both.`,
  );
}

/** Mean square of taster × sample, by which the samples are judged. */
function errorOf({ samples, cells, fit }: ScoreTable): number | Problem {
  if (samples.length < 2) return new Problem("no answer", `There is only sample ${named(samples[0]!)}, so there is nothing to compare it with.`);
  if (fit.df === 0) return new Problem("no answer", "No two tasters scored the same two samples, so there is no spread to judge by. Let more tasters score more of the samples.");
  // Typed scores have a few digits: what is smaller than that is rounding.
  const noise = cells.length * (1e-13 * largestSizeOf(cells.map(({ score }) => score))) ** 2;
  if (fit.residualSumOfSquares <= noise) {
    return new Problem("no answer", "All tasters see the same differences between the samples, to the last digit, so there is no spread to judge by. Score with finer steps.");
  }
  return fit.residualSumOfSquares / fit.df;
}

/** Letters by Tukey and Kramer on the least-squares means; the best sample has the letter a. */
function lettersOf({ samples, fit }: ScoreTable, error: number, confidence: number): Map<number, string> | Problem {
  const range = studentizedRange(samples.length);
  const critical = range.quantileUpper(1 - confidence, fit.df);
  const apart = (a: number, b: number): boolean => Math.abs(fit.means[a]! - fit.means[b]!) > critical * Math.sqrt((error / 2) * differenceVariance(fit, a, b));
  const best = samples.map((_, index) => index).sort((a, b) => fit.means[b]! - fit.means[a]!);
  return letterDisplay(best, apart) ?? new Problem("no answer", "The samples overlap in too many ways for letters.");
}
