/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { logVerdict } from "../../shared/decisions/log-verdict";
import * as formula from "../../shared/log";
import { asTyped, each, gaps, given, inOrder, optional, optionalInOrder } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * What looks wrong in each row of a shot log, in words, the likeliest cause first; nothing for a good row.
 * @customfunction LOG.CHECK
 * @param dose Dry coffee in the basket, g. A column with a row for each shot.
 * @param beverage Mass in the cup, g. A column.
 * @param time Shot time, s. A column.
 * @param strength Dissolved solids in the beverage, %. A column; blank where it was not read.
 * @returns For each row a text: blank, or what looks wrong.
 * @equation None: a row is odd outside the ranges below; a slip is named when the row is plausible without it
 * @source Common practice of the trade; no published source.
 * @range Dose 6 to 30 g, beverage 5 to 150 g, time 5 to 120 s, strength 2.5 to 20 %, ratio 1 to 6, extraction 10 to 30 %, flow 0.2 to 8 g/s.
 * @caution It asks, it does not know. Look before you change an entry, and never delete one because it is odd.
 * @words mistakes, typos, typing errors, wrong entries, clean up, odd, audit
 * @example =ESPRESSO.LOG.CHECK(18, 36, 27, 9.5) gives blank
 * @example =ESPRESSO.LOG.CHECK(36, 18, 27, 9.5) gives Dose and beverage look swapped: 18 g and 36 g?
 * @since 0.1.0
 */
export function LOG_CHECK(dose: any[][], beverage: any[][], time: any[][], strength: any[][]): any[][] {
  return calculate(formula.logCheck, {
    dose: asTyped(dose), beverage: asTyped(beverage), time: asTyped(time), strength: asTyped(strength), units: given((choice) => choice),
  }, gives.valueForEach("words"));
}

/**
 * What looks wrong in a shot log, the worst first: a list to go through.
 * @customfunction LOG.FINDINGS
 * @param dose Dry coffee in the basket, g. A column with a row for each shot.
 * @param beverage Mass in the cup, g. A column.
 * @param time Shot time, s. A column.
 * @param strength Dissolved solids in the beverage, %. A column; blank where it was not read.
 * @param [first] How many findings at most. 15 if left out.
 * @returns A table: row of the log, counted from 1; grade: "cannot be", "doubtful", or "only text" for texts that the READ functions understand; in words, as in LOG.CHECK.
 * @equation None: as LOG.CHECK; a row cannot be right outside the ranges below, or where a cell is no number
 * @source Common practice of the trade; no published source.
 * @range Cannot be: dose outside 3 to 60 g, beverage 2 to 500 g, time 2 to 180 s, strength 0.5 to 30 %, ratio 0.7 to 20, extraction 5 to 32 %, flow 0.05 to 20 g/s.
 * @caution It asks, it does not know. Look before you change an entry, and never delete one because it is odd.
 * @words mistakes, typos, wrong entries, clean up, client, audit
 * @example =ESPRESSO.LOG.FINDINGS({18;36;18}, {36;18;36}, {27;27;27}, {9.5;9.5;9.4}) gives Row | Grade | In words | 2 | cannot be | Dose and beverage look swapped: 18 g and 36 g?
 * @since 0.2.0
 */
export function LOG_FINDINGS(dose: any[][], beverage: any[][], time: any[][], strength: any[][], first?: any[][]): any[][] {
  return calculate(formula.logFindings, {
    dose: asTyped(dose), beverage: asTyped(beverage), time: asTyped(time), strength: asTyped(strength), first: optional(first, "mostFindings"),
    units: given((choice) => choice),
  }, gives.table("logRow", "grade", "words"));
}

/**
 * Control limits of single values, from how they move from one to the next.
 * @customfunction LOG.LIMITS
 * @param values Values in the order of the shots. Blanks are skipped.
 * @param [baseline] How many first values the limits come from, blanks not counted. All if left out.
 * @returns Centre, low, high and moving-range limit, in four cells side by side.
 * @equation limits = mean ± 3 × mean moving range ÷ 1.128; moving-range limit = 3.267 × mean moving range
 * @source NIST/SEMATECH e-Handbook, 6.3.2.2; its printed constants, d2 = 1.128 (exactly 2/√π = 1.128379) and D4 = 3.267.
 * @caution Limits say what the log does, not what it should do. Make them from one recipe. Where neighbouring shots are alike they are too narrow: LOG.VERDICT tells.
 * @words control chart, steady, normal range, limits
 * @example =ESPRESSO.LOG.LIMITS({49.6;47.6;49.9;51.3;47.8;51.2;52.6;52.4;53.6;52.1}) gives 50.81 | 45.8159 | 55.8041 | 6.1347
 * @since 0.1.0
 */
