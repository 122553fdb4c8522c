/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { alkalinityIn, hardnessFromIons, hardnessIn } from "../../shared/conversion";
import { waterAdvice } from "../../shared/decisions/water-advice";
import * as formula from "../../shared/water";
import { each, gaps, list, optional, records } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * Hardness converted from one unit to another, whatever units the workbook uses.
 * @customfunction WATER.HARDNESS
 * @param value Number to convert.
 * @param from Unit of the number: "ppm" (mg/L CaCO3), "dH", "fH", "e", "gpg", "mmol/L" or "meq/L".
 * @param to Unit wanted, one of the same.
 * @returns The value in the unit wanted.
 * @equation value × size of the first unit ÷ size of the second
 * @source Definitions: 1 °dH = 10 mg/L CaO; 1 °fH = 10 mg/L CaCO3; 1 °e = 1 grain CaCO3 in an imperial gallon; 1 gpg = 1 grain in a US gallon; 1 mmol/L = 2 meq/L.
 * @words convert, german degrees, grains, limescale, soft, hard
 * @example =ESPRESSO.WATER.HARDNESS(10, "dH", "ppm") gives 178.48
 * @since 0.1.0
 */
export function WATER_HARDNESS(value: any[][], from: any[][], to: any[][]): any[][] {
  return calculate(hardnessIn, { value, from: each(from, "hardnessUnit"), to: each(to, "hardnessUnit") }, gives.value("converted"));
}

/**
 * Alkalinity converted from one unit to another, whatever units the workbook uses.
 * @customfunction WATER.ALKALINITY
 * @param value Number to convert.
 * @param from Unit of the number: "ppm" (mg/L CaCO3), "dH", "fH", "e", "gpg", "mmol/L" (of acid), "meq/L" or "HCO3" (mg/L).
 * @param to Unit wanted, one of the same.
 * @returns The value in the unit wanted.
 * @equation value × size of the first unit ÷ size of the second
 * @source Definitions as in WATER.HARDNESS; acid capacity as reports state it, ISO 9963-1: 1 mmol/L of acid = 1 meq/L = 50.04 mg/L CaCO3 = 61.02 mg/L HCO3.
 * @caution In mmol/L alkalinity counts acid, but hardness counts CaCO3: 1 mmol/L of hardness is twice as much.
 * @words convert, kh, buffer, bicarbonate, acid
 * @example =ESPRESSO.WATER.ALKALINITY(61.016, "HCO3", "meq/L") gives 1
 * @example =ESPRESSO.WATER.ALKALINITY(3, "mmol/L", "ppm") gives 150.129
 * @since 0.1.0
 */
export function WATER_ALKALINITY(value: any[][], from: any[][], to: any[][]): any[][] {
  return calculate(alkalinityIn, { value, from: each(from, "alkalinityUnit"), to: each(to, "alkalinityUnit") }, gives.value("converted"));
}

/**
 * Total hardness from the calcium and magnesium of a water report.
 * @customfunction WATER.HARDNESSFROMIONS
 * @param calcium Calcium in the water, mg/L.
 * @param magnesium Magnesium in the water, mg/L.
 * @returns Hardness, mg/L CaCO3, or the workbook's unit of hardness.
 * @equation hardness = 2.497 × calcium + 4.118 × magnesium
 * @source Definition; the factors follow from the CIAAW atomic weights of 2021.
 * @words water report, lab, calcium, gh
 * @example =ESPRESSO.WATER.HARDNESSFROMIONS(40, 10) gives 141.07
 * @since 0.1.0
 */
export function WATER_HARDNESSFROMIONS(calcium: any[][], magnesium: any[][]): any[][] {
  return calculate(hardnessFromIons, { calcium, magnesium }, gives.value("hardness"));
}

/**
 * Carbonate and non-carbonate hardness: the part that alkalinity covers, which heating can turn to scale, and the rest.
 * @customfunction WATER.CARBONATE
 * @param hardness Total hardness, mg/L CaCO3.
 * @param alkalinity Total alkalinity, mg/L CaCO3.
 * @returns Carbonate and non-carbonate hardness, mg/L CaCO3 or the workbook's unit of hardness, in two cells side by side.
 * @equation carbonate = the smaller of hardness and alkalinity; non-carbonate = hardness − carbonate
 * @source Definition.
 * @caution A test kit for carbonate hardness (KH) reads alkalinity, which exceeds the hardness in softened water.
 * @words limescale, temporary hardness, kh
 * @example =ESPRESSO.WATER.CARBONATE(150, 100) gives 100 | 50
 * @since 0.1.0
 */
