/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import * as formula from "../../shared/dialin";
import { each, gaps, list, optional } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * Grind setting that lands a shot on a time, from settings and times tried, with the interval for one new shot.
 * @customfunction GRIND.FORTIME
 * @param settings Settings tried, as numbers.
 * @param times Shot times at those settings, s. Settings without a time yet are left out.
 * @param target Time wanted, s. One cell, or a column for several times.
 * @param [confidence] Confidence of the interval, as a fraction. 0.95 if left out.
 * @returns Setting, low and high, in three cells side by side. With two shots low and high are #N/A.
 * @equation ln time = a + b × setting, fitted by least squares and turned round; the interval inverts the prediction interval of one shot
 * @source Draper & Smith, Applied Regression Analysis; Greenwell & Schubert Kabban (2014), The R Journal 6(1):90.
 * @range Only inside the times of the data: it does not extrapolate.
 * @caution Keep dose, beverage mass and pressure steady while you try settings.
 * @example =ESPRESSO.GRIND.FORTIME({1;1.2;1.4;1.6;1.8;2}, {41.5;34;29.5;24;20.5;17}, 27) gives 1.4798 | 1.4306 | 1.5290
 * @since 0.1.0
 */
export function GRIND_FORTIME(settings: any[][], times: any[][], target: any[][], confidence?: any[][]): any[][] {
  return calculate(formula.grindForTime, { settings: list(settings), times: gaps(times), target: each(target, "time"), confidence: optional(confidence) },
    gives.row("setting", "low", "high"));
}

/**
 * Shot time to expect at a grind setting, from settings and times tried, with the interval for one new shot.
 * @customfunction TIME.FORGRIND
 * @param settings Settings tried, as numbers.
 * @param times Shot times at those settings, s. Settings without a time yet are left out.
 * @param setting Setting of the grinder. One cell, or a column for several settings.
 * @param [confidence] Confidence of the interval, as a fraction. 0.95 if left out.
 * @returns Time, low and high, s, in three cells side by side. With two shots low and high are #N/A.
 * @equation ln time = a + b × setting, fitted by least squares; the interval is the prediction interval of one shot
 * @source Draper & Smith, Applied Regression Analysis.
 * @range Only inside the settings tried: it does not extrapolate.
 * @example =ESPRESSO.TIME.FORGRIND({1;1.2;1.4;1.6;1.8;2}, {41.5;34;29.5;24;20.5;17}, 1.5) gives 26.523 | 25.396 | 27.700
 * @since 0.1.0
 */
export function TIME_FORGRIND(settings: any[][], times: any[][], setting: any[][], confidence?: any[][]): any[][] {
  return calculate(formula.timeForGrind, { settings: list(settings), times: gaps(times), setting, confidence: optional(confidence) },
    gives.row("time", "timeLow", "timeHigh"));
}

/**
 * Grind setting that holds a time at another brew pressure, from shots at several settings and pressures.
 * @customfunction GRIND.FORPRESSURE
 * @param settings Settings tried, as numbers.
 * @param pressures Brew pressures of the shots, gauge, bar.
 * @param times Shot times at those settings, s. Shots without a time yet are left out.
 * @param pressure Brew pressure, gauge, bar, at which the setting is wanted.
 * @param target Time wanted, s.
 * @returns Setting.
 * @equation ln time = a + b × setting + c × ln pressure, fitted by least squares and solved for the setting
 * @source Least squares; that lower pressure needs a finer grind for the same time is common practice of the trade.
 * @range Only inside the pressures, times and settings of the data: it does not extrapolate.
 * @caution Change pressure only on a machine made for it, inside the maker's limits.
 * @example =ESPRESSO.GRIND.FORPRESSURE({2;2.4;2;2.4}, {6;6;9;9}, {32;26;27;21.9375}, 9, 25) gives 2.1483
 * @since 0.1.0
 */
export function GRIND_FORPRESSURE(settings: any[][], pressures: any[][], times: any[][], pressure: any[][], target: any[][]): any[][] {
  return calculate(formula.grindForPressure, {
    settings: list(settings), pressures: list(pressures), times: gaps(times), pressure, target: each(target, "time"),
  }, gives.value("setting"));
}