export function LOG_LIMITS(values: any[][], baseline?: any[][]): any[][] {
  return calculate(formula.logLimits, { values: gaps(values, "watched"), baseline: optional(baseline) }, gives.row("centre", "low", "high", "rangeLimit"));
}

/**
 * Weighted average of the values so far, with its limits: it finds a small lasting shift sooner than single values do.
 * @customfunction LOG.EWMA
 * @param values Values in the order of the shots. A column; blanks are skipped and keep their rows.
 * @param [target] Value that is aimed at. The mean of the values if left out.
 * @param [spread] Standard deviation from shot to shot. From the moving range of the values if left out.
 * @param [weight] Weight of the newest value, 0 to 1. 0.2 if left out.
 * @param [width] Distance of the limits from the target in standard deviations of the average. 3 if left out.
 * @returns A row for each value: average, low, high, and TRUE where the average is outside.
 * @equation average = weight × value + (1 − weight) × average before, from the target on; limits = target ± width × spread × √(weight ÷ (2 − weight) × (1 − (1 − weight)^2i))
 * @source Roberts (1959), Technometrics 1:239; NIST/SEMATECH e-Handbook, 6.3.2.4.
 * @caution Target and spread from the values themselves have the shift in them: give those of a good week. Where neighbouring shots are alike they are too narrow: LOG.VERDICT tells.
 * @words control chart, slow change, drift, moving average
 * @example =ESPRESSO.LOG.EWMA({52;47;53}, 50, 2.0539, 0.3) gives 50.6 | 48.1515 | 51.8485 | FALSE | 49.52 | 47.7436 | 52.2564 | FALSE | 50.564 | 47.5686 | 52.4314 | FALSE
 * @since 0.2.0
 */
export function LOG_EWMA(values: any[][], target?: any[][], spread?: any[][], weight?: any[][], width?: any[][]): any[][] {
  return calculate(formula.logEwma, {
    values: inOrder(values, "watched"), target: optional(target, "aim"), spread: optional(spread), weight: optional(weight), width: optional(width, "limitWidth"),
  }, gives.rowForEach("average", "low", "high", "outside"));
}

/**
 * Cumulative sums of what the values are above and below a target: beyond their limit the mean has moved.
 * @customfunction LOG.CUSUM
 * @param values Values in the order of the shots. A column; blanks are skipped and keep their rows.
 * @param target Value that is aimed at.
 * @param [spread] Standard deviation from shot to shot. From the moving range of the values if left out.
 * @param [allowance] What is left out of each sum, in spreads: half the shift to be found. 0.5 if left out.
 * @param [limit] Limit of the sums, in spreads. 5 if left out.
 * @returns A row for each value: sum above, sum below, both counted upwards from 0 in the unit of the values, and TRUE where one is beyond the limit.
 * @equation above = max(0, above before + value − target − allowance × spread); below = max(0, below before + target − value − allowance × spread)
 * @source Page (1954), Biometrika 41:100; NIST/SEMATECH e-Handbook, 6.3.2.3.
 * @caution Look for what changed at the last value where the sum was 0, and begin anew once it is mended.
 * @words control chart, slow change, drift, shift
 * @example =ESPRESSO.LOG.CUSUM({325.2;328.3;327.3}, 325, 0.635, 0.5, 6.6077) gives 0 | 0 | FALSE | 2.9825 | 0 | FALSE | 4.965 | 0 | TRUE
 * @since 0.2.0
 */
export function LOG_CUSUM(values: any[][], target: any[][], spread?: any[][], allowance?: any[][], limit?: any[][]): any[][] {
  return calculate(formula.logCusum, {
    values: inOrder(values, "watched"), target: each(target, "aim"), spread: optional(spread), allowance: optional(allowance), limit: optional(limit, "sumLimit"),
  }, gives.rowForEach("above", "below", "beyond"));
}

