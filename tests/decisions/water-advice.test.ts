import { describe, expect, it } from "vitest";
import { waterAdvice, type WaterAdvice } from "../../shared/decisions/water-advice.ts";
import type { LimitRow } from "../../shared/water/report.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { worded } from "../../src/sheet/wording.ts";
import { problemOf } from "../problem-of.ts";

type Given = Readonly<Record<string, number>>;

const good = { "total hardness": 80, "calcium hardness": 60, alkalinity: 50, pH: 7.2, "dissolved solids": 140, chloride: 15, sulfate: 10 };
const hard = { "total hardness": 250, "calcium hardness": 200, alkalinity: 190, pH: 7.4, "dissolved solids": 400, chloride: 30, sulfate: 40 };
const without = (given: Given, ...names: string[]): Given => Object.fromEntries(Object.entries(given).filter(([name]) => !names.includes(name)));

function advised(topic: WaterAdvice["topic"], given: Given, litres?: number, limits?: readonly LimitRow[]): string {
  const advice = waterAdvice({ items: Object.keys(given), amounts: Object.values(given), litres, limits }).find((it) => it.topic === topic)!;
  return `${advice.branch}: ${worded(advice.sentence, defaultUnits)} | ${worded(advice.next, defaultUnits)}`;
}

interface Case {
  readonly why: string;
  readonly given: Given;
  readonly litres?: number;
  readonly limits?: readonly LimitRow[];
  readonly says: string;
}

describe("taste", () => {
  it.each<Case>([
    { why: "nothing typed", given: {}, says: "1: Also needs total hardness, alkalinity and pH. | A report of the supplier or a drop test tells." },
    { why: "no pH", given: without(good, "pH"), says: "1: Also needs pH. | A report of the supplier or a drop test tells." },
    { why: "inside all ranges", given: good, says: "2: Inside all 3 ranges. | Ranges are conventions: taste decides." },
    { why: "at the ends of the ranges", given: { ...good, "total hardness": 175, alkalinity: 40, pH: 8 }, says: "2: Inside all 3 ranges. | Ranges are conventions: taste decides." },
    { why: "inside, chlorine too", given: { ...good, "total chlorine": 0 }, says: "2: Inside all 4 ranges. | Ranges are conventions: taste decides." },
    { why: "too hard, and a blend helps", given: hard, says: "3: Total hardness 250 mg/L CaCO3 is above 175 mg/L CaCO3; alkalinity 190 mg/L CaCO3 is above 70 mg/L CaCO3: blend 29 % raw with water without minerals. | Check hardness, alkalinity and pH of the blend at the tap." },
    { why: "alkalinity alone too high", given: { ...good, alkalinity: 156 }, says: "5: Alkalinity 156 mg/L CaCO3 is above 70 mg/L CaCO3. No blend brings both inside: see the recipe. | Its salts go into pure water, by ESPRESSO.WATER.RECIPE; never dose a plumbed line." },
    { why: "too hard, treated water known", given: { ...hard, "treated hardness": 20, "treated alkalinity": 20 }, says: "3: Total hardness 250 mg/L CaCO3 is above 175 mg/L CaCO3; alkalinity 190 mg/L CaCO3 is above 70 mg/L CaCO3: blend 22 % raw with treated water. | Check hardness, alkalinity and pH of the blend at the tap." },
    { why: "too soft", given: { ...good, "total hardness": 30, "calcium hardness": 20 }, says: "4: Total hardness 30 mg/L CaCO3 is below 50 mg/L CaCO3: see the recipe. | Its salts go into pure water, by ESPRESSO.WATER.RECIPE; never dose a plumbed line." },
    { why: "too soft, and treated water is harder", given: { ...good, "total hardness": 30, "treated hardness": 120, "treated alkalinity": 50 }, says: "3: Total hardness 30 mg/L CaCO3 is below 50 mg/L CaCO3: blend 39 % raw with treated water. | Check hardness, alkalinity and pH of the blend at the tap." },
    { why: "alkalinity high and hardness low", given: { ...good, "total hardness": 30, alkalinity: 120 }, says: "5: Total hardness 30 mg/L CaCO3 is below 50 mg/L CaCO3; alkalinity 120 mg/L CaCO3 is above 70 mg/L CaCO3. No blend brings both inside: see the recipe. | Its salts go into pure water, by ESPRESSO.WATER.RECIPE; never dose a plumbed line." },
    { why: "so much alkalinity that hardness would be blended away", given: { ...good, "total hardness": 60, alkalinity: 300 }, says: "5: Alkalinity 300 mg/L CaCO3 is above 70 mg/L CaCO3. No blend brings both inside: see the recipe. | Its salts go into pure water, by ESPRESSO.WATER.RECIPE; never dose a plumbed line." },
    { why: "pH alone", given: { ...good, pH: 8.4 }, says: "6: pH 8.4 is above 8.0. | Read it again on fresh water, then ask who made the filter." },
    { why: "chlorine alone", given: { ...good, "total chlorine": 0.2 }, says: "6: Total chlorine 0.2 mg/L is above 0.0 mg/L. | A carbon filter takes chlorine out." },
    { why: "too hard, and chlorine", given: { ...hard, "total chlorine": 0.2 }, says: "3: Total hardness 250 mg/L CaCO3 is above 175 mg/L CaCO3; alkalinity 190 mg/L CaCO3 is above 70 mg/L CaCO3: blend 29 % raw with water without minerals. | Check hardness, alkalinity and pH of the blend at the tap. Total chlorine 0.2 mg/L is above 0.0 mg/L." },
    { why: "a hair above", given: { ...good, "total hardness": 300, alkalinity: 70.04, pH: 8.03 }, says: "3: Total hardness 300 mg/L CaCO3 is above 175 mg/L CaCO3; alkalinity 70.04 mg/L CaCO3 is above 70.00 mg/L CaCO3: blend 58 % raw with water without minerals. | Check hardness, alkalinity and pH of the blend at the tap. pH 8.03 is above 8.00." },
    { why: "own limits are met", given: hard, limits: [{ reportItems: "Total hardness", wantedLow: 100, wantedHigh: 300 }, { reportItems: "alkalinity", wantedLow: null, wantedHigh: 250 }], says: "2: Inside all 3 ranges. | Ranges are conventions: taste decides." },
    { why: "own limits are not met", given: good, limits: [{ reportItems: "Brewing water: alkalinity", wantedLow: 60, wantedHigh: 80 }], says: "4: Alkalinity 50 mg/L CaCO3 is below 60 mg/L CaCO3: see the recipe. | Its salts go into pure water, by ESPRESSO.WATER.RECIPE; never dose a plumbed line." },
    { why: "an own limit for dissolved solids", given: good, limits: [{ reportItems: "dissolved solids", wantedLow: null, wantedHigh: 120 }], says: "6: Dissolved solids 140 mg/L is above 120 mg/L. | Read it again on fresh water, then ask who made the filter." },
  ])("$why", ({ given, limits, says }) => expect(advised("taste", given, undefined, limits)).toBe(says));
});