/**
 * Shot time as it would have been at another beverage mass, to compare shots that did not land on the same mass.
 * @customfunction TIME.ATBEVERAGE
 * @param time Shot time, s.
 * @param beverage Mass in the cup, g.
 * @param target Beverage mass wanted, g.
 * @param [firstDrip] Time until the first drop, s. 0 if left out.
 * @returns Time, s.
 * @equation time = first drip + (time − first drip) × target ÷ beverage
 * @source Mean flow after the first drop, taken as steady; common practice of the trade.
 * @range Up to 25 % of the beverage mass; keep it below 10 % where you can.
 * @example =ESPRESSO.TIME.ATBEVERAGE(28, 38, 36) gives 26.5263
 * @example =ESPRESSO.TIME.ATBEVERAGE(28, 38, 36, 6) gives 26.8421
 * @since 0.1.0
 */
export function TIME_ATBEVERAGE(time: any[][], beverage: any[][], target: any[][], firstDrip?: any[][]): any[][] {
  return calculate(formula.timeAtBeverage, { time, beverage, target: each(target, "beverage"), firstDrip: optional(firstDrip) }, gives.value("time"));
}

/**
 * Value of a curve through measured points.
 * @customfunction CURVE
 * @param x Values along the curve, in any order; points of the same x are averaged.
 * @param y Values of the curve at each x. Points without a value are left out.
 * @param at Where the curve is wanted. One cell or any range.
 * @param [method] "linear", or "monotone", a smooth curve that never overshoots its points. "linear" if left out.
 * @returns The value on the curve for each cell of at.
 * @equation Straight lines between the points, or cubics with weighted harmonic mean slopes
 * @source "monotone": Fritsch & Butland (1984), SIAM J. Sci. Stat. Comput. 5:300, of the family of Fritsch & Carlson (1980).
 * @range Only between the least and the greatest x: it does not extrapolate.
 * @example =ESPRESSO.CURVE({1;2;3}, {10;20;40}, 2.5) gives 30
 * @since 0.1.0
 */
export function CURVE(x: any[][], y: any[][], at: any[][], method?: any[][]): any[][] {
  return calculate(formula.curve, { x: list(x), y: gaps(y), at, method: optional(method, "curveMethod") }, gives.value("curveValue"));
}

/**
 * Where a curve through measured points first reaches a value.
 * @customfunction CURVE.WHERE
 * @param x Values along the curve, in any order; points of the same x are averaged.
 * @param y Values of the curve at each x. Points without a value are left out.
 * @param target Value that the curve is to reach.
 * @param [method] "linear", or "monotone", a smooth curve that never overshoots its points. "linear" if left out.
 * @returns The smallest x at which the curve reaches the value.
 * @equation As in CURVE, turned round
 * @source As in CURVE.
 * @range Only values that the curve takes.
 * @example =ESPRESSO.CURVE.WHERE({1;2;3}, {10;20;40}, 30) gives 2.5
 * @since 0.1.0
 */
export function CURVE_WHERE(x: any[][], y: any[][], target: any[][], method?: any[][]): any[][] {
  return calculate(formula.curveWhere, { x: list(x), y: gaps(y), target: each(target, "curveValue"), method: optional(method, "curveMethod") },
    gives.value("curveValue"));
}

/**
 * Power of pressure that the flow follows, from flows at several pressures and one grind.
 * @customfunction FLOW.EXPONENT
 * @param pressures Brew pressures of the shots, gauge, bar.
 * @param flows Flows at those pressures, g/s. Shots without a flow are left out.
 * @returns Exponent, low, high (95 %) and R², in four cells side by side.
 * @equation ln flow = a + exponent × ln pressure, fitted by least squares
 * @source Least squares. That the bed is elastic and the exponent not 1: Waszkiewicz et al., arXiv:2512.21528.
 * @range 1 would be Darcy's law for a bed that does not change; about 0.5 was reported for espresso, seen second-hand.
 * @caution Keep grind and dose steady. Change pressure only on a machine made for it, inside the maker's limits.
 * @example =ESPRESSO.FLOW.EXPONENT({4;9;16}, {2;3;4}) gives 0.5000 | 0.5000 | 0.5000 | 1.0000
 * @since 0.1.0
 */
export function FLOW_EXPONENT(pressures: any[][], flows: any[][]): any[][] {
  return calculate(formula.flowExponent, { pressures: list(pressures), flows: gaps(flows) }, gives.row("exponent", "low", "high", "r2"));
}