export function WATER_CARBONATE(hardness: any[][], alkalinity: any[][]): any[][] {
  return calculate(formula.waterCarbonate, { hardness, alkalinity }, gives.row("carbonate", "nonCarbonate"));
}

/**
 * Langelier saturation index: above 0 the water can lay down calcium carbonate, below 0 it can dissolve it.
 * @customfunction WATER.LANGELIER
 * @param ph pH of the water.
 * @param temperature Temperature of the water, °C.
 * @param calciumHardness Calcium hardness, mg/L CaCO3.
 * @param alkalinity Total alkalinity, mg/L CaCO3.
 * @param tds Dissolved solids of the water, mg/L.
 * @param [method] "standard methods" or "carrier". "standard methods" if left out.
 * @returns Saturation index, pH units.
 * @equation index = pH − pH of saturation. "standard methods": pK2 − pKs + p[Ca] + p[HCO3] + 5 pfm. "carrier": 9.3 + A + B − C − D
 * @source "standard methods": Standard Methods 2330 B with the constants of Plummer & Busenberg (1982), Geochim. Cosmochim. Acta 46:1011. "carrier": short form of Carrier's design manual, seen second-hand.
 * @range 0 to 90 °C for both; pH 6 to 9 for "standard methods", where alkalinity is nearly all bicarbonate.
 * @caution The two methods differ by 0.1 to 0.2: never compare one with the other. An indication, not a prediction for your boiler: Standard Methods itself warns against reading such indices as absolutes. The machine maker's limits and local codes come first.
 * @words limescale, scaling, corrosion, balance
 * @example =ESPRESSO.WATER.LANGELIER(7.5, 25, 150, 34, 320) gives -0.5447
 * @example =ESPRESSO.WATER.LANGELIER(7.5, 25, 150, 34, 320, "carrier") gives -0.7312
 * @since 0.1.0
 */
export function WATER_LANGELIER(ph: any[][], temperature: any[][], calciumHardness: any[][], alkalinity: any[][], tds: any[][], method?: any[][]): any[][] {
  return calculate(formula.waterLangelier, { ph, temperature, calciumHardness, alkalinity, tds, method: optional(method, "indexMethod") },
    gives.value("saturationIndex"));
}

/**
 * Ryznar stability index: lower numbers lean to scale, higher ones to corrosion of iron.
 * @customfunction WATER.RYZNAR
 * @param ph pH of the water.
 * @param temperature Temperature of the water, °C.
 * @param calciumHardness Calcium hardness, mg/L CaCO3.
 * @param alkalinity Total alkalinity, mg/L CaCO3.
 * @param tds Dissolved solids of the water, mg/L.
 * @param [method] "standard methods" or "carrier", as in WATER.LANGELIER. "standard methods" if left out.
 * @returns Stability index, pH units.
 * @equation index = 2 × pH of saturation − pH
 * @source Ryznar (1944), J. Am. Water Works Assoc. 36:472; pH of saturation as in WATER.LANGELIER.
 * @range As in WATER.LANGELIER.
 * @caution An indication, not a prediction for your boiler: Standard Methods itself warns against reading such indices as absolutes. The machine maker's limits and local codes come first.
 * @words limescale, corrosion, rust
 * @example =ESPRESSO.WATER.RYZNAR(7.5, 25, 150, 34, 320, "carrier") gives 8.9625
 * @since 0.1.0
 */
export function WATER_RYZNAR(ph: any[][], temperature: any[][], calciumHardness: any[][], alkalinity: any[][], tds: any[][], method?: any[][]): any[][] {
  return calculate(formula.waterRyznar, { ph, temperature, calciumHardness, alkalinity, tds, method: optional(method, "indexMethod") },
    gives.value("stabilityIndex"));
}

