/** What an instrument's reading stands for, by what it read of known things. */
import { noAnswer, Problem } from "./problem";
import { printed } from "./words";
import { extremesOf } from "./statistics/describe";
import { leastSquares, residualSd, type Fit } from "./statistics/fit";
import { inverseInterval } from "./statistics/inverse-interval";

interface Calibration {
  readonly trueValue: number;
  readonly low: number | Problem;
  readonly high: number | Problem;
}

/**
 * The true value of one new reading: the straight line of readings on references, inverted, with the interval of all true values whose
 * prediction interval holds the reading. Draper & Smith, Applied Regression Analysis; Greenwell & Schubert Kabban (2014), The R Journal 6(1):90.
 * Nothing is said beyond the references, where the line need not be straight.
 */
export function calibrate({ readings, references }: { readonly readings: readonly number[]; readonly references: readonly number[] }): (
  asked: { readonly reading: number; readonly confidence?: number },
) => Calibration {
  if (readings.length < 2) noAnswer(`A calibration needs readings of at least two known values, but there ${readings.length === 1 ? "is one" : "are none"}.`);
  const [least, most] = extremesOf(references);
  if (least === most) noAnswer(`All references are ${printed(least)}. Read at least two known values that differ.`);
  const fit = leastSquares([references], readings);
  if (!fit) noAnswer("The references lie too close together to show a line.");
  const slope = fit.slopes[0]!;
  if (slope === 0) noAnswer("The readings do not change with the references, so no true value follows from a reading.");
  // What rounding adds to a value at the end must not put it outside.
  const slack = 1e-9 * (most - least);
  return ({ reading, confidence = 0.95 }) => {
    const trueValue = fit.centres[0]! + (reading - fit.mean) / slope;
    if (!(trueValue >= least - slack && trueValue <= most + slack)) {
      const [side, end] = trueValue > most ? ["above", most] : ["below", least];
      noAnswer(`reading ${printed(reading)} stands for a value ${side} the references, ${printed(least)} to ${printed(most)}. Read a known value ${side} ${printed(end!)}.`);
    }
    const interval = intervalOf(fit, trueValue, confidence);
    return interval instanceof Problem ? { trueValue, low: interval, high: interval } : { trueValue, ...interval };
  };
}

function intervalOf(fit: Fit, trueValue: number, confidence: number): { low: number; high: number } | Problem {
  if (fit.df < 1) return new Problem("no answer", "Two readings always lie on a line, so there is no spread for an interval. Read a third known value.");
  // Typed readings have a few digits: what is smaller than that is rounding.
  const noise = fit.count * (1e-13 * (Math.abs(fit.mean) + Math.sqrt(fit.totalSumOfSquares))) ** 2;
  if (fit.residualSumOfSquares <= noise) {
    return new Problem("no answer", "The readings lie exactly on a line, so there is no spread for an interval. Read with one more decimal.");
  }
  const line = { slope: fit.slopes[0]!, slopeVariance: fit.unscaledCovariance[0]![0]!, centre: fit.centres[0]!, variance: 1 + 1 / fit.count };
  return inverseInterval({ ...line, spread: residualSd(fit), df: fit.df }, trueValue, confidence) ??
    new Problem("no answer", "The readings scatter too much for an interval: how they follow the references is not certain at this confidence. Read more known values, further apart.");
}
