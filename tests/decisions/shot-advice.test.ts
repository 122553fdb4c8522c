import { describe, expect, it } from "vitest";
import { grindAdvice } from "../../shared/decisions/grind-advice.ts";
import { shotAdvice, type ShotLog } from "../../shared/decisions/shot-advice.ts";
import { shotCheck, type CoffeeTargets, type Tolerances } from "../../shared/log/targets.ts";
import type { Cell } from "../../shared/reading.ts";
import type { Setting } from "../../shared/settings.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { worded } from "../../src/sheet/wording.ts";

/** Day, coffee, setting, dose, beverage, time, strength. */
type Row = readonly [Setting | null, Setting | null, Setting | null, Cell, Cell, Cell, Cell?];

const house: CoffeeTargets = { targetCoffees: ["House", "Guest"], doseTargets: [18, 19], beverageTargets: [36, 45], timeTargets: [27, 30] };
const unnamed: CoffeeTargets = { targetCoffees: [null], doseTargets: [18], beverageTargets: [36], timeTargets: [27] };
const noTargets: CoffeeTargets = { targetCoffees: [null], doseTargets: [null], beverageTargets: [null], timeTargets: [null] };
const tolerances: Tolerances = { doseTolerance: 0.3, beverageTolerance: 2, tolerance: 3 };

function logOf(rows: readonly Row[], targets: CoffeeTargets = house): ShotLog {
  const column = <T>(index: number): T[] => rows.map((row) => (row[index] ?? null) as T);
  return { days: column(0), coffees: column(1), settings: column(2), dose: column(3), beverage: column(4), time: column(5), strength: column(6), ...targets };
}

function said(rows: readonly Row[], targets?: CoffeeTargets, asked = tolerances): string {
  const { branch, sentence } = shotAdvice(logOf(rows, targets))(asked);
  return `${branch}: ${worded(sentence, defaultUnits)}`;
}

/** Three mornings: each another level, each step of 0.1 some 9 % of the time. Day and coffee stand only where they begin. */
const mornings: readonly Row[] = [
  ["Mon", "House", 2.3, 18, 36, 24.5], [null, null, 2.1, 18, 36, 29.4], [null, null, 2.25, 18, 36, 25.1],
  ["Tue", null, 2.3, 18, 36, 29.3], [null, null, 2.4, 18, 36, 27.1], [null, null, 2.35, 18, 36, 27.9],
  ["Wed", null, 2.4, 18, 36, 25.5], [null, null, 2.2, 18, 36, 30.1], [null, null, 2.3, 18, 36, 27.9],
];
const earlier = {
  days: ["Mon", "Mon", "Mon", "Tue", "Tue", "Tue", "Wed", "Wed", "Wed"],
  settings: mornings.map((row) => row[2] as number), times: mornings.map((row) => row[5] as number),
};
const advised = (setting: number[], time: number[]): string => {
  const { branch, sentence } = grindAdvice({ setting, time, ...earlier })({ target: 27, tolerance: 3 });
  return `${branch}: ${worded(sentence, defaultUnits)}`;
};
const today = (...rows: readonly Row[]): readonly Row[] => [...mornings, ...rows];

