import { describe, expect, it } from "vitest";
import { boilerTemperature, puckPermeability, waterDensity, waterViscosity } from "../shared/flow.ts";
import { problemOf } from "./problem-of.ts";

describe("boilerTemperature", () => {
  // IAPWS R7-97 (2012), table 36, from memory: verification values of the backward equation, all digits printed.
  it.each([[0.1, 372.755919], [1, 453.035632], [10, 584.149488]])("at %d MPa is %d K", (megapascal, kelvin) => {
    expect(boilerTemperature({ pressure: 10 * megapascal - 1.01325 }) + 273.15).toBeCloseTo(kelvin, 6);
  });

  // ISO 2533:1975, standard atmosphere: 89,874.6 Pa at 1,000 m, 79,495.2 Pa at 2,000 m, 70,108.5 Pa at 3,000 m. A gauge that reads as much
  // more as the air weighs less has the same water under it.
  it.each([[1000, 0.898746], [2000, 0.794952], [3000, 0.701085]])("at %d m the air weighs %d bar", (altitude, bar) => {
    expect(boilerTemperature({ pressure: 1, altitude })).toBeCloseTo(boilerTemperature({ pressure: 1 - 1.01325 + bar }), 4);
  });
});

describe("waterDensity", () => {
  it("has the right denominator: the misprinted one is off by 0.6 kg/m³ at 93 °C", () => {
    // IAPWS IF97 at 93 °C and 1 atm: 963.27871 kg/m³.
    expect(Math.abs(waterDensity({ temperature: 93 }) - 963.27871)).toBeLessThan(0.01);
  });

  it("is greatest near 4 °C", () => {
    const at = (temperature: number): number => waterDensity({ temperature });
    expect(at(3.98)).toBeGreaterThan(at(3));
    expect(at(3.98)).toBeGreaterThan(at(5));
  });
});

describe("waterViscosity", () => {
  // IAPWS SR6-08: 889.99677 µPa·s at 298.15 K.
  it("meets the release's own value at 25 °C", () => expect(waterViscosity({ temperature: 25 })).toBeCloseTo(0.88999677, 8));

  it.each([-21, 111])("refuses %d °C with the range in words", (temperature) => {
    expect(problemOf(() => waterViscosity({ temperature }))).toMatchObject({ kind: "no answer", message: expect.stringContaining("-20 to 110 °C") });
  });
});

describe("puckPermeability", () => {
  const puck = { flow: 2, pressure: 9, diameter: 58.5, depth: 10, temperature: 92 };

  it("follows Darcy's law", () => {
    const one = puckPermeability(puck);
    expect(puckPermeability({ ...puck, flow: 4 }) / one).toBeCloseTo(2, 12);
    expect(puckPermeability({ ...puck, pressure: 4.5 }) / one).toBeCloseTo(2, 12);
    expect(puckPermeability({ ...puck, depth: 20 }) / one).toBeCloseTo(2, 12);
    expect(puckPermeability({ ...puck, diameter: 117 }) / one).toBeCloseTo(0.25, 12);
  });

  it("is 2.54E-15 m² for 2 mL/s at 9 bar", () => {
    // By hand with 307 µPa·s at 92 °C: 2e-6 × 307e-6 × 0.01 ÷ (2.687829e-3 × 9e5) = 2.538e-15.
    expect(puckPermeability({ ...puck, flow: (2 * waterDensity(puck)) / 1000 })).toBeCloseTo(2.539e-15, 17);
  });
});
