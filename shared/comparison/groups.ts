/** Results sorted into the settings they belong to. */
import { noAnswer } from "../problem";
import { printed } from "../words";
import { inSettingOrder, settingKey, type Setting } from "../settings";
import { mean, sumOfSquares } from "../statistics/describe";

export interface Group {
  readonly setting: Setting;
  readonly values: readonly number[];
  /** Which elements of the lists these are. */
  readonly places: readonly number[];
  readonly count: number;
  readonly mean: number;
  /** Sum of squared deviations from the mean; 0 where all are alike or there is only one. */
  readonly squares: number;
}

export interface Comparison {
  readonly settings: readonly Setting[];
  readonly results: readonly number[];
}

/** More different settings than this in one comparison is a column given by mistake. */
const MOST_SETTINGS = 60;

/** The groups in the order of their settings. */
export function groupsOf({ settings, results }: Comparison): Group[] {
  const places = new Map<string, { setting: Setting; places: number[] }>();
  settings.forEach((setting, place) => {
    const key = settingKey(setting);
    const known = places.get(key);
    if (known) known.places.push(place);
    else places.set(key, { setting, places: [place] });
  });
  if (places.size === 0) noAnswer("There is no shot with a setting and a result yet.");
  if (places.size > MOST_SETTINGS) {
    noAnswer(`There are ${places.size} different settings, more than the ${MOST_SETTINGS} that can be compared. Is settings the right column?`);
  }
  return [...places.values()].map((it) => groupOf(it.setting, it.places, results)).sort((a, b) => inSettingOrder(a.setting, b.setting));
}

function groupOf(setting: Setting, places: readonly number[], results: readonly number[]): Group {
  const values = places.map((place) => results[place]!);
  // Typed results have at most 15 digits: a smaller spread than that is rounding.
  const noise = values.length * (1e-15 * Math.max(...values.map(Math.abs))) ** 2;
  const squares = sumOfSquares(values);
  return { setting, values, places, count: values.length, mean: mean(values), squares: squares > noise ? squares : 0 };
}

/** The groups, of which a comparison needs two at least. */
export function atLeastTwoGroups(comparison: Comparison): Group[] {
  const groups = groupsOf(comparison);
  if (groups.length < 2) {
    noAnswer(`All shots have the setting ${named(groups[0]!.setting)}, so there is nothing to compare. Give results of at least two settings.`);
  }
  return groups;
}

/** Shots over all groups. */
export function countOf(groups: readonly Group[]): number {
  return groups.reduce((total, { count }) => total + count, 0);
}

/** Sum of squares within the groups, over its degrees of freedom. */
export function pooledVariance(groups: readonly Group[]): { variance: number; df: number } {
  const df = countOf(groups) - groups.length;
  if (df === 0) noAnswer("Every setting has only one shot, so there is no spread to judge by. Repeat at least one setting.");
  const variance = groups.reduce((total, { squares }) => total + squares, 0) / df;
  if (variance === 0) noAnswer("The shots of each setting are all alike, so there is no spread to judge by. Give results with more decimals.");
  return { variance, df };
}

export function varianceOf(group: Group): number {
  return group.squares / (group.count - 1);
}

/** A setting as a message shows it. */
export function named(setting: Setting): string {
  return typeof setting === "number" ? printed(setting) : `“${setting.trim()}”`;
}
