/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import * as formula from "../../shared/comparison";
import { compareDecision } from "../../shared/decisions/trial";
import { columns, columnsInOrder, gaps, given, inOrder, list, optional, optionalInOrder, optionalList, ownGaps, ownList } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * Settings side by side: shots, mean, spread, interval of the mean, and letters of the settings that cannot be told apart.
 * @customfunction COMPARE
 * @param settings Setting of each shot, a number or a name.
 * @param results Results of the shots: extraction, shot time, or any other number. Shots without a result yet are left out.
 * @param [confidence] Confidence of the interval, as a fraction. 0.95 if left out.
 * @param [blocks] Block of each shot, such as its day or machine, a number or a name: what shifts all settings alike is taken out.
 * @param [method] How the letters are found: "equal" takes one spread for all settings, "unequal" lets each have its own; if left out, as in COMPARE.PAIRS.
 * @returns A table: setting, shots, mean, SD, low, high, group. A setting with one shot shows its mean, and #N/A for its spread.
 * @equation mean ± t × SD ÷ √shots, each setting with its own SD; with blocks least-squares mean ± t × its standard error; letters from COMPARE.PAIRS, a for the highest mean
 * @source Student's t; least-squares means; letters by Piepho (2004), J. Comput. Graph. Stat. 13:456.
 * @caution Settings that share a letter are not shown to differ, nor to be the same (see EQUIVALENT). A real difference need not matter in the cup; more extraction is not more quality. Pull every setting in every block if you can.
 * @words average, averages, which is better, two baskets, two grinders, difference, side by side, side-by-side
 * @example =ESPRESSO.COMPARE({8;8;8;9;9;9}, {19.0;19.2;19.4;20.1;20.3;20.5}) gives Setting | Shots | Mean | SD | Low | High | Group | 8 | 3 | 19.2 | 0.2 | 18.703 | 19.697 | b | 9 | 3 | 20.3 | 0.2 | 19.803 | 20.797 | a
 * @since 0.1.0
 */
export function COMPARE(settings: any[][], results: any[][], confidence?: any[][], blocks?: any[][], method?: any[][]): any[][] {
  return calculate(formula.compare, {
    settings: list(settings, "anySetting"), results: gaps(results), confidence: optional(confidence), blocks: optionalList(blocks),
    method: optional(method, "pairsMethod"),
  }, gives.table("setting", "shots", "meanValue", "sdValue", "low", "high", "group"));
}

/**
 * Do the settings differ at all? One test over all of them.
 * @customfunction COMPARE.TEST
 * @param settings Setting of each shot, a number or a name.
 * @param results Results of the shots. Shots without a result yet are left out.
 * @param [method] How the settings are tested: "equal" takes one spread for all settings, "unequal" lets each have its own, "rank" uses only the order of the results; if left out, "equal" with blocks, and while the smallest setting has fewer than 7 shots and the largest at most one more than the smallest; else "unequal".
 * @param [blocks] Block of each shot, such as its day or machine, a number or a name: what shifts all settings alike is taken out.
 * @returns Statistic, two degrees of freedom, p and the method used, in five cells side by side; "rank" has no second degrees of freedom.
 * @equation equal: F of the analysis of variance, settings adjusted for additive blocks; unequal: Welch's F; rank: H of Kruskal and Wallis, corrected for ties, p from chi-square
 * @source Fisher's analysis of variance; Welch (1951), Biometrika 38:330; Kruskal & Wallis (1952), J. Am. Stat. Assoc. 47:583.
 * @range "rank" is rough with fewer than 5 shots a setting.
 * @caution p is the chance of results this far apart if no setting differed, not the chance that they differ, nor how much. With few shots own spreads raise false alarms; one spread misleads where numbers of shots differ much. Settings pulled one after the other carry the drift of the machine: mix them with RUN.ORDER.
 * @words significant, real difference, better, luck, chance
 * @example =ESPRESSO.COMPARE.TEST({8;8;8;9;9;9}, {19.0;19.2;19.4;20.1;20.3;20.5}) gives 45.375 | 1 | 4 | 0.00253 | one spread
 * @since 0.1.0
 */
