/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { instrumentAdvice } from "../../shared/decisions/instrument-advice";
import { calibrate } from "../../shared/instruments";
import { gaps, list, optional, optionalOwnInOrder, ownInOrder } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * What a reading of an instrument stands for, by what it read of known values.
 * @customfunction CALIBRATE
 * @param readings Readings of known values. Rows without a reading yet are left out.
 * @param references The known values.
 * @param reading Reading whose true value is wanted.
 * @param [confidence] Confidence of the interval, as a fraction. 0.95 if left out.
 * @returns True value, and low and high end of its interval, in three cells side by side; two readings give no interval.
 * @equation reading = a + b × reference by least squares, turned round; the interval holds all values whose prediction interval holds the reading
 * @source Fieller (1954), J. R. Stat. Soc. B 16:175; Draper & Smith, Applied Regression Analysis; Greenwell & Schubert Kabban (2014), R J. 6(1):90.
 * @range True values inside the references; the ends of an interval may pass them.
 * @caution It is as good as the references: weigh them out, or buy them certified. Few points hide a bend: read both ends and the middle, at the temperature of use.
 * @words refractometer, scale, wrong reading, zero, offset, correct
 * @example =ESPRESSO.CALIBRATE({0.02;4.97;5.06;9.91;10.08;14.88}, {0;5;5;10;10;15}, 9.4) gives 9.4295 | 9.1975 | 9.6627
 * @since 0.2.0
 */
export function CALIBRATE(readings: any[][], references: any[][], reading: any[][], confidence?: any[][]): any[][] {
  return calculate(calibrate, {
    readings: gaps(readings, "instrumentReadings"), references: list(references), reading, confidence: optional(confidence),
  }, gives.row("trueValue", "low", "high"));
}

/**
 * Whether a reading of the refractometer can be trusted, and whether half a point of extraction is more than the instruments' own doubt.
 * @customfunction INSTRUMENT.ADVICE
 * @param readings Readings of known solutions, %, a column.
 * @param references The known values, %, a column as long. Rows without one of the two are left out.
 * @param [reading] Reading whose true value is wanted, %. It is asked for if left out.
 * @param [repeats] Readings of one cup, %, a column. They are asked for if left out.
 * @param [operators] Who or what took each reading, a column as long. All one person if left out.
 * @param [dose] Dry coffee, g. It is asked for if left out.
 * @param [beverage] Mass in the cup, g. It is asked for if left out.
 * @param [scaleError] Standard uncertainty of the scale, g. 0.1 g if left out.
 * @returns A table: topic, number of the rule, sentence.
 * @equation As in CALIBRATE; doubt as in EXTRACTION.UNCERTAINTY with the spread of one person's readings, against half a point
 * @source As in CALIBRATE and EXTRACTION.UNCERTAINTY.
 * @range As in CALIBRATE; the doubt is first order, 19 in 20.
 * @caution It is as good as the known solutions. Let samples cool to the temperature that the instrument's maker states.
 * @words refractometer, scale, trust, accurate, precision, wrong reading, zero, half a point
 * @example =ESPRESSO.INSTRUMENT.ADVICE({0.02;4.97;5.06;9.91;10.08;14.88}, {0;5;5;10;10;15}, 9.4, {9.41;9.45;9.38}, {"A";"A";"A"}, 18, 36) gives a table
 * @since 0.2.0
 */
export function INSTRUMENT_ADVICE(
  readings: any[][], references: any[][], reading?: any[][], repeats?: any[][], operators?: any[][], dose?: any[][], beverage?: any[][], scaleError?: any[][],
): any[][] {
  return calculate(instrumentAdvice, {
    readings: ownInOrder(readings, "readPercent"), references: ownInOrder(references, "readPercent"), reading: optional(reading, "readPercent"),
    repeats: optionalOwnInOrder(repeats, "repeatReadings"), operators: optionalOwnInOrder(operators),
    dose: optional(dose), beverage: optional(beverage), scaleError: optional(scaleError),
  }, gives.table("topic", "branch", "sentence"));
}
