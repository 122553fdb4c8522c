/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { recipeAdvice } from "../../shared/decisions/recipe-advice";
import { shotAdvice } from "../../shared/decisions/shot-advice";
import { shotCheck } from "../../shared/log/targets";
import { shotProfile } from "../../shared/profile";
import * as formula from "../../shared/shot";
import { standard } from "../../shared/standards";
import { asTyped, each, given, inOrder, optional, optionalInOrder, optionalOwnInOrder, ownInOrder } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * Ratio of a shot: beverage mass for each gram of dose.
 * @customfunction RATIO
 * @param dose Dry coffee, g.
 * @param beverage Mass in the cup, g.
 * @returns Ratio, g/g: 2 stands for 1:2.
 * @equation ratio = beverage ÷ dose
 * @source Definition; writing the ratio by mass is common practice of the trade.
 * @range Common practice for espresso: 1.5 to 2.5.
 * @words brew ratio, dose to yield, in and out, ristretto, lungo
 * @example =ESPRESSO.RATIO(18, 36) gives 2
 * @since 0.1.0
 */
export function RATIO(dose: any[][], beverage: any[][]): any[][] {
  return calculate(formula.ratio, { dose, beverage }, gives.value("ratio"));
}

/**
 * Extraction yield: the part of the dose that is dissolved in the cup.
 * @customfunction EXTRACTION
 * @param dose Dry coffee, g.
 * @param beverage Mass in the cup, g.
 * @param strength Dissolved solids in the beverage, %.
 * @param [moisture] Water in the ground coffee, %. 0 if left out.
 * @returns Extraction, % of the dose; % of the dry dose where moisture is given.
 * @equation extraction = beverage × strength ÷ (dose × (1 − moisture))
 * @source Mass balance; Lockhart (1957) as cited in Batali, Ristenpart & Guinard (2020), Sci. Rep. 10:16450.
 * @range 18 to 22 % is the customary window, a convention and no proof of quality. More than about 30 % does not dissolve.
 * @caution Compare only strengths that were read alike: all filtered or none, cooled to the same temperature.
 * @words yield, sour, bitter, under-extracted, over-extracted, underextracted, overextracted, thin, tds
 * @example =ESPRESSO.EXTRACTION(18, 36, 10) gives 20
 * @example =ESPRESSO.EXTRACTION(20, 40, 8.5) gives 17
 * @since 0.1.0
 */
export function EXTRACTION(dose: any[][], beverage: any[][], strength: any[][], moisture?: any[][]): any[][] {
  return calculate(formula.extraction, { dose, beverage, strength, moisture: optional(moisture) }, gives.value("extraction"));
}

/**
 * Strength that a beverage has at a given extraction.
 * @customfunction STRENGTH
 * @param dose Dry coffee, g.
 * @param beverage Mass in the cup, g.
 * @param extraction Part of the dose that is dissolved in the beverage, %.
 * @returns Strength, % of the beverage.
 * @equation strength = dose × extraction ÷ beverage
 * @source Mass balance, as in EXTRACTION.
 * @range Common practice for espresso: 7 to 12 %.
 * @words tds, weak, strong, watery, concentration
 * @example =ESPRESSO.STRENGTH(18, 36, 19) gives 9.5
 * @since 0.1.0
 */
export function STRENGTH(dose: any[][], beverage: any[][], extraction: any[][]): any[][] {
  return calculate(formula.strength, { dose, beverage, extraction }, gives.value("strength"));
}

/**
 * Beverage mass for a dose and a ratio.
 * @customfunction BEVERAGE
 * @param dose Dry coffee, g.
 * @param ratio Beverage for each gram of dose, g/g.
 * @returns Beverage, g.
 * @equation beverage = dose × ratio
 * @source Definition of the ratio.
 * @words how much out, yield, weight in the cup, output
 * @example =ESPRESSO.BEVERAGE(18, 2) gives 36
 * @since 0.1.0
 */