export function COMPARE_TEST(settings: any[][], results: any[][], method?: any[][], blocks?: any[][]): any[][] {
  return calculate(formula.compareTest, {
    settings: list(settings, "anySetting"), results: gaps(results), method: optional(method, "testMethod"), blocks: optionalList(blocks),
  }, gives.row("statistic", "df1", "df2", "p", "methodUsed"));
}

/**
 * Every setting against every other: difference, interval and p, with one error rate for all pairs together.
 * @customfunction COMPARE.PAIRS
 * @param settings Setting of each shot, a number or a name.
 * @param results Results of the shots. Shots without a result yet are left out.
 * @param [confidence] Confidence of the intervals, for all pairs together, as a fraction. 0.95 if left out.
 * @param [method] How the pairs are compared: "equal" takes one spread for all settings, "unequal" lets each have its own; if left out, "equal" with blocks, and while the smallest setting has fewer than 7 shots and the largest at most one more than the smallest; else "unequal".
 * @param [blocks] Block of each shot, such as its day or machine, a number or a name: what shifts all settings alike is taken out.
 * @returns A table: first, second, difference (second less first), low, high, p.
 * @equation equal: Tukey-Kramer, with blocks on least-squares means; unequal: Games-Howell; both with the studentised range
 * @source Games & Howell (1976), J. Educ. Stat. 1:113; Kramer (1956), Biometrics 12:307.
 * @caution An interval that holds 0 leaves the question open; it does not show two settings to be the same. Look at the difference before the p.
 * @words which is better, difference, one against another, significant
 * @example =ESPRESSO.COMPARE.PAIRS({8;8;8;9;9;9}, {19.0;19.2;19.4;20.1;20.3;20.5}) gives First | Second | Difference | Low | High | p | 8 | 9 | 1.1 | 0.6466 | 1.5534 | 0.00253
 * @since 0.1.0
 */
export function COMPARE_PAIRS(settings: any[][], results: any[][], confidence?: any[][], method?: any[][], blocks?: any[][]): any[][] {
  return calculate(formula.comparePairs, {
    settings: list(settings, "anySetting"), results: gaps(results), confidence: optional(confidence), method: optional(method, "pairsMethod"),
    blocks: optionalList(blocks),
  }, gives.table("first", "second", "difference", "low", "high", "p"));
}

/**
 * Settings compared as if every shot had had the same time, beverage mass or whatever else was not held.
 * @customfunction COMPARE.ADJUSTED
 * @param settings Setting of each shot, a number or a name.
 * @param results Results of the shots. Shots without a result yet are left out.
 * @param covariates What else differed from shot to shot: one column or several, a row for each shot, such as shot time and beverage.
 * @param [at] Values of the covariates to compare at, one for each column. Their means if left out.
 * @param [blocks] Block of each shot, such as its day or machine, a number or a name: what shifts all settings alike is taken out.
 * @returns A table: setting, shots, adjusted mean, standard error. Where you give values to compare at, a setting whose own shots do not reach them has #N/A.
 * @equation result = mean of the setting + slope × covariate, one slope for all settings, + block; least squares, blocks weighing the same
 * @source Analysis of covariance: Cochran (1957), Biometrics 13:261.
 * @range Only inside the covariates of each setting's own shots: it does not extrapolate.
 * @caution Right where grind brought shots back to time and missed a little; not where the setting works through the covariate: adjusting then takes the effect away. Check the slopes with COMPARE.ADJUSTEDTEST.
 * @words fair comparison, unequal shot times, equal time, same time
 * @example =ESPRESSO.COMPARE.ADJUSTED({6;6;6;6;8;8;8;8}, {20.1;20.4;20.3;20.9;20.6;20.9;21.3;21.6}, {26;28;29;31;25;27;30;32}, 28) gives Setting | Shots | Adjusted mean | Standard error | 6 | 4 | 20.353 | 0.05355 | 8 | 4 | 21.028 | 0.05355
 * @since 0.1.0
 */