describe("scale", () => {
  it.each<Case>([
    { why: "nothing typed", given: {}, says: "1: Also needs calcium hardness, alkalinity and pH. | A report of the supplier or a drop test tells." },
    { why: "no alkalinity", given: without(hard, "alkalinity"), says: "1: Also needs alkalinity. | A report of the supplier or a drop test tells." },
    { why: "water that dissolves", given: { ...good, "calcium hardness": 20, alkalinity: 20, pH: 6.5 }, says: "2: None up to 90 °C; hotter is not known. | Keep to the limits of the machine's maker all the same." },
    { why: "water without calcium", given: { ...good, "calcium hardness": 0 }, says: "2: None up to 90 °C; hotter is not known. | Keep to the limits of the machine's maker all the same." },
    { why: "hard water, litres unknown", given: hard, says: "3: Up to 64 mg/L CaCO3 of scale at 90 °C; hotter, more. | Soften or blend ahead of the machine, inside its maker's limits." },
    { why: "hard water, 30 L a day", given: hard, litres: 30, says: "3: Up to 58 g of scale a month at 90 °C; hotter, more. | Soften or blend ahead of the machine, inside its maker's limits." },
    { why: "hard water by its total hardness alone", given: without(hard, "calcium hardness", "dissolved solids"), litres: 30, says: "3: Up to 71 g of scale a month at 90 °C; hotter, more. | Soften or blend ahead of the machine, inside its maker's limits." },
    { why: "hard water with a filter", given: { ...hard, "filter capacity": 2000, "filter hardness": 178, "filter bypass": 20 }, litres: 30, says: "3: Up to 58 g of scale a month at 90 °C; hotter, more. The filter lasts 1780 L. | Soften or blend ahead of the machine, inside its maker's limits." },
    { why: "a little scale", given: { ...good, pH: 7.9 }, litres: 20, says: "3: Up to 1.6 g of scale a month at 90 °C; hotter, more. | Soften or blend ahead of the machine, inside its maker's limits." },
    { why: "more scale at the tap than hot", given: { ...good, "calcium hardness": 60, alkalinity: 20, pH: 9.8, temperature: 10 }, litres: 20, says: "3: Up to 4.7 g of scale a month at 10 °C. | Soften or blend ahead of the machine, inside its maker's limits." },
    { why: "a pH outside the equation", given: { ...hard, pH: 10.5 }, says: "4: ph 10.5 is outside 5 to 10, the range of this formula's source. | A report of the supplier or a drop test tells." },
  ])("$why", ({ given, litres, limits, says }) => expect(advised("scale", given, litres, limits)).toBe(says));
});