export function BEVERAGE(dose: any[][], ratio: any[][]): any[][] {
  return calculate(formula.beverage, { dose, ratio }, gives.value("beverage"));
}

/**
 * Dose for a beverage mass and a ratio.
 * @customfunction DOSE
 * @param beverage Mass in the cup, g.
 * @param ratio Beverage for each gram of dose, g/g.
 * @returns Dose, g.
 * @equation dose = beverage ÷ ratio
 * @source Definition of the ratio.
 * @caution Stay inside the dose that the basket is made for.
 * @words how much in, coffee to weigh, grams of coffee
 * @example =ESPRESSO.DOSE(36, 2) gives 18
 * @since 0.1.0
 */
export function DOSE(beverage: any[][], ratio: any[][]): any[][] {
  return calculate(formula.dose, { beverage, ratio }, gives.value("dose"));
}

/**
 * Beverage mass that gives a strength at a given extraction: how long to let the shot run.
 * @customfunction BEVERAGE.FORSTRENGTH
 * @param dose Dry coffee, g.
 * @param extraction Part of the dose that is dissolved in the beverage, %.
 * @param strength Dissolved solids in the beverage, %.
 * @returns Beverage, g.
 * @equation beverage = dose × extraction ÷ strength
 * @source Mass balance, as in EXTRACTION.
 * @caution Extraction itself changes with beverage mass, so take the answer as the next shot to try.
 * @words weaker, stronger, longer shot, stop the shot
 * @example =ESPRESSO.BEVERAGE.FORSTRENGTH(18, 19, 9.5) gives 36
 * @since 0.1.0
 */
export function BEVERAGE_FORSTRENGTH(dose: any[][], extraction: any[][], strength: any[][]): any[][] {
  return calculate(formula.beverageForStrength, { dose, extraction, strength }, gives.value("beverage"));
}

/**
 * Dissolved solids in the cup.
 * @customfunction SOLIDS
 * @param beverage Mass in the cup, g.
 * @param strength Dissolved solids in the beverage, %.
 * @returns Solids, g.
 * @equation solids = beverage × strength
 * @source Definition of strength as a share of mass.
 * @words dissolved coffee, what is in the cup
 * @example =ESPRESSO.SOLIDS(36, 10) gives 3.6
 * @since 0.1.0
 */
export function SOLIDS(beverage: any[][], strength: any[][]): any[][] {
  return calculate(formula.solids, { beverage, strength }, gives.value("solids"));
}

/**
 * Mean beverage flow after the first drop.
 * @customfunction FLOW
 * @param beverage Mass in the cup, g.
 * @param time Shot time, s.
 * @param [firstDrip] Time until the first drop, s. 0 if left out.
 * @returns Flow, g/s, whatever units the workbook uses.
 * @equation flow = beverage ÷ (time − first drip)
 * @source Definition.
 * @words fast, slow, drip, gushing, choking, grams a second
 * @example =ESPRESSO.FLOW(36, 25) gives 1.44
 * @example =ESPRESSO.FLOW(36, 25, 7) gives 2
 * @since 0.1.0
 */
export function FLOW(beverage: any[][], time: any[][], firstDrip?: any[][]): any[][] {
  return calculate(formula.flow, { beverage, time, firstDrip: optional(firstDrip) }, gives.value("flow"));
}

/**
 * A whole shot at once: ratio, extraction, solids and flow, one row for each shot.
 * @customfunction SHOT
 * @param dose Dry coffee, g.
 * @param beverage Mass in the cup, g.
 * @param strength Dissolved solids in the beverage, %. May be blank; extraction and solids are then blank too.
 * @param time Shot time, s.
 * @param [firstDrip] Time until the first drop, s. 0 if left out.
 * @returns Ratio, g/g; extraction, %; solids, g; flow, g/s, in four cells side by side.
 * @equation As in RATIO, EXTRACTION, SOLIDS and FLOW.
 * @source Mass balance, as in EXTRACTION.
 * @words log, everything at once, whole row
 * @example =ESPRESSO.SHOT(18, 36, 10, 25) gives 2 | 20 | 3.6 | 1.44
 * @since 0.1.0
 */
