/** Water and its flow through the puck, and the steam above it. */
import { requireRange } from "./problem";

/** Pressure of the standard atmosphere at an altitude, m, in bar: what a gauge leaves out. ISO 2533:1975, up to 11,000 m. */
function atmosphere(altitude: number): number {
  return 1.01325 * (1 - (0.0065 / 288.15) * altitude) ** (9.80665 / (0.0065 * 287.05287));
}

const pascalsInABar = 1e5;

/**
 * Density of pure water at 1 atm, kg/m³.
 * Source: Kell (1975), J. Chem. Eng. Data 20:97, with the denominator 1 + 16.87985e-3 t (a copy with two digits swapped is in circulation).
 */
export function waterDensity({ temperature: t }: { temperature: number }): number {
  requireRange("temperature", t, 0, 150);
  const polynomial = 999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return polynomial / (1 + 16.87985e-3 * t);
}

/**
 * Viscosity of pure liquid water at 0.1 MPa, mPa·s.
 * Source: IAPWS SR6-08(2011), Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa, equation 7.
 */
export function waterViscosity({ temperature }: { temperature: number }): number {
  requireRange("temperature", temperature, -20, 110);
  const reduced = (temperature + 273.15) / 300;
  const micropascalSeconds =
    280.68 * reduced ** -1.9 + 511.45 * reduced ** -7.7 + 61.131 * reduced ** -19.6 + 0.45903 * reduced ** -40;
  return micropascalSeconds / 1000;
}

/** Hydraulic resistance of the puck, bar·s/g: the pressure that each gram a second takes. */
export function puckResistance({ pressure, flow }: { pressure: number; flow: number }): number {
  return pressure / flow;
}

/**
 * Effective permeability of the puck, m², by Darcy's law over its full face, as if it were even and at rest and water flowed through it.
 * The gauge pressure is the drop over the puck, as the cup is at atmospheric pressure.
 */
export function puckPermeability({ flow, pressure, diameter, depth, temperature = 93 }: {
  flow: number; pressure: number; diameter: number; depth: number; temperature?: number;
}): number {
  const viscosity = waterViscosity({ temperature }) / 1000; // Pa·s
  const volumeFlow = flow / 1000 / waterDensity({ temperature }); // m³/s
  const area = (Math.PI / 4) * (diameter / 1000) ** 2; // m²
  return (volumeFlow * viscosity * (depth / 1000)) / (area * pressure * pascalsInABar);
}

/** Coefficients n1 to n10 of the saturation line: IAPWS R7-97 (2012), table 34. */
const saturation = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5, -0.32325550322333e7,
  0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
] as const;

/**
 * Temperature of water that boils under this gauge pressure, °C: what a boiler holds once its air is out. At an altitude, m, the air above the
 * gauge weighs less, so that the same reading is less absolute pressure.
 * Source: IAPWS R7-97 (2012), industrial formulation IF97, region 4, backward equation 31.
 */
export function boilerTemperature({ pressure, altitude = 0 }: { pressure: number; altitude?: number }): number {
  requireRange("pressure", pressure, -1.007, 219.6);
  const [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = saturation;
  const beta = ((pressure + atmosphere(altitude)) / 10) ** 0.25; // fourth root of the absolute pressure in MPa
  const e = beta ** 2 + n3 * beta + n6;
  const f = n1 * beta ** 2 + n4 * beta + n7;
  const g = n2 * beta ** 2 + n5 * beta + n8;
  const d = (2 * g) / (-f - Math.sqrt(f ** 2 - 4 * e * g));
  return (n10 + d - Math.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2 - 273.15;
}
