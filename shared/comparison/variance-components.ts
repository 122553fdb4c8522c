/** How much of the spread lies between groups, and how much only within them. */
import { sum } from "../statistics/describe";
import { fUpper } from "../statistics/distributions";
import type { Group } from "./groups";

/** What is known of a group without its results. */
export type Moments = Pick<Group, "count" | "mean" | "squares">;

export interface VarianceComponents {
  /** Standard deviation of single results of one group. */
  readonly withinSd: number;
  /** Standard deviation of the true means of the groups; 0 where the means differ no more than the spread within lets expect. */
  readonly betweenSd: number;
  /** How often means as far apart as these come from groups that are all alike, by the F test of one-way analysis of variance. */
  readonly p: number;
}

/**
 * One-way analysis of variance, also for unequal numbers of results (ISO 5725-2, 7.4). It takes the spread within to be the same in all groups.
 * There must be two groups, and more results than groups.
 */
export function varianceComponents(groups: readonly Moments[]): VarianceComponents {
  const n = sum(groups.map(({ count }) => count));
  const k = groups.length;
  const within = sum(groups.map(({ squares }) => squares)) / (n - k);
  const centre = sum(groups.map(({ count, mean }) => count * mean)) / n;
  const between = sum(groups.map(({ count, mean }) => count * (mean - centre) ** 2)) / (k - 1);
  const typicalCount = (n - sum(groups.map(({ count }) => count * count)) / n) / (k - 1);
  return {
    withinSd: Math.sqrt(within),
    betweenSd: Math.sqrt(Math.max(0, (between - within) / typicalCount)),
    p: between === 0 ? 1 : fUpper(between / within, k - 1, n - k),
  };
}
