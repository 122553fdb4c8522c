import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { readSalt } from "../shared/water/salts.ts";
import { convert, units } from "../shared/units.ts";
import { carbonateConstants } from "../shared/water/carbonate.ts";
import * as water from "../shared/water/index.ts";
import { indexMethods } from "../shared/water/indices.ts";
import { problemOf } from "./problem-of.ts";

const positive = fc.double({ min: 1e-6, max: 1e6, noNaN: true });

describe("conversions of hardness and alkalinity", () => {
  it.each(["hardness", "alkalinity"] as const)("of %s come back to 1e-12 over every pair of units", (measure) => {
    const all = Object.values(units[measure]);
    fc.assert(fc.property(positive, fc.constantFrom(...all), fc.constantFrom(...all), (value, from, to) => {
      expect(Math.abs(convert(convert(value, from, to), to, from) / value - 1)).toBeLessThan(1e-12);
    }));
  });
});

describe("constants of the saturation index", () => {
  // Plummer & Busenberg (1982) as USGS data bases print them at 25 °C: 10.329 and 8.48.
  it("meet the printed constants at 25 °C", () => {
    expect(carbonateConstants(25).second).toBeCloseTo(-10.329, 3);
    expect(carbonateConstants(25).calcite).toBeCloseTo(-8.48, 2);
  });

  // Harned & Scholes (1941), J. Am. Chem. Soc. 63:1706, measured; a fit of 1982 may differ from them by a hundredth.
  it.each([[5, 10.557], [10, 10.49], [15, 10.43], [20, 10.377], [25, 10.329], [30, 10.29], [35, 10.25], [40, 10.22], [50, 10.172]])(
    "give pK2 at %d °C as measured, %d", (temperature, measured) => {
      expect(Math.abs(carbonateConstants(temperature).second + measured)).toBeLessThan(0.01);
    });
});

describe("waterLangelier", () => {
  const sample = { ph: 7.5, temperature: 25, calciumHardness: 150, alkalinity: 34, tds: 320 };

  it.each(indexMethods)("by %s refuses temperatures outside 0 to 90 °C in words", (method) => {
    for (const temperature of [-0.1, 90.1]) {
      const problem = problemOf(() => water.waterLangelier({ ...sample, temperature, method }));
      expect(problem.kind).toBe("no answer");
      expect(problem.message).toContain("0 to 90 °C");
    }
  });

  it("is 0 at the pH of saturation, where Ryznar's index is that pH", () => {
    for (const method of indexMethods) {
      const ph = sample.ph - water.waterLangelier({ ...sample, method });
      expect(water.waterLangelier({ ...sample, ph, method })).toBeCloseTo(0, 12);
      expect(water.waterRyznar({ ...sample, ph, method })).toBeCloseTo(ph, 12);
    }
  });

  it.each(["calciumHardness", "alkalinity", "tds"] as const)("has no answer without %s", (name) => {
    expect(problemOf(() => water.waterLangelier({ ...sample, [name]: 0 })).message).toContain(name.toLowerCase());
  });
});

