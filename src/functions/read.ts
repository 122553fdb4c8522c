/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { readLog } from "../../shared/log";
import * as formula from "../../shared/reading";
import { asTyped, each, given } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";
import { sizeOfUnit } from "../sheet/unit-choice";

/**
 * A shot time as a number, from a cell as it was typed: 0:27, 27,5 s, 1 min 4 s, a clock cell.
 * @customfunction READ.SECONDS
 * @param text Cell as it was typed: a number or a text.
 * @returns Time, s, or in the workbook's unit of shot times.
 * @equation None: it reads, and refuses what can mean two things.
 * @source Common practice of typing; a sheet keeps a clock time as a fraction of a day.
 * @range 1 to 600 s.
 * @caution A sheet takes 0:27 typed into a cell for 27 minutes; such a cell is refused. Type 0:00:27, or '0:27 with an apostrophe.
 * @words text, clock, stopwatch, clean up, import, minutes
 * @example =ESPRESSO.READ.SECONDS("0:27") gives 27
 * @example =ESPRESSO.READ.SECONDS("27,5 s") gives 27.5
 * @example =ESPRESSO.READ.SECONDS(0.0003125) gives 27
 * @example =ESPRESSO.READ.SECONDS(0.01875) gives #VALUE!
 * @since 0.1.0
 */
export function READ_SECONDS(text: any[][]): any[][] {
  return calculate(formula.readSeconds, { text: each(text, "entry"), bareUnit: given(sizeOfUnit("time")) }, gives.value("time"));
}

/**
 * A mass as a number, from a cell as it was typed: 18.2 g, 18,2, 0.64 oz.
 * @customfunction READ.GRAMS
 * @param text Cell as it was typed: a number or a text.
 * @returns Mass, g, or in the workbook's unit of masses.
 * @equation grams = ounces × 28.349523125
 * @source NIST SP 811 (2008), appendix B: 1 lb is 0.45359237 kg exactly, 1 oz a sixteenth of it.
 * @range More than 0, up to 5000 g.
 * @caution 18,250 can be 18.25 or 18250 and is refused; a volume in mL is no mass and is refused.
 * @words text, weight, clean up, import, comma
 * @example =ESPRESSO.READ.GRAMS("18.2 g") gives 18.2
 * @example =ESPRESSO.READ.GRAMS("0,64 oz") gives 18.1437
 * @since 0.1.0
 */
export function READ_GRAMS(text: any[][]): any[][] {
  return calculate(formula.readGrams, { text: each(text, "entry"), bareUnit: given(sizeOfUnit("dose")) }, gives.value("dose"));
}

/**
 * A brew ratio as a number, from a cell as it was typed: 1:2.2, 18:36, 2.2.
 * @customfunction READ.RATIO
 * @param text Cell as it was typed: a number or a text.
 * @returns Ratio, g of beverage for each g of dose: 2.2 stands for 1:2.2.
 * @equation ratio = beverage ÷ dose
 * @source Definition; writing the dose first is common practice of the trade.
 * @range 0.1 to 100 g/g.
 * @caution A sheet takes 1:2 typed into a cell for a clock time; such a cell is refused. Type '1:2 with an apostrophe.
 * @words text, clean up, import, one to two
 * @example =ESPRESSO.READ.RATIO("1:2.2") gives 2.2
 * @example =ESPRESSO.READ.RATIO("18:36") gives 2
 * @since 0.1.0
 */
export function READ_RATIO(text: any[][]): any[][] {
  return calculate(formula.readRatio, { text: each(text, "entry") }, gives.value("ratio"));
}

/**
 * A percentage as a number, from a cell as it was typed: 9,4 %, 9.4, 9.4 %.
 * @customfunction READ.PERCENT
 * @param text Cell as it was typed: a number or a text.
 * @returns Percentage: 9.4 stands for 9.4 %; 0.094 where the workbook's percentages are percent cells.
 * @equation None: it reads, and refuses what can mean two things.
 * @source Common practice of typing.
 * @range 0 to 100 %.
 * @caution 0.094 can be 0.094 % or a percent cell of 9.4 % and is refused, unless the workbook's percentages are percent cells.
 * @words text, clean up, import, comma, tds
 * @example =ESPRESSO.READ.PERCENT("9,4 %") gives 9.4
 * @example =ESPRESSO.READ.PERCENT("9.4") gives 9.4
 * @since 0.1.0
 */
export function READ_PERCENT(text: any[][]): any[][] {
  return calculate(formula.readPercent, { text: each(text, "entry"), bareUnit: given(sizeOfUnit("readPercent")) }, gives.value("readPercent"));
}

/**
 * A shot log as numbers, row by row, without the rows that look wrong: for what is to be summed up of it.
 * @customfunction READ.LOG
 * @param dose Dry coffee in the basket, g. A column with a row for each shot.
 * @param beverage Mass in the cup, g. A column.
 * @param time Shot time, s. A column.
 * @param strength Dissolved solids in the beverage, %. A column; blank where it was not read.
 * @returns For each row dose, beverage, time and strength, in five cells with why the row is left out; the four are blank where it is.
 * @equation None: texts are read as by READ.GRAMS, READ.SECONDS and READ.PERCENT; a row is left out where LOG.FINDINGS says "cannot be" or "doubtful"
 * @source Common practice of typing, and of the trade; no published source.
 * @range As LOG.FINDINGS.
 * @caution Say how many rows were left out, and why: what is left is never the whole log.
 * @words text, clean up, import, client, paste, left out
 * @example =ESPRESSO.READ.LOG({"18.2 g";36}, {36.4;18}, {"0:27";27}, {9.5;9.5}) gives 18.2 | 36.4 | 27 | 9.5 | blank | blank | blank | blank | blank | Dose and beverage look swapped: 18 g and 36 g?
 * @since 0.2.0
 */
export function READ_LOG(dose: any[][], beverage: any[][], time: any[][], strength: any[][]): any[][] {
  return calculate(readLog, {
    dose: asTyped(dose), beverage: asTyped(beverage), time: asTyped(time), strength: asTyped(strength), units: given((choice) => choice),
  }, gives.rowForEach("dose", "beverage", "time", "strength", "leftOut"));
}
