/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { tasteAdvice, tasteRanksAdvice } from "../../shared/decisions/taste-advice";
import { tasteAgreement } from "../../shared/tasting/agreement";
import * as discrimination from "../../shared/tasting/discrimination";
import * as ranking from "../../shared/tasting/ranking";
import * as scored from "../../shared/tasting/scores";
import * as serving from "../../shared/tasting/serving";
import { block, columnsInOrder, each, gaps, list, optional, ownList } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * Triangle test: the chance that guessing alone finds the odd cup at least this often.
 * @customfunction TASTE.TRIANGLE
 * @param correct Tasters who answered correctly.
 * @param tasters Tasters, each with one answer.
 * @returns p, 0 to 1, one-sided.
 * @equation Binomial: P(X ≥ correct) with a chance of 1/3
 * @source ISO 4120 (2021), exact binomial.
 * @caution A small p says that guessing seldom does as well; a large one does not make the samples alike. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words blind tasting, odd cup, tell apart, three cups
 * @example =ESPRESSO.TASTE.TRIANGLE(10, 15) gives 0.0085
 * @since 0.1.0
 */
export function TASTE_TRIANGLE(correct: any[][], tasters: any[][]): any[][] {
  return calculate(discrimination.tasteTriangle, { correct, tasters }, gives.value("p"));
}

/**
 * Duo-trio test: the chance that guessing alone matches the reference at least this often.
 * @customfunction TASTE.DUOTRIO
 * @param correct Tasters who answered correctly.
 * @param tasters Tasters, each with one answer.
 * @returns p, 0 to 1, one-sided.
 * @equation Binomial: P(X ≥ correct) with a chance of 1/2
 * @source ISO 10399 (2017), exact binomial.
 * @caution A small p says that guessing seldom does as well; a large one does not make the samples alike. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words blind tasting, match, tell apart
 * @example =ESPRESSO.TASTE.DUOTRIO(12, 15) gives 0.0176
 * @since 0.1.0
 */
export function TASTE_DUOTRIO(correct: any[][], tasters: any[][]): any[][] {
  return calculate(discrimination.tasteDuoTrio, { correct, tasters }, gives.value("p"));
}

/**
 * Paired comparison: the chance that guessing alone chooses one of two cups this often.
 * @customfunction TASTE.PAIRED
 * @param chosen Tasters who chose this sample.
 * @param tasters Tasters, each with one answer.
 * @param [sides] 1 where only one answer was thinkable beforehand, 2 where either was. 2 if left out.
 * @returns p, 0 to 1.
 * @equation Binomial with a chance of 1/2: P(X ≥ chosen) for 1 side; twice the smaller tail for 2
 * @source ISO 5495 (2005), exact binomial.
 * @caution Which cup is liked better always has two sides. A small p says that guessing seldom does as well; a large one does not make the samples alike. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words blind tasting, which do they prefer, preference, two cups
 * @example =ESPRESSO.TASTE.PAIRED(15, 20) gives 0.0414
 * @since 0.1.0
 */
export function TASTE_PAIRED(chosen: any[][], tasters: any[][], sides?: any[][]): any[][] {
  return calculate(discrimination.tastePaired, { chosen, tasters, sides: optional(sides) }, gives.value("p"));
}

/**
 * Smallest number of correct answers that guessing alone seldom reaches.
 * @customfunction TASTE.NEEDED
 * @param tasters Tasters, each with one answer.
 * @param test Kind of test: "triangle", "duo-trio" or "paired" (with one side; for two, halve the significance).
 * @param [significance] Chance of an alarm where there is no difference, 0 to 1. 0.05 if left out.
 * @returns Number of correct answers; #N/A where even all correct would not do.
 * @equation Smallest x with P(X ≥ x) ≤ significance, binomial with a chance of 1/3 (triangle) or 1/2
 * @source ISO 4120 (2021), ISO 10399 (2017), ISO 5495 (2005): the tables of these standards, computed.
 * @caution Fix the number of tasters before the test, and do not add some because the result is close. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words blind tasting, how many right, pass
 * @example =ESPRESSO.TASTE.NEEDED(15, "triangle") gives 9
 * @example =ESPRESSO.TASTE.NEEDED(20, "paired", 0.025) gives 15
 * @since 0.1.0
 */
export function TASTE_NEEDED(tasters: any[][], test: any[][], significance?: any[][]): any[][] {
  return calculate(discrimination.tasteNeeded, { tasters, test, significance: optional(significance) }, gives.value("needed"));
}

