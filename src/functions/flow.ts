/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import { pressureIn, temperatureIn } from "../../shared/conversion";
import * as formula from "../../shared/flow";
import { each, optional } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";

/**
 * Pressure converted from one unit to another, whatever units the workbook uses.
 * @customfunction PRESSURE
 * @param value Number to convert.
 * @param from Unit of the number: "bar", "psi", "kPa", "MPa", "atm" or "at".
 * @param to Unit wanted, one of the same.
 * @returns The value in the unit wanted.
 * @equation value × size of the first unit ÷ size of the second
 * @source NIST SP 811 (2008), appendix B.
 * @caution A gauge shows pressure above the air; steam tables want absolute pressure, about 1.013 bar more.
 * @words convert, bar, psi, gauge
 * @example =ESPRESSO.PRESSURE(9, "bar", "psi") gives 130.534
 * @since 0.1.0
 */
export function PRESSURE(value: any[][], from: any[][], to: any[][]): any[][] {
  return calculate(pressureIn, { value, from: each(from, "pressureUnit"), to: each(to, "pressureUnit") }, gives.value("converted"));
}

/**
 * Temperature converted from one unit to another, whatever units the workbook uses.
 * @customfunction TEMPERATURE
 * @param value Number to convert.
 * @param from Unit of the number: "C", "F" or "K".
 * @param to Unit wanted, one of the same.
 * @returns The value in the unit wanted.
 * @equation °C = (°F − 32) ÷ 1.8; K = °C + 273.15
 * @source NIST SP 811 (2008), appendix B.
 * @range From absolute zero, −273.15 °C.
 * @caution For a temperature, not for a difference of two.
 * @words convert, fahrenheit, celsius, kelvin
 * @example =ESPRESSO.TEMPERATURE(200, "F", "C") gives 93.3333
 * @since 0.1.0
 */
export function TEMPERATURE(value: any[][], from: any[][], to: any[][]): any[][] {
  return calculate(temperatureIn, { value, from: each(from, "temperatureUnit"), to: each(to, "temperatureUnit") }, gives.value("converted"));
}

/**
 * Density of pure water at atmospheric pressure.
 * @customfunction WATER.DENSITY
 * @param temperature Temperature of the water, °C.
 * @returns Density, kg/m³.
 * @equation A polynomial of degree 5 in temperature over 1 + 0.01687985 × temperature
 * @source Kell (1975), J. Chem. Eng. Data 20:97. Copies with 0.01689785 are wrong by 0.6 kg/m³ at brewing temperature.
 * @range 0 to 150 °C. At 9 bar water is denser by 0.04 %, which is left out.
 * @words weight of water, hot water, heavy
 * @example =ESPRESSO.WATER.DENSITY(93) gives 963.282
 * @since 0.1.0
 */
export function WATER_DENSITY(temperature: any[][]): any[][] {
  return calculate(formula.waterDensity, { temperature }, gives.value("waterDensity"));
}

/**
 * Viscosity of pure liquid water.
 * @customfunction WATER.VISCOSITY
 * @param temperature Temperature of the water, °C.
 * @returns Viscosity, mPa·s.
 * @equation 0.28068 T^−1.9 + 0.51145 T^−7.7 + 0.061131 T^−19.6 + 0.00045903 T^−40, where T = (°C + 273.15) ÷ 300
 * @source IAPWS SR6-08(2011), equation 7.
 * @range −20 to 110 °C, liquid. The brew is thicker than water: this is for water.
 * @words thick, thin, runny, hot water
 * @example =ESPRESSO.WATER.VISCOSITY(93) gives 0.303718
 * @since 0.1.0
 */
export function WATER_VISCOSITY(temperature: any[][]): any[][] {
  return calculate(formula.waterViscosity, { temperature }, gives.value("viscosity"));
}

/**
 * Hydraulic resistance of the puck: the pressure that each gram a second takes.
 * @customfunction PUCK.RESISTANCE
 * @param pressure Brew pressure, gauge, bar.
 * @param flow Beverage flow, g/s.
 * @returns Resistance, bar·s/g, whatever units the workbook uses.
 * @equation resistance = pressure ÷ flow
 * @source Definition; Darcy's law says it is constant for a bed at rest, which a puck is not.
 * @caution It holds for the pressure it was read at. Flow seldom follows pressure in proportion: fit FLOW.EXPONENT to your own shots.
 * @words channelling, channeling, choking, gushing, puck prep, tamp, distribution
 * @example =ESPRESSO.PUCK.RESISTANCE(9, 2) gives 4.5
 * @since 0.1.0
 */
export function PUCK_RESISTANCE(pressure: any[][], flow: any[][]): any[][] {
  return calculate(formula.puckResistance, { pressure, flow }, gives.value("resistance"));
}

/**
 * Effective permeability of the puck, as if it were an even bed at rest through which water flows.
 * @customfunction PUCK.PERMEABILITY
 * @param flow Beverage flow, g/s.
 * @param pressure Brew pressure, gauge, bar.
 * @param diameter Inner diameter of the basket, mm.
 * @param depth Depth of the puck, mm.
 * @param [temperature] Temperature of the water, °C. 93 if left out.
 * @returns Effective permeability, m².
 * @equation permeability = volume flow × viscosity × depth ÷ (area × pressure), with WATER.DENSITY and WATER.VISCOSITY
 * @source Darcy's law. Coffee beds at rest: 1E-14 to 1E-13 m², Corrochano et al. (2015), J. Food Eng. 150:106.
 * @range 0 to 110 °C. Shots come out lower, as pressure packs the puck and fines move.
 * @caution Effective: swelling, fines, channels and the strength of the brew are all inside it. Compare like with like.
 * @words channelling, channeling, tamp, bed, darcy
 * @example =ESPRESSO.PUCK.PERMEABILITY(2, 9, 58.5, 10) gives 2.607e-15
 * @since 0.1.0
 */
export function PUCK_PERMEABILITY(flow: any[][], pressure: any[][], diameter: any[][], depth: any[][], temperature?: any[][]): any[][] {
  return calculate(formula.puckPermeability, { flow, pressure, diameter, depth, temperature: optional(temperature) }, gives.value("permeability"));
}

/**
 * Temperature of the water in a steam boiler, from the pressure on its gauge.
 * @customfunction BOILER.TEMPERATURE
 * @param pressure Pressure on the boiler's gauge, bar.
 * @param [altitude] Height above sea level, m. 0 if left out.
 * @returns Temperature, °C.
 * @equation Saturation temperature at gauge pressure + air pressure, 1.01325 × (1 − 0.0000225577 × altitude)^5.25588 bar
 * @source IAPWS R7-97 (2012), equation 31; standard atmosphere of ISO 2533:1975.
 * @range Up to 30 bar here. With the air let out of the boiler; not for brew pressure, which a pump makes. Weather changes it by some 0.3 °C.
 * @caution Water at 117 to 128 °C flashes to steam when a fitting opens, and scalds at once. Never open a boiler, raise its pressure or touch its relief valve on this number: stay inside the maker's limits, and leave it to licensed technicians and local codes.
 * @words steam, gauge, boiler pressure, hot
 * @example =ESPRESSO.BOILER.TEMPERATURE(1) gives 120.42
 * @example =ESPRESSO.BOILER.TEMPERATURE(1, 2000) gives 116.83
 * @since 0.1.0
 */
export function BOILER_TEMPERATURE(pressure: any[][], altitude?: any[][]): any[][] {
  return calculate(formula.boilerTemperature, { pressure: each(pressure, "boilerPressure"), altitude: optional(altitude) }, gives.value("temperature"));
}