/**
 * Scale that a water can lay down where it is heated: saturation index, precipitation potential and the pH after.
 * @customfunction WATER.SCALE
 * @param ph pH of the water.
 * @param temperature Temperature of the water, °C, at which the pH was read.
 * @param calciumHardness Calcium hardness, mg/L CaCO3.
 * @param alkalinity Total alkalinity, mg/L CaCO3.
 * @param tds Dissolved solids of the water, mg/L.
 * @param [at] Temperature that the water is heated to, °C. 90 if left out.
 * @param [air] Whether CO2 can leave to the air: "closed" or "open". "closed" if left out.
 * @returns Saturation index at that temperature; precipitation potential, mg/L CaCO3, negative where it dissolves; pH after, in three cells side by side.
 * @equation Carbonate equilibrium with the pairs CaHCO3 and CaCO3; heating keeps calcium and alkalinity, closed also carbon; open: CO2 of 10^−3.4 atm
 * @source Constants of Plummer & Busenberg (1982), Geochim. Cosmochim. Acta 46:1011; ionic strength and activities as in Standard Methods 2330.
 * @range 0 to 90 °C, pH 5 to 10; not for steam boilers, which are hotter. Without pairs of sulfate and magnesium: within 0.03 and 2 mg/L of PHREEQC for five example waters.
 * @caution The index holds before anything is laid down, at the pH there. How fast scale grows, and where, it does not tell. An indication, not a prediction for your boiler. The machine maker's limits and local codes come first.
 * @words limescale, boiler, kettle, descale, descaling, how much scale
 * @example =ESPRESSO.WATER.SCALE(7.3, 15, 250, 220, 400) gives 0.8860 | 84.5015 | 6.6205
 * @example =ESPRESSO.WATER.SCALE(7.3, 15, 250, 220, 400, 60, "open") gives 1.9056 | 193.7126 | 8.1243
 * @since 0.2.0
 */
export function WATER_SCALE(
  ph: any[][], temperature: any[][], calciumHardness: any[][], alkalinity: any[][], tds: any[][], at?: any[][], air?: any[][],
): any[][] {
  return calculate(formula.waterScale, { ph, temperature, calciumHardness, alkalinity, tds, at: optional(at, "heatedTo"), air: optional(air) },
    gives.row("saturationIndex", "precipitation", "phAfter"));
}

/**
 * Larson-Skold index: chloride and sulfate against alkalinity, in equivalents.
 * @customfunction WATER.LARSONSKOLD
 * @param chloride Chloride in the water, mg/L.
 * @param sulfate Sulfate in the water, mg/L.
 * @param alkalinity Total alkalinity, mg/L CaCO3.
 * @returns Index, a ratio.
 * @equation index = (chloride ÷ 35.45 + 2 × sulfate ÷ 96.06) ÷ (alkalinity ÷ 50.04)
 * @source Larson & Skold (1958), Corrosion 14:285; its bands, below 0.8 and above 1.2, were drawn for mild steel in water of the Great Lakes.
 * @caution It was not made for copper, brass or stainless boilers. An indication, not a prediction for your boiler: Standard Methods itself warns against reading such indices as absolutes. The machine maker's limits and local codes come first.
 * @words corrosion, rust, chloride, salt
 * @example =ESPRESSO.WATER.LARSONSKOLD(25, 30, 100) gives 0.6655
 * @since 0.1.0
 */
export function WATER_LARSONSKOLD(chloride: any[][], sulfate: any[][], alkalinity: any[][]): any[][] {
  return calculate(formula.waterLarsonSkold, { chloride, sulfate, alkalinity }, gives.value("corrosionRatio"));
}

/**
 * What a blend of raw and treated water has of a hardness, an alkalinity or an ion.
 * @customfunction WATER.BLEND
 * @param raw What the raw water has, in any unit.
 * @param treated What the treated water has, in the same unit.
 * @param share Share of raw water in the blend, %.
 * @returns What the blend has, in the same unit.
 * @equation blend = treated + share × (raw − treated)
 * @source Mass balance.
 * @caution Only for what is neither made nor lost in mixing: hardness, alkalinity, ions. Never for pH or a saturation index.
 * @words mix, bypass, reverse osmosis, ro, cut
 * @example =ESPRESSO.WATER.BLEND(250, 5, 20) gives 54
 * @since 0.1.0
 */
export function WATER_BLEND(raw: any[][], treated: any[][], share: any[][]): any[][] {
  return calculate(formula.waterBlend, { raw, treated, share }, gives.value("blended"));
}

