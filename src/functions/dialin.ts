/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { grindAdvice } from "../../shared/decisions/grind-advice";
import * as formula from "../../shared/dialin";
import { each, gaps, inOrder, list, optional, optionalList } from "../sheet/arguments";
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
 * @equation ln time = a + b × setting, fitted by least squares and turned round; interval by inverting that of TIME.FORGRIND
 * @source Draper & Smith, Applied Regression Analysis; Greenwell & Schubert Kabban (2014), R J. 6(1):90.
 * @range Only inside the times of the data: it does not extrapolate.
 * @caution Keep dose, beverage mass and pressure steady while you try settings.
 * @words dial in, dialling in, dialing in, grinder, grind finer, grind coarser, new coffee, shot too fast, shot too slow
 * @example =ESPRESSO.GRIND.FORTIME({1;1.2;1.4;1.6;1.8;2}, {41.5;34;29.5;24;20.5;17}, 27) gives 1.4798 | 1.4306 | 1.5290
 * @since 0.1.0
 */
export function GRIND_FORTIME(settings: any[][], times: any[][], target: any[][], confidence?: any[][]): any[][] {
  return calculate(formula.grindForTime, { settings: list(settings), times: gaps(times), target: each(target, "time"), confidence: optional(confidence) },
    gives.row("setting", "low", "high"));
}

/**
 * Next grind setting of a morning, from today's shots and a log of earlier days: a proposal with the interval for one new shot.
 * @customfunction GRIND.NEXT
 * @param setting Setting of the grinder for each shot of today, in the order pulled. One cell or a range.
 * @param time Shot time of each shot of today, s. Shots without a time yet are left out.
 * @param target Time wanted, s. One cell, or a column for several times.
 * @param settings Settings tried on earlier days, as numbers.
 * @param times Shot times at those settings, s. Settings without a time yet are left out.
 * @param [days] Day of each shot of the log, a date or a name. All of one day if left out.
 * @returns Setting, low and high (95 %), in three cells side by side. Low and high are #N/A where the step was cut or the log cannot judge it.
 * @equation ln time = level of the day + b × setting; b and spread by least squares within the log's days, today's level from today's shots
 * @source Least squares within days (analysis of covariance); interval by inversion as in GRIND.FORTIME, today's part counting 1 ÷ shots of today.
 * @range A step is at most the widest from shot to shot on one day of the log.
 * @caution Give it all of today's shots: one alone has its scatter corrected too. Keep dose, beverage mass and pressure steady.
 * @words grinder, grind finer, grind coarser, morning, daily, adjust, too fast, too slow
 * @example =ESPRESSO.GRIND.NEXT(2.3, 29.5, 27, {2.3;2.1;2.2;2.4;2.3;2.2}, {25;29.5;27.4;27;29.2;31.6}, {1;1;1;2;2;2}) gives 2.4097 | 2.3817 | 2.4397
 * @since 0.2.0
 */
export function GRIND_NEXT(setting: any[][], time: any[][], target: any[][], settings: any[][], times: any[][], days?: any[][]): any[][] {
  return calculate(formula.grindNext, {
    setting: inOrder(setting), time: inOrder(time), target: each(target, "time"), settings: list(settings), times: gaps(times), days: optionalList(days),
  }, gives.row("setting", "low", "high"));
}

/**
 * What to do with the grinder next, in one sentence: leave it, or how far to turn it and how sure that is.
 * @customfunction GRIND.ADVICE
 * @param setting Setting of the grinder for each shot of today, in the order pulled. Blank to start from the log alone.
 * @param time Shot time of each shot of today, s. Shots without a time yet are left out.
 * @param target Time wanted, s.
 * @param tolerance How far a time may be from the one wanted, s.
 * @param settings Settings tried before, as numbers.
 * @param times Shot times at those settings, s. Settings without a time yet are left out.
 * @param [days] Day of each shot of the log, a date or a name. All of one day if left out.
 * @returns Number of the rule, sentence, setting, low and high (95 %), in five cells side by side; the numbers are blank where the sentence names none.
 * @equation The first rule that applies; its number is the branch
 * @source As in GRIND.NEXT and, without a shot of today, GRIND.FORTIME. A direction is named only where the log shows one, one-sided at 5 %.
 * @range As in GRIND.NEXT.
 * @caution Change one thing at a time: the same dose, basket, beverage mass, pressure and coffee.
 * @words grinder, grind finer, grind coarser, dial in, adjust, too fast, too slow, gushing, choking, sour, bitter, what to do
 * @example =ESPRESSO.GRIND.ADVICE(2.3, 27.5, 27, 3, {2.3;2.1}, {25;30}) gives 6 | On target: 27.5 s. Leave 2.3. | 2.3 | blank | blank
 * @since 0.2.0
 */
export function GRIND_ADVICE(
  setting: any[][], time: any[][], target: any[][], tolerance: any[][], settings: any[][], times: any[][], days?: any[][],
): any[][] {
  return calculate(grindAdvice, {
    setting: inOrder(setting), time: inOrder(time), target: optional(target, "time"), tolerance: optional(tolerance), settings: list(settings), times: gaps(times),
    days: optionalList(days),
  }, gives.row("branch", "sentence", "setting", "low", "high"));
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
 * @words grinder, how long, expected time, predict
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
 * @words grinder, grind finer, lower pressure, pressure profile
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
 * @words stopped late, stopped early, overshot, heavier cup, lighter cup
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
 * @words interpolate, between points, graph, line
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
 * @words interpolate, reaches, crosses, graph
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
 * @source Least squares. That flow levels off as pressure packs the elastic bed: Waszkiewicz et al. (2025), arXiv:2512.21528.
 * @range 1 would be Darcy's law for a bed that does not change. One exponent holds over the pressures tried, if at all.
 * @caution Keep grind and dose steady. Change pressure only on a machine made for it, inside the maker's limits.
 * @words pressure and flow, gauge, faster with pressure
 * @example =ESPRESSO.FLOW.EXPONENT({4;9;16}, {2;3;4}) gives 0.5000 | 0.5000 | 0.5000 | 1.0000
 * @since 0.1.0
 */
export function FLOW_EXPONENT(pressures: any[][], flows: any[][]): any[][] {
  return calculate(formula.flowExponent, { pressures: list(pressures), flows: gaps(flows) }, gives.row("exponent", "low", "high", "r2"));
}
