/** How well shots keep within limits that are wanted. */
import { badInput, noAnswer, Problem } from "../problem";
import { printed } from "../words";
import { mean, standardDeviation } from "../statistics/describe";
import { normalQuantile } from "../statistics/distributions";
import { chartOf, withoutBlanks, type Values } from "./limits";

export interface Capability {
  readonly shots: number;
  /** Part of the values between the limits, %. */
  readonly inside: number;
  readonly meanValue: number;
  /** Standard deviation from one shot to the next, by the moving range: what is left where nothing moves. */
  readonly sdWithin: number | Problem;
  /** Standard deviation of all shots, drifts and jumps among it. */
  readonly sdOverall: number | Problem;
  readonly cp: number | Problem;
  readonly cpk: number | Problem;
  readonly pp: number | Problem;
  readonly ppk: number | Problem;
  /** Ends of the 95 % interval of Ppk. */
  readonly low: number | Problem;
  readonly high: number | Problem;
}

const oneValue = new Problem("no answer", "A standard deviation needs two values or more.");
const allAlike = new Problem("no answer", "All values are the same, so there is no spread to compare with.");

/**
 * Cp and Cpk by the spread from shot to shot, Pp and Ppk by that of all shots: far apart, they say that the log moved (NIST e-Handbook 6.1.6).
 * Interval of Ppk by Bissell (1990), Applied Statistics 39:331, for values that are nearly normal.
 */
export function logCapability({ values }: { values: Values }): (limits: { low: number; high: number }) => Capability {
  const present = withoutBlanks(values);
  const shots = present.length;
  if (shots === 0) noAnswer("There are no values.");
  const average = mean(present);
  const within = shots > 1 ? chartOf(present, "a spread needs").sd : oneValue;
  const overall = shots > 1 ? standardDeviation(present) : oneValue;
  const spread = (sd: number | Problem): number | Problem => (sd === 0 ? allAlike : sd);
  const sorted = Float64Array.from(present).sort();
  return ({ low, high }) => {
    if (!(low < high)) badInput(`low, ${printed(low)}, must be less than high, ${printed(high)}.`);
    const width = (sd: number | Problem): number | Problem => (sd instanceof Problem ? sd : (high - low) / (6 * sd));
    const nearer = (sd: number | Problem): number | Problem => (sd instanceof Problem ? sd : Math.min(high - average, average - low) / (3 * sd));
    const ppk = nearer(spread(overall));
    return {
      shots,
      inside: (100 * (countBelow(sorted, high, true) - countBelow(sorted, low, false))) / shots,
      meanValue: average,
      sdWithin: within,
      sdOverall: overall,
      cp: width(spread(within)),
      cpk: nearer(spread(within)),
      pp: width(spread(overall)),
      ppk,
      ...(ppk instanceof Problem ? { low: ppk, high: ppk } : bissellInterval(ppk, shots)),
    };
  };
}

function bissellInterval(ppk: number, shots: number): { low: number; high: number } {
  const reach = normalQuantile(0.975) * Math.sqrt(1 / (9 * shots) + (ppk * ppk) / (2 * (shots - 1)));
  return { low: ppk - reach, high: ppk + reach };
}

/** How many of the sorted values lie below a limit, those on it counted or not. */
function countBelow(sorted: Float64Array, limit: number, counted: boolean): number {
  let [least, most] = [0, sorted.length];
  while (least < most) {
    const middle = (least + most) >> 1;
    if (counted ? sorted[middle]! <= limit : sorted[middle]! < limit) least = middle + 1;
    else most = middle;
  }
  return least;
}
