import { describe, expect, it } from "vitest";
import { grindAdvice } from "../../shared/decisions/grind-advice.ts";
import { recipeAdvice, type RecipeGiven } from "../../shared/decisions/recipe-advice.ts";
import { defaultUnits, type UnitChoice } from "../../src/sheet/unit-choice.ts";
import { worded } from "../../src/sheet/wording.ts";

function said(given: RecipeGiven, units: UnitChoice = defaultUnits): string[] {
  return recipeAdvice(given).map(({ branch, sentence }) => `${branch}: ${worded(sentence, units)}`);
}

const recipe = { dose: 18, beverage: 36, time: 27, tolerance: 2 };

describe("a recipe", () => {
  it.each<{ given: RecipeGiven; says: string }>([
    { given: {}, says: "1: Type dose and beverage." },
    { given: { dose: 18 }, says: "1: Type dose and beverage." },
    { given: { dose: 18, beverage: 36.5 }, says: "2: 18.0 g in, 36.5 g out." },
    { given: { dose: 18, beverage: 36, time: 27 }, says: "3: 18.0 g in, 36.0 g out, 27 s." },
    { given: recipe, says: "3: 18.0 g in, 36.0 g out, 25 to 29 s." },
    { given: { ...recipe, tolerance: 1.5 }, says: "3: 18.0 g in, 36.0 g out, 25.5 to 28.5 s." },
  ])("says what to weigh: $says", ({ given, says }) => expect(said(given)[0]).toBe(says));

  const weighed = "Other basket: 21.0 g in, 42.0 g out.";
  it.each<{ why: string; given: RecipeGiven; says: string }>([
    { why: "none", given: {}, says: "0: " },
    { why: "no diameters, no shots", given: { otherDose: 21 }, says: `4: ${weighed} For its grind type the inner diameters, or shots.` },
    { why: "deeper", given: { otherDose: 21, diameter: 58, otherDiameter: 58 }, says: `5: ${weighed} A deeper puck: begin coarser, and type those shots.` },
    { why: "wider, so shallower", given: { otherDose: 21, diameter: 53, otherDiameter: 58.5 }, says: `6: ${weighed} A shallower puck: begin finer, and type those shots.` },
    { why: "as deep", given: { otherDose: 21, diameter: 54, otherDiameter: 58.3 }, says: `7: ${weighed} A puck as deep: begin where you are, and type those shots.` },
    { why: "one shot there", given: { otherDose: 21, settings: [2.4], times: [30] }, says: `21: ${weighed} Pull a shot at each of two settings.` },
  ])("goes to another basket: $why", ({ given, says }) => expect(said({ ...recipe, ...given })[1]).toBe(says));

  it("takes the grind only from shots of that basket, as GRIND.ADVICE does, rows half typed left out", () => {
    const log = { settings: [2.2, 2.4, 2.3, 2.5], times: [31.5, 26, 28.5, 24] };
    const { branch, sentence } = grindAdvice({ setting: [], time: [], ...log })({ target: 27, tolerance: 2 });
    const given = { ...recipe, otherDose: 21, settings: [...log.settings, 2.6, null], times: [...log.times, null, 22] };
    expect(said(given)[1]).toBe(`${branch}: ${weighed} ${worded(sentence, defaultUnits)}`);
  });

  it.each<{ given: RecipeGiven; says: string }>([
    { given: {}, says: "0: " },
    { given: { bag: 1000 }, says: "1: 55 cups a bag." },
    { given: { bag: 18 }, says: "1: 1 cup a bag." },
    // 0.1 kg in cups of 20 g is five, whatever the last binary digit says.
    { given: { bag: 100, dose: 20 }, says: "1: 5 cups a bag." },
    { given: { bag: 1000, price: 22, currency: "euros", wasted: 4 }, says: "2: 0.41 euros of coffee a cup, 53 cups a bag." },
    { given: { bag: 1000, price: 22 }, says: "2: 0.40 of coffee a cup, 55 cups a bag." },
  ])("says what a cup costs: $says", ({ given, says }) => expect(said({ ...recipe, ...given })[2]).toBe(says));

  it("speaks the workbook's units", () => {
    expect(said(recipe, { ...defaultUnits, mass: "oz" } as UnitChoice)[0]).toMatch(/^3: 0\.63\d? oz in, 1\.2\d* oz out, 25 to 29 s\.$/);
  });
});