export function COMPARE_ADJUSTED(settings: any[][], results: any[][], covariates: any[][], at?: any[][], blocks?: any[][]): any[][] {
  return calculate(formula.compareAdjusted, {
    settings: list(settings, "anySetting"), results: gaps(results), covariates: columns(covariates), at: ownList(at, "covariates"),
    blocks: optionalList(blocks),
  }, gives.table("setting", "shots", "adjustedMean", "standardError"));
}

/**
 * Do the settings differ once shot time, beverage mass or another covariate is taken into account? One test over all of them.
 * @customfunction COMPARE.ADJUSTEDTEST
 * @param settings Setting of each shot, a number or a name.
 * @param results Results of the shots. Shots without a result yet are left out.
 * @param covariates What else differed from shot to shot: one column or several, a row for each shot, such as shot time and beverage.
 * @param [blocks] Block of each shot, such as its day or machine, a number or a name: what shifts all settings alike is taken out.
 * @returns F, its two degrees of freedom, p of the settings, and p of unequal slopes, in five cells side by side.
 * @equation F = mean square of the settings after covariates and blocks ÷ mean square that is left, slopes in common
 * @source Analysis of covariance: Cochran (1957), Biometrics 13:261.
 * @caution A small p of unequal slopes: the settings do not answer alike to the covariate, and one adjusted mean each does not tell the story.
 * @words fair comparison, unequal shot times, significant
 * @example =ESPRESSO.COMPARE.ADJUSTEDTEST({6;6;6;6;8;8;8;8}, {20.1;20.4;20.3;20.9;20.6;20.9;21.3;21.6}, {26;28;29;31;25;27;30;32}) gives 81.344 | 1 | 5 | 0.00028 | 0.8370
 * @since 0.1.0
 */
export function COMPARE_ADJUSTEDTEST(settings: any[][], results: any[][], covariates: any[][], blocks?: any[][]): any[][] {
  return calculate(formula.compareAdjustedTest, {
    settings: list(settings, "anySetting"), results: gaps(results), covariates: columns(covariates), blocks: optionalList(blocks),
  }, gives.row("f", "df1", "df2", "p", "slopesP"));
}

/**
 * Are two settings as good as the same? TRUE where the difference is shown to be smaller than a margin you chose.
 * @customfunction EQUIVALENT
 * @param first First list: results at one setting. Blanks are left out.
 * @param second Second list: results at the other, not necessarily as many. Blanks are left out.
 * @param margin Difference that does not matter to you, in the unit of the results.
 * @param [confidence] Confidence of the interval on either side, as a fraction above 0.5. 0.95 if left out.
 * @returns Difference (second less first), low, high, and TRUE or FALSE, in four cells side by side.
 * @equation TRUE where Welch's interval at 2 × confidence − 1 (0.90 for 0.95) lies inside ± margin
 * @source Two one-sided tests: Schuirmann (1987), J. Pharmacokinet. Biopharm. 15:657.
 * @caution FALSE does not show a difference; with few shots the interval is simply wide. Choose the margin before you see the results.
 * @words as good as, no difference, cheaper, replace, interchangeable
 * @example =ESPRESSO.EQUIVALENT({20;20.3;20.1;20.5;20.2}, {19.8;20.1;20.4;19.9;20.2}, 0.4) gives -0.14 | -0.3965 | 0.1165 | TRUE
 * @since 0.1.0
 */
export function EQUIVALENT(first: any[][], second: any[][], margin: any[][], confidence?: any[][]): any[][] {
  return calculate(formula.equivalent, { first: ownGaps(first), second: ownGaps(second), margin, confidence: optional(confidence) },
    gives.row("difference", "low", "high", "equivalent"));
}

