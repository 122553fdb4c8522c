/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import * as formula from "../../shared/log";
import { logCheck } from "../../shared/log-check";
import { logSummary } from "../../shared/log-summary";
import { asTyped, each, gaps, given, inOrder, optional } from "../sheet/arguments";
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
 * @example =ESPRESSO.LOG.CHECK(18, 36, 27, 9.5) gives blank
 * @example =ESPRESSO.LOG.CHECK(36, 18, 27, 9.5) gives Dose and beverage look swapped: 18 g and 36 g?
 * @since 0.1.0
 */
export function LOG_CHECK(dose: any[][], beverage: any[][], time: any[][], strength: any[][]): any[][] {
  return calculate(logCheck, {
    dose: asTyped(dose), beverage: asTyped(beverage), time: asTyped(time), strength: asTyped(strength), units: given((choice) => choice),
  }, gives.valueForEach("words"));
}

/**
 * Control limits of single values, from how they move from one to the next.
 * @customfunction LOG.LIMITS
 * @param values Values in the order of the shots. Blanks are skipped.
 * @returns Centre, low, high and moving-range limit, in four cells side by side.
 * @equation limits = mean ± 3 × mean moving range ÷ 1.128; moving-range limit = 3.267 × mean moving range
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2; its printed constants, d2 = 1.128 (exactly 2/√π = 1.128379) and D4 = 3.267.
 * @caution Limits say what the log does, not what it should do. Make them from shots at one recipe.
 * @example =ESPRESSO.LOG.LIMITS({49.6;47.6;49.9;51.3;47.8;51.2;52.6;52.4;53.6;52.1}) gives 50.81 | 45.8159 | 55.8041 | 6.1347
 * @since 0.1.0
 */
export function LOG_LIMITS(values: any[][]): any[][] {
  return calculate(formula.logLimits, { values: gaps(values, "watched") }, gives.row("centre", "low", "high", "rangeLimit"));
}

/**
 * Where a log drifts or jumps: the numbers of Nelson's rules that each value completes.
 * @customfunction LOG.SIGNALS
 * @param values Values in the order of the shots. Blanks are skipped and keep their rows.
 * @param [rules] Numbers of Nelson's rules, such as "1,2,3". "1,2,3" if left out; all eight raise more false alarms.
 * @returns For each value a text: blank, or the numbers of the rules.
 * @equation 1: beyond 3 SD. 2: nine on one side. 3: six rising or falling. 4: fourteen up and down in turn. 5: two of three beyond 2 SD. 6: four of five
 *   beyond 1 SD. 7: fifteen within 1 SD. 8: eight beyond 1 SD on both sides. SD = mean moving range ÷ 1.128
 * @source Nelson (1984), Journal of Quality Technology 16:237.
 * @caution A signal is a question, not a fault: look for what changed at that shot.
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
 * @equation esd: the furthest from the mean in standard deviations, taken out one by one, against Rosner's critical values, for up to a fifth of the values.
 *   grubbs: one value, on either side. median: 0.6745 × distance from the median ÷ median distance, above 3.5
 * @source Rosner (1983), Technometrics 25:165; Grubbs; Iglewicz & Hoaglin (1993): NIST/SEMATECH e-Handbook 1.3.5.17, 1.3.5.17.1 and 1.3.5.17.3.
 * @range "esd" needs 15 values or more, the others three.
 * @caution Never delete a value because it is odd: look at the entry, and report with it and without it.
 * @example =ESPRESSO.LOG.ODD({199.31;199.53;200.19;200.82;201.92;201.95;202.18;245.57}, "grubbs") gives FALSE | FALSE | FALSE | FALSE | FALSE | FALSE | FALSE | TRUE
 * @since 0.1.0
 */
export function LOG_ODD(values: any[][], method?: any[][], significance?: any[][]): any[][] {
  return calculate(formula.logOdd, {
    values: inOrder(values, "watched"), method: optional(method, "oddMethod"), significance: optional(significance),
  }, gives.valueForEach("entry"));
}

/**
 * How well shots keep within limits that are wanted.
 * @customfunction LOG.CAPABILITY
 * @param values Values of the shots. Blanks are skipped.
 * @param low Least value that is wanted.
 * @param high Greatest value that is wanted.
 * @returns Shots, share inside %, mean, SD, Cp and Cpk, in six cells side by side.
 * @equation Cp = (high − low) ÷ 6 SD; Cpk = distance of the mean from the nearer limit ÷ 3 SD
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 6.1.6.
 * @range Cp and Cpk mean what they say only of values that are steady and nearly normal.
 * @example =ESPRESSO.LOG.CAPABILITY({14;16;18}, 8, 20) gives 3 | 100 | 16 | 2 | 1.0 | 0.6667
 * @since 0.1.0
 */
export function LOG_CAPABILITY(values: any[][], low: any[][], high: any[][]): any[][] {
  return calculate(formula.logCapability, { values: gaps(values, "watched"), low: each(low, "wantedLow"), high: each(high, "wantedHigh") },
    gives.row("shots", "inside", "meanValue", "sdValue", "cp", "cpk"));
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
 * @source Welford (1962), Technometrics 4:419, for sums that keep their digits.
 * @caution Every entry counts, odd ones too: mend what LOG.CHECK finds first.
 * @example =ESPRESSO.LOG.SUMMARY({6;6;9;9}, {18;18;18;18}, {36;37;36;35}, {27;28;25;26}, {9.5;9.4;9.8;10}) gives a table
 * @since 0.1.0
 */
export function LOG_SUMMARY(settings: any[][], dose: any[][], beverage: any[][], time: any[][], strength: any[][]): any[][] {
  return calculate(logSummary, {
    settings: inOrder(settings, "anySetting"), dose: inOrder(dose), beverage: inOrder(beverage), time: inOrder(time), strength: inOrder(strength),
  }, gives.table(
    "anySetting", "shots", "meanRatio", "sdRatio", "meanTime", "sdTime", "meanStrength", "sdStrength", "meanExtraction", "sdExtraction",
  ));
}