describe("readSalt", () => {
  it.each(["MgSO4·7H2O", "MgSO4.7H2O", "MgSO4 . 7 H2O", "MgSO4•7H2O", "MgSO4⋅7H2O", "MgSO4∙7H2O", "MgSO4*7H2O", "MgSO4 7H2O", "mgso4.7h2o",
    "MgSO₄·7H₂O", " Magnesium sulfate heptahydrate ", "magnesium sulphate, heptahydrate"])("reads “%s” as the heptahydrate", (text) => {
    expect(readSalt(text).formula).toBe("MgSO4·7H2O");
  });

  it.each([["NaHCO3", "NaHCO3"], ["sodium hydrogen carbonate", "NaHCO3"], ["potassium bicarbonate", "KHCO3"], ["CaCl2 anhydrous", "CaCl2 anhydrous"],
    ["anhydrous calcium chloride", "CaCl2 anhydrous"], ["calcium chloride dihydrate", "CaCl2·2H2O"], ["MgSO4·H2O", "MgSO4·H2O"]])(
    "reads “%s” as %s", (text, formula) => expect(readSalt(text).formula).toBe(formula));

  it.each(["MgSO4", "CaCl2", "MgCl2", "CaSO4", "magnesium sulfate", "calcium chloride"])("never assumes how much water “%s” has", (text) => {
    const problem = problemOf(() => readSalt(text));
    expect(problem.kind).toBe("bad input");
    expect(problem.message).toMatch(/crystal water.*anhydrous/);
  });

  it.each(["CaCl2·3H2O", "NaHCO3·2H2O", "Epsom", "", "7H2O", "MgSO4·7H2O·", "CaCl"])("refuses “%s” with words", (text) => {
    expect(problemOf(() => readSalt(text)).message).toMatch(/^salt “.*\.$/);
  });

  // Molar masses as laboratory suppliers print them, g/mol, from memory.
  it.each([["MgSO4·7H2O", 246.47], ["CaCl2·2H2O", 147.01], ["MgCl2·6H2O", 203.3], ["CaSO4·2H2O", 172.17], ["NaHCO3", 84.01], ["KHCO3", 100.12], ["CaCO3", 100.09]])(
    "gives %s %d g/mol", (formula, printed) => expect(Math.abs(readSalt(formula).molarMass - printed)).toBeLessThan(0.011));
});

const magnesiumSalts = ["MgSO4·7H2O", "MgSO4 anhydrous", "MgCl2·6H2O"];
const calciumSalts = ["CaCl2·2H2O", "CaCl2 anhydrous", "CaSO4·2H2O", "CaCO3"];

describe("waterRecipe", () => {
  it("is what waterIons reads back: the hardness and alkalinity asked for, in charge balance", () => {
    fc.assert(fc.property(
      fc.double({ min: 0, max: 300, noNaN: true }), fc.double({ min: 0, max: 200, noNaN: true }), fc.double({ min: 0.1, max: 1000, noNaN: true }),
      fc.double({ min: 0, max: 100, noNaN: true }), fc.constantFrom(...magnesiumSalts), fc.constantFrom(...calciumSalts), fc.constantFrom("NaHCO3", "KHCO3"),
      (hardness, alkalinity, volume, magnesiumShare, magnesiumSalt, calciumSalt, alkalinitySalt) => {
        fc.pre(calciumSalt !== "CaCO3" || hardness * (1 - magnesiumShare / 100) < alkalinity);
        const recipe = water.waterRecipe({ hardness, alkalinity, volume, magnesiumShare, magnesiumSalt, calciumSalt, alkalinitySalt });
        const ions = water.waterIons({ salts: recipe.map((it) => it.salt), grams: recipe.map((it) => it.grams), volume });
        const of = (name: string): number => ions.find((it) => it.ion === name)!.content;
        expect(of("Hardness as CaCO3")).toBeCloseTo(hardness, 8);
        expect(of("Alkalinity as CaCO3")).toBeCloseTo(alkalinity, 8);
        expect(of("Charge balance, %")).toBe(0);
      },
    ));
  });

  it("agrees with waterSalt", () => {
    const [magnesium, , buffer] = water.waterRecipe({ hardness: 68, alkalinity: 40, volume: 10 });
    expect(magnesium!.grams).toBeCloseTo(water.waterSalt({ salt: "MgSO4·7H2O", rise: 68, volume: 10 }), 12);
    expect(buffer!.grams).toBeCloseTo(water.waterSalt({ salt: "NaHCO3", rise: 40, volume: 10 }), 12);
  });

  it("refuses salts that do not carry what they are for, naming the argument", () => {
    const plain = { hardness: 68, alkalinity: 40, volume: 1 };
    expect(problemOf(() => water.waterRecipe({ ...plain, magnesiumSalt: "CaCl2·2H2O" })).message).toContain("magnesiumsalt");
    expect(problemOf(() => water.waterRecipe({ ...plain, calciumSalt: "NaCl" })).message).toContain("calciumsalt");
    expect(problemOf(() => water.waterRecipe({ ...plain, alkalinitySalt: "CaCO3" })).message).toContain("alkalinitysalt");
    expect(problemOf(() => water.waterRecipe({ ...plain, magnesiumSalt: "MgSO4" })).message).toContain("magnesiumsalt");
  });

  it("refuses calcium carbonate that brings more alkalinity than asked for", () => {
    expect(problemOf(() => water.waterRecipe({ hardness: 68, alkalinity: 40, volume: 1, magnesiumShare: 0, calciumSalt: "CaCO3" })).kind).toBe("no answer");
  });

  it("takes calcium carbonate that brings exactly what was asked for", () => {
    const recipe = water.waterRecipe({ hardness: 70, alkalinity: 70, volume: 1, magnesiumShare: 0, calciumSalt: "CaCO3" });
    expect(recipe.map((it) => it.grams)).toEqual([0, 0.07, 0]);
  });
});

