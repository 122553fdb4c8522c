/** Results sorted into the settings they belong to, and the blocks in which they were pulled. */
import { badInput, noAnswer, Problem } from "../problem";
import { printed } from "../words";
import { inSettingOrder, settingKey, type Setting } from "../settings";
import { extremesOf, largestSizeOf, mean, sumOfSquares } from "../statistics/describe";
import { connectedTreatments } from "../statistics/two-way";

export interface Group {
  readonly setting: Setting;
  /** Which elements of the lists these are. */
  readonly places: readonly number[];
  readonly count: number;
  /** Mean, counted from the level of the trial. */
  readonly mean: number;
  /** Sum of squared deviations from the mean; 0 where all are alike or there is only one. */
  readonly squares: number;
}

export interface Comparison {
  readonly settings: readonly Setting[];
  readonly results: readonly number[];
  /** The day, machine or taster of each result: whatever shifts all settings alike. */
  readonly blocks?: readonly Setting[] | undefined;
}

/** Results counted from one of them, so that differences of results near 900 million keep their digits. */
export interface Levelled {
  readonly level: number;
  /** The results less the level. */
  readonly results: readonly number[];
  /** What rounding alone leaves of a sum of squares: typed results have at most 15 digits. */
  readonly noise: number;
}

export interface Trial extends Levelled {
  /** In the order of the settings. */
  readonly groups: readonly Group[];
  /** The number of each result's group. */
  readonly groupOf: readonly number[];
  /** The number of each result's block; null where no blocks are given. */
  readonly blockOf: readonly number[] | null;
}

/** More different settings than this in one comparison is a column given by mistake. */
const MOST_SETTINGS = 60;

export function trialOf(comparison: Comparison): Trial {
  const trial = sortedTrial(comparison);
  if (!areComparable(trial)) {
    noAnswer(`There are ${trial.groups.length} different settings, more than the ${MOST_SETTINGS} that can be compared. Is settings the right column?`);
  }
  return trial;
}

/** Not a curve's settings, say, of which each shot may have one of its own. */
export function areComparable({ groups }: Trial): boolean {
  return groups.length <= MOST_SETTINGS;
}

/** The trial, however many settings it has. */
export function sortedTrial({ settings, results, blocks }: Comparison): Trial {
  const { names, numbers: found } = numbered(settings);
  if (names.length === 0) noAnswer("There is no shot with a setting and a result yet.");
  const order = names.map((_, index) => index).sort((a, b) => inSettingOrder(names[a]!, names[b]!));
  const rank = new Map(order.map((index, place) => [index, place]));
  const groupOf = found.map((index) => rank.get(index)!);
  const places: number[][] = names.map(() => []);
  groupOf.forEach((group, place) => places[group]!.push(place));
  const levelled = levelledOf(results);
  const groups = places.map((own, index) => groupFrom(names[order[index]!]!, own, levelled.results, results));
  return { ...levelled, groups, groupOf, blockOf: blocks ? numbered(blocks).numbers : null };
}

export function levelledOf(results: readonly number[]): Levelled {
  const level = results[0]!;
  return { level, results: results.map((value) => value - level), noise: results.length * (1e-14 * largestSizeOf(results)) ** 2 };
}

/** Each different setting once, as first written, and the number of each element's one. */
export function numbered(settings: readonly Setting[]): { names: Setting[]; numbers: number[] } {
  const numberOf = new Map<string, number>();
  // As they are written: a long column repeats few spellings, and each is made a key once.
  const asWritten = new Map<Setting, number>();
  const names: Setting[] = [];
  const numbers = settings.map((setting) => {
    let number = asWritten.get(setting);
    if (number === undefined) {
      const key = settingKey(setting);
      number = numberOf.get(key);
      if (number === undefined) {
        number = names.push(setting) - 1;
        numberOf.set(key, number);
      }
      asWritten.set(setting, number);
    }
    return number;
  });
  return { names, numbers };
}

function groupFrom(setting: Setting, places: readonly number[], shifted: readonly number[], results: readonly number[]): Group {
  const values = places.map((place) => shifted[place]!);
  const squares = sumOfSquares(values);
  const noise = values.length * (1e-15 * largestSizeOf(places.map((place) => results[place]!))) ** 2;
  return { setting, places, count: values.length, mean: mean(values), squares: squares > noise ? squares : 0 };
}

/** The trial, of which a comparison needs two settings at least. */
export function trialOfSeveral(comparison: Comparison): Trial {
  const trial = trialOf(comparison);
  if (trial.groups.length < 2) {
    noAnswer(`All shots have the setting ${named(trial.groups[0]!.setting)}, so there is nothing to compare. Give results of at least two settings.`);
  }
  return trial;
}

/** Shots over all groups. */
export function countOf(groups: readonly Group[]): number {
  return groups.reduce((total, { count }) => total + count, 0);
}

export function varianceOf(group: Group): number {
  return group.squares / (group.count - 1);
}

export type Spread = "equal" | "unequal";

/**
 * One spread for all settings with blocks, and while shots are few and about equally many: too few to know each setting's own, which
 * raises false alarms (at a nominal 5 in 100: 9 with 7 settings of 3 shots, 6.5 with 8 of 6). Own spreads otherwise, and where numbers
 * differ: there one spread misleads.
 */
export function spreadOf({ groups, blockOf }: Trial): Spread {
  const counts = groups.map(({ count }) => count);
  const [fewest, most] = [Math.min(...counts), Math.max(...counts)];
  return blockOf || (fewest < 7 && most <= fewest + 1) ? "equal" : "unequal";
}

/** Blocks are taken out of one spread only. */
export function requireSpreadOfBlocks(blocks: unknown, method: string | undefined): void {
  if (blocks && method !== undefined && method !== "equal") badInput(`With blocks only the method “equal” can be used, not “${method}”.`);
}

/** The blocks as columns of a fit: for each but the first, 1 inside it and 0 outside. */
export function blockColumns(blockOf: readonly number[] | null): number[][] {
  const count = blockOf ? 1 + extremesOf(blockOf)[1] : 1;
  return Array.from({ length: count - 1 }, (_, index) => blockOf!.map((block) => (block === index + 1 ? 1 : 0)));
}

/** Two settings that no block links, so that they cannot be told from the blocks; null where all are linked. */
export function unlinkedSettings({ groups, groupOf, blockOf }: Trial): [Setting, Setting] | null {
  if (!blockOf) return null;
  const linked = connectedTreatments({ treatments: groupOf, blocks: blockOf });
  const apart = groups.findIndex((_, index) => !linked.has(index));
  return apart === -1 ? null : [groups[0]!.setting, groups[apart]!.setting];
}

/** Refuses settings that cannot be told from the blocks. */
export function requireLinked(trial: Trial): void {
  const apart = unlinkedSettings(trial);
  if (!apart) return;
  const [here, there] = apart.map(named) as [string, string];
  noAnswer(`No block links setting ${here} with ${there}, so what differs may be the blocks and not the settings. Pull both in one block.`);
}

/** A setting as a message shows it. */
export function named(setting: Setting): string {
  return typeof setting === "number" ? printed(setting) : `“${setting.trim()}”`;
}

/** Why a setting with one shot has no spread of its own. */
export function aloneProblem(setting: Setting, consequence: string): Problem {
  return new Problem("no answer", `Setting ${named(setting)} has only one shot, so ${consequence}`);
}
