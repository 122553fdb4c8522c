/** Every setting against every other, with one error rate for all pairs together. */
import { Problem } from "../problem";
import { studentizedRange } from "../statistics/studentized-range";
import { aloneProblem, named, requireSpreadOfBlocks, spreadOf, trialOfSeveral, varianceOf, type Comparison, type Group, type Spread, type Trial } from "./groups";
import { oneSpread, type OneSpread } from "./one-spread";
import type { Setting } from "../settings";

export interface Pair {
  readonly first: Setting;
  readonly second: Setting;
  /** Mean of the second setting less mean of the first; with blocks, of their least-squares means. */
  readonly difference: number;
  readonly low: number | Problem;
  readonly high: number | Problem;
  readonly p: number | Problem;
}

interface PairsArguments extends Comparison {
  readonly confidence?: number;
  readonly method?: Spread;
}

/**
 * "equal": Tukey-Kramer (Kramer 1956, Biometrics 12:307), with blocks on the least-squares means; "unequal": Games & Howell 1976,
 * J. Educ. Stat. 1:113. Both use the studentised range, so the intervals hold together. Left out: `spreadOf`.
 */
export function comparePairs({ confidence = 0.95, method, ...comparison }: PairsArguments): Pair[] {
  const trial = trialOfSeveral(comparison);
  requireSpreadOfBlocks(trial.blockOf, method);
  if ((method ?? spreadOf(trial)) === "unequal") return pairsOfOwnSpreads(trial, confidence);
  const model = oneSpread(trial);
  if (model.error instanceof Problem) throw model.error;
  return pairsOfOneSpread(trial, model, confidence);
}

/** Tukey-Kramer. Where there is no spread to judge by, each pair says why. */
export function pairsOfOneSpread({ groups }: Trial, { means, error, differenceVariance }: OneSpread, confidence: number): Pair[] {
  const sizeOf = (first: number, second: number): PairError | Problem =>
    error instanceof Problem ? error : { size: Math.sqrt((error.variance / 2) * differenceVariance(first, second)), df: error.df };
  return pairs(groups, means, groups.length, sizeOf, confidence);
}

/** Games & Howell. */
export function pairsOfOwnSpreads({ groups }: Trial, confidence: number): Pair[] {
  const compared = groups.filter(({ count }) => count > 1).length;
  const sizeOf = (first: number, second: number): PairError | Problem => ownError(groups[first]!, groups[second]!);
  return pairs(groups, groups.map(({ mean }) => mean), compared, sizeOf, confidence);
}

/** Standard error of one mean as the studentised range counts it, and its degrees of freedom. */
interface PairError {
  readonly size: number;
  readonly df: number;
}

function pairs(
  groups: readonly Group[],
  means: readonly number[],
  compared: number,
  errorOf: (first: number, second: number) => PairError | Problem,
  confidence: number,
): Pair[] {
  const range = studentizedRange(Math.max(2, compared));
  const criticals = new Map<number, number>();
  const critical = (df: number): number => {
    const value = criticals.get(df) ?? range.quantileUpper(1 - confidence, df);
    criticals.set(df, value);
    return value;
  };

  return groups.flatMap((first, index) =>
    groups.slice(index + 1).map((second, offset) => {
      const other = index + 1 + offset;
      const difference = means[other]! - means[index]!;
      const names = { first: first.setting, second: second.setting, difference };
      const error = errorOf(index, other);
      if (error instanceof Problem) return { ...names, low: error, high: error, p: error };
      const reach = critical(error.df) * error.size;
      return { ...names, low: difference - reach, high: difference + reach, p: range.upper(Math.abs(difference) / error.size, error.df) };
    }),
  );
}

function ownError(first: Group, second: Group): PairError | Problem {
  for (const { setting, count } of [first, second]) {
    if (count < 2) return aloneProblem(setting, "its spread is not known. Add a shot, or use the method “equal”.");
  }
  const [u, v] = [varianceOf(first) / first.count, varianceOf(second) / second.count];
  if (u + v === 0) {
    return new Problem("no answer", `The shots of setting ${named(first.setting)} are all alike, and so are those of ${named(second.setting)}: no spread to judge by.`);
  }
  return { size: Math.sqrt((u + v) / 2), df: welchDf(u, first.count, v, second.count) };
}

/** Degrees of freedom of a difference of two means; u and v are their squared standard errors. Welch 1947, Satterthwaite 1946. */
export function welchDf(u: number, countOfFirst: number, v: number, countOfSecond: number): number {
  const share = u / (u + v);
  return 1 / (share ** 2 / (countOfFirst - 1) + (1 - share) ** 2 / (countOfSecond - 1));
}