export function SHOT(dose: any[][], beverage: any[][], strength: any[][], time: any[][], firstDrip?: any[][]): any[][] {
  return calculate(formula.shot, { dose, beverage, strength: optional(strength), time, firstDrip: optional(firstDrip) },
    gives.row("ratio", "extraction", "solids", "flow"));
}

/**
 * What a pasted log of one shot says: first drop, time at a beverage mass, flows and pressures.
 * @customfunction SHOT.PROFILE
 * @param times Times of the readings, s, at any rate. Rows without a time are left out.
 * @param masses Readings of the scale, g, a range as long. Blanks are left out.
 * @param [pressures] Readings of the pressure, gauge, bar, a range as long. Nothing is said of pressure if left out.
 * @param [beverage] Mass in the cup, g, whose time is wanted. Flow is taken to the last drop if left out.
 * @returns First drip, time at beverage, mean flow, greatest flow, mean pressure, greatest pressure, mean pressure before, in seven cells side by side.
 * @equation Straight lines between readings. First drip: mass last rises past 0.2 g; last: 0.2 g below the most. Greatest flow: over any 1 s. Pressures: means over time
 * @source Definitions. A single reading off the line of its neighbours counts as a knock of the scale.
 * @range Times as the log counts them. Mean flow runs from the first drip to the beverage, mean pressure from the first drip to the last.
 * @caution One shot a log. The scale is tared with the cup on it; taking the cup away at the end does no harm.
 * @words curve, scale log, first drip, preinfusion, pressure profile, connected scale
 * @example =ESPRESSO.SHOT.PROFILE({0;6;7;17;27}, {0;0;1;21;36}, {3;3;9;9;9}, 31) gives 6.2 | 23.6667 | 1.7634 | 2 | 8.9071 | 9 | 3.0194
 * @since 0.2.0
 */
export function SHOT_PROFILE(times: any[][], masses: any[][], pressures?: any[][], beverage?: any[][]): any[][] {
  return calculate(shotProfile, {
    times: inOrder(times, "seconds"), masses: inOrder(masses), pressures: optionalInOrder(pressures, "pressureReadings"), beverage: optional(beverage),
  }, gives.row("firstDrip", "beverageTime", "meanFlow", "greatestFlow", "meanPressure", "greatestPressure", "pressureBefore"));
}

/**
 * Water to add to a beverage to bring it down to a strength.
 * @customfunction DILUTE
 * @param beverage Mass in the cup, g.
 * @param strength Dissolved solids in the beverage, %.
 * @param target Strength wanted, %.
 * @returns Water to add, g.
 * @equation water = beverage × (strength ÷ target − 1)
 * @source Mass balance.
 * @caution Hot water scalds: espresso is near 67 °C in the cup and leaves the machine near 88 °C, and water at 60 °C burns skin within seconds.
 * @words americano, long black, bypass, weaker, add water
 * @example =ESPRESSO.DILUTE(36, 10, 5) gives 36
 * @since 0.1.0
 */
export function DILUTE(beverage: any[][], strength: any[][], target: any[][]): any[][] {
  return calculate(formula.dilute, { beverage, strength, target: each(target, "strength") }, gives.value("water"));
}

/**
 * Density of a beverage without foam, as if water and solids kept their own volumes.
 * @customfunction DENSITY
 * @param strength Dissolved solids in the beverage, %.
 * @param [temperature] Temperature of the beverage, °C. 20 if left out.
 * @returns Density, g/mL.
 * @equation 1 ÷ density = strength ÷ 1.6 + (1 − strength) ÷ water density
 * @source Water: Kell (1975), J. Chem. Eng. Data 20:97. Additive volumes and 1.6 g/mL for the solids are assumptions.
 * @range 0 to 150 °C, the range of the water density. The textbook value of about 1.02 g/mL belongs to 5 to 6 % of solids.
 * @caution Foam makes a volume read off the cup useless; weigh the beverage instead.
 * @words crema, volume, weight, millilitres, heavy
 * @example =ESPRESSO.DENSITY(10) gives 1.03722
 * @since 0.1.0
 */
