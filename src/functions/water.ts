/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { alkalinityIn, hardnessFromIons, hardnessIn } from "../../shared/conversion";
import { overCells } from "../sheet/over-cells";

/**
 * Hardness converted from one unit to another, whatever units the workbook uses.
 * @customfunction WATER.HARDNESS
 * @param value Number to convert.
 * @param from Unit of the number: "ppm" (mg/L CaCO3), "dH", "fH", "e", "gpg", "mmol/L" or "meq/L".
 * @param to Unit wanted, one of the same.
 * @returns The value in the unit wanted.
 * @equation value × size of the first unit ÷ size of the second
 * @source Definitions: 1 °dH = 10 mg/L CaO; 1 °fH = 10 mg/L CaCO3; 1 °e = 1 grain CaCO3 in an imperial gallon; 1 gpg = 1 grain in a US gallon; 1 mmol/L = 2 meq/L.
 * @example =ESPRESSO.WATER.HARDNESS(10, "dH", "ppm") gives 178.48
 * @since 0.1.0
 */
export function WATER_HARDNESS(value: any[][], from: any[][], to: any[][]): any[][] {
  return overCells(hardnessIn, { value, from, to }, "converted", { as: { from: "hardnessunit", to: "hardnessunit" } });
}

/**
 * Alkalinity converted from one unit to another, whatever units the workbook uses.
 * @customfunction WATER.ALKALINITY
 * @param value Number to convert.
 * @param from Unit of the number: "ppm" (mg/L CaCO3), "dH", "fH", "e", "gpg", "mmol/L" (of CaCO3), "meq/L" or "HCO3" (mg/L).
 * @param to Unit wanted, one of the same.
 * @returns The value in the unit wanted.
 * @equation value × size of the first unit ÷ size of the second
 * @source Definitions as in WATER.HARDNESS; 1 meq/L = 50.04 mg/L CaCO3 = 61.02 mg/L HCO3.
 * @caution A laboratory's acid capacity in mmol/L counts acid, not CaCO3: enter it as meq/L.
 * @example =ESPRESSO.WATER.ALKALINITY(61.016, "HCO3", "meq/L") gives 1
 * @since 0.1.0
 */
export function WATER_ALKALINITY(value: any[][], from: any[][], to: any[][]): any[][] {
  return overCells(alkalinityIn, { value, from, to }, "converted", { as: { from: "alkalinityunit", to: "alkalinityunit" } });
}

/**
 * Total hardness from the calcium and magnesium of a water report.
 * @customfunction WATER.HARDNESSFROMIONS
 * @param calcium Calcium in the water, mg/L.
 * @param magnesium Magnesium in the water, mg/L.
 * @returns Hardness, mg/L CaCO3, or the workbook's unit of hardness.
 * @equation hardness = 2.497 × calcium + 4.118 × magnesium
 * @source Standard Methods 2340 B prints 2.497 and 4.118 (from memory); here they follow from the CIAAW atomic weights of 2021.
 * @example =ESPRESSO.WATER.HARDNESSFROMIONS(40, 10) gives 141.07
 * @since 0.1.0
 */
export function WATER_HARDNESSFROMIONS(calcium: any[][], magnesium: any[][]): any[][] {
  return overCells(hardnessFromIons, { calcium, magnesium }, "hardness");
}
