/** The water sheet, calculated by the grid's engine: its sentences are those of the functions behind it, in any unit of report and workbook. */
import { describe, expect, it } from "vitest";
import { waterAdvice } from "../shared/decisions/water-advice.ts";
import { waterScale } from "../shared/water/scale.ts";
import type { Figures } from "../src/ready-sheets/ready-sheet.ts";
import { water } from "../src/ready-sheets/water.ts";
import { defaultUnits, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { worded } from "../src/sheet/wording.ts";
import { calculatedSheet } from "./ready-sheet-engine.ts";

type Cells = NonNullable<Figures["cells"]>;

const opened = (cells: Cells, units: UnitChoice = defaultUnits) => calculatedSheet("Water", { figures: { cells }, units });

async function lines(cells: Cells, units?: UnitChoice): Promise<string[]> {
  const sheet = await opened(cells, units);
  return ["A2", "A3", "A4", "A5"].map((at) => String(sheet.value(at) ?? ""));
}

/** What the function says of a report in mg/L CaCO3 and mg/L, as the sheet puts it. Treated water is without minerals, and the filter has no bypass, at first. */
function advised(given: Readonly<Record<string, number>>, litres?: number, chloride?: number): string[] {
  const report = { "treated hardness": 0, "treated alkalinity": 0, "filter bypass": 0, ...given };
  const limits = chloride === undefined ? [] : [{ reportItems: "chloride", wantedLow: null, wantedHigh: chloride }];
  const [taste, scale, corrosion] = waterAdvice({ items: Object.keys(report), amounts: Object.values(report), litres, limits });
  const said = (one: typeof taste) => [worded(one!.sentence, defaultUnits), worded(one!.next, defaultUnits)] as const;
  return [`Taste: ${said(taste)[0]}`, said(taste)[1], `Scale: ${said(scale).join(" ")}`, `Corrosion: ${said(corrosion).join(" ")}`];
}

const hard = { hardness: 250, calciumHardness: 200, alkalinity: 190, ph: 7.4, tds: 400, chloride: 30, sulfate: 40 };
const hardReport = { "total hardness": 250, "calcium hardness": 200, alkalinity: 190, pH: 7.4, "dissolved solids": 400, chloride: 30, sulfate: 40 };

describe("the water sheet", () => {
  it("says what to type while there is nothing", async () => {
    expect(await lines({})).toEqual(["Type the report: hardness, alkalinity and pH first.", "", "", ""]);
  });

  const reports: readonly (readonly [string, Cells, Readonly<Record<string, number>>, number?, number?])[] = [
    ["one number only", { hardness: 250 }, { "total hardness": 250 }],
    ["hard water", hard, hardReport],
    ["hard water, and how much is used", { ...hard, litres: 30 }, hardReport, 30],
    ["hard water behind a filter", { ...hard, litres: 30, capacity: 2000, reference: 178, bypass: 20 }, { ...hardReport, "filter capacity": 2000, "filter hardness": 178, "filter bypass": 20 }, 30],
    ["more chloride than the maker allows", { ...hard, chloride: 60, chloridelimit: 50 }, { ...hardReport, chloride: 60 }, undefined, 50],
    ["water inside the ranges", { ...hard, hardness: 80, calciumHardness: 60, alkalinity: 50, ph: 7.2 }, { ...hardReport, "total hardness": 80, "calcium hardness": 60, alkalinity: 50, pH: 7.2 }],
    ["soft water", { hardness: 20, alkalinity: 15, ph: 6.4, tds: 40, chloride: 3, sulfate: 2 }, { "total hardness": 20, alkalinity: 15, pH: 6.4, "dissolved solids": 40, chloride: 3, sulfate: 2 }],
    ["water that was softened", { ...hard, hardness: 10, calciumHardness: 5 }, { ...hardReport, "total hardness": 10, "calcium hardness": 5 }],
    ["much chloride and sulfate", { ...hard, alkalinity: 45, chloride: 60, sulfate: 80 }, { ...hardReport, alkalinity: 45, chloride: 60, sulfate: 80 }],
    ["a pH that no equation takes", { ...hard, ph: 10.6 }, { ...hardReport, pH: 10.6 }],
    ["treated water that has some", { ...hard, treatedhardness: 30, treatedalkalinity: 25 }, { ...hardReport, "treated hardness": 30, "treated alkalinity": 25 }],
  ];
  it.each(reports.map((one) => [one[0], one] as const))("says of %s what the function says", async (_, [, cells, given, litres, chloride]) => {
    expect(await lines(cells)).toEqual(advised(given, litres, chloride));
  });

  it("reads a report in its own units", async () => {
    // 1 °dH is 10 mg/L CaO; 1 mmol/L of hardness and 2 mmol/L of acid capacity are 100.09 mg/L CaCO3.
    const degrees = { ...hard, hardness: 250 / 17.848, hardness_unit: "dH", calciumHardness: 200 / 100.09, calciumHardness_unit: "mmol/L", alkalinity: 190 / 50.04, alkalinity_unit: "mmol/L" };
    const said = await lines(degrees);
    expect(said).toEqual(advised(hardReport));
  });

  it("tells the scale at the tap, at 60 and at 90 °C, a month of it, and where the constants end", async () => {
    const sheet = await opened({ ...hard, temperature: 15, litres: 30 });
    const at = (celsius: number) => waterScale({ ph: 7.4, temperature: 15, calciumHardness: 200, alkalinity: 190, tds: 400, at: celsius }).precipitation;
    for (const [row, celsius] of [[9, 15], [10, 60], [11, 90]] as const) {
      expect(sheet.value(`J${row}`)).toBeCloseTo(celsius, 9);
      expect(sheet.value(`K${row}`)).toBeCloseTo(at(celsius), 6);
      expect(sheet.value(`L${row}`)).toBeCloseTo(Math.max(0, (at(celsius) * 30 * 30) / 1000), 6);
    }
    expect(sheet.value("I12")).toBe("Known to 90.0 °C: brewing and boiler are hotter, and scale more.");
  });

  it("counts the filter's life in litres and days, and the blend as it is set", async () => {
    const sheet = await opened({ ...hard, litres: 30, capacity: 2000, reference: 178, bypass: 20, share: 40, treatedhardness: 10, treatedalkalinity: 5 });
    expect(sheet.value("J16")).toBeCloseTo((2000 * 178) / 250 / 0.8, 6);
    expect(sheet.value("J17")).toBeCloseTo((2000 * 178) / 250 / 0.8 / 30, 6);
    expect([sheet.value("J18"), sheet.value("J19")].map(Number)).toEqual([10 + 0.4 * 240, 5 + 0.4 * 185].map((value) => expect.closeTo(value, 6)));
  });

  it("says the same where the workbook keeps other units, but for the units", async () => {
    const units = { ...defaultUnits, hardness: "dH", alkalinity: "mmol/L", temperature: "F", mass: "oz", watervolume: "gal", percent: "cell" } as UnitChoice;
    const [usual, other] = [await opened(water.example.cells!), await opened(water.example.cells!, units)];
    // Litres are gallons there, grams ounces: the same water, in whole sentences.
    const plain = (text: unknown) => String(text).replace(/[\d.]+ (°dH|mmol\/L|mg\/L CaCO3|US gal|gal|oz|g|L|°F|°C)/g, "#");
    for (const at of ["A2", "A3", "A4", "A5"]) expect(plain(other.value(at)), at).toBe(plain(usual.value(at)));
    expect(Number(other.value("K11")) * 17.848).toBeCloseTo(Number(usual.value("K11")), 3);
    expect(Number(other.value("L11")) * 28.349523125).toBeCloseTo(Number(usual.value("L11")), 4);
    expect(Number(other.value("J17"))).toBeCloseTo(Number(usual.value("J17")), 3);
  });
});