describe("corrosion", () => {
  const limits = [{ reportItems: "Chloride", wantedLow: null, wantedHigh: 30 }];
  it.each<Case>([
    { why: "nothing typed", given: {}, says: "1: Also needs chloride, sulfate, alkalinity, pH and total hardness. | A report of the supplier or a drop test tells." },
    { why: "no sulfate", given: without(good, "sulfate"), says: "1: Also needs sulfate. | A report of the supplier or a drop test tells." },
    { why: "chloride over the limit, though sulfate is missing", given: { chloride: 60 }, limits, says: "2: Chloride 60 mg/L is over your limit of 30 mg/L: blend. | With water from reverse osmosis: softening leaves chloride in." },
    { why: "chloride at the limit", given: { ...hard, chloride: 30 }, limits, says: "5: Nothing found; that is no proof of safety. | The maker's limits and local codes come first." },
    { why: "much chloride without a limit", given: { ...hard, chloride: 60 }, says: "5: Nothing found; that is no proof of safety. | The maker's limits and local codes come first." },
    { why: "much chloride and sulfate for the alkalinity", given: { ...good, chloride: 30, sulfate: 40 }, says: "3: Much chloride and sulfate for the alkalinity: ask the machine's maker. | Give the maker chloride, sulfate and alkalinity." },
    { why: "water that dissolves", given: { ...good, "calcium hardness": 20, alkalinity: 40, pH: 6.5, chloride: 5, sulfate: 5 }, says: "4: It dissolves scale, cold and at 90 °C: ask the machine's maker. | Give the maker hardness, alkalinity and pH." },
    { why: "water without calcium", given: { ...good, "calcium hardness": 0, chloride: 5, sulfate: 5 }, says: "4: It dissolves scale, cold and at 90 °C: ask the machine's maker. | Give the maker hardness, alkalinity and pH." },
    { why: "nothing found", given: hard, says: "5: Nothing found; that is no proof of safety. | The maker's limits and local codes come first." },
    { why: "a pH outside the equation", given: { ...hard, pH: 10.5 }, says: "6: ph 10.5 is outside 5 to 10, the range of this formula's source. | A report of the supplier or a drop test tells." },
  ])("$why", ({ given, limits: own, says }) => expect(advised("corrosion", given, undefined, own)).toBe(says));
});

it("speaks the units of the workbook, though amounts come in those of STANDARD", () => {
  const units = { ...defaultUnits, hardness: "dH", alkalinity: "mmol/L", temperature: "F", mass: "oz", watervolume: "gal" } as const;
  const advice = waterAdvice({ items: Object.keys(hard), amounts: Object.values(hard), litres: 30 });
  expect(advice.map(({ sentence }) => worded(sentence, units))).toEqual([
    "Total hardness 14.01 °dH is above 9.81 °dH; alkalinity 3.80 mmol/L is above 1.40 mmol/L: blend 29 % raw with water without minerals.",
    "Up to 2.04 oz of scale a month at 194 °F; hotter, more.",
    "Nothing found; that is no proof of safety.",
  ]);
});

describe("items", () => {
  it("are known by the names of STANDARD, with unit or without", () => {
    expect(advised("taste", { "Brewing water: total hardness, mg/L CaCO3": 80, "BREWING WATER: ALKALINITY": 50, "ph ": 7 })).toMatch(/^2: /);
  });

  it("that are unknown, or stand there twice, are refused with their place", () => {
    expect(problemOf(() => waterAdvice({ items: ["pH", "Iron"], amounts: [7, 1] })).message).toMatch(/^items, entry 2, “Iron” is none of the items known here: total hardness, /);
    expect(problemOf(() => waterAdvice({ items: ["pH", "ph"], amounts: [7, 7] })).message).toContain("entry 2, “ph” stands there twice");
    expect(problemOf(() => waterAdvice({ items: [], amounts: [], limits: [{ reportItems: "alkalinity", wantedLow: 80, wantedHigh: 40 }] })).message).toContain("limits, row 1, “alkalinity” has a low end above its high end");
  });
});
