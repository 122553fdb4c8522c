/** What stands at the top of a ready sheet, calculated by the grid's engine: the sentence of the function behind it, on made figures. */
import { describe, expect, it } from "vitest";
import { compareDecision } from "../shared/decisions/trial.ts";
import type { Words } from "../shared/words.ts";
import { demo } from "../src/ready-sheets/demo.ts";
import { settingTrial } from "../src/ready-sheets/setting-trial.ts";
import type { Figures } from "../src/ready-sheets/ready-sheet.ts";
import { defaultUnits, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { worded } from "../src/sheet/wording.ts";
import { calculatedSheet } from "./ready-sheet-engine.ts";

type Column = readonly (number | string | undefined)[];

async function lines(figures: Figures | "none", units: UnitChoice = defaultUnits): Promise<string[]> {
  const sheet = await calculatedSheet("Trial", { figures, units });
  return ["A2", "A3", "A4", "A5"].map((at) => String(sheet.value(at) ?? ""));
}

const trialOf = (columns: Readonly<Record<string, Column>>, cells: Figures["cells"] = {}): Figures => ({ cells: { repeats: 3, ...cells }, columns: { "": columns } });

/** The decision of the function itself for extractions, and tastes of one taster. */
function decided(settings: readonly number[], extraction: readonly number[], taste?: readonly number[]): { decision: string; sure: string } {
  const outcomes = taste ? ["Taste 1", "Extraction, %"] : ["Extraction, %"];
  const results = taste ? [taste, extraction] : [extraction];
  const runs = settings.map((_, index) => index + 1);
  const rows = compareDecision({ settings, results, outcomes, unit: "°C", worth: outcomes.map(() => 0.5), runs });
  const text = (words: Words) => worded(words, defaultUnits);
  return { decision: text(rows[0]!.decision), sure: text(rows[0]!.sure) };
}

/** Doses of 18 g and beverages of 36 g, so that extraction is twice the strength. */
const shots = (settings: readonly (number | string)[], strength: readonly number[], more: Readonly<Record<string, Column>> = {}) => ({
  Setting: settings, Morning: settings.map(() => 1), Dose: settings.map(() => 18), Beverage: settings.map(() => 36), Time: settings.map(() => 27),
  Strength: strength, ...more,
});

describe("the setting trial", () => {
  it("says what to type while there is nothing", async () => {
    expect(await lines("none")).toEqual(["Type what you vary and the settings; pull in the order shown.", "", "", ""]);
  });

  it("names the setting to keep, how sure that is and what to try next, in the words of the function", async () => {
    const settings = [91, 88, 94, 88, 94, 91, 94, 88, 91];
    const strength = [9.8, 9.5, 10.2, 9.52, 10.18, 9.83, 10.21, 9.47, 9.79];
    const { decision, sure } = decided(settings, strength.map((value) => 2 * value));
    expect(decision).toMatch(/^For most extraction, 94 °C\./);
    const [first, second, third] = await lines(trialOf(shots(settings, strength)));
    expect(first).toBe(decision);
    expect(second!.startsWith(sure)).toBe(true);
    expect(second).toContain("Nothing above 94 °C was tried");
    expect(third).toBe("");
  });

  it("takes names as settings, and claims nothing where chance would do", async () => {
    const settings = ["A", "B", "A", "B", "B", "A", "B", "A"];
    const [first, second] = await lines(trialOf(shots(settings, [9.6, 9.7, 9.8, 9.5, 9.75, 9.62, 9.58, 9.72]), { unit: "", repeats: 4 }));
    expect(first).toMatch(/^Treat them alike in extraction/);
    expect(second).not.toMatch(/Use|keep/);
  });

  it("lets taste speak first, and says beside it what gives most extraction", async () => {
    const settings = [91, 88, 94, 88, 94, 91, 94, 88, 91];
    const strength = [9.8, 9.5, 10.2, 9.52, 10.18, 9.83, 10.21, 9.47, 9.79];
    const taste = [7, 6, 6.1, 6.1, 6, 7.1, 6.2, 5.9, 7.2];
    const [first, , third] = await lines(trialOf(shots(settings, strength, { "Taste 1": taste })));
    expect(first).toBe(decided(settings, strength.map((value) => 2 * value), taste).decision);
    expect(first).toMatch(/^Use 91 °C\./);
    expect(third).toMatch(/^For most extraction, 94 °C\..*Where they part, go by taste\.$/);
  });

  it("waits for the shots that are planned, and counts lost ones as in", async () => {
    const settings = [91, 88, 88, 91];
    const plan = { Plan: { "To try": [88, 91] } };
    const figures = (note: Column): Figures => ({ cells: { repeats: 3 }, columns: { ...plan, "": { ...shots(settings, [9.8, 9.5, 9.52, 9.83]), Note: note } } });
    expect((await lines(figures([])))[0]).toBe("4 of 6 shots in. The answer comes with the last.");
    expect((await lines(figures([undefined, undefined, undefined, undefined, "lost", "lost"])))[0]).not.toContain("in. The answer");
  });

  it("says the same in ounces, clock cells and percent cells", async () => {
    const units = { ...defaultUnits, mass: "oz", percent: "cell", time: "clock" } as UnitChoice;
    expect(await lines(settingTrial.example, units)).toEqual(await lines(settingTrial.example));
  });

  it("compares at equal time where shots were brought back to it, and only there", async () => {
    const settings = [91, 88, 88, 91, 91, 88];
    const pulled = shots(settings, [9.8, 9.5, 9.52, 9.83, 9.79, 9.49], { Time: [27, 27.5, 26.5, 26, 28, 27] });
    const figures = (redialled: string): Figures => trialOf(pulled, { redialled });
    expect((await lines(figures("yes")))[1]).toContain("At 27 s for all");
    expect((await lines(figures("no")))[1]).not.toContain("27 s for all");
  });
});

describe("the trial that the page opens with", () => {
  const { figures } = demo.find(({ id }) => id === "Trial")!;

  it("finds by its mornings what is lost where they are forgotten", async () => {
    const [first, , third, fourth] = await lines(figures);
    expect(first).toMatch(/^Use 5 s\./);
    expect(third).toMatch(/^For most extraction, keep to 5 or 8 s/);
    expect(fourth).toContain("The mixed order spreads it; warm up longer.");
    const rows = (figures.columns![""] as Record<string, Column>).Dose!;
    const forgotten = await lines({ ...figures, columns: { ...figures.columns, "": { ...figures.columns![""], Morning: rows.map(() => 1) } } });
    expect(forgotten[0]).toMatch(/^No difference/);
  });
});
