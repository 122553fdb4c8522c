/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { pressureIn, temperatureIn } from "../../shared/conversion";
import { overCells } from "../sheet/over-cells";

/**
 * Pressure converted from one unit to another, whatever units the workbook uses.
 * @customfunction PRESSURE
 * @param value Number to convert.
 * @param from Unit of the number: "bar", "psi", "kPa", "MPa", "atm" or "at".
 * @param to Unit wanted, one of the same.
 * @returns The value in the unit wanted.
 * @equation value × size of the first unit ÷ size of the second
 * @source Definitions of the units: NIST Special Publication 811 (2008), appendix B.
 * @caution A gauge shows pressure above the air; steam tables want absolute pressure, about 1.013 bar more.
 * @example =ESPRESSO.PRESSURE(9, "bar", "psi") gives 130.534
 * @since 0.1.0
 */
export function PRESSURE(value: any[][], from: any[][], to: any[][]): any[][] {
  return overCells(pressureIn, { value, from, to }, "converted", { as: { from: "pressureunit", to: "pressureunit" } });
}

/**
 * Temperature converted from one unit to another, whatever units the workbook uses.
 * @customfunction TEMPERATURE
 * @param value Number to convert.
 * @param from Unit of the number: "C", "F" or "K".
 * @param to Unit wanted, one of the same.
 * @returns The value in the unit wanted.
 * @equation °C = (°F − 32) ÷ 1.8; K = °C + 273.15
 * @source Definitions of the units: NIST Special Publication 811 (2008), appendix B.
 * @range From absolute zero, −273.15 °C.
 * @caution For a temperature, not for a difference of two.
 * @example =ESPRESSO.TEMPERATURE(200, "F", "C") gives 93.3333
 * @since 0.1.0
 */
export function TEMPERATURE(value: any[][], from: any[][], to: any[][]): any[][] {
  return overCells(temperatureIn, { value, from, to }, "converted", { as: { from: "temperatureunit", to: "temperatureunit" } });
}
