/** One test over all settings. */
import { noAnswer, Problem } from "../problem";
import { mean, ranked, sum } from "../statistics/describe";
import { chiSquareUpper, fUpper } from "../statistics/distributions";
import { named, requireSpreadOfBlocks, spreadOf, trialOfSeveral, varianceOf, type Comparison, type Trial } from "./groups";
import { oneSpread } from "./one-spread";

export type TestMethod = "equal" | "unequal" | "rank";

export interface Test {
  readonly statistic: number;
  readonly df1: number;
  readonly df2: number | "";
  readonly p: number;
  /** How it was tested, in words. */
  readonly methodUsed: "one spread" | "blocks" | "own spreads" | "ranks";
}

/**
 * Do the settings differ at all? "equal": analysis of variance, with blocks of the additive model with the settings adjusted for the
 * blocks; "unequal": Welch 1951; "rank": Kruskal & Wallis 1952. Left out: `spreadOf`.
 */
export function compareTest(comparison: Comparison): (how: { readonly method?: TestMethod }) => Test {
  const trial = trialOfSeveral(comparison);
  return ({ method }) => {
    requireSpreadOfBlocks(trial.blockOf, method);
    switch (method ?? spreadOf(trial)) {
      case "rank":
        return rankTest(trial);
      case "unequal":
        return ownSpreadsTest(trial);
      case "equal":
        return oneSpreadTest(trial);
    }
  };
}

function oneSpreadTest(trial: Trial): Test {
  const { error, between } = oneSpread(trial);
  if (error instanceof Problem) throw error;
  const df1 = trial.groups.length - 1;
  const statistic = between / df1 / error.variance;
  return { statistic, df1, df2: error.df, p: fUpper(statistic, df1, error.df), methodUsed: trial.blockOf ? "blocks" : "one spread" };
}

/** Welch 1951, Biometrika 38:330: each mean weighs as well as its own spread lets it be known. */
function ownSpreadsTest({ groups }: Trial): Test {
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
  return { statistic, df1: k - 1, df2, p: fUpper(statistic, k - 1, df2), methodUsed: "own spreads" };
}

/** Kruskal & Wallis 1952, J. Am. Stat. Assoc. 47:583, corrected for ties; p from chi-square. */
function rankTest({ groups, results }: Trial): Test {
  const n = results.length;
  const { ranks, ties } = ranked(results);
  const correction = 1 - ties / (n ** 3 - n);
  if (correction === 0) noAnswer("All results are equal, so there is nothing to rank.");
  if (n === groups.length) noAnswer("Every setting has only one shot, so their order alone can show nothing. Repeat the settings.");
  const squares = sum(groups.map((group) => group.count * (mean(group.places.map((place) => ranks[place]!)) - (n + 1) / 2) ** 2));
  const statistic = ((12 / (n * (n + 1))) * squares) / correction;
  const df1 = groups.length - 1;
  return { statistic, df1, df2: "", p: chiSquareUpper(statistic, df1), methodUsed: "ranks" };
}
