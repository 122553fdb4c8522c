/** Every setting against every other, with one error rate for all pairs together. */
import { Problem } from "../problem";
import { studentizedRange } from "../statistics/studentized-range";
import { atLeastTwoGroups, named, pooledVariance, varianceOf, type Comparison, type Group } from "./groups";
import type { Setting } from "../settings";

export interface Pair {
  readonly first: Setting;
  readonly second: Setting;
  /** Mean of the second setting less mean of the first. */
  readonly difference: number;
  readonly low: number | Problem;
  readonly high: number | Problem;
  readonly p: number | Problem;
}

interface PairsArguments extends Comparison {
  readonly confidence?: number;
  readonly method?: "equal" | "unequal";
}

/**
 * "unequal": Games & Howell 1976, J. Educ. Stat. 1:113; "equal": Tukey-Kramer (Kramer 1956, Biometrics 12:307).
 * Both use the studentised range, so the intervals hold together.
 */
export function comparePairs({ confidence = 0.95, method = "unequal", ...comparison }: PairsArguments): Pair[] {
  return pairsOf(atLeastTwoGroups(comparison), confidence, method);
}

export function pairsOf(groups: readonly Group[], confidence: number, method: "equal" | "unequal"): Pair[] {
  const errorOf = method === "equal" ? pooledError(groups) : ownError;
  const compared = method === "equal" ? groups.length : groups.filter(({ count }) => count > 1).length;
  const range = studentizedRange(Math.max(2, compared));
  const criticals = new Map<number, number>();
  const critical = (df: number): number => {
    const value = criticals.get(df) ?? range.quantileUpper(1 - confidence, df);
    criticals.set(df, value);
    return value;
  };

  return groups.flatMap((first, index) =>
    groups.slice(index + 1).map((second) => {
      const difference = second.mean - first.mean;
      const names = { first: first.setting, second: second.setting, difference };
      const error = errorOf(first, second);
      if (error instanceof Problem) return { ...names, low: error, high: error, p: error };
      const reach = critical(error.df) * error.size;
      return { ...names, low: difference - reach, high: difference + reach, p: range.upper(Math.abs(difference) / error.size, error.df) };
    }),
  );
}

/** Standard error of one mean as the studentised range counts it, and its degrees of freedom. */
interface PairError {
  readonly size: number;
  readonly df: number;
}

function pooledError(groups: readonly Group[]): (first: Group, second: Group) => PairError {
  const { variance, df } = pooledVariance(groups);
  return (first, second) => ({ size: Math.sqrt((variance / 2) * (1 / first.count + 1 / second.count)), df });
}

function ownError(first: Group, second: Group): PairError | Problem {
  for (const { setting, count } of [first, second]) {
    if (count < 2) {
      return new Problem("no answer", `Setting ${named(setting)} has only one shot, so its spread is not known. Add a shot, or use the method “equal”.`);
    }
  }
  const [u, v] = [varianceOf(first) / first.count, varianceOf(second) / second.count];
  if (u + v === 0) {
    return new Problem("no answer", `The shots of setting ${named(first.setting)} are all alike, and so are those of ${named(second.setting)}: no spread to judge by.`);
  }
  return { size: Math.sqrt((u + v) / 2), df: welchDf(u, first.count, v, second.count) };
}

/** Degrees of freedom of a difference of two means; u and v are their squared standard errors. Welch 1947, Satterthwaite 1946 (from memory). */
export function welchDf(u: number, countOfFirst: number, v: number, countOfSecond: number): number {
  const share = u / (u + v);
  return 1 / (share ** 2 / (countOfFirst - 1) + (1 - share) ** 2 / (countOfSecond - 1));
}