/**
 * Share of raw water that brings a blend to a target.
 * @customfunction WATER.BLENDSHARE
 * @param raw What the raw water has, in any unit.
 * @param treated What the treated water has, in the same unit.
 * @param target What the blend is to have, in the same unit.
 * @returns Share of raw water in the blend, %.
 * @equation share = (target − treated) ÷ (raw − treated)
 * @source Mass balance.
 * @caution Only for what is neither made nor lost in mixing: hardness, alkalinity, ions. Never for pH or a saturation index. Check the blend at the tap.
 * @words mix, bypass, reverse osmosis, ro, how much to mix
 * @example =ESPRESSO.WATER.BLENDSHARE(250, 5, 68) gives 25.714
 * @since 0.1.0
 */
export function WATER_BLENDSHARE(raw: any[][], treated: any[][], target: any[][]): any[][] {
  return calculate(formula.waterBlendShare, { raw, treated, target: each(target, "blended") }, gives.value("share"));
}

/**
 * Water that a softening filter delivers until it is spent, the water that goes round it included.
 * @customfunction WATER.FILTERLIFE
 * @param capacity Water until the filter is spent, at its reference hardness, L, as its maker states it.
 * @param reference Hardness that the capacity is stated for, mg/L CaCO3.
 * @param hardness Total hardness, mg/L CaCO3, or what the maker counts by.
 * @param [bypass] Part of the water that goes round the filter, %. 0 if left out.
 * @returns Water delivered, L.
 * @equation delivered = capacity × reference ÷ hardness ÷ (1 − bypass)
 * @source Mass balance: the filter takes out the same amount of hardness from any water.
 * @caution Decarbonising filters are stated for carbonate hardness: give that. Change the filter by its maker's interval if that comes first, and check the water at the tap.
 * @words softener, cartridge, when to change, how long
 * @example =ESPRESSO.WATER.FILTERLIFE(2000, 178, 250, 20) gives 1780
 * @since 0.2.0
 */
export function WATER_FILTERLIFE(capacity: any[][], reference: any[][], hardness: any[][], bypass?: any[][]): any[][] {
  return calculate(formula.waterFilterLife, { capacity, reference, hardness, bypass: optional(bypass) }, gives.value("delivered"));
}

/**
 * Mass of a salt that raises the hardness or alkalinity of water, whichever the salt carries.
 * @customfunction WATER.SALT
 * @param salt Formula of a salt with its crystal water, as on the label: "MgSO4·7H2O" or "MgSO4.7H2O".
 * @param rise Hardness or alkalinity to add, mg/L CaCO3, whatever units the workbook uses.
 * @param volume Volume of water, L.
 * @returns Mass of the salt, g.
 * @equation mass = rise × volume × molar mass of the salt ÷ (100.09 × its moles of CaCO3 equivalent)
 * @source Stoichiometry with the CIAAW atomic weights of 2021.
 * @range MgSO4, MgCl2, CaCl2, CaSO4, CaCO3, NaHCO3, KHCO3. CaCO3 dissolves only with carbonic acid, CaSO4 up to about 2 g/L.
 * @caution Dry CaCl2 for CaCl2·2H2O overdoses by a third, so the crystal water must be spelled. Food-grade salts only, weighed to 0.01 g and labelled. Keep calcium apart from bicarbonate and sulfate in concentrates, or they fall out. Do not dose a plumbed line: that needs backflow protection and a licensed installer. The machine maker's limits and local codes come first, and people on a low-sodium or low-potassium diet should ask their doctor.
 * @words minerals, add, epsom, baking soda, remineralise, remineralize
 * @example =ESPRESSO.WATER.SALT("MgSO4·7H2O", 68, 1) gives 0.16745
 * @since 0.1.0
 */
export function WATER_SALT(salt: any[][], rise: any[][], volume: any[][]): any[][] {
  return calculate(formula.waterSalt, { salt, rise, volume: each(volume, "watervolume") }, gives.value("grams"));
}