export function DENSITY(strength: any[][], temperature?: any[][]): any[][] {
  return calculate(formula.density, { strength, temperature: optional(temperature) }, gives.value("density"));
}

/**
 * Mass of a volume of beverage without foam.
 * @customfunction MASS.FROMVOLUME
 * @param volume Volume of the beverage without foam, mL.
 * @param strength Dissolved solids in the beverage, %.
 * @param [temperature] Temperature of the beverage, °C. 20 if left out.
 * @returns Mass, g.
 * @equation mass = volume × density, with the density of DENSITY
 * @source As in DENSITY.
 * @range 0 to 150 °C.
 * @caution Foam makes a volume read off the cup useless; weigh the beverage instead.
 * @words crema, millilitres, ounces, shot glass, volume to weight
 * @example =ESPRESSO.MASS.FROMVOLUME(35, 10) gives 36.3026
 * @since 0.1.0
 */
export function MASS_FROMVOLUME(volume: any[][], strength: any[][], temperature?: any[][]): any[][] {
  return calculate(formula.massFromVolume, { volume, strength, temperature: optional(temperature) }, gives.value("beverage"));
}

/**
 * Strength from the reading of a sugar refractometer.
 * @customfunction STRENGTH.FROMBRIX
 * @param brix Reading of a sugar refractometer, °Bx.
 * @param [slope] Strength for each degree Brix, %/°Bx. 0.85 if left out.
 * @returns Strength, %.
 * @equation strength = slope × Brix
 * @source Slope 0.85: pooled readings of practitioners, seen second-hand. Calibrate your own against an oven where it matters.
 * @range Linear near espresso strength only; between coffees the slope differs by about 10 % of its value.
 * @caution Compare shots of one coffee with it, not two coffees. Zero with water at the temperature of the sample.
 * @words brix, sugar, refractometer, tds
 * @example =ESPRESSO.STRENGTH.FROMBRIX(11) gives 9.35
 * @since 0.1.0
 */
export function STRENGTH_FROMBRIX(brix: any[][], slope?: any[][]): any[][] {
  return calculate(formula.strengthFromBrix, { brix, slope: optional(slope, "brixSlope") }, gives.value("strength"));
}

/**
 * Extraction yield from the spent puck after drying it in an oven.
 * @customfunction EXTRACTION.FROMPUCK
 * @param dose Dry coffee, g.
 * @param puck Spent coffee after drying in an oven, g.
 * @param [moisture] Water in the ground coffee, %. 0 if left out.
 * @returns Extraction, % of the dry dose.
 * @equation extraction = 1 − puck ÷ (dose × (1 − moisture))
 * @source Mass balance. That drying reads low, found on full immersion, not on espresso pucks: Liang, Chan & Ristenpart (2021), Sci. Rep. 11:6904.
 * @caution It reads too low: strong liquid that stays in the puck dries into it. The puck and the oven are hot.
 * @words dry the puck, oven, without refractometer
 * @example =ESPRESSO.EXTRACTION.FROMPUCK(18, 14.2, 2) gives 19.5011
 * @since 0.1.0
 */
export function EXTRACTION_FROMPUCK(dose: any[][], puck: any[][], moisture?: any[][]): any[][] {
  return calculate(formula.extractionFromPuck, { dose, puck, moisture: optional(moisture) }, gives.value("extraction"));
}

