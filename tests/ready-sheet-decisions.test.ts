/** What stands at the top of a ready sheet, calculated by the grid's engine: the sentence of the function behind it, on made figures. */
import { describe, expect, it } from "vitest";
import { grindAdvice } from "../shared/decisions/grind-advice.ts";
import { tasteAdvice, tasteRanksAdvice } from "../shared/decisions/taste-advice.ts";
import { compareDecision } from "../shared/decisions/trial.ts";
import type { Words } from "../shared/words.ts";
import { demo } from "../src/ready-sheets/demo.ts";
import { shotAdvice } from "../shared/decisions/shot-advice.ts";
import { shotCheck } from "../shared/log/targets.ts";
import { shotLog } from "../src/ready-sheets/shot-log.ts";
import { morning } from "../src/ready-sheets/morning.ts";
import { settingTrial } from "../src/ready-sheets/setting-trial.ts";
import type { Figures } from "../src/ready-sheets/ready-sheet.ts";
import { describedReadySheet, readySheetIds, type ReadySheetId } from "../src/ready-sheets/index.ts";
import { isFunctionName, partsOf } from "../src/sheet/formula-text.ts";
import { defaultUnits, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { worded } from "../src/sheet/wording.ts";
import { Engine } from "./grid-repairs/engine.ts";
import { calculatedSheet } from "./ready-sheet-engine.ts";

type Column = readonly (number | string | undefined)[];

async function said(id: ReadySheetId, figures: Figures | "none" | "example", cells: readonly string[], units: UnitChoice = defaultUnits): Promise<string[]> {
  const sheet = await calculatedSheet(id, { figures, units });
  return cells.map((at) => String(sheet.value(at) ?? ""));
}

const lines = (figures: Figures | "none", units?: UnitChoice): Promise<string[]> => said("Trial", figures, ["A2", "A3", "A4", "A5"], units);

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

describe("the morning", () => {
  const answer = (figures: Figures | "none" | "example") => said("Morning", figures, ["A2", "A3"]);

  it("asks for shots while there are none", async () => {
    const [setting, sentence] = await answer("none");
    expect(setting).toBe("–");
    expect(sentence).toMatch(/^Pull/);
  });

  it("puts the next setting large above its sentence, from the shot of today and the mornings before", async () => {
    const [setting, sentence] = await answer("example");
    const { columns } = morning.example as { columns: Record<string, Record<string, number[] & string[]>> };
    const earlier = columns.Earlier!;
    const log = { settings: earlier.Setting!, times: earlier.Time!, days: earlier.Day! };
    const advice = grindAdvice({ setting: [2.3], time: [31], ...log })({ target: 27, tolerance: 2 });
    expect(sentence).toBe(worded(advice.sentence, defaultUnits));
    expect(sentence).toContain(`Next: ${setting},`);
    expect(sentence).toMatch(/^4\.0 s slow\. Next: 2\.\d/);
  });

  it("leaves the grinder alone on target", async () => {
    expect(await answer({ columns: { "": { Setting: [2.3], Time: [27.5] } } })).toEqual(["2.3", "On target: 27.5 s. Leave 2.3."]);
  });
});

describe("the dial-in", () => {
  type Shots = readonly (readonly [day: string, setting: number, time: number])[];
  const figures = (shots: Shots, cells: Figures["cells"] = {}): Figures => ({
    cells,
    columns: { "": { Day: shots.map(([day]) => day || undefined), Setting: shots.map(([, setting]) => setting), Time: shots.map(([, , time]) => time) } },
  });
  const one = (...shots: readonly (readonly [number, number])[]): Shots => shots.map(([setting, time]) => ["", setting, time]);
  const logged: Shots = [["Mon", 2.3, 24.5], ["Mon", 2.1, 29.5], ["Mon", 2.25, 25], ["Tue", 2.3, 29.5], ["Tue", 2.4, 27], ["Tue", 2.35, 28]];

  it.each<{ why: string; shots: Shots; says: RegExp }>([
    { why: "nothing typed", shots: [], says: /^Pull a shot at each of two settings\.$/ },
    { why: "one setting", shots: one([2.3, 25], [2.3, 26]), says: /^All at 2\.3: change one step, pull again\.$/ },
    { why: "two shots, wanted beyond both", shots: one([2.3, 22], [2.1, 25]), says: /^27 s is outside both\. Pull a third finer than 2\.1\.$/ },
    { why: "two shots around it", shots: one([2.3, 25], [2.1, 30]), says: /^Start at 2\.2\d?\. A third tells how sure\.$/ },
    { why: "no line", shots: one([2.3, 25], [2.1, 30], [2.2, 24], [2.0, 26]), says: /^Time does not clearly follow the grind\./ },
    { why: "longer than any tried", shots: one([2.6, 20], [2.5, 21.5], [2.4, 23], [2.3, 24.5]), says: /^27\.0 s is longer than any tried\. Go finer than 2\.3\.$/ },
    { why: "sure", shots: one([2.8, 19.5], [2.6, 22], [2.4, 25.5], [2.2, 29.5], [2.0, 34], [2.3, 27.3]), says: /^Set 2\.3\d? \(.* to .*\): 2\d\.\d to 2\d\.\d s, 19 shots in 20\.$/ },
    { why: "not so sure", shots: one([2.8, 20], [2.6, 22], [2.4, 27], [2.2, 29]), says: /it may take .* s\. Pull two more\.$/ },
    { why: "several days, on target today", shots: [...logged, ["Wed", 2.3, 27.5]], says: /^On target: 27\.5 s\. Leave 2\.30\.$/ },
    { why: "several days, slow today", shots: [...logged, ["Wed", 2.3, 31]], says: /^4\.0 s slow\. Next: 2\.\d/ },
    { why: "several days, several shots today", shots: [...logged, ["Wed", 2.3, 31], ["Wed", 2.3, 24]], says: /but today averages|shots together/ },
  ])("says what the function says: $why", async ({ shots, says }) => {
    const today = new Set(shots.map(([day]) => day)).size > 1 ? shots.at(-1)![0] : null;
    const [now, log] = [shots.filter(([day]) => day === today), shots.filter(([day]) => day !== today)];
    const column = <K extends 0 | 1 | 2>(rows: Shots, index: K) => rows.map((row) => row[index]);
    const advice = grindAdvice({
      setting: column(now, 1), time: column(now, 2), settings: column(log, 1), times: column(log, 2), days: today === null ? undefined : column(log, 0),
    } as Parameters<typeof grindAdvice>[0])({ target: 27, tolerance: 2 });
    const [sentence, reason, next] = await said("DialIn", figures(shots), ["A2", "A3", "G11"]);
    expect(sentence).toBe(worded(advice.sentence, defaultUnits));
    expect(sentence).toMatch(says);
    expect(reason).toMatch(today === null ? /^$/ : /^Today is the last day typed/);
    expect(next).toBe(String(advice.setting));
  });

  it("keeps the shots of no day together, in front of a day that is named", async () => {
    const shots: Shots = [...one([2.3, 25], [2.1, 30], [2.2, 27.5]), ["Wed", 2.2, 31]];
    const [sentence] = await said("DialIn", figures(shots), ["A2"]);
    expect(sentence).toMatch(/^4\.0 s slow\./);
  });

  it("speaks clock cells and leaves a shot without a time out", async () => {
    const shots: Shots = one([2.8, 19.5], [2.6, 22], [2.4, 25.5], [2.2, 29.5], [2.0, 34], [2.3, 27.3]);
    const [plain] = await said("DialIn", figures(shots), ["A2"]);
    const [clock] = await said("DialIn", figures(shots), ["A2"], { ...defaultUnits, time: "clock" });
    expect(clock).toBe(plain);
    const { columns } = figures(shots);
    const [untimed] = await said("DialIn", { columns: { "": { ...columns![""], Setting: [...columns![""]!.Setting!, 2.5] } } }, ["A2"]);
    expect(untimed).toBe(plain);
  });
});

describe("the instruments", () => {
  const known = { Reading: [0.04, 5.1, 8.13, 10.22, 12.16], Known: [0, 5, 8, 10, 12] };
  const answer = (columns: Figures["columns"], cells: Figures["cells"] = {}) => said("Instruments", { columns: columns!, cells }, ["A2", "A3"]);

  // By hand, "reads high": the line through the known values has slope 89.11 ÷ 88, and 7 + (9.4 − 7.13) ÷ 1.012614 is 9.242.
  it.each([
    ["nothing read", { "": {} }, {}, /^Read two known solutions, at least\.$/],
    ["two known", { "": { Reading: [0.1, 12.1], Known: [0, 12] } }, {}, /^9\.4 % is about 9\.3 %\. .* Read a third known value\.$/],
    ["reads high", { "": known }, { reading: 9.4 }, /^It reads 0\.16 % too high: take 9\.24 %\.$/],
    ["may stand", { "": { ...known, Reading: [0.2, 4.9, 8.2, 9.8, 12.1] } }, { reading: 9.4 }, /^9\.4 % may stand \(8\.7 to 10\.1 %, 19 in 20\)\.$/],
    ["outside", { "": known }, { reading: 14 }, /^A reading of 14\.00 % has no answer from known values of 0\.00 to 12\.00 %/],
  ] as const)("%s", async (_, columns, cells, sentence) => {
    expect((await answer(columns, cells))[0]).toMatch(sentence);
  });

  it("says what half a point is worth by readings of one cup", async () => {
    const repeats = (readings: number[]) => ({ "": known, Repeat: { Person: readings.map(() => "First"), "Read again": readings } });
    expect((await answer(repeats([])))[1]).toMatch(/^Read one cup three times or more/);
    // By hand: 2 × 18.8 × √((0.1/18)² + (0.1/36)² + (SD/9.4)²); SD 0.02 gives 0.25 points, 0.3 gives 1.22.
    expect((await answer(repeats([9.38, 9.4, 9.42])))[1]).toMatch(/^Half a point of extraction is more than the instruments’ own doubt \(± 0\.25 %, 19 in 20\)\.$/);
    expect((await answer(repeats([9.1, 9.4, 9.7])))[1]).toMatch(/^Half a point of extraction may be the instruments alone \(± 1\.22 %\)/);
  });
});

describe("the tasting panel", () => {
  const answer = (figures: Figures | "none" | "example") => said("Panel", figures, ["A2", "A3"]);
  const scores = (rows: readonly (readonly [string, string, number, number])[]): Figures => ({
    columns: { "": { Taster: rows.map(([taster]) => taster), Cup: rows.map(([, cup]) => cup), "Score 1": rows.map((row) => row[2]), "Score 2": rows.map((row) => row[3]) } },
  });

  it("says what to type while there is nothing", async () => {
    expect(await answer("none")).toEqual(["Type who tastes, the cups and their scores; serve by code.", ""]);
  });

  it("names what differs, attribute by attribute, and how sure that is", async () => {
    const [decision, sure] = await answer("example");
    expect(decision).toMatch(/^Best liked: B\. It got 1\.\d points more than the next, A .*Most sweet: B\./i);
    expect(decision).not.toMatch(/bitter/i);
    expect(sure).toMatch(/^If they were alike, a gap that big would come/);
  });

  it("claims nothing where the cups are alike", async () => {
    const rows = [["1", "A", 6, 5], ["1", "B", 6.5, 4.5], ["2", "A", 7, 5], ["2", "B", 6.5, 6], ["3", "A", 5.5, 4], ["3", "B", 6, 4]] as const;
    expect(await answer(scores(rows))).toEqual(["No attribute is shown to differ between the cups.", ""]);
  });

  it("asks for the taster of each score", async () => {
    expect((await answer({ columns: { "": { Cup: ["A", "B"], "Score 1": [6, 7] } } }))[0]).toBe("Each score needs its taster and its cup.");
  });

  it("waits where there is only one cup", async () => {
    expect((await answer(scores([["1", "A", 6, 5], ["2", "A", 6.5, 4.5]])))[0]).toBe("Only A so far. Serve another cup.");
  });
});

/** In Excel 2010 and every program since, by Microsoft's list of functions with the version that brought them. */
const everywhere = new Set(
  `ABS AND AVERAGE CHOOSE COLUMN COLUMNS COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS FIXED IF IFERROR INDEX INT ISBLANK ISERROR ISNUMBER ISTEXT LARGE LEFT LEN
  LOWER MATCH MAX MEDIAN MID MIN MOD N NA NOT OR RIGHT ROUND ROUNDDOWN ROUNDUP ROW ROWS SMALL STDEV SUBSTITUTE SUM SUMIF SUMIFS SUMPRODUCT TEXT
  TRIM UPPER VALUE VLOOKUP`.split(/\s+/),
);

function functionsOf(id: ReadySheetId): string[] {
  const { cells, spills = {} } = describedReadySheet(id, { units: defaultUnits, figures: "example" });
  const parts = [...Object.values(cells), ...Object.values(spills)].flatMap(({ formula }) => (formula === undefined ? [] : [partsOf(formula)]));
  const names = parts.flatMap((list) => list.filter((_, index) => isFunctionName(list, index)).map(({ text }) => text.toUpperCase()));
  return [...new Set(names)].filter((name) => !name.startsWith("ESPRESSO."));
}

const isVerdict = ({ role }: { readonly role: string }) => ["decision", "verdict", "reason"].includes(role);

describe("a program without the functions that a sheet needs", () => {
  const instead = async (id: ReadySheetId, formulas: (formula: string) => string) => {
    const description = describedReadySheet(id, { units: defaultUnits, figures: "example" });
    const all = [...Object.entries(description.cells), ...Object.entries(description.spills ?? {})];
    const texts = all.flatMap(([at, { formula }]) => (formula === undefined ? [] : [[at, `=${formulas(formula)}`] as const]));
    const sheet = await Engine.openSheet(Object.fromEntries(texts));
    return all.filter(([, cell]) => isVerdict(cell)).map(([at]) => String(sheet.value(at) ?? ""));
  };

  it.each(readySheetIds)("gets words in place of the verdict of %s, not a clear bill", async (id) => {
    // The engine as it comes has FILTER and none of ours.
    const said = await instead(id, (formula) => formula);
    expect(said[0]).toMatch(/^Pucksheet’s functions are not here/);
    expect(said.slice(1).join("")).toBe("");
  });

  it.each(readySheetIds.flatMap((id) => functionsOf(id).filter((name) => !everywhere.has(name)).map((name) => [id, name] as const)))(
    "%s says that the program lacks %s",
    async (id, name) => {
      const said = await instead(id, (formula) => formula.replaceAll("ESPRESSO.VERSION()", "1").replaceAll(`${name}(`, "NOTTHERE("));
      expect(said[0]).toBe(`This program lacks ${name}: open this in Microsoft 365, or in the browser sheet.`);
      expect(said.slice(1).join("")).toBe("");
    },
  );
});

describe("the recipe card", () => {
  const answer = (cells: Figures["cells"], other: { Setting: number[]; Time: number[] } = { Setting: [], Time: [] }, units?: UnitChoice): Promise<string[]> =>
    said("Recipe", { cells, columns: { Other: other } }, ["A2", "A3", "A4"], units);
  const blank = { otherdose: "", diameter: "", otherdiameter: "", bag: "", price: "", currency: "", lost: "" };

  it("asks for dose and beverage", async () => {
    expect(await answer({ ...blank, dose: "" })).toEqual(["Type dose and beverage.", "", ""]);
  });

  it("says the recipe, with the time it may take", async () => {
    expect(await answer({ ...blank, dose: 19, beverage: 38, time: 29, time_tolerance: 2 })).toEqual(["19.0 g in, 38.0 g out, 27 to 31 s.", "", ""]);
    expect(await answer({ ...blank, time_tolerance: 0 })).toEqual(["18.0 g in, 36.0 g out, 27 s.", "", ""]);
    expect(await answer({ ...blank, time: "" })).toEqual(["18.0 g in, 36.0 g out.", "", ""]);
  });

  it.each<{ why: string; cells: Figures["cells"]; says: string }>([
    { why: "diameters unknown", cells: { otherdose: 20 }, says: "For its grind type the inner diameters, or shots." },
    { why: "more coffee in the same diameter", cells: { otherdose: 20, diameter: 58, otherdiameter: 58 }, says: "A deeper puck: begin coarser, and type those shots." },
    { why: "less coffee in the same diameter", cells: { otherdose: 16, diameter: 58, otherdiameter: 58 }, says: "A shallower puck: begin finer, and type those shots." },
    // 18 × (60 ÷ 58)² g are as deep in 60 mm as 18 g in 58 mm.
    { why: "as deep in a wider basket", cells: { otherdose: 19.3, diameter: 58, otherdiameter: 60 }, says: "A puck as deep: begin where you are, and type those shots." },
  ])("tells of the grind in another basket no more than is known: $why", async ({ cells, says }) => {
    const [, other] = await answer({ ...blank, ...cells });
    expect(other).toBe(`Other basket: ${cells!.otherdose as number}${Number.isInteger(cells!.otherdose) ? ".0" : ""} g in, ${(2 * (cells!.otherdose as number)).toFixed(1)} g out. ${says}`);
  });

  it("names a grind only from shots of that basket", async () => {
    const [settings, times] = [[2.2, 2.4, 2.3, 2.5], [31.5, 26, 28.5, 24]];
    const advice = worded(grindAdvice({ setting: [], time: [], settings, times })({ target: 27, tolerance: 2 }).sentence, defaultUnits);
    expect(advice).toMatch(/^(Set|Start at) 2\.3/);
    const [, other] = await answer({ ...blank, otherdose: 20, diameter: 58, otherdiameter: 58 }, { Setting: settings, Time: times });
    expect(other).toBe(`Other basket: 20.0 g in, 40.0 g out. ${advice}`);
  });

  it("counts the cups of a bag and what the coffee of one costs", async () => {
    // 1,000 g less 4 % are 53.3 doses of 18 g; 22 ÷ 960 × 18 = 0.4125.
    const bag = { ...blank, bag: 1000, lost: 4 };
    expect((await answer(bag))[2]).toBe("53 cups a bag.");
    expect((await answer({ ...bag, price: 22 }))[2]).toBe("0.41 of coffee a cup, 53 cups a bag.");
    expect((await answer({ ...bag, price: 22, currency: "euros" }))[2]).toBe("0.41 euros of coffee a cup, 53 cups a bag.");
    const other = await answer({ ...bag, price: 22, currency: "euros" }, undefined, { ...defaultUnits, mass: "oz", percent: "cell", time: "clock" });
    expect(other).toEqual(["0.635 oz in, 1.270 oz out, 25.0 to 29.0 s.", "", "0.41 euros of coffee a cup, 53 cups a bag."]);
    // As many as the bag gives exactly.
    expect((await answer({ ...blank, bag: 900 }))[2]).toBe("50 cups a bag.");
  });
});

describe("the tasting session", () => {
  const answers = (yes: number, no: number) => [...Array.from({ length: yes }, () => "yes"), ...Array.from({ length: no }, () => "no")];
  const ranks = (rows: readonly (readonly number[])[]) => Object.fromEntries(["A", "B", "C"].map((letter, column) => [letter, rows.map((row) => row[column]!)]));
  const answer = (figures: Figures) => said("Tasting", figures, ["A2", "A3", "T11", "U15"]);

  it.each<{ cells: { tasters?: number; significance?: number }; yes: number; no: number }>([
    { cells: {}, yes: 0, no: 0 },
    { cells: { tasters: 2 }, yes: 0, no: 0 },
    { cells: {}, yes: 8, no: 0 },
    { cells: {}, yes: 9, no: 3 },
    { cells: {}, yes: 4, no: 8 },
    { cells: { tasters: 24 }, yes: 6, no: 18 },
    { cells: { significance: 0.001 }, yes: 9, no: 3 },
  ])("says which is odd in the words of the function: $yes of $no and $cells", async ({ cells: { tasters = 12, significance = 0.05 }, yes, no }) => {
    const advice = tasteAdvice({ correct: yes, test: "triangle", tasters: yes + no, panel: tasters, significance });
    const [sentence, next, p] = await answer({ cells: { tasters, significance }, columns: { "": { "Odd cup found": answers(yes, no) } } });
    expect([sentence, next]).toEqual([advice.sentence, advice.next]);
    // Nothing is told of the result before all are in.
    expect(p === "").toBe(yes + no < tasters);
  });

  it.each([
    { rows: [[1, 2, 3]], tasters: 4 },
    { rows: [[1, 2, 3], [1, 2, 3], [1, 3, 2]], tasters: 4 },
    { rows: [[1, 2, 3], [2, 3, 1], [3, 1, 2], [1, 3, 2]], tasters: 4 },
    { rows: Array.from({ length: 9 }, (_, row) => (row % 2 === 0 ? [1, 2, 3] : [1, 3, 2])), tasters: 9 },
  ])("says which is liked in the words of the function: $rows", async ({ rows, tasters }) => {
    const advice = tasteRanksAdvice({ ranks: [0, 1, 2].map((column) => rows.map((row) => row[column]!)) })({ panel: tasters });
    const [sentence, next, , sum] = await answer({ cells: { asked: "which is liked", tasters, samples: 3 }, columns: { "": ranks(rows) } });
    expect([sentence, next]).toEqual([advice.sentence, advice.next]);
    expect(sum).toBe(rows.length < tasters ? "" : String(rows.reduce((total, row) => total + row[0]!, 0)));
  });

  it("serves each taster as many codes as the test has cups, all different in a triangle and the same few in a ranking", async () => {
    const codes = async (figures: Figures) => {
      const sheet = await calculatedSheet("Tasting", { figures });
      return Array.from({ length: 4 }, (_, row) => ["C", "D", "E", "F", "G"].map((column) => sheet.value(`${column}${8 + row}`) ?? ""));
    };
    const triangle = await codes({ cells: { tasters: 4 } });
    expect(new Set(triangle.map((row) => row.slice(0, 3)).flat()).size).toBe(12);
    expect(triangle.every((row) => row[3] === "")).toBe(true);
    const ranking = await codes({ cells: { tasters: 4, asked: "which is liked", samples: 4 } });
    for (const row of ranking) expect(new Set(row.slice(0, 4))).toEqual(new Set(ranking[0]!.slice(0, 4)));
    expect(new Set(ranking.flatMap((row) => row.slice(0, 4))).size).toBe(4);
  });
});

describe("the shot log", () => {
  const { columns } = shotLog.example as { columns: Record<string, Record<string, (number | string | undefined)[]>> };
  const log = columns[""]!;
  const cells = (list: readonly (number | string | undefined)[]) => list.map((it) => it ?? null);
  const targets = {
    targetCoffees: ["House", "Guest"], doseTargets: columns.Targets!.Dose as number[], beverageTargets: columns.Targets!.Beverage as number[],
    timeTargets: columns.Targets!.Time as number[],
  };
  const [dose, beverage, time, strength] = ["Dose", "Beverage", "Time", "Strength"].map((heading) => cells(log[heading]!));
  const typed = { dose: dose!, beverage: beverage!, time: time!, strength: strength! };
  const tolerances = { doseTolerance: 0.3, beverageTolerance: 2, tolerance: 3 };

  it("says what to type while there is nothing", async () => {
    expect(await said("ShotLog", "none", ["A2", "N17"])).toEqual(["Type coffee, setting, dose, beverage and time.", "No shot times yet."]);
  });

  it("says what to do with the grinder in the words of the function, each coffee by its own target", async () => {
    const advice = shotAdvice({ days: cells(log.Day!), coffees: cells(log.Coffee!), settings: cells(log.Setting!), ...typed, ...targets })(tolerances);
    expect(advice.branch).toBe(12);
    const units = { ...defaultUnits, mass: "oz", time: "clock", percent: "cell" } as UnitChoice;
    expect(await said("ShotLog", "example", ["A2"])).toEqual([worded(advice.sentence, defaultUnits)]);
    expect(await said("ShotLog", "example", ["A2"], units)).toEqual([worded(advice.sentence, units)]);
  });

  it("says beside each shot what is off, and counts those on target", async () => {
    const checked = shotCheck({ coffees: cells(log.Coffee!), ...typed, ...targets, ...tolerances }).map(({ words }) => worded(words, defaultUnits));
    const places = checked.map((_, row) => `S${8 + row}`);
    expect(await said("ShotLog", "example", places)).toEqual(checked);
    let wanted = 0;
    const timed = (log.Time as number[]).map((it, row) => {
      wanted = { House: 27, Guest: 30 }[log.Coffee![row] as string] ?? wanted;
      return Math.abs(it - wanted) <= 3;
    });
    expect(await said("ShotLog", "example", ["N17"])).toEqual([`${timed.filter(Boolean).length} of the last ${timed.length} on target`]);
  });

  it("keeps one coffee without a name, by the target that stands there at first", async () => {
    const shot = { Setting: [2.3], Dose: [18], Beverage: [36], Time: [27.4] };
    expect(await said("ShotLog", { columns: { "": shot } }, ["A2"])).toEqual(["On target: 27.4 s. Leave 2.3."]);
  });
});