/**
 * Where a log drifts or jumps: the numbers of Nelson's rules that each value completes.
 * @customfunction LOG.SIGNALS
 * @param values Values in the order of the shots. Blanks are skipped and keep their rows.
 * @param [rules] Numbers of Nelson's rules, such as "1,2,3". "1,2,3" if left out; all eight raise more false alarms.
 * @returns For each value a text: blank, or the numbers of the rules.
 * @equation 1: beyond 3 SD. 2: nine on one side. 3: six rising or falling. 4: fourteen up and down in turn. 5: two of three beyond 2 SD. 6: four of five
 *   beyond 1 SD. 7: fifteen within 1 SD. 8: eight beyond 1 SD on both sides. SD = mean moving range ÷ 1.128
 * @source Nelson (1984), J. Qual. Technol. 16:237.
 * @caution A signal is a question, not a fault: look for what changed at that shot.
 * @words control chart, alarm, drift, jump, unusual
 * @example =ESPRESSO.LOG.SIGNALS({5;1;2;3;4;5;6}) gives blank | blank | blank | blank | blank | blank | 3
 * @since 0.1.0
 */
export function LOG_SIGNALS(values: any[][], rules?: any[][]): any[][] {
  return calculate(formula.logSignals, { values: inOrder(values, "watched"), rules: optional(rules) }, gives.valueForEach("entry"));
}

/**
 * Whether each value stands out from the others more than chance allows.
 * @customfunction LOG.ODD
 * @param values Values in any order. Blanks are skipped and keep their rows.
 * @param [method] Test of odd values: "esd", "grubbs" or "median". "esd" if left out.
 * @param [significance] Chance of an alarm where there is no difference, as a fraction. 0.05 if left out; "median" does not use it.
 * @returns For each value TRUE or FALSE; blank for a blank.
 * @equation esd: furthest from the mean in SD, one by one, against Rosner's critical values, up to a fifth of the values.
 *   grubbs: one value, on either side. median: 0.6745 × distance from the median ÷ median distance, above 3.5
 * @source Rosner (1983), Technometrics 25:165; Grubbs; Iglewicz & Hoaglin (1993): NIST/SEMATECH e-Handbook 1.3.5.17, 1.3.5.17.1 and 1.3.5.17.3.
 * @range "esd" needs 15 values or more, the others three.
 * @caution Never delete a value because it is odd: look at the entry, and report with it and without it.
 * @words outlier, odd one out, strange shot, unusual
 * @example =ESPRESSO.LOG.ODD({199.31;199.53;200.19;200.82;201.92;201.95;202.18;245.57}, "grubbs") gives FALSE | FALSE | FALSE | FALSE | FALSE | FALSE | FALSE | TRUE
 * @since 0.1.0
 */
export function LOG_ODD(values: any[][], method?: any[][], significance?: any[][]): any[][] {
  return calculate(formula.logOdd, {
    values: inOrder(values, "watched"), method: optional(method, "oddMethod"), significance: optional(significance),
  }, gives.valueForEach("entry"));
}

/**
 * How well shots keep within limits that are wanted, by the spread from shot to shot and by that of all shots.
 * @customfunction LOG.CAPABILITY
 * @param values Values in the order of the shots. Blanks are skipped.
 * @param low Least value that is wanted.
 * @param high Greatest value that is wanted.
 * @returns Shots, share inside %, mean, SD within, SD overall, Cp, Cpk, Pp, Ppk, and low and high end of the 95 % interval of Ppk, in eleven cells side by side.
 * @equation Cp, Pp = (high − low) ÷ 6 SD; Cpk, Ppk = distance of the mean from the nearer limit ÷ 3 SD; interval = Ppk ± 1.96 √(1 ÷ 9n + Ppk² ÷ 2(n − 1)); SD within = mean moving range ÷ 1.128
 * @source NIST/SEMATECH e-Handbook, 6.1.6; interval: Bissell (1990), Appl. Stat. 39:331.
 * @range Only for values that are steady and nearly normal; the interval from about 30 values on.
 * @caution SD within leaves out what moves slowly: where SD overall is much larger, only Pp and Ppk say what the guest got.
 * @words consistent, consistency, within limits, on target, window
 * @example =ESPRESSO.LOG.CAPABILITY({14;16;18}, 8, 20) gives 3 | 100 | 16 | 1.773 | 2 | 1.128 | 0.752 | 1.0 | 0.6667 | -0.0877 | 1.4211
 * @since 0.1.0
 */