/**
 * Salts that give pure water a hardness and an alkalinity.
 * @customfunction WATER.RECIPE
 * @param hardness Total hardness, mg/L CaCO3.
 * @param alkalinity Total alkalinity, mg/L CaCO3.
 * @param volume Volume of water, L.
 * @param [magnesiumShare] Part of the hardness that is magnesium, %. 100 if left out.
 * @param [magnesiumSalt] Formula of the magnesium salt. MgSO4·7H2O if left out.
 * @param [calciumSalt] Formula of the calcium salt. CaCl2·2H2O if left out.
 * @param [alkalinitySalt] Formula of the alkalinity salt. NaHCO3 if left out.
 * @returns A table: salt, g. Every salt is neutral, so the water is: WATER.IONS shows it.
 * @equation mass = amount × volume ÷ what the salt carries, for each salt as in WATER.SALT
 * @source Stoichiometry with the CIAAW atomic weights of 2021.
 * @range For water without minerals, such as from reverse osmosis.
 * @caution Food-grade salts only, weighed to 0.01 g and labelled. Keep calcium apart from bicarbonate and sulfate in concentrates, or they fall out. Do not dose a plumbed line: that needs backflow protection and a licensed installer. The machine maker's limits and local codes come first, and people on a low-sodium or low-potassium diet should ask their doctor.
 * @words minerals, make water, distilled, remineralise, remineralize, recipe
 * @example =ESPRESSO.WATER.RECIPE(68, 40, 10) gives a table
 * @since 0.1.0
 */
export function WATER_RECIPE(
  hardness: any[][], alkalinity: any[][], volume: any[][], magnesiumShare?: any[][], magnesiumSalt?: any[][], calciumSalt?: any[][], alkalinitySalt?: any[][],
): any[][] {
  return calculate(formula.waterRecipe, {
    hardness, alkalinity, volume: each(volume, "watervolume"), magnesiumShare: optional(magnesiumShare),
    magnesiumSalt: optional(magnesiumSalt, "salt"), calciumSalt: optional(calciumSalt, "salt"), alkalinitySalt: optional(alkalinitySalt, "salt"),
  }, gives.table("salt", "grams"));
}

/**
 * Ions that salts leave in pure water, and whether their charges balance.
 * @customfunction WATER.IONS
 * @param salts Formulas of the salts with their crystal water, a range.
 * @param grams Mass of each salt, g, a range as long.
 * @param volume Volume of water, L.
 * @returns A table: ion, mg/L; then hardness and alkalinity, mg/L CaCO3, and the charge balance, %.
 * @equation balance = (positive − negative) ÷ (positive + negative), in equivalents
 * @source Stoichiometry with the CIAAW atomic weights of 2021.
 * @caution Food-grade salts only, weighed to 0.01 g and labelled. Keep calcium apart from bicarbonate and sulfate in concentrates, or they fall out. Do not dose a plumbed line: that needs backflow protection and a licensed installer. The machine maker's limits and local codes come first, and people on a low-sodium or low-potassium diet should ask their doctor.
 * @words minerals, recipe, what is in it
 * @example =ESPRESSO.WATER.IONS({"MgSO4·7H2O";"NaHCO3"}, {0.17;0.07}, 1) gives a table
 * @since 0.1.0
 */
export function WATER_IONS(salts: any[][], grams: any[][], volume: any[][]): any[][] {
  return calculate(formula.waterIons, { salts: list(salts), grams: gaps(grams), volume: each(volume, "watervolume") }, gives.table("ion", "content"));
}

/**
 * Dissolved solids of water from its conductivity.
 * @customfunction WATER.TDS
 * @param conductivity Conductivity as read, µS/cm, without temperature compensation.
 * @param [temperature] Temperature of the water, °C. 25 if left out, as for a meter that compensates.
 * @param [factor] Dissolved solids for each µS/cm at 25 °C, mg/L. 0.67 if left out.
 * @returns Dissolved solids, mg/L.
 * @equation solids = factor × conductivity ÷ (1 + 0.0191 × (temperature − 25))
 * @source Straight-line compensation of Standard Methods 2510. 0.67: conversion 4-4-2 near 450 µS/cm in a published meter table, which has 0.50 for NaCl.
 * @range 0 to 50 °C, common practice for a straight-line compensation.
 * @caution The range in STANDARD is defined by the conversion 4-4-2. A meter may count by 0.5: two factors do not compare. Not the strength of coffee.
 * @words conductivity, meter, ppm pen, minerals
 * @example =ESPRESSO.WATER.TDS(300) gives 201
 * @since 0.1.0
 */