/**
 * Tasters for a test that is to find a given part of discriminators.
 * @customfunction TASTE.TASTERS
 * @param discriminators Part of all people who tell the difference, 0 to 1.
 * @param test Kind of test: "triangle", "duo-trio" or "paired" (with one side; for two, halve the significance).
 * @param [significance] Chance of an alarm where there is no difference, 0 to 1. 0.05 if left out.
 * @param [power] Chance of finding a difference that is there, 0 to 1. 0.8 if left out.
 * @returns First number of tasters that is enough, and the number from which on every number is, in two cells side by side.
 * @equation Exact binomial power with a chance of g + discriminators × (1 − g); g = 1/3 (triangle) or 1/2
 * @source ISO 4120 (2021) and ISO 10399 (2017) tabulate the first number; power goes up and down with each taster, so plan with the second.
 * @range Up to 10,000 tasters.
 * @caution One person's repeated answers are not the answers of several people. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words blind tasting, how many people, panel size
 * @example =ESPRESSO.TASTE.TASTERS(0.3, "triangle", 0.05, 0.95) gives 66 | 73
 * @since 0.1.0
 */
export function TASTE_TASTERS(discriminators: any[][], test: any[][], significance?: any[][], power?: any[][]): any[][] {
  return calculate(discrimination.tasteTasters, { discriminators, test, significance: optional(significance), power: optional(power) },
    gives.row("firstTasters", "stableTasters"));
}

/**
 * Can two coffees be treated alike: how many people tell the difference, at most.
 * @customfunction TASTE.ALIKE
 * @param correct Tasters who answered correctly.
 * @param tasters Tasters, each with one answer.
 * @param test Kind of test: "triangle", "duo-trio" or "paired" (with one side).
 * @param [most] Part of all people who may tell the difference and still not matter, 0 to 1. 0.2 if left out.
 * @param [confidence] Confidence of the interval, one-sided, as a fraction. 0.95 if left out.
 * @returns Part of all people who tell the difference, at most; TRUE where that is below most; greatest number of correct answers that still shows it; in three cells side by side.
 * @equation (c − g) ÷ (1 − g), or 0: c = the share of correct answers at which so few are as unlikely as 1 − confidence, g = 1/3 (triangle) or 1/2
 * @source ISO 4120 (2021) and ISO 10399 (2017), test for similarity, with the exact limit of Clopper & Pearson.
 * @range Where even no correct answer would show it, the greatest number is #N/A, with the tasters that it takes.
 * @caution FALSE does not say that they differ: see TASTE.TRIANGLE. Fix what may still not matter before the test. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words blind tasting, same coffee, substitute, no difference, replace
 * @example =ESPRESSO.TASTE.ALIKE(7, 25, "triangle") gives 0.1933 | TRUE | 7
 * @example =ESPRESSO.TASTE.ALIKE(26, 64, "triangle") gives 0.275096 | FALSE | 22
 * @since 0.2.0
 */
export function TASTE_ALIKE(correct: any[][], tasters: any[][], test: any[][], most?: any[][], confidence?: any[][]): any[][] {
  return calculate(discrimination.tasteAlike, { correct, tasters, test, most: optional(most, "mostDiscriminators"), confidence: optional(confidence) },
    gives.row("discriminatorsAtMost", "alike", "mostCorrect"));
}

/**
 * Distance d′ between two coffees in units of the tasters' own noise, which makes different kinds of test comparable.
 * @customfunction TASTE.DISTANCE
 * @param correct Tasters who answered correctly.
 * @param tasters Tasters, each with one answer.
 * @param test Kind of test: "triangle", "duo-trio" or "paired" (with one side).
 * @returns d′, and the low and high end of its 95 % interval, in three cells side by side. No better than guessing is 0.
 * @equation The d′ at which the model's chance of a correct answer is correct ÷ tasters; interval by Clopper & Pearson
 * @source Thurstonian models: Ennis (1993), J. Sensory Studies 8:353.
 * @range All correct has no upper limit: #N/A.
 * @caution At 1 a person tells a pair apart three times out of four. Small panels give wide intervals. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words how different, sensitivity, blind tasting
 * @example =ESPRESSO.TASTE.DISTANCE(10, 15, "triangle") gives 2.3214 | 0.7589 | 3.8243
 * @since 0.1.0
 */
export function TASTE_DISTANCE(correct: any[][], tasters: any[][], test: any[][]): any[][] {
  return calculate(discrimination.tasteDistance, { correct, tasters, test }, gives.row("distance", "low", "high"));
}