/**
 * Extraction yield of an immersion brew, where the liquid in the grounds is as strong as the liquid in the cup.
 * @customfunction EXTRACTION.IMMERSION
 * @param dose Dry coffee, g.
 * @param water Water poured on the coffee, g.
 * @param strength Dissolved solids in the beverage, %.
 * @returns Extraction, % of the dose.
 * @equation extraction = strength × water ÷ (dose × (1 − strength))
 * @source Mass balance with all dissolved solids in all the liquid; Liang, Chan & Ristenpart (2021), Sci. Rep. 11:6904.
 * @caution For cupping bowls and other immersion only. Espresso is EXTRACTION.
 * @words french press, cupping, steep
 * @example =ESPRESSO.EXTRACTION.IMMERSION(12, 200, 1.35) gives 22.8079
 * @since 0.1.0
 */
export function EXTRACTION_IMMERSION(dose: any[][], water: any[][], strength: any[][]): any[][] {
  return calculate(formula.extractionImmersion, { dose, water: each(water, "brewWater"), strength }, gives.value("extraction"));
}

/**
 * Beverage mass that leaves drained grounds, from the water poured: for drained filter coffee.
 * @customfunction BEVERAGE.FROMWATER
 * @param dose Dry coffee, g.
 * @param water Water poured on the coffee, g.
 * @param [retained] Liquid kept by each gram of coffee, g/g. 2 if left out, as for drained filter coffee.
 * @param [extraction] Part of the dose that is dissolved in the beverage, %, or in the liquid kept. 20 if left out.
 * @returns Beverage, g.
 * @equation beverage = water + dose × extraction − retained × dose
 * @source Mass balance with the dissolved solids; about 2 g/g kept by drained filter grounds is common practice.
 * @range Drained filter coffee keeps 1.8 to 2.3 g/g by common practice. A puck pressed by a pump keeps less: weigh one before and after.
 * @words filter, pour over, drip, absorbed water
 * @example =ESPRESSO.BEVERAGE.FROMWATER(60, 1000) gives 892
 * @since 0.1.0
 */
export function BEVERAGE_FROMWATER(dose: any[][], water: any[][], retained?: any[][], extraction?: any[][]): any[][] {
  return calculate(formula.beverageFromWater, { dose, water: each(water, "brewWater"), retained: optional(retained), extraction: optional(extraction) },
    gives.value("beverage"));
}

/**
 * Published definitions of espresso, filter coffee and brewing water, all of them or those that match some words.
 * @customfunction STANDARD
 * @param [name] Words to look for in the names of the standards. All if left out.
 * @returns A table: item, low, high, unit, source. The units are those printed, whatever units the workbook uses.
 * @equation None.
 * @source Each line names its own.
 * @caution These are conventions of their day. A shot outside them can be better than one inside.
 * @words recommended, ideal, normal, guideline, definition
 * @example =ESPRESSO.STANDARD("italian") gives a table
 * @since 0.1.0
 */
export function STANDARD(name?: any[][]): any[][] {
  return calculate(standard, { name: optional(name, "standardName") }, gives.table("item", "low", "high", "unit", "source"));
}

