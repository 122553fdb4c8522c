/** The settings side by side. */
import { Problem } from "../problem";
import { tQuantileTwoSided } from "../statistics/distributions";
import { groupsOf, named, varianceOf, type Comparison, type Group } from "./groups";
import type { Setting } from "../settings";
import { pairsOf } from "./pairs";

export interface ComparedSetting {
  readonly setting: Setting;
  readonly shots: number;
  readonly meanValue: number;
  readonly sdValue: number | Problem;
  readonly low: number | Problem;
  readonly high: number | Problem;
  readonly group: string | Problem;
}

const LETTERS = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ";

/** Mean of each setting with its own t interval; settings that share a letter are not told apart by COMPARE.PAIRS at this confidence. */
export function compare({ confidence = 0.95, ...comparison }: Comparison & { readonly confidence?: number }): ComparedSetting[] {
  const groups = groupsOf(comparison);
  const letters = lettersOf(groups, confidence);
  return groups.map((group, index) => {
    const { setting, count, mean } = group;
    const entry = { setting, shots: count, meanValue: mean, group: letters[index]! };
    if (count < 2) {
      const alone = new Problem("no answer", `Setting ${named(setting)} has only one shot, so there is no spread to judge by. Add a shot.`);
      return { ...entry, sdValue: alone, low: alone, high: alone };
    }
    const sd = Math.sqrt(varianceOf(group));
    const reach = (tQuantileTwoSided(1 - confidence, count - 1) * sd) / Math.sqrt(count);
    return { ...entry, sdValue: sd, low: mean - reach, high: mean + reach };
  });
}

/** The letters of each group, or why it has none: one shot, or no pair to be judged. */
function lettersOf(groups: readonly Group[], confidence: number): (string | Problem)[] {
  if (groups.length < 2) return [new Problem("no answer", "There is only one setting, so there is nothing to compare it with.")];
  const pairs = pairsOf(groups, confidence, "unequal");
  const unknown = new Map<Setting, Problem>();
  for (const { setting, count } of groups) {
    if (count < 2) unknown.set(setting, new Problem("no answer", `Setting ${named(setting)} has only one shot, so it cannot be told apart. Add a shot.`));
  }
  for (const { first, second, p } of pairs) {
    if (!(p instanceof Problem) || unknown.has(first) || unknown.has(second)) continue;
    unknown.set(first, p);
    unknown.set(second, p);
  }
  const known = groups.filter(({ setting }) => !unknown.has(setting)).sort((a, b) => b.mean - a.mean);
  const apart = new Map<Setting, Set<Setting>>(known.map(({ setting }) => [setting, new Set<Setting>()]));
  for (const { first, second, p } of pairs) {
    if (p instanceof Problem || p >= 1 - confidence) continue;
    apart.get(first)?.add(second);
    apart.get(second)?.add(first);
  }
  const letters = letterDisplay(known.map(({ setting }) => setting), (a, b) => apart.get(a)!.has(b));
  const refusal = new Problem(
    "no answer",
    known.length < 2 ? "No other setting has two or more shots to compare with." : "The settings overlap in too many ways for letters. See COMPARE.PAIRS.",
  );
  return groups.map(({ setting }) => unknown.get(setting) ?? (known.length < 2 ? refusal : (letters?.get(setting) ?? refusal)));
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