describe("the last shot of a log", () => {
  it.each<{ why: string; rows: readonly Row[]; targets?: CoffeeTargets; asked?: Tolerances; says: string }>([
    { why: "nothing yet", rows: [[null, null, null, null, null, null]], says: "1: Type coffee, setting, dose, beverage and time." },
    { why: "a coffee without a target", rows: [["Mon", "New one", 2, 18, 36, 27]], says: "2: Give New one a target." },
    { why: "no target at all, and no name", rows: [["Mon", null, 2, 18, 36, 27]], targets: noTargets, says: "2: Give the coffee a target." },
    { why: "no name where two coffees have targets", rows: [["Mon", null, 2, 18, 36, 27]], says: "2: Give the coffee a target." },
    { why: "a swapped entry", rows: [["Mon", "House", 2, 36, 18, 27]], says: "3: Check the last shot: Dose and beverage look swapped: 18 g and 36 g? No advice from it." },
    { why: "a text that is no number", rows: [["Mon", "House", 2, "heavy", 36, 27]], says: "3: Check the last shot: Dose is not a number: “heavy” is not a mass. Write it as a number, or as 18.2 g. No advice from it." },
    { why: "a heavy dose", rows: [["Mon", "House", 2, 18.6, 36, 35]], says: "4: Dose 0.6 g heavy: weigh again first." },
    { why: "a light dose", rows: [["Mon", "House", 2, 17.4, 36, 27]], says: "4: Dose 0.6 g light: weigh again first." },
    { why: "a heavy cup", rows: [["Mon", "House", 2, 18, 40, 30]], says: "5: Cup 4.0 g heavy: stop at 36.0 g, same setting." },
    { why: "a light cup of the other coffee", rows: [["Mon", "guest ", 2, 19, 42, 30]], says: "5: Cup 3.0 g light: stop at 45.0 g, same setting." },
    { why: "on target", rows: [["Mon", "House", 2.3, 18, 36, 27.5]], says: "6: On target: 27.5 s. Leave 2.3." },
    { why: "at the edge of what it may be", rows: [["Mon", "House", 2.3, 18.3, 38, 30]], says: "6: On target: 30 s. Leave 2.3." },
    { why: "on target, the setting a name", rows: [["Mon", "House", "fine", 18, 36, 28]], says: "6: On target: 28 s. Leave the grinder." },
    { why: "slow, the setting a name", rows: [["Mon", "House", "fine", 18, 36, 33]], says: "14: 6 s slow. With the setting as a number beside it, the next one can be told." },
    { why: "fast, no setting", rows: [["Mon", "House", null, 18, 36, 22]], says: "14: 5 s fast. With the setting as a number beside it, the next one can be told." },
    { why: "slow without earlier days", rows: [["Mon", "House", 2.3, 18, 36, 33]], says: "8: 6 s slow. One step coarser; the log cannot say how far." },
    { why: "one coffee without names", rows: [[null, null, 2.3, 18, 36, 27]], targets: unnamed, says: "6: On target: 27 s. Leave 2.3." },
    { why: "one coffee with a name, its shots without", rows: [[null, null, 2.3, 18, 36, 27]], targets: { ...unnamed, targetCoffees: ["House"] }, says: "6: On target: 27 s. Leave 2.3." },
    { why: "blank cells that a host hands over as 0", rows: [["Mon", "House", 2.3, 18, 36, 27], [0, 0, 2.3, 18, 36, 28]], says: "6: On target: 28 s. Leave 2.3." },
    { why: "a shot of which only the dose is typed", rows: today([null, null, 2.3, 18, null, null]), says: "13: The last shot still lacks its beverage and time." },
    { why: "a shot whose time runs", rows: today([null, null, 2.3, 18, 36, null]), says: "13: The last shot still lacks its time." },
    { why: "a wrong number in an unfinished row", rows: today([null, null, 2.3, 182, null, null]), says: "3: Check the last shot: Dose 182 g looks like a slipped decimal point: 18.2 g? Or: dose 182 g looks weighed with the portafilter or a cup. Beverage is blank or 0. Time is blank or 0. No advice from it." },
    { why: "no time wanted", rows: [["Mon", "House", 2, 18, 36, 27]], targets: { ...house, timeTargets: [null, null] }, says: "2: Give the time that you want, and how far off it may be." },
    { why: "no tolerance of the time", rows: [["Mon", "House", 2, 18, 36, 27]], asked: {}, says: "2: Give the time that you want, and how far off it may be." },
    { why: "weights that nobody judges", rows: [["Mon", "House", 2, 19, 39, 27]], asked: { tolerance: 3 }, says: "6: On target: 27 s. Leave 2." },
    { why: "a text that can be read", rows: [["Mon", "House", 2.3, "18 g", 36, "27s"]], says: "6: On target: 27 s. Leave 2.3." },
  ])("$why", ({ rows, targets, asked, says }) => expect(said(rows, targets, asked)).toBe(says));

  it("is advised on by all shots of its day and by the days before, as GRIND.ADVICE would", () => {
    const rows = today(["Thu", null, 2.3, 18, 36, 30.3], [null, null, 2.3, 18, 36, 30.2], [null, null, 2.3, 18, 36, 30.1]);
    expect(said(rows)).toBe(advised([2.3, 2.3, 2.3], [30.3, 30.2, 30.1]));
    expect(said(rows)).toMatch(/^12: 3\.1 s slow\. Next: 2\.4/);
  });

  it("leaves out shots of the day that were weighed wrong, doubtful ones and those of another coffee", () => {
    const rows = today(
      ["Thu", null, 2.3, 18, 36, 30.3], [null, null, 2.3, 19, 36, 40], [null, null, 2.3, 18, 41, 39], [null, null, 2.3, 18, 36, 270],
      [null, "Guest", 1.8, 19, 45, 30], [null, "House", 2.3, 18, 36, 30.2],
    );
    expect(said(rows)).toBe(advised([2.3, 2.3], [30.3, 30.2]));
  });

  it("is not advised on by a shot of an earlier day that looks wrong", () => {
    const rows: readonly Row[] = [...mornings.slice(0, 3), ["Mon", null, 2.0, 18, 36, 260], ...mornings.slice(3), ["Thu", null, 2.3, 18, 36, 31]];
    expect(said(rows)).toBe(advised([2.3], [31]));
  });
});

describe("every shot against its target", () => {
  const checked = (rows: readonly Row[], targets: CoffeeTargets = house, asked = tolerances) =>
    shotCheck({ ...logOf(rows, targets), ...asked }).map(({ wantedTime, words }) => [wantedTime, worded(words, defaultUnits)]);

  it("says what is off, and nothing of a shot on target or a blank row", () => {
    expect(checked([
      ["Mon", "House", 2, 18, 36, 27, 9.5], [null, null, 2, 18.6, 33, 35, 9.4], [null, "Guest", 2, 19, 45, 24.5, 8], [null, null, null, null, null, null], [null, "Other", 2, 18, 36, 27, 9.6],
    ])).toEqual([
      [27, ""], [27, "Dose 0.6 g heavy · Cup 3.0 g light · Time 8.0 s long"], [30, "Time 5.5 s short"], ["", ""], ["", "No target for this coffee."],
    ]);
  });

  it("says what looks wrong before what is off", () => {
    expect(checked([["Mon", "House", 2, 36, 18, 27, 9.5]])).toEqual([[27, "Dose and beverage look swapped: 18 g and 36 g?"]]);
  });

  it("judges only what it is told how far off it may be", () => {
    expect(checked([["Mon", "House", 2, 19, 39, 40, 9.5]], house, { tolerance: 3 })).toEqual([[27, "Time 13 s long"]]);
  });
});