describe("waterSalt", () => {
  it("refuses a salt that carries neither hardness nor alkalinity", () => {
    expect(problemOf(() => water.waterSalt({ salt: "NaCl", rise: 10, volume: 1 })).message).toContain("neither");
  });

  it("needs a third less of dry calcium chloride than of the dihydrate", () => {
    const dihydrate = water.waterSalt({ salt: "CaCl2·2H2O", rise: 50, volume: 1 });
    const dry = water.waterSalt({ salt: "CaCl2 anhydrous", rise: 50, volume: 1 });
    expect(dihydrate / dry).toBeCloseTo(1.3247, 4);
  });
});

describe("waterBlendShare", () => {
  it("is undone by waterBlend", () => {
    fc.assert(fc.property(positive, positive, fc.double({ min: 0, max: 1, noNaN: true }), (raw, treated, part) => {
      fc.pre(Math.abs(raw - treated) > 1e-3 * Math.max(raw, treated));
      const target = treated + part * (raw - treated);
      fc.pre(target >= Math.min(raw, treated) && target <= Math.max(raw, treated));
      const share = water.waterBlendShare({ raw, treated, target });
      // Relative to the larger of the two waters, whose rounding the difference keeps.
      expect(Math.abs(water.waterBlend({ raw, treated, share }) - target)).toBeLessThanOrEqual(1e-12 * Math.max(raw, treated));
    }));
  });

  it("has no answer outside the two waters, nor where they are alike", () => {
    expect(problemOf(() => water.waterBlendShare({ raw: 250, treated: 5, target: 260 })).message).toMatch(/260.*5.*250/);
    expect(problemOf(() => water.waterBlendShare({ raw: 5, treated: 5, target: 5 })).kind).toBe("no answer");
  });
});

it("calls no water safe or potable, and gives every function that doses salts its cautions", async () => {
  const declarations = (await readDeclarations()).filter(({ topic }) => topic === "water");
  expect(declarations.length).toBeGreaterThan(10);
  for (const it of declarations) expect(JSON.stringify(it)).not.toMatch(/\bsafe\b|potable|drinkable/i);
  for (const name of ["WATER.SALT", "WATER.RECIPE", "WATER.IONS"]) {
    const { caution } = declarations.find((it) => it.name === name)!;
    for (const words of ["Food-grade", "concentrates", "plumbed", "maker's limits", "codes"]) expect(caution).toContain(words);
  }
  for (const name of ["WATER.LANGELIER", "WATER.RYZNAR", "WATER.LARSONSKOLD", "WATER.SCALE", "WATER.ADVICE"]) {
    expect(declarations.find((it) => it.name === name)!.caution).toContain("indication");
  }
});