/**
 * The setting at the peak of the results, with an honest interval.
 * @customfunction BEST.SETTING
 * @param settings Settings tried, as numbers; three different ones at least.
 * @param results Results of the shots. Shots without a result yet are left out.
 * @param [confidence] Confidence of the interval, as a fraction. 0.95 if left out.
 * @param [blocks] Block of each shot, such as its day or machine, a number or a name: what shifts all settings alike is taken out.
 * @returns Setting, low, high, and the result to expect there, averaged over the blocks, in four cells side by side. An end that the results do not set is #N/A.
 * @equation peak of a least-squares parabola; the interval holds every setting at which the slope may be 0; where settings repeat, lack of fit is tested at 5 %
 * @source Fieller (1954), J. R. Stat. Soc. B 16:175, applied to −b ÷ 2c.
 * @range Only a peak inside the settings tried; an end of the interval outside them means "not known beyond". Results off a parabola are refused, naming the best setting tried; so is one true parabola in twenty.
 * @caution The highest extraction is not the best taste. If you look for the lowest, give the results with a minus.
 * @words best, optimum, sweet spot, peak, highest
 * @example =ESPRESSO.BEST.SETTING({6;6;7;7;8;8;9;9;10;10}, {19.2;19.5;20.4;20.1;20.9;21.2;20.8;20.6;19.9;20.2}) gives 8.3047 | 8.1175 | 8.5569 | 20.9153
 * @since 0.1.0
 */
export function BEST_SETTING(settings: any[][], results: any[][], confidence?: any[][], blocks?: any[][]): any[][] {
  return calculate(formula.bestSetting, { settings: list(settings), results: gaps(results), confidence: optional(confidence), blocks: optionalList(blocks) },
    gives.row("setting", "low", "high", "result"));
}

/**
 * Two settings turned at once, such as temperature and grind: where the results peak, or that they have a valley, a saddle or a ridge.
 * @customfunction BEST.TWO
 * @param first First setting of each shot, a number.
 * @param second Second setting of each shot, a number.
 * @param results Results of the shots. Shots without a result yet are left out.
 * @param [blocks] Block of each shot, such as its day or machine, a number or a name: what shifts all settings alike is taken out.
 * @returns First setting, second setting, the result to expect there, and "peak", "valley", "saddle" or "ridge", in four cells side by side. A ridge, or a point outside the settings tried, has #N/A for the three numbers, and says in words where to go.
 * @equation level point of a full second-order surface by least squares; a ridge where the smaller curvature is below 5 % of the larger, settings scaled to the range tried
 * @source Box & Wilson (1951), J. R. Stat. Soc. B 13:1; Lenth (2009), J. Stat. Softw. 32(7).
 * @range Only a point inside the settings tried is given.
 * @caution It takes 6 shots, and says nothing of how sure the point is: pull it beside what you use now. At a valley or saddle results rise away from the point.
 * @words best, optimum, grind and temperature, sweet spot
 * @example =ESPRESSO.BEST.TWO({90;90;94;94;92;92;89;95;92;92}, {1.8;2.4;1.8;2.4;2.1;2.1;2.1;2.1;1.7;2.5}, {19.0;19.4;19.6;20.0;20.6;20.4;18.6;19.5;19.4;20.0}) gives 92.4794 | 2.1756 | 20.5620 | peak
 * @since 0.2.0
 */
export function BEST_TWO(first: any[][], second: any[][], results: any[][], blocks?: any[][]): any[][] {
  return calculate(formula.bestTwo, { first: list(first, "settings"), second: list(second, "settings"), results: gaps(results), blocks: optionalList(blocks) },
    gives.row("first", "second", "result", "kind"));
}

/**
 * Do the results drift from run to run, as a machine warms up or coffee ages? The settings are taken out first.
 * @customfunction RUN.DRIFT
 * @param runs Numbers of the runs, in the order pulled.
 * @param results Results of the shots. Shots without a result yet are left out.
 * @param [settings] Setting of each run, a number or a name; if left out, all runs count as one setting.
 * @returns Change from one run to the next, low, high, and p, in four cells side by side.
 * @equation slope of results on runs, each less the mean of its setting, ± t × its standard error (95 %)
 * @source Least squares; Student's t.
 * @caution Mixed order (RUN.ORDER) shares a drift fairly; settings pulled one after the other cannot be told from it. No drift shown is not no drift.
 * @words warm up, warming up, heat up, getting slower, ageing, stale, over the day
 * @example =ESPRESSO.RUN.DRIFT({1;2;3;4;5;6}, {20.1;20.4;20.3;20.6;20.5;20.9}) gives 0.13143 | 0.04298 | 0.21988 | 0.01455
 * @since 0.2.0
 */