/**
 * Friedman's test of rankings: whether any sample is ranked higher or lower than the others.
 * @customfunction TASTE.RANKS
 * @param ranks Ranks, tasters down and samples across, 1 for the first; tied samples share their mean rank. Or scores: see given.
 * @param [given] Whether ranks or scores are given: "ranks", or "scores", which are ranked within each taster, the highest first. "ranks" if left out.
 * @returns Friedman's F, corrected for ties; degrees of freedom; p; least significant difference of two rank sums; in four cells side by side.
 * @equation F = (12 ÷ (j k (k + 1)) × ΣR² − 3 j (k + 1)) ÷ (1 − E ÷ (j k (k² − 1))); LSD = 1.96 √(j k (k + 1) ÷ 6); j tasters, k samples
 * @source ISO 8587 (2006). p is exact up to 100 tasters for 2 samples, 30 for 3, 10 for 4, 5 for 5, 3 for 6; chi-square beyond.
 * @caution Use the least difference only where p is small. Ranks say that samples differ, not how much or why. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words favourite, favorite, preference, ranking, best liked, blind tasting
 * @example =ESPRESSO.TASTE.RANKS({1,2,3;1,3,2;1,2,3;1,2,3}) gives 6.5 | 2 | 0.0417 | 5.5436
 * @since 0.1.0
 */
export function TASTE_RANKS(ranks: any[][], given?: any[][]): any[][] {
  return calculate(ranking.tasteRanks, { ranks: block(ranks, "scores"), given: optional(given) }, gives.row("friedman", "df", "p", "leastDifference"));
}

/**
 * Page's test of rankings against an order that was expected before tasting.
 * @customfunction TASTE.TREND
 * @param ranks Ranks, tasters down and samples across, 1 for the first; the columns stand in the order expected. Or scores: see given.
 * @param [given] Whether ranks or scores are given: "ranks", or "scores", which are ranked within each taster, the highest first. "ranks" if left out.
 * @returns Page's L and p, one-sided, in two cells side by side.
 * @equation L = Σ column number × rank sum
 * @source Page (1963), J. Am. Stat. Assoc. 58:216; ISO 8587 (2006). p is exact up to 20 tasters and 10 samples; normal approximation beyond.
 * @caution The order must come from the question, such as rising pressure, never from the ranks themselves. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words ranking, rising, expected order
 * @example =ESPRESSO.TASTE.TREND({1,2,3;1,3,2;1,2,3;1,2,3}) gives 55 | 0.0069
 * @since 0.1.0
 */
export function TASTE_TREND(ranks: any[][], given?: any[][]): any[][] {
  return calculate(ranking.tasteTrend, { ranks: block(ranks, "scores"), given: optional(given) }, gives.row("page", "p"));
}

/**
 * Samples side by side by the scores of several tasters: mean, interval, and letters of the samples that cannot be told apart.
 * @customfunction TASTE.SCORES
 * @param tasters Who gave each score, a name or a number.
 * @param samples Sample of each score, a name or a number.
 * @param scores Scores, the more the higher. Rows without a score yet are left out.
 * @param [confidence] Confidence of the intervals, as a fraction. 0.95 if left out.
 * @returns A table: sample, tasters who scored it, mean, low, high, group; samples in order. #N/A in words where nothing is left to judge by.
 * @equation sample + taster by least squares, repeated scores averaged; least-squares mean ± t × its standard error by the mean square of taster × sample; letters by Tukey-Kramer, a for the highest mean
 * @source Analysis of variance with tasters as blocks; Kramer (1956), Biometrics 12:307; letters by Piepho (2004), J. Comput. Graph. Stat. 13:456.
 * @range At most 60 samples. Every sample must be linked with the others by tasters who scored both.
 * @caution It speaks for these tasters and pulls only (for recipes see TASTE.SCORESTEST). Samples that share a letter are not shown to differ, nor to be the same. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words cupping, scores, average, panel, favourite, favorite
 * @example =ESPRESSO.TASTE.SCORES({"Ann";"Ann";"Ben";"Ben";"Cleo";"Cleo"}, {"A";"B";"A";"B";"A";"B"}, {6;4;8;7;7;5}) gives Sample | Tasters | Mean | Low | High | Group | A | 3 | 7 | 5.9859 | 8.0141 | a | B | 3 | 5.3333 | 4.3192 | 6.3475 | b
 * @since 0.2.0
 */
export function TASTE_SCORES(tasters: any[][], samples: any[][], scores: any[][], confidence?: any[][]): any[][] {
  return calculate(scored.tasteScores, {
    tasters: list(tasters, "anyTaster"), samples: list(samples, "sample"), scores: gaps(scores), confidence: optional(confidence),
  }, gives.table("sample", "tasters", "meanValue", "low", "high", "group"));
}

