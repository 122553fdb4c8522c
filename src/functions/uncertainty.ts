/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import * as formula from "../../shared/uncertainty";
import { gaps, optional } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * How far an extraction can be from the truth because of scale and refractometer, in percentage points.
 * @customfunction EXTRACTION.UNCERTAINTY
 * @param dose Dry coffee, g.
 * @param beverage Mass in the cup, g.
 * @param strength Dissolved solids in the beverage, %.
 * @param [doseError] Standard uncertainty of the dose, g. 0.1 if left out.
 * @param [beverageError] Standard uncertainty of the beverage mass, g. 0.1 if left out.
 * @param [strengthError] Standard uncertainty of the strength, % of the beverage. 0.05 if left out.
 * @param [coverage] Coverage factor. 2 if left out, which covers about 95 %.
 * @returns Expanded uncertainty of the extraction, percentage points: extraction ± this.
 * @equation uncertainty = coverage × extraction × √((dose error ÷ dose)² + (beverage error ÷ beverage)² + (strength error ÷ strength)²)
 * @source JCGM 100:2008 (GUM), 5.1.6; a Monte Carlo run after JCGM 101 agrees to 0.02 %.
 * @range First order: 0.4 % too small where the dose is known to 3 %, 4 % to 10 %, 8 % at 14 %. Errors left out are common practice for a 0.1 g scale and a pocket refractometer.
 * @caution It counts the reading only, not how shots differ. Errors that two shots share, such as one refractometer's bias, cancel in their comparison.
 * @words how accurate, error, plus or minus, margin, scale, refractometer
 * @example =ESPRESSO.EXTRACTION.UNCERTAINTY(18, 36, 9.5, 0.05, 0.05, 0.1) gives 0.4170
 * @since 0.1.0
 */
export function EXTRACTION_UNCERTAINTY(
  dose: any[][], beverage: any[][], strength: any[][], doseError?: any[][], beverageError?: any[][], strengthError?: any[][], coverage?: any[][]
): any[][] {
  return calculate(formula.extractionUncertainty, {
    dose, beverage, strength,
    doseError: optional(doseError), beverageError: optional(beverageError), strengthError: optional(strengthError), coverage: optional(coverage),
  }, gives.value("uncertainty"));
}

/**
 * Which measurement makes an extraction uncertain: the shares of dose, beverage and strength. Improve the largest first.
 * @customfunction EXTRACTION.SHARES
 * @param dose Dry coffee, g.
 * @param beverage Mass in the cup, g.
 * @param strength Dissolved solids in the beverage, %.
 * @param [doseError] Standard uncertainty of the dose, g. 0.1 if left out.
 * @param [beverageError] Standard uncertainty of the beverage mass, g. 0.1 if left out.
 * @param [strengthError] Standard uncertainty of the strength, % of the beverage. 0.05 if left out.
 * @returns Shares of the variance from dose, beverage and strength, %, in three cells side by side; they sum to 100 %.
 * @equation share = (error ÷ value)² ÷ the sum of these over dose, beverage and strength
 * @source JCGM 100:2008 (GUM), 5.1.6.
 * @words how accurate, which tool, better scale, better refractometer
 * @example =ESPRESSO.EXTRACTION.SHARES(18, 36, 9.5, 0.05, 0.05, 0.1) gives 6.406 | 1.602 | 91.992
 * @since 0.1.0
 */
export function EXTRACTION_SHARES(
  dose: any[][], beverage: any[][], strength: any[][], doseError?: any[][], beverageError?: any[][], strengthError?: any[][]
): any[][] {
  return calculate(formula.extractionShares, {
    dose, beverage, strength, doseError: optional(doseError), beverageError: optional(beverageError), strengthError: optional(strengthError),
  }, gives.row("doseShare", "beverageShare", "strengthShare"));
}

/**
 * Shots to pull at each setting to find a difference that matters to you.
 * @customfunction SHOTS.NEEDED
 * @param difference Difference between two settings that you want to find, in the unit of your results.
 * @param spread Standard deviation from shot to shot at one setting, in the same unit.
 * @param [power] Chance of finding a difference that is there, as a fraction. 0.8 if left out.
 * @param [significance] Chance of an alarm where there is no difference, as a fraction. 0.05 if left out.
 * @param [settings] Settings compared. 2 if left out.
 * @returns Shots for each setting, a whole number.
 * @equation the fewest shots for which the F test over all settings (two-sided t for two) has the power; two settings this difference apart, the rest midway, the least favourable case
 * @source Noncentral F distribution, checked with SciPy and R.
 * @caution With more than two settings one pair is found a little less often. Pull settings in mixed order (RUN.ORDER). Take spread from shots, not readings of one shot.
 * @words how many shots, sample size, plan, enough
 * @example =ESPRESSO.SHOTS.NEEDED(0.5, 0.5) gives 17
 * @since 0.1.0
 */
export function SHOTS_NEEDED(difference: any[][], spread: any[][], power?: any[][], significance?: any[][], settings?: any[][]): any[][] {
  return calculate(formula.shotsNeeded, {
    difference, spread, power: optional(power), significance: optional(significance), settings: optional(settings, "settingCount"),
  }, gives.value("shots"));
}

/**
 * The smallest difference between two settings that a number of shots can be expected to find.
 * @customfunction DIFFERENCE.DETECTABLE
 * @param shots Shots for each setting.
 * @param spread Standard deviation from shot to shot at one setting, in the unit of your results.
 * @param [power] Chance of finding a difference that is there, as a fraction. 0.8 if left out.
 * @param [significance] Chance of an alarm where there is no difference, as a fraction. 0.05 if left out.
 * @returns Difference, in the unit of spread.
 * @equation the difference at which a two-sided t test of two settings has the power
 * @source Noncentral F distribution, as in SHOTS.NEEDED.
 * @caution A difference smaller than this may be real and still not show: "not significant" does not mean "the same"; see EQUIVALENT.
 * @words how many shots, too few, sample size, small difference
 * @example =ESPRESSO.DIFFERENCE.DETECTABLE(3, 0.5) gives 1.535
 * @since 0.1.0
 */
export function DIFFERENCE_DETECTABLE(shots: any[][], spread: any[][], power?: any[][], significance?: any[][]): any[][] {
  return calculate(formula.differenceDetectable, { shots, spread, power: optional(power), significance: optional(significance) },
    gives.value("difference"));
}

/**
 * How well two instruments or two people agree who read the same shots: mean difference and limits of agreement.
 * @customfunction AGREEMENT
 * @param first First list: the readings of one instrument. A shot that lacks a reading is left out.
 * @param second Second list: the readings of the other, of the same shots in the same order.
 * @returns Mean of second less first, SD of the differences, lower and upper limit, in four cells side by side. One pair alone gives only the mean.
 * @equation limits = mean difference ± 1.96 × SD of the differences
 * @source Bland & Altman (1986), The Lancet 327:307.
 * @caution The limits say how far apart two single readings can be. Whether that is too far is for you to say, before you look.
 * @words two refractometers, two scales, two people, compare instruments
 * @example =ESPRESSO.AGREEMENT({9.1;9.6;8.8;10.2}, {9.2;9.6;9.0;10.3}) gives 0.1 | 0.08165 | -0.06003 | 0.26003
 * @since 0.1.0
 */
export function AGREEMENT(first: any[][], second: any[][]): any[][] {
  return calculate(formula.agreement, { first: gaps(first), second: gaps(second) }, gives.row("meanDifference", "differenceSd", "lowerLimit", "upperLimit"));
}
