/** Charts that find small lasting shifts sooner than single values do. A row for each value; a blank keeps its row and is passed over. */
import { noAnswer } from "../problem";
import { chartOf, withoutBlanks, type Values } from "./limits";

/** What the chart says of a value; nothing at a blank. */
export interface AveragePoint {
  readonly average: number;
  readonly low: number;
  readonly high: number;
  readonly outside: boolean;
}

/**
 * Exponentially weighted moving average, starting at the target, with limits that widen from run to run as its spread does:
 * target ± width · spread · √(weight / (2 − weight) · (1 − (1 − weight)^2i)). NIST e-Handbook 6.3.2.4; Roberts (1959), Technometrics 1:239.
 */
export function logEwma({ values, ...given }: {
  values: Values; target?: number; spread?: number; weight?: number; width?: number;
}): Partial<AveragePoint>[] {
  const { weight = 0.2, width = 3 } = given;
  const { target, spread } = levelOf(values, given);
  let average = target;
  let old = 1; // how much of the variance is still to come
  return values.map((value) => {
    if (value === null) return {};
    average = weight * value + (1 - weight) * average;
    old *= (1 - weight) ** 2;
    const reach = width * spread * Math.sqrt((weight / (2 - weight)) * (1 - old));
    return { average, low: target - reach, high: target + reach, outside: Math.abs(average - target) > reach };
  });
}

export interface SumPoint {
  readonly above: number;
  readonly below: number;
  readonly beyond: boolean;
}

/**
 * Cumulative sums of what the values are above and below the target by more than the allowance, both counted upwards from 0 and never reset:
 * beyond the limit the mean has moved. Page (1954), Biometrika 41:100; NIST e-Handbook 6.3.2.3. Allowance and limit in spreads.
 */
export function logCusum({ values, target, allowance = 0.5, limit = 5, ...given }: {
  values: Values; target: number; spread?: number; allowance?: number; limit?: number;
}): Partial<SumPoint>[] {
  const { spread } = levelOf(values, { ...given, target });
  let [above, below] = [0, 0];
  return values.map((value) => {
    if (value === null) return {};
    above = Math.max(0, above + (value - target) - allowance * spread);
    below = Math.max(0, below + (target - value) - allowance * spread);
    return { above, below, beyond: Math.max(above, below) > limit * spread };
  });
}

/** Target and spread as given, else the mean of the values and what their mean moving range stands for. */
function levelOf(values: Values, given: { target?: number; spread?: number }): { target: number; spread: number } {
  const present = withoutBlanks(values);
  if (present.length === 0) noAnswer("There are no values.");
  if (given.target !== undefined && given.spread !== undefined) return { target: given.target, spread: given.spread };
  const { centre, sd } = chartOf(present, given.spread === undefined ? "a spread needs" : "a target needs");
  const spread = given.spread ?? sd;
  if (spread === 0) noAnswer("All values are the same, so they show no spread. Give spread.");
  return { target: given.target ?? centre, spread };
}