/**
 * Whether to touch the grinder now, by the last shot of a log: what to mend first, or the next setting and how sure it is.
 * @customfunction SHOT.ADVICE
 * @param days Day of each shot, a date or a name; a blank takes the day above.
 * @param coffees Coffee of each shot; a blank takes the coffee above.
 * @param settings Setting of each shot, a number or a name; the next one is told from numbers.
 * @param dose Dry coffee, g. A column.
 * @param beverage Mass in the cup, g. A column.
 * @param time Shot time, s. A column.
 * @param strength Dissolved solids in the beverage, %. A column; blank where it was not read.
 * @param targetCoffees Coffees that have a target, a column; blank where the bar has only one.
 * @param doseTargets Dose wanted of each coffee, g. A column.
 * @param beverageTargets Beverage mass wanted of each coffee, g. A column.
 * @param timeTargets Time wanted of each coffee, s. A column.
 * @param [doseTolerance] How far a dose may be from the one wanted, g. Doses are not judged if left out.
 * @param [beverageTolerance] How far a beverage mass may be from the one wanted, g. Not judged if left out.
 * @param [tolerance] How far a time may be from the one wanted, s. It is asked for if left out.
 * @returns Number of the rule, sentence, setting, low and high (95 %), in five cells side by side; the numbers are blank where the sentence names none.
 * @equation The first rule that applies: an entry that looks wrong, then a wrong dose, then a wrong beverage mass, then the grind as in GRIND.ADVICE
 * @source As in LOG.CHECK and GRIND.ADVICE; that weights come before the grind is common practice of the trade.
 * @range As in GRIND.ADVICE, by the shots of the last one's coffee: those of its day that were weighed right, and those of earlier days.
 * @caution Change one thing at a time: the same dose, basket, beverage mass, pressure and coffee.
 * @words grinder, what now, dial in, log, target, too fast, too slow, gushing, choking, heavy, light, grind finer, grind coarser
 * @example =ESPRESSO.SHOT.ADVICE({1;1}, {"House";""}, {2.3;2.3}, {18;18}, {36;36}, {27;28}, {9.5;9.4}, "House", 18, 36, 27, 0.3, 2, 3) gives 6 | On target: 28 s. Leave 2.3. | 2.3 | blank | blank
 * @since 0.2.0
 */
export function SHOT_ADVICE(
  days: any[][], coffees: any[][], settings: any[][], dose: any[][], beverage: any[][], time: any[][], strength: any[][],
  targetCoffees: any[][], doseTargets: any[][], beverageTargets: any[][], timeTargets: any[][],
  doseTolerance?: any[][], beverageTolerance?: any[][], tolerance?: any[][],
): any[][] {
  return calculate(shotAdvice, {
    days: inOrder(days), coffees: inOrder(coffees), settings: inOrder(settings, "anySetting"),
    dose: asTyped(dose), beverage: asTyped(beverage), time: asTyped(time), strength: asTyped(strength),
    targetCoffees: ownInOrder(targetCoffees), doseTargets: ownInOrder(doseTargets),
    beverageTargets: ownInOrder(beverageTargets), timeTargets: ownInOrder(timeTargets),
    doseTolerance: optional(doseTolerance), beverageTolerance: optional(beverageTolerance), tolerance: optional(tolerance), units: given((choice) => choice),
  }, gives.row("branch", "sentence", "setting", "low", "high"));
}

/**
 * What looks wrong in each shot of a log, else what of it is off the target of its coffee.
 * @customfunction SHOT.CHECK
 * @param dose Dry coffee, g. A column.
 * @param beverage Mass in the cup, g. A column.
 * @param time Shot time, s. A column.
 * @param strength Dissolved solids in the beverage, %. A column; blank where it was not read.
 * @param coffees Coffee of each shot; a blank takes the coffee above.
 * @param targetCoffees Coffees that have a target, a column; blank where the bar has only one.
 * @param doseTargets Dose wanted of each coffee, g. A column.
 * @param beverageTargets Beverage mass wanted of each coffee, g. A column.
 * @param timeTargets Time wanted of each coffee, s. A column.
 * @param [doseTolerance] How far a dose may be from the one wanted, g. Doses are not judged if left out.
 * @param [beverageTolerance] How far a beverage mass may be from the one wanted, g. Not judged if left out.
 * @param [tolerance] How far a time may be from the one wanted, s. Not judged if left out.
 * @returns For each shot the time wanted and, in words, what looks wrong in it, else what is off the target; blank for a shot on target and for a blank row.
 * @equation None: as LOG.CHECK; off where the difference from the target is more than it may be
 * @source As in LOG.CHECK; targets are one's own.
 * @caution It asks, it does not know. Look before you change an entry, and never delete one because it is odd.
 * @words target, off, heavy, light, long, short, mistakes, log
 * @example =ESPRESSO.SHOT.CHECK({18;18.6;36}, {36;36;18}, {27;31.5;27}, {9.5;9.4;9.5}, {"House";"";""}, "House", 18, 36, 27, 0.3, 2, 3) gives 27 | blank | 27 | Dose 0.6 g heavy · Time 4.5 s long | 27 | Dose and beverage look swapped: 18 g and 36 g?
 * @since 0.2.0
 */