export function RUN_DRIFT(runs: any[][], results: any[][], settings?: any[][]): any[][] {
  return calculate(formula.runDrift, { runs: list(runs), results: gaps(results), settings: optionalList(settings, "anySetting") },
    gives.row("change", "low", "high", "p"));
}

/**
 * What a trial decides, in sentences: which setting to keep for each outcome, how sure that is, and what to try next.
 * @customfunction COMPARE.DECISION
 * @param settings Setting of each shot, a number or a name; shots still to come may have theirs already.
 * @param results Results of the shots, a column for each outcome. Cells without a result yet stay blank.
 * @param outcomes Names of the outcomes, one for each column, such as "Taste" and "Extraction, %". Columns of one name, or "Taste 1" and "Taste 2", are tasters: a shot counts as their mean once all in use scored it.
 * @param [blocks] Morning of each shot, or who scored each cup. All are taken as one if left out.
 * @param [kind] What the rows are: "shots", or "tasters", where blocks are tasters and repeats of a taster are averaged first. "shots" if left out.
 * @param [unit] Unit of the settings, as text, such as "°C". None if left out.
 * @param [worth] Difference worth having, in the unit of the results: one for all outcomes, or one for each. Without it, sample sizes and "alike" are left out.
 * @param [runs] Numbers of the runs, in the order pulled, for drift and for settings pulled one after another. Neither is looked at if left out.
 * @param [planned] Shots planned for each setting, less those lost; no answer is given before they are in. Any number of shots is answered if left out.
 * @param [times] Shot time of each shot, s, where shots were brought back to a time by the grind. Time is not taken out if left out.
 * @param [target] Shot time, s, to compare at. The mean of the times if left out.
 * @returns A row for each outcome: number of the rule, decision, how sure, what next, title of its chart, method.
 * @equation the first that applies of sixteen rules; differences by COMPARE.PAIRS, at 5 % over all outcomes together (Holm); drift at 1 %
 * @source Tukey-Kramer or Games-Howell as in COMPARE.PAIRS; Holm (1979), Scand. J. Stat. 6:65; times by COMPARE.ADJUSTED.
 * @caution It speaks of these shots. More extraction is not more quality; a difference that is not shown may be there. Serve cups by code, let them cool, and mind caffeine.
 * @words which is better, which to use, verdict, conclusion, what to do, two baskets
 * @example =ESPRESSO.COMPARE.DECISION({91;93;93;91;91;93}, {5.9;6.6;6.5;6.1;6.0;6.8}, "Taste", , , "°C") gives 9 | Use 93 °C. It gave 0.6 points more than 91 °C (0.3 to 0.9). | If they were alike, a gap that big would come about once in 200 trials. | Nothing above 93 °C was tried: 95 °C next, if the maker allows it. | 93 °C tasted best | Tukey–Kramer; p 0.004.
 * @since 0.2.0
 */
export function COMPARE_DECISION(
  settings: any[][], results: any[][], outcomes: any[][], blocks?: any[][], kind?: any[][], unit?: any[][], worth?: any[][], runs?: any[][],
  planned?: any[][], times?: any[][], target?: any[][]
): any[][] {
  return calculate(compareDecision, {
    outcomes: ownList(outcomes), settings: inOrder(settings, "anySetting"), results: columnsInOrder(results), blocks: optionalInOrder(blocks, "blocks"),
    kind: optional(kind, "trialKind"), unit: optional(unit, "settingUnit"), worth: ownList(worth), runs: optionalInOrder(runs),
    planned: optional(planned), times: optionalInOrder(times, "times"), target: optional(target, "time"),
    percentCells: given((choice) => choice.percent === "cell"),
  }, gives.rowForEach("branch", "decision", "sure", "next", "chartTitle", "methodUsed"));
}

