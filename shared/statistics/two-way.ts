/**
 * The additive two-way model: a result is the sum of what its treatment and its block give, and of noise. Any number of results in each cell,
 * also none. Treatments are settings or samples; blocks are days or tasters.
 * Results and treatments are first freed of their block means, so that the fit has as many columns as treatments, however many blocks there are.
 */
import { largestSizeOf, mean, sum } from "./describe";
import { leastSquares, quadraticForm } from "./fit";

interface TwoWayData {
  /** For each result the number of its treatment, counted from 0 without gaps. */
  readonly treatments: readonly number[];
  /** For each result the number of its block, counted from 0 without gaps. */
  readonly blocks: readonly number[];
  readonly results: readonly number[];
}

export interface TwoWayFit {
  /** For each treatment its least-squares mean: as if every block had had it, all blocks weighing the same. */
  readonly means: readonly number[];
  /** Covariances of those means for a residual variance of 1. */
  readonly unscaledCovariance: readonly (readonly number[])[];
  readonly residuals: readonly number[];
  readonly residualSumOfSquares: number;
  /** Degrees of freedom of the residuals; with 0 there is no spread to judge by. */
  readonly df: number;
  /** Sum of squares of the treatments after the blocks, and its degrees of freedom. */
  readonly treatmentSumOfSquares: number;
  readonly treatmentDf: number;
}

/** null: some treatments share no block with the others, directly or over third ones, so they cannot be told from the blocks. */
export function twoWayFit({ treatments, blocks, results }: TwoWayData): TwoWayFit | null {
  const treatmentCount = 1 + largestSizeOf(treatments);
  const places = placesOf(blocks);
  // The first treatment is the one that the others are compared with.
  const effects = Array.from({ length: treatmentCount - 1 }, (_, index) => treatments.map((it) => (it === index + 1 ? 1 : 0)));
  const fit = leastSquares(effects.map((effect) => lessBlockMeans(effect, places)), lessBlockMeans(results, places));
  if (!fit) return null;

  // Mean of the block means, less what the treatments that each block happened to have add to it.
  const blockMeans = places.map((own) => mean(own.map((place) => results[place]!)));
  const shares = effects.map((effect) => mean(places.map((own) => mean(own.map((place) => effect[place]!)))));
  const centre = mean(blockMeans) - sum(fit.slopes.map((slope, k) => slope * shares[k]!));
  const centreVariance = sum(places.map((own) => 1 / own.length)) / places.length ** 2;
  // The means of blocks and the differences inside blocks are independent of one another.
  const away = Array.from({ length: treatmentCount }, (_, treatment) => shares.map((share, k) => (k + 1 === treatment ? 1 : 0) - share));

  return {
    means: away.map((_, treatment) => centre + (treatment === 0 ? 0 : fit.slopes[treatment - 1]!)),
    unscaledCovariance: away.map((one) => away.map((other) => centreVariance + quadraticForm(fit.unscaledCovariance, one, other))),
    residuals: fit.residuals,
    residualSumOfSquares: fit.residualSumOfSquares,
    df: results.length - places.length - effects.length,
    treatmentSumOfSquares: Math.max(0, fit.totalSumOfSquares - fit.residualSumOfSquares),
    treatmentDf: effects.length,
  };
}

/** Variance of the difference between two treatments' means for a residual variance of 1. */
export function differenceVariance({ unscaledCovariance: covariance }: TwoWayFit, first: number, second: number): number {
  return covariance[first]![first]! + covariance[second]![second]! - 2 * covariance[first]![second]!;
}

/** The treatments that share blocks with the first one, directly or over third ones; with all of them there is a fit. */
export function connectedTreatments({ treatments, blocks }: Omit<TwoWayData, "results">): Set<number> {
  const places = placesOf(blocks);
  const reached = new Set([0]);
  for (let before = 0; before < reached.size;) {
    before = reached.size;
    for (const own of places) {
      if (own.some((place) => reached.has(treatments[place]!))) own.forEach((place) => reached.add(treatments[place]!));
    }
  }
  return reached;
}

/** Which results each block has; blocks are counted from 0 without gaps. */
export function placesOf(blocks: readonly number[]): number[][] {
  const places: number[][] = Array.from({ length: 1 + largestSizeOf(blocks) }, () => []);
  blocks.forEach((block, place) => places[block]!.push(place));
  return places;
}

export function lessBlockMeans(values: readonly number[], places: readonly (readonly number[])[]): number[] {
  const result = [...values];
  for (const own of places) {
    const centre = mean(own.map((place) => values[place]!));
    for (const place of own) result[place] = values[place]! - centre;
  }
  return result;
}