export function SHOT_CHECK(
  dose: any[][], beverage: any[][], time: any[][], strength: any[][], coffees: any[][],
  targetCoffees: any[][], doseTargets: any[][], beverageTargets: any[][], timeTargets: any[][],
  doseTolerance?: any[][], beverageTolerance?: any[][], tolerance?: any[][],
): any[][] {
  return calculate(shotCheck, {
    dose: asTyped(dose), beverage: asTyped(beverage), time: asTyped(time), strength: asTyped(strength), coffees: inOrder(coffees),
    targetCoffees: ownInOrder(targetCoffees), doseTargets: ownInOrder(doseTargets),
    beverageTargets: ownInOrder(beverageTargets), timeTargets: ownInOrder(timeTargets),
    doseTolerance: optional(doseTolerance), beverageTolerance: optional(beverageTolerance), tolerance: optional(tolerance), units: given((choice) => choice),
  }, gives.rowForEach("wantedTime", "words"));
}

/**
 * A recipe in sentences: what to weigh and how long it takes, the same in another basket, and what a cup of it costs.
 * @customfunction RECIPE.ADVICE
 * @param dose Dry coffee, g.
 * @param beverage Mass in the cup, g.
 * @param [time] Shot time, s. The recipe names none if left out.
 * @param [tolerance] How far a time may be from the one wanted, s. One time rather than a range if left out.
 * @param [otherDose] Dose of another basket, g. No other basket is told of if left out.
 * @param [diameter] Inner diameter of the basket, mm. No direction of the grind is told if left out.
 * @param [otherDiameter] Inner diameter of the other basket, mm. No direction of the grind is told if left out.
 * @param [settings] Settings tried in the other basket, a column. No grind is told if left out.
 * @param [times] Shot times at those settings, s, a column as long. No grind is told if left out; rows without one of the two do not count.
 * @param [bag] Coffee in a bag, g. No cost is told if left out.
 * @param [price] Price of the bag. Only cups are counted if left out.
 * @param [currency] Name of the currency. Not named if left out.
 * @param [wasted] Part of the coffee that is lost to dialling in and spills, %. 0 if left out.
 * @returns A table: topic, number of the rule, sentence; blank where nothing is asked.
 * @equation The ratio is kept; grind as in GRIND.ADVICE from shots of that basket; cups = bag × (1 − lost) ÷ dose
 * @source Definitions; which way a deeper puck goes: Darcy's law; the grind as in GRIND.ADVICE.
 * @range Without shots of the other basket only a direction: a puck deeper by over 2 % begins coarser.
 * @caution Hot water and steam under pressure: keep to the limits of the machine's and the basket's maker.
 * @words recipe, other basket, bigger basket, scale up, cost, price of a cup, cups in a bag
 * @example =ESPRESSO.RECIPE.ADVICE(18, 36, 27, 2) gives a table
 * @since 0.2.0
 */
export function RECIPE_ADVICE(
  dose: any[][], beverage: any[][], time?: any[][], tolerance?: any[][], otherDose?: any[][], diameter?: any[][], otherDiameter?: any[][],
  settings?: any[][], times?: any[][], bag?: any[][], price?: any[][], currency?: any[][], wasted?: any[][],
): any[][] {
  return calculate(recipeAdvice, {
    dose: optional(dose), beverage: optional(beverage), time: optional(time), tolerance: optional(tolerance),
    otherDose: optional(otherDose, "dose"), diameter: optional(diameter), otherDiameter: optional(otherDiameter, "diameter"),
    settings: optionalOwnInOrder(settings), times: optionalOwnInOrder(times),
    bag: optional(bag), price: optional(price), currency: optional(currency), wasted: optional(wasted),
  }, gives.table("topic", "branch", "sentence"));
}