export function WATER_TDS(conductivity: any[][], temperature?: any[][], factor?: any[][]): any[][] {
  return calculate(formula.waterTds, { conductivity, temperature: optional(temperature), factor: optional(factor, "conductivityFactor") }, gives.value("tds"));
}

/**
 * Brewing water held against published ranges, line by line.
 * @customfunction WATER.CHECK
 * @param hardness Total hardness, mg/L CaCO3.
 * @param alkalinity Total alkalinity, mg/L CaCO3.
 * @param ph pH of the water.
 * @param tds Dissolved solids of the water, mg/L.
 * @param [sodium] Sodium in the water, mg/L. Not checked if left out.
 * @param [chlorine] Total chlorine in the water, mg/L. Not checked if left out.
 * @param [chloride] Chloride in the water, mg/L. Not checked if left out.
 * @param [limits] Own limits, a block of item, low and high, by the names of STANDARD and in its units. The published ranges if left out.
 * @returns A table: item with its unit, amount, low, high, verdict, source of the range.
 * @equation Each amount against the low and the high end of its range.
 * @source Specialty Coffee Association, later standard for brewing water, seen second-hand on three agreeing pages.
 * @range Hardness (printed as calcium hardness), alkalinity, pH and chlorine. The older revision's range for dissolved solids, in STANDARD, is defined by the conversion 4-4-2.
 * @caution Ranges for taste and for machines, drawn by a trade body: they say nothing of health. The machine maker's limits and local codes come first.
 * @words is my water good, good for coffee, recommended, report
 * @example =ESPRESSO.WATER.CHECK(68, 40, 7, 150) gives a table
 * @since 0.1.0
 */
export function WATER_CHECK(
  hardness: any[][], alkalinity: any[][], ph: any[][], tds: any[][], sodium?: any[][], chlorine?: any[][], chloride?: any[][], limits?: any[][],
): any[][] {
  return calculate(formula.waterCheck, {
    hardness, alkalinity, ph, tds, sodium: optional(sodium), chlorine: optional(chlorine), chloride: optional(chloride),
    limits: records(limits, "reportItems", "wantedLow", "wantedHigh"),
  }, gives.table("item", "amount", "low", "high", "verdict", "source"));
}

/**
 * What a water report means for taste, scale and corrosion, and what to do, a sentence for each.
 * @customfunction WATER.ADVICE
 * @param items What was measured, by the names of STANDARD: total hardness, calcium hardness, alkalinity, pH and the like, a range.
 * @param amounts Amount of each item, in the units of STANDARD whatever the workbook uses, a range as long. Items without an amount are left out.
 * @param [litres] Water used a day, L. Scale is told for each litre if left out.
 * @param [limits] Own limits, a block of item, low and high, by the names of STANDARD and in its units. The published ranges if left out.
 * @returns A table: topic, number of the rule, sentence, what comes next.
 * @equation Taste: ranges, and the blend that meets them. Scale: greatest potential of WATER.SCALE, closed, up to 90 °C. Corrosion: own limit of chloride, WATER.LARSONSKOLD above 0.8, potential below 0
 * @source Ranges as in WATER.CHECK; the rest as in WATER.SCALE, WATER.LARSONSKOLD, WATER.BLENDSHARE and WATER.FILTERLIFE.
 * @range Further items: temperature of the pH (25 °C if left out), treated hardness and alkalinity, filter capacity, filter hardness, filter bypass.
 * @caution An indication, not a prediction for your boiler, and nothing of health. Food-grade salts only. The machine maker's limits, local codes and licensed installers come first.
 * @words is my water good, good for coffee, limescale, corrosion, report, what to do
 * @example =ESPRESSO.WATER.ADVICE({"total hardness";"alkalinity";"pH"}, {250;190;7.4}, 30) gives a table
 * @since 0.2.0
 */
export function WATER_ADVICE(items: any[][], amounts: any[][], litres?: any[][], limits?: any[][]): any[][] {
  return calculate(waterAdvice, {
    items: list(items, "reportItems"), amounts: gaps(amounts, "reportAmounts"), litres: optional(litres),
    limits: records(limits, "reportItems", "wantedLow", "wantedHigh"),
  }, gives.table("topic", "branch", "sentence", "next"));
}
