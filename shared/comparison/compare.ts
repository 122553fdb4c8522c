/** The settings side by side. */
import { Problem } from "../problem";
import { tQuantileTwoSided } from "../statistics/distributions";
import { aloneProblem, requireSpreadOfBlocks, spreadOf, trialOf, varianceOf, type Comparison, type Group, type Spread, type Trial } from "./groups";
import { oneSpread, type OneSpread } from "./one-spread";
import { pairsOfOneSpread, pairsOfOwnSpreads, type Pair } from "./pairs";
import type { Setting } from "../settings";

export interface ComparedSetting {
  readonly setting: Setting;
  readonly shots: number;
  readonly meanValue: number;
  readonly sdValue: number | Problem;
  readonly low: number | Problem;
  readonly high: number | Problem;
  readonly group: string | Problem;
}

interface CompareArguments extends Comparison {
  readonly confidence?: number;
  readonly method?: Spread;
}

const LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

/**
 * Mean of each setting with its own t interval; with blocks its least-squares mean, with an interval from what is left within settings
 * and blocks. Settings that share a letter are not told apart by COMPARE.PAIRS at this confidence; `method` chooses the letters.
 */
export function compare({ confidence = 0.95, method, ...comparison }: CompareArguments): ComparedSetting[] {
  const trial = trialOf(comparison);
  requireSpreadOfBlocks(trial.blockOf, method);
  const { groups, level, blockOf } = trial;
  const model = (method ?? spreadOf(trial)) === "equal" ? oneSpread(trial) : null;
  const means = groups.map(({ mean }, index) => (model ? model.means[index]! : mean));
  const letters = lettersOf(trial, means, model ? pairsOfOneSpread(trial, model, confidence) : pairsOfOwnSpreads(trial, confidence), confidence);
  return groups.map((group, index) => {
    const { setting, count } = group;
    const meanValue = level + means[index]!;
    const alone = count < 2 ? aloneProblem(setting, "there is no spread to judge by. Add a shot.") : null;
    const reach = model && blockOf ? reachInBlocks(model, index, confidence) : (alone ?? ownReach(group, confidence));
    const ends = reach instanceof Problem ? { low: reach, high: reach } : { low: meanValue - reach, high: meanValue + reach };
    return { setting, shots: count, meanValue, sdValue: alone ?? Math.sqrt(varianceOf(group)), ...ends, group: letters[index]! };
  });
}

function ownReach(group: Group, confidence: number): number {
  return tQuantileTwoSided(1 - confidence, group.count - 1) * Math.sqrt(varianceOf(group) / group.count);
}

function reachInBlocks({ error, meanVariance }: OneSpread, group: number, confidence: number): number | Problem {
  return error instanceof Problem ? error : tQuantileTwoSided(1 - confidence, error.df) * Math.sqrt(error.variance * meanVariance(group));
}

/** The letters of each group, or why it has none. */
function lettersOf({ groups }: Trial, means: readonly number[], pairs: readonly Pair[], confidence: number): (string | Problem)[] {
  if (groups.length < 2) return [new Problem("no answer", "There is only one setting, so there is nothing to compare it with.")];
  const unknown = notJudged(pairs);
  const apart = new Map<Setting, Set<Setting>>(groups.map(({ setting }) => [setting, new Set<Setting>()]));
  for (const { first, second, p } of pairs) {
    if (p instanceof Problem || p >= 1 - confidence) continue;
    apart.get(first)!.add(second);
    apart.get(second)!.add(first);
  }
  const highestFirst = groups.map((_, index) => index).sort((a, b) => means[b]! - means[a]!);
  const known = highestFirst.map((index) => groups[index]!.setting).filter((setting) => !unknown.has(setting));
  const letters = known.length < 2 ? null : letterDisplay(known, (a, b) => apart.get(a)!.has(b));
  const refusal = new Problem(
    "no answer",
    known.length < 2 ? "No other setting has a spread to judge by, so there is nothing to compare with." : "The settings overlap in too many ways for letters. See COMPARE.PAIRS.",
  );
  return groups.map(({ setting }) => unknown.get(setting) ?? letters?.get(setting) ?? refusal);
}

/** Settings of which no pair could be judged, and both of a pair that could not be although each can be judged against others. */
function notJudged(pairs: readonly Pair[]): Map<Setting, Problem> {
  const judged = new Set(pairs.flatMap(({ first, second, p }) => (p instanceof Problem ? [] : [first, second])));
  const unknown = new Map<Setting, Problem>();
  for (const { first, second, p } of pairs) {
    if (!(p instanceof Problem)) continue;
    const both = judged.has(first) && judged.has(second);
    for (const setting of [first, second]) if ((both || !judged.has(setting)) && !unknown.has(setting)) unknown.set(setting, p);
  }
  return unknown;
}

/**
 * Compact letter display: two items share a letter exactly where they are not told apart. The first item has the letter a.
 * Insert and absorb, Piepho 2004, J. Comput. Graph. Stat. 13:456. null where it would take more letters than anyone could read.
 */
export function letterDisplay<T>(items: readonly T[], toldApart: (a: T, b: T) => boolean): Map<T, string> | null {
  let columns: Set<T>[] = [new Set(items)];
  for (const [index, a] of items.entries()) {
    for (const b of items.slice(index + 1)) {
      if (!toldApart(a, b)) continue;
      const split = columns.flatMap((column) => (column.has(a) && column.has(b) ? [without(column, a), without(column, b)] : [column]));
      columns = split.filter((column, at) => !split.some((other, its) => its !== at && contains(other, column) && (other.size > column.size || its < at)));
      if (columns.length > LETTERS.length) return null;
    }
  }
  const order = (column: Set<T>): number[] => items.flatMap((item, index) => (column.has(item) ? [index] : []));
  const sorted = columns.map((column) => ({ column, places: order(column) })).sort((a, b) => compareLists(a.places, b.places));
  return new Map(items.map((item) => [item, sorted.map(({ column }, index) => (column.has(item) ? LETTERS[index] : "")).join("")]));
}

function without<T>(set: Set<T>, item: T): Set<T> {
  return new Set([...set].filter((other) => other !== item));
}

function contains<T>(set: Set<T>, part: Set<T>): boolean {
  return [...part].every((item) => set.has(item));
}

function compareLists(a: readonly number[], b: readonly number[]): number {
  for (let index = 0; index < Math.min(a.length, b.length); index++) {
    if (a[index] !== b[index]) return a[index]! - b[index]!;
  }
  return a.length - b.length;
}