export function LOG_CAPABILITY(values: any[][], low: any[][], high: any[][]): any[][] {
  return calculate(formula.logCapability, { values: gaps(values, "watched"), low: each(low, "wantedLow"), high: each(high, "wantedHigh") },
    gives.row("shots", "inside", "meanValue", "sdWithin", "sdOverall", "cp", "cpk", "pp", "ppk", "low", "high"));
}

/**
 * What a log tells, in four short sentences: is it steady, does it lie in the middle, is it tight enough, what next.
 * @customfunction LOG.VERDICT
 * @param values Values in the order of the shots. Blanks are skipped and keep their places.
 * @param low Least value that is wanted.
 * @param high Greatest value that is wanted.
 * @param [unit] Unit of the values, as it stands beside them: "s", "%", … With "s" a high mean is called slow. None if left out.
 * @param [settings] Setting of each shot, a number or a name: a move that came with a change of it is said to. Not looked at if left out.
 * @param [rows] Row of each value in the log, to be said in the texts. Counted from 1 if left out.
 * @param [excluded] How many rows of the log are not among the values because they look wrong: above a fifth, the log is to be mended first. 0 if left out.
 * @returns Four texts side by side: steady, centred, tight, next.
 * @equation steady: von Neumann's ratio, one-sided p below 0.03, or LOG.ODD at 0.02; then the stretch, or the line, that leaves least spread.
 *   centred: 95 % interval of the mean against the middle ± ⅛ of the width. tight: 95 % interval of Pp, by chi-square, against 1
 * @source von Neumann (1941), Ann. Math. Stat. 12:367; Rosner (1983), Technometrics 25:165; NIST/SEMATECH e-Handbook, 6.1.6.
 * @range 10 values or more. Of steady logs 5 in 100 are said to have moved or to hold an odd shot; of logs with Pp 1, 2 to 4 in 100 are said to fit, as many not to.
 * @caution No movement shown is not none: ten shots show only large ones. Mend what LOG.CHECK finds first.
 * @words consistent, consistency, steady, audit, verdict, report, what to tell the client
 * @example =ESPRESSO.LOG.VERDICT({31.2;30.8;31.1;30.9;31.3;30.7;31;31.2;30.9;31}, 24, 30, "s") gives No movement shown. | 4.0 s slow on average. | Spread fits. | Move the grind once, coarser, for 4.0 s less.
 * @since 0.2.0
 */
export function LOG_VERDICT(
  values: any[][], low: any[][], high: any[][], unit?: any[][], settings?: any[][], rows?: any[][], excluded?: any[][],
): any[][] {
  return calculate(logVerdict, {
    values: inOrder(values, "watched"), low: each(low, "wantedLow"), high: each(high, "wantedHigh"), unit: optional(unit, "valueUnit"),
    settings: optionalInOrder(settings, "anySetting"), rows: optionalInOrder(rows), excluded: optional(excluded), units: given((choice) => choice),
  }, gives.row("steady", "centred", "tight", "next"));
}

/**
 * Shots, and mean and standard deviation of ratio, time, strength and extraction, of each setting in a log.
 * @customfunction LOG.SUMMARY
 * @param settings Setting of each shot, a number or a name. A column.
 * @param dose Dry coffee in the basket, g. A column.
 * @param beverage Mass in the cup, g. A column.
 * @param time Shot time, s. A column.
 * @param strength Dissolved solids in the beverage, %. A column.
 * @returns A table: setting, shots, mean and SD of ratio, time, strength and extraction; settings in order.
 * @equation mean and sample standard deviation of the shots that have what it takes
 * @source Sums by Welford (1962), Technometrics 4:419.
 * @caution Every entry counts, odd ones too: mend what LOG.CHECK finds first.
 * @words average, averages, mean, overview, totals
 * @example =ESPRESSO.LOG.SUMMARY({6;6;9;9}, {18;18;18;18}, {36;37;36;35}, {27;28;25;26}, {9.5;9.4;9.8;10}) gives a table
 * @since 0.1.0
 */
export function LOG_SUMMARY(settings: any[][], dose: any[][], beverage: any[][], time: any[][], strength: any[][]): any[][] {
  return calculate(formula.logSummary, {
    settings: inOrder(settings, "anySetting"), dose: inOrder(dose), beverage: inOrder(beverage), time: inOrder(time), strength: inOrder(strength),
  }, gives.table(
    "anySetting", "shots", "meanRatio", "sdRatio", "meanTime", "sdTime", "meanStrength", "sdStrength", "meanExtraction", "sdExtraction",
  ));
}