/**
 * Do the samples differ at all in the eyes of these tasters? One test over all of them.
 * @customfunction TASTE.SCORESTEST
 * @param tasters Who gave each score, a name or a number.
 * @param samples Sample of each score, a name or a number.
 * @param scores Scores, the more the higher. Rows without a score yet are left out.
 * @returns F, two degrees of freedom and p, in four cells side by side.
 * @equation F = mean square of the samples after the tasters ÷ mean square of taster × sample, repeated scores averaged
 * @source Analysis of variance with tasters as blocks; Fisher's F.
 * @range At most 60 samples. Every sample must be linked with the others by tasters who scored both.
 * @caution It speaks for these tasters and pulls only: where shots vary, equal recipes come out as different. For recipes pull each several times, and give COMPARE.TEST the mean of the tasters for each shot. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words cupping, scores, panel, real difference
 * @example =ESPRESSO.TASTE.SCORESTEST({"Ann";"Ann";"Ben";"Ben";"Cleo";"Cleo"}, {"A";"B";"A";"B";"A";"B"}, {6;4;8;7;7;5}) gives 25 | 1 | 2 | 0.0377
 * @since 0.2.0
 */
export function TASTE_SCORESTEST(tasters: any[][], samples: any[][], scores: any[][]): any[][] {
  return calculate(scored.tasteScoresTest, { tasters: list(tasters, "anyTaster"), samples: list(samples, "sample"), scores: gaps(scores) },
    gives.row("f", "df1", "df2", "p"));
}

/**
 * How far tasters agree: in their order of the samples, and in the scores themselves.
 * @customfunction TASTE.AGREEMENT
 * @param scores Scores, the more the higher; tasters down and samples across.
 * @returns Kendall's W and its p; ICC(2,1), ICC(3,1) and ICC(3,k); in five cells side by side.
 * @equation W = Friedman's F ÷ (j (k − 1)), corrected for ties. With mean squares of samples B, tasters J, rest E, j tasters, k samples: ICC(2,1) = (B − E) ÷ (B + (j − 1) E + j (J − E) ÷ k);
 *   ICC(3,1) = (B − E) ÷ (B + (j − 1) E); ICC(3,k) = (B − E) ÷ B
 * @source Kendall's W: ISO 8587 (2006), p as in TASTE.RANKS; intraclass correlations: Shrout & Fleiss (1979), Psychol. Bull. 86:420.
 * @caution Low also where samples hardly differ: there is nothing to agree on. ICC(3,k) speaks for these tasters' mean only. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words panel, same palate, calibrate tasters, disagree
 * @example =ESPRESSO.TASTE.AGREEMENT({9,6,8,7,10,6;2,1,4,1,5,2;5,3,6,2,6,4;8,2,8,6,9,7}) gives 0.887 | 0.0033 | 0.2898 | 0.7148 | 0.9093
 * @since 0.2.0
 */
export function TASTE_AGREEMENT(scores: any[][]): any[][] {
  return calculate(tasteAgreement, { scores: block(scores) }, gives.row("concordance", "p", "oneTaster", "oneTasterLevelled", "meanOfTasters"));
}

/**
 * Serving orders in which each sample stands equally often in each place and follows each other sample equally often.
 * @customfunction TASTE.ORDER
 * @param samples Samples for each taster, 2 to 26.
 * @param tasters Tasters on the panel.
 * @param [seed] Number that fixes the order: the same seed gives the same orders. 1 if left out.
 * @returns A table: taster, then the number of the sample in each serving.
 * @equation Williams squares, one for an even and two for an odd number of samples, with samples and rows shuffled
 * @source Williams (1949), Austral. J. Sci. Res. A 2:149; MacFie et al. (1989), J. Sensory Studies 4:129. Generator: xoroshiro128+ with a mixed seed.
 * @range Balanced in full where the tasters are a multiple of the samples (twice the samples, if odd).
 * @caution Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words serving, tray, fair, blind tasting, shuffle
 * @example =ESPRESSO.TASTE.ORDER(4, 8) gives a table
 * @since 0.1.0
 */
export function TASTE_ORDER(samples: any[][], tasters: any[][], seed?: any[][]): any[][] {
  return calculate(serving.tasteOrder, { samples, tasters: each(tasters, "panelTasters"), seed: optional(seed) }, gives.table("taster", "serving"));
}

