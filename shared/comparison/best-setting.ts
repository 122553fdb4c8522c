/** The setting at the peak of the results. */
import { noAnswer, Problem } from "../problem";
import { printed } from "../words";
import { tQuantileTwoSided } from "../statistics/distributions";
import { polynomialFit, residualSd } from "../statistics/fit";

export interface BestSetting {
  readonly setting: number;
  readonly low: number | Problem;
  readonly high: number | Problem;
  readonly result: number;
}

/**
 * Peak of a parabola through the results, with Fieller's interval: all settings at which the slope may be 0.
 * Fieller 1954, J. R. Stat. Soc. B 16:175, applied to -b / 2c. Where the curvature is uncertain the interval has no end on one side.
 */
export function bestSetting({ settings, results }: { readonly settings: readonly number[]; readonly results: readonly number[] }): (
  asked: { readonly confidence?: number },
) => BestSetting {
  const different = new Set(settings).size;
  if (different < 3) noAnswer(`A peak needs at least 3 different settings, but there ${different === 1 ? "is" : "are"} only ${different}.`);
  const parabola = polynomialFit(settings, results, 2);
  if (!parabola) noAnswer("The settings lie too close together to show a curve.");
  const { fit, centre, scale } = parabola;
  const [b, c] = fit.slopes as [number, number];
  // Typed results have at most 15 digits: what is smaller than that is rounding.
  const noise = results.length * (1e-14 * Math.max(...results.map(Math.abs))) ** 2;
  if (fit.totalSumOfSquares <= noise) noAnswer("All results are alike, so no setting is best.");
  const [least, most] = [Math.min(...settings), Math.max(...settings)];
  const tried = `the settings tried, ${printed(least)} to ${printed(most)}`;
  if (c >= 0) {
    const lowest = centre - (scale * b) / (2 * c);
    noAnswer(
      lowest > least && lowest < most
        ? `The results have their lowest point, not a peak, near ${printed(lowest)}: the best of ${tried}, is at an end.`
        : `The results rise towards an end of ${tried}, without a peak. Try settings beyond it.`,
    );
  }
  const peak = -b / (2 * c);
  const setting = centre + scale * peak;
  if (!(setting >= least && setting <= most)) {
    noAnswer(`The fitted peak, ${printed(setting)}, lies outside ${tried}. Try settings beyond ${printed(setting > most ? most : least)}.`);
  }
  const judged = fit.df > 0 && fit.residualSumOfSquares > noise;
  return ({ confidence = 0.95 }) => {
    const reach = judged ? tQuantileTwoSided(1 - confidence, fit.df) * residualSd(fit) : 0;
    const ends = fiellerEnds(fit.slopes, fit.unscaledCovariance, peak, reach);
    if (ends.low === -Infinity && ends.high === Infinity) {
      noAnswer(`The results are too flat for their spread: at confidence ${printed(confidence)} any setting could be the best. Pull more shots, or try settings further apart.`);
    }
    const end = (value: number, side: string): number | Problem => {
      if (!judged) return new Problem("no answer", "The results lie exactly on the curve, so there is no spread to judge by. Pull more shots.");
      if (Number.isFinite(value)) return centre + scale * value;
      return new Problem("no answer", `The results set no ${side} limit to the best setting. Pull more shots, or try settings further ${side === "lower" ? "down" : "up"}.`);
    };
    return { setting, low: end(ends.low, "lower"), high: end(ends.high, "upper"), result: fit.intercept + (b * peak) / 2 };
  };
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
