/** Whether tasters score alike: in their order of the samples, and in the scores themselves. */
import { Problem } from "../problem";
import { largestSizeOf, mean, sum } from "../statistics/describe";
import { friedmanOf, rankedScores, type Block } from "./ranking";

export interface Agreement {
  /** Kendall's W: 0 where the orders have nothing in common, 1 where all are the same. */
  readonly concordance: number;
  /** Chance of a W this large where nobody has a preference. */
  readonly p: number;
  /** ICC(2,1): how far one taster's score can stand for another's, differences in level counted. */
  readonly oneTaster: number | Problem;
  /** ICC(3,1): the same for these tasters, differences in level not counted. */
  readonly oneTasterLevelled: number | Problem;
  /** ICC(3,k): how far the mean of these tasters can be relied on. */
  readonly meanOfTasters: number | Problem;
}

/**
 * Kendall's W, corrected for ties, from Friedman's test (ISO 8587); intraclass correlations of Shrout & Fleiss (1979), Psychol. Bull. 86:420,
 * the samples being their targets and the tasters their judges.
 */
export function tasteAgreement({ scores }: { readonly scores: Block }): Agreement {
  const ranks = rankedScores(scores, "scores");
  const { friedman, p } = friedmanOf(ranks);
  const concordance = friedman / (ranks.length * (ranks[0]!.length - 1));
  return { concordance, p, ...correlationsOf(scores) };
}

function correlationsOf(scores: Block): Pick<Agreement, "oneTaster" | "oneTasterLevelled" | "meanOfTasters"> {
  const [tasters, samples] = [scores.length, scores[0]!.length];
  const all = mean(scores.flat());
  const tasterMeans = scores.map((row) => mean(row));
  const sampleMeans = scores[0]!.map((_, column) => mean(scores.map((row) => row[column]!)));
  const squares = (deviations: readonly number[]): number => sum(deviations.map((it) => it * it));
  const betweenSamples = (tasters * squares(sampleMeans.map((it) => it - all))) / (samples - 1);
  const betweenTasters = (samples * squares(tasterMeans.map((it) => it - all))) / (tasters - 1);
  const residuals = scores.flatMap((row, taster) => row.map((it, column) => it - tasterMeans[taster]! - sampleMeans[column]! + all));
  const error = squares(residuals) / ((tasters - 1) * (samples - 1));
  // Typed scores have a few digits: what is smaller than that is rounding.
  const noise = (1e-13 * largestSizeOf(scores.flat())) ** 2;
  const share = (whole: number): number | Problem => (whole > noise ? (betweenSamples - error) / whole : alikeOnAverage);
  return {
    oneTaster: share(betweenSamples + (tasters - 1) * error + (tasters * (betweenTasters - error)) / samples),
    oneTasterLevelled: share(betweenSamples + (tasters - 1) * error),
    meanOfTasters: share(betweenSamples),
  };
}

const alikeOnAverage = new Problem("no answer", "All samples have the same mean score, so there is no difference that scores could agree on.");
