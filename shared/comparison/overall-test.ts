/** One test over all settings. */
import { noAnswer } from "../problem";
import { mean, ranked, sum } from "../statistics/describe";
import { chiSquareUpper, fUpper } from "../statistics/distributions";
import { atLeastTwoGroups, countOf, named, pooledVariance, varianceOf, type Comparison, type Group } from "./groups";

export type TestMethod = "equal" | "unequal" | "rank";

export interface Test {
  readonly statistic: number;
  readonly df1: number;
  readonly df2: number | "";
  readonly p: number;
}

/** Do the settings differ at all? "unequal": Welch 1951; "equal": one-way analysis of variance; "rank": Kruskal & Wallis 1952. */
export function compareTest(comparison: Comparison): (asked: { readonly method?: TestMethod }) => Test {
  const groups = atLeastTwoGroups(comparison);
  return ({ method = "unequal" }) => {
    if (method === "rank") return rankTest(groups, comparison.results);
    return method === "equal" ? equalSpreadTest(groups) : unequalSpreadTest(groups);
  };
}

function equalSpreadTest(groups: readonly Group[]): Test {
  const { variance, df } = pooledVariance(groups);
  const df1 = groups.length - 1;
  const centre = sum(groups.map((group) => group.count * group.mean)) / countOf(groups);
  const statistic = sum(groups.map((group) => group.count * (group.mean - centre) ** 2)) / df1 / variance;
  return { statistic, df1, df2: df, p: fUpper(statistic, df1, df) };
}

/** Welch 1951, Biometrika 38:330: each mean weighs as well as its own spread lets it be known. */
function unequalSpreadTest(groups: readonly Group[]): Test {
  for (const { setting, count, squares } of groups) {
    if (count < 2) {
      noAnswer(`Setting ${named(setting)} has only one shot, so its spread is not known. Add a shot, leave the setting out, or use the method “equal” or “rank”.`);
    }
    if (squares === 0) {
      noAnswer(`The shots of setting ${named(setting)} are all alike, so its spread is not known. Give more decimals, or use the method “equal” or “rank”.`);
    }
  }
  const weights = groups.map((group) => group.count / varianceOf(group));
  const total = sum(weights);
  const centre = sum(groups.map((group, k) => weights[k]! * group.mean)) / total;
  const k = groups.length;
  const imbalance = sum(groups.map((group, index) => (1 - weights[index]! / total) ** 2 / (group.count - 1)));
  const between = sum(groups.map((group, index) => weights[index]! * (group.mean - centre) ** 2)) / (k - 1);
  const statistic = between / (1 + (2 * (k - 2) * imbalance) / (k * k - 1));
  const df2 = (k * k - 1) / (3 * imbalance);
  return { statistic, df1: k - 1, df2, p: fUpper(statistic, k - 1, df2) };
}

/** Kruskal & Wallis 1952, J. Am. Stat. Assoc. 47:583, corrected for ties; p from chi-square. */
function rankTest(groups: readonly Group[], results: readonly number[]): Test {
  const n = results.length;
  const { ranks, ties } = ranked(results);
  const correction = 1 - ties / (n ** 3 - n);
  if (correction === 0) noAnswer("All results are equal, so there is nothing to rank.");
  if (n === groups.length) noAnswer("Every setting has only one shot, so their order alone can show nothing. Repeat the settings.");
  const squares = sum(groups.map((group) => group.count * (mean(group.places.map((place) => ranks[place]!)) - (n + 1) / 2) ** 2));
  const statistic = ((12 / (n * (n + 1))) * squares) / correction;
  const df1 = groups.length - 1;
  return { statistic, df1, df2: "", p: chiSquareUpper(statistic, df1) };
}