/**
 * Three-digit codes for cups, all different, in random order.
 * @customfunction TASTE.CODES
 * @param count Codes wanted, 1 to 900.
 * @param [seed] Number that fixes the order: the same seed gives the same codes. 1 if left out.
 * @returns Codes from 100 to 999, in a column.
 * @equation The numbers 100 to 999, shuffled
 * @source Three-digit codes: ISO 6658 (2017). Generator: xoroshiro128+ with a mixed seed.
 * @caution Whoever pours knows the codes, so somebody else should serve.
 * @words blind tasting, cup numbers, labels, secret
 * @example =ESPRESSO.TASTE.CODES(3) gives 577 | 596 | 770
 * @since 0.1.0
 */
export function TASTE_CODES(count: any[][], seed?: any[][]): any[][] {
  return calculate(serving.tasteCodes, { count, seed: optional(seed) }, gives.column("code"));
}

/**
 * What a blind test of two coffees lets one say, and what comes next, in sentences.
 * @customfunction TASTE.ADVICE
 * @param correct Tasters who answered correctly.
 * @param test Kind of test: "triangle", "duo-trio" or "paired" (with one side).
 * @param [tasters] Tasters, each with one answer, who have answered so far. None if left out.
 * @param [panel] Tasters who are to answer; before all have, nothing is said of the result. As many as have answered if left out.
 * @param [significance] Chance of an alarm where there is no difference, 0 to 1. 0.05 if left out.
 * @param [most] Part of all people who may tell the difference and still not matter, 0 to 1. 0.2 if left out.
 * @returns Number of the rule, sentence, what comes next, in three cells side by side.
 * @equation They can tell: p at most the significance. Fewer than guessing: P(so few) below 0.025. Alike: by TASTE.ALIKE. Tasters to take: by TASTE.TASTERS
 * @source As TASTE.TRIANGLE, TASTE.DUOTRIO, TASTE.PAIRED, TASTE.ALIKE and TASTE.TASTERS.
 * @caution Fix the number of tasters before the test. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words blind tasting, can they tell, tell apart, what does it mean, odd cup
 * @example =ESPRESSO.TASTE.ADVICE(9, "triangle", 12, 12) gives 3 | They can tell: 9 of 12 (8 needed); guessing gets that about once in 200 trials. | That says nothing of which is better.
 * @since 0.2.0
 */
export function TASTE_ADVICE(correct: any[][], test: any[][], tasters?: any[][], panel?: any[][], significance?: any[][], most?: any[][]): any[][] {
  return calculate(tasteAdvice, {
    correct, test, tasters: optional(tasters), panel: optional(panel, "panelTasters"), significance: optional(significance),
    most: optional(most, "mostDiscriminators"),
  }, gives.row("branch", "sentence", "next"));
}

/**
 * What a ranking by several tasters lets one say, in sentences: which sample is liked best, and which it is ahead of.
 * @customfunction TASTE.RANKSADVICE
 * @param ranks Ranks, tasters down and samples across, 1 for the first; tied samples share their mean rank. Or scores: see given. A taster with a blank is not in yet.
 * @param [samples] Names of the samples, as many as columns. A, B, C and so on if left out.
 * @param [given] Whether ranks or scores are given: "ranks", or "scores", which are ranked within each taster, the highest first. "ranks" if left out.
 * @param [panel] Tasters who are to answer; before all have, nothing is said of the result. As many as have answered if left out.
 * @param [significance] Chance of an alarm where there is no difference, 0 to 1. 0.05 if left out.
 * @returns Number of the rule, sentence, what comes next, in three cells side by side.
 * @equation An order: Friedman's p at most the significance. Ahead: rank sums apart by q √(j k (k + 1) ÷ 12), q of the studentised range of k at infinite df
 * @source TASTE.RANKS; pairs by Nemenyi's test, in Hollander & Wolfe (1999), Nonparametric Statistical Methods, 7.3.
 * @caution It says which, not how much or why. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @words favourite, favorite, preference, ranking, best liked, which do they like, blind tasting
 * @example =ESPRESSO.TASTE.RANKSADVICE({2,1,3;3,1,2;2,1,3;3,1,2;2,1,3;3,1,2;2,1,3;3,1,2}) gives 3 | B is liked best, ahead of all. | Such an order would come about once in 500 trials by chance.
 * @since 0.2.0
 */
export function TASTE_RANKSADVICE(ranks: any[][], samples?: any[][], given?: any[][], panel?: any[][], significance?: any[][]): any[][] {
  return calculate(tasteRanksAdvice, {
    ranks: columnsInOrder(ranks, "scores"), samples: ownList(samples, "sample"), given: optional(given), panel: optional(panel, "panelTasters"),
    significance: optional(significance),
  }, gives.row("branch", "sentence", "next"));
}
