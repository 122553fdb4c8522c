/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import * as discrimination from "../../shared/tasting/discrimination";
import * as ranking from "../../shared/tasting/ranking";
import * as serving from "../../shared/tasting/serving";
import { block, each, optional } from "../sheet/arguments";
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
 * @caution A small p says that guessing seldom does as well; a large one does not say that the samples are alike. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
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
 * @source ISO 10399, exact binomial.
 * @caution A small p says that guessing seldom does as well; a large one does not say that the samples are alike. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
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
 * @source ISO 5495, exact binomial.
 * @caution Which cup is liked better always has two sides. A small p says that guessing seldom does as well; a large one does not say that the samples are alike. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
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
 * @source ISO 4120, ISO 10399, ISO 5495: the tables of these standards, computed.
 * @caution Fix the number of tasters before the test, and do not add some because the result is close. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
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
 * @equation Exact power of the binomial test, with a chance of g + discriminators × (1 − g), where g is 1/3 (triangle) or 1/2
 * @source ISO 4120 and ISO 10399 tabulate the first number; the power goes up and down with each taster, so the second is the one to plan with.
 * @range Up to 10,000 tasters.
 * @caution One person's repeated answers are not the answers of several people. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @example =ESPRESSO.TASTE.TASTERS(0.3, "triangle", 0.05, 0.95) gives 66 | 73
 * @since 0.1.0
 */
export function TASTE_TASTERS(discriminators: any[][], test: any[][], significance?: any[][], power?: any[][]): any[][] {
  return calculate(discrimination.tasteTasters, { discriminators, test, significance: optional(significance), power: optional(power) },
    gives.row("firstTasters", "stableTasters"));
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
 * @caution About 1 is a difference that a person tells in a pair three times out of four. Small panels give wide intervals: look at them. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @example =ESPRESSO.TASTE.DISTANCE(10, 15, "triangle") gives 2.3214 | 0.7589 | 3.8243
 * @since 0.1.0
 */
export function TASTE_DISTANCE(correct: any[][], tasters: any[][], test: any[][]): any[][] {
  return calculate(discrimination.tasteDistance, { correct, tasters, test }, gives.row("distance", "low", "high"));
}

/**
 * Friedman's test of rankings: whether any sample is ranked higher or lower than the others.
 * @customfunction TASTE.RANKS
 * @param ranks Ranks, tasters down and samples across, 1 for the first; tied samples share their mean rank.
 * @returns Friedman's F, corrected for ties; degrees of freedom; p; least significant difference of two rank sums; in four cells side by side.
 * @equation F = (12 ÷ (j k (k + 1)) × ΣR² − 3 j (k + 1)) ÷ (1 − E ÷ (j k (k² − 1))); LSD = 1.96 √(j k (k + 1) ÷ 6); j tasters, k samples
 * @source ISO 8587 (2006). p is exact up to 100 tasters for 2 samples, 30 for 3, 10 for 4, 5 for 5, 3 for 6; chi-square beyond.
 * @caution Only where p is small is the least significant difference of use. It says that ranks differ, not how much and not why. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @example =ESPRESSO.TASTE.RANKS({1,2,3;1,3,2;1,2,3;1,2,3}) gives 6.5 | 2 | 0.0417 | 5.5436
 * @since 0.1.0
 */
export function TASTE_RANKS(ranks: any[][]): any[][] {
  return calculate(ranking.tasteRanks, { ranks: block(ranks) }, gives.row("friedman", "df", "p", "leastDifference"));
}

/**
 * Page's test of rankings against an order that was expected before tasting.
 * @customfunction TASTE.TREND
 * @param ranks Ranks, tasters down and samples across, 1 for the first; the columns stand in the order expected.
 * @returns Page's L and p, one-sided, in two cells side by side.
 * @equation L = Σ column number × rank sum
 * @source Page (1963), J. Am. Stat. Assoc. 58:216; ISO 8587 (2006). p is exact up to 20 tasters and 10 samples; normal approximation beyond.
 * @caution The order must come from the question, such as rising pressure, never from the ranks themselves. Tasters: caffeine adds up (EFSA 2015: 200 mg at once and 400 mg a day for adults, 200 mg a day in pregnancy), so let them spit; name allergens such as milk; let the coffee cool, as it scalds.
 * @example =ESPRESSO.TASTE.TREND({1,2,3;1,3,2;1,2,3;1,2,3}) gives 55 | 0.0069
 * @since 0.1.0
 */
export function TASTE_TREND(ranks: any[][]): any[][] {
  return calculate(ranking.tasteTrend, { ranks: block(ranks) }, gives.row("page", "p"));
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
 * @source Three-digit codes: common practice of sensory laboratories. Generator: xoroshiro128+ with a mixed seed.
 * @caution Whoever pours knows the codes, so somebody else should serve.
 * @example =ESPRESSO.TASTE.CODES(3) gives 577 | 596 | 770
 * @since 0.1.0
 */
export function TASTE_CODES(count: any[][], seed?: any[][]): any[][] {
  return calculate(serving.tasteCodes, { count, seed: optional(seed) }, gives.column("code"));
}
