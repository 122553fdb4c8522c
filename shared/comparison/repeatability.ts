/** How far readings of one thing differ by themselves, and how far between operators or instruments. */
import { noAnswer } from "../problem";
import { sum } from "../statistics/describe";
import { countOf, trialOf } from "./groups";
import type { Setting } from "../settings";

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
  const within = sum(groups.map(({ squares }) => squares)) / (n - k);
  const centre = sum(groups.map(({ count, mean }) => count * mean)) / n;
  const between = sum(groups.map(({ count, mean }) => count * (mean - centre) ** 2)) / (k - 1);
  if (within === 0 && between === 0) noAnswer("All readings are alike, so there is no spread to divide. Read with more decimals.");
  const readings = (n - sum(groups.map(({ count }) => count * count)) / n) / (k - 1);
  const operatorVariance = Math.max(0, (between - within) / readings);
  const [own, all] = [Math.sqrt(within), Math.sqrt(within + operatorVariance)];
  return {
    repeatabilitySd: own,
    operatorSd: Math.sqrt(operatorVariance),
    reproducibilitySd: all,
    repeatabilityLimit: 2.8 * own,
    reproducibilityLimit: 2.8 * all,
  };
}