/**
 * Correlation of ranks: do two lists rise and fall together, whatever the shape of the curve? From −1 to 1.
 * @customfunction RANK.CORRELATION
 * @param first First list. A pair that lacks a value is left out.
 * @param second Second list, of the same shots in the same order.
 * @returns Spearman's rho, from −1 to 1, and two-sided p, side by side.
 * @equation correlation of the ranks, equal values sharing theirs; p from all orders up to 14 pairs (9 where values repeat), beyond from four moments over all orders
 * @source Spearman's rank correlation; moments by Pitman (1937), Suppl. J. R. Stat. Soc. 4:225.
 * @range Beyond 14 pairs (9 where values repeat) p is within some 3 % from 0.005 up, and rather too large below.
 * @caution Rising together does not show that one causes the other.
 * @words go together, related, link, does taste follow
 * @example =ESPRESSO.RANK.CORRELATION({1;2;3;4;5}, {2;1;3;5;4}) gives 0.8 | 0.1333
 * @since 0.1.0
 */
export function RANK_CORRELATION(first: any[][], second: any[][]): any[][] {
  return calculate(formula.rankCorrelation, { first: gaps(first), second: gaps(second) }, gives.row("rho", "p"));
}

/**
 * An order in which to pull the shots of a trial: every repeat has each setting once, shuffled anew.
 * @customfunction RUN.ORDER
 * @param settings Settings to try, numbers or names, each once.
 * @param [repeats] Shots of each setting. 1 if left out.
 * @param [seed] Number that fixes the order; another gives another order. 1 if left out.
 * @returns A table: run, setting. The same settings, repeats and seed give the same order for ever.
 * @equation Fisher-Yates shuffles with the generator xoroshiro128+ of pure-rand, started from the seed
 * @source Randomised block design: Fisher, The Design of Experiments.
 * @caution Choose the seed before you look at the order, and keep to it. Purge the grinder after each change of setting.
 * @words shuffle, mix, random, randomise, fair order, plan
 * @example =ESPRESSO.RUN.ORDER({6;8;9}, 2) gives Run | Setting | 1 | 8 | 2 | 6 | 3 | 9 | 4 | 6 | 5 | 9 | 6 | 8
 * @since 0.1.0
 */
export function RUN_ORDER(settings: any[][], repeats?: any[][], seed?: any[][]): any[][] {
  return calculate(formula.runOrder, { settings: gaps(settings, "anySetting"), repeats: optional(repeats), seed: optional(seed) },
    gives.table("run", "setting"));
}

/**
 * How far readings of the same thing scatter for one operator, and how far operators differ.
 * @customfunction REPEATABILITY
 * @param values Readings of the same thing, each operator several times. Blanks are left out.
 * @param operators Who or what took each reading: names, numbers or instruments.
 * @returns Repeatability SD, between-operator SD, reproducibility SD, limits r and R, in five cells side by side.
 * @equation from mean squares within and between operators; r, R = 2.8 × their SD
 * @source ISO 5725-2 (one level), ISO 5725-6.
 * @caution Two readings by one operator differ by more than r once in 20 times; by two operators, more than R. Two or three operators give only a rough SD between them.
 * @words same reading twice, scatter, precision, consistent, two people
 * @example =ESPRESSO.REPEATABILITY({9.5;9.6;9.4;9.7;9.8;9.6}, {"Ada";"Ada";"Ada";"Ben";"Ben";"Ben"}) gives 0.1 | 0.1291 | 0.1633 | 0.28 | 0.4572
 * @since 0.1.0
 */
export function REPEATABILITY(values: any[][], operators: any[][]): any[][] {
  return calculate(formula.repeatability, { values: gaps(values, "readings"), operators: list(operators) },
    gives.row("repeatabilitySd", "operatorSd", "reproducibilitySd", "repeatabilityLimit", "reproducibilityLimit"));
}
