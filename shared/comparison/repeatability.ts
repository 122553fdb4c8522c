/** How far readings of one thing differ by themselves, and how far between operators or instruments. */
import { noAnswer } from "../problem";
import { countOf, trialOf } from "./groups";
import type { Setting } from "../settings";
import { varianceComponents } from "./variance-components";

export interface Repeatability {
  readonly repeatabilitySd: number;
  readonly operatorSd: number;
  readonly reproducibilitySd: number;
  readonly repeatabilityLimit: number;
  readonly reproducibilityLimit: number;
}

/**
 * One-way analysis of ISO 5725-2, 7.4, also for unequal numbers of readings; limits r and R = 2.8 times the standard deviations
 * (ISO 5725-6, 4.1): two single readings differ by more only once in 20 times.
 */
export function repeatability({ values, operators }: { readonly values: readonly number[]; readonly operators: readonly Setting[] }): Repeatability {
  const { groups } = trialOf({ settings: operators, results: values });
  const n = countOf(groups);
  const k = groups.length;
  if (k < 2) noAnswer("There is only one operator, so nothing between operators can be seen. Give readings of at least two.");
  if (n === k) noAnswer("Every operator has only one reading, so their repeatability cannot be seen. Repeat the readings.");
  const { withinSd, betweenSd, p } = varianceComponents(groups);
  if (withinSd === 0 && p === 1) noAnswer("All readings are alike, so there is no spread to divide. Read with more decimals.");
  const all = Math.hypot(withinSd, betweenSd);
  return {
    repeatabilitySd: withinSd,
    operatorSd: betweenSd,
    reproducibilitySd: all,
    repeatabilityLimit: 2.8 * withinSd,
    reproducibilityLimit: 2.8 * all,
  };
}
