/** The log audit and its report, calculated by the grid's engine: sentences and counts on made logs, against those of the functions behind them. */
import { describe, expect, it } from "vitest";
import { logVerdict } from "../shared/decisions/log-verdict.ts";
import type { Figures } from "../src/ready-sheets/ready-sheet.ts";
import { defaultUnits, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { calculatedSheet } from "./ready-sheet-engine.ts";
import { chance } from "./simulated-log.ts";

type Cell = number | string | undefined;
type Log = Readonly<Record<"Setting" | "Dose" | "Beverage" | "Time" | "Strength", readonly Cell[]>>;

/** Plausible shots, typed to a tenth, with these times. */
function logOf(times: readonly Cell[], change: Partial<Record<number, Partial<Record<keyof Log, Cell>>>> = {}): Log {
  const column = (heading: keyof Log, value: (row: number) => Cell) =>
    times.map((_, row) => (change[row] && heading in change[row] ? change[row][heading] : value(row)));
  return {
    Setting: column("Setting", () => 2.2), Dose: column("Dose", (row) => 18 + (row % 3) / 10), Beverage: column("Beverage", (row) => 36 + (row % 5) / 10),
    Time: column("Time", (row) => times[row]), Strength: column("Strength", (row) => 9.4 + (row % 4) / 10),
  };
}

const around = (count: number, level: (row: number) => number, spread: number, seed: number): number[] => {
  const luck = chance(seed);
  return Array.from({ length: count }, (_, row) => Math.round(10 * (level(row) + luck.around(0, spread))) / 10);
};

const opened = (log: Partial<Log>, cells: Figures["cells"] = {}, units: UnitChoice = defaultUnits) =>
  calculatedSheet("Audit", { figures: { columns: { "": log }, cells }, units });

async function lines(log: Partial<Log>, cells?: Figures["cells"], units?: UnitChoice): Promise<string[]> {
  const sheet = await opened(log, cells, units);
  const here = ["A2", "A3", "A4", "A5"].map((at) => String(sheet.value(at) ?? ""));
  expect(["A2", "A3", "A4", "A5"].map((at) => String(sheet.value(at, 1) ?? "")), "the report says the same").toEqual(here);
  return here;
}

/** What the function says of these values, as the sheet puts it. */
function expected(
  what: string, values: readonly (number | null)[], wanted: { low: number; high: number; unit: string; excluded?: number }, settings?: readonly Cell[],
): string[] {
  const { steady, centred, tight, next } = logVerdict({ values, settings: settings?.map((one) => one ?? null) })(wanted);
  return [`${what}. ${steady}`, `Centred: ${centred} Tight: ${tight}`, `Next: ${next}`];
}

const time = { low: 24, high: 30, unit: "s" };

describe("the log audit", () => {
  it("says what to paste while there is nothing", async () => {
    const [first, second, third, fourth] = await lines({});
    expect(first).toBe("Paste the log: dose, beverage and time of each shot, as they were kept.");
    expect(second).toMatch(/^Or start this sheet while your log is in sight/);
    expect([third, fourth]).toEqual(["", ""]);
  });

  it.each([
    ["one shot", [27], /^Shot time\. 1 shot: too few\.$/, "Next: Log more."],
    ["a good log", around(40, () => 27, 0.6, 1), /^Shot time\. No movement shown\.$/, "Next: Leave it."],
    ["a slow one", around(30, () => 31, 0.4, 3), /No movement shown\.$/, /^Next: Move the grind once, coarser, for 4\.\d s less\.$/],
    ["a wide one", around(60, () => 27, 2.5, 7), /No movement shown\.$/, "Next: Dose and puck alike first."],
    ["one that moved", around(40, (row) => (row < 25 ? 26 : 30), 0.5, 5), /^Shot time\. Moved: 29\.8 s from shot 26 on, 26\.0 s before\.$/, /^Next: Ask what changed at shot 26/],
    ["one odd shot", around(40, () => 27, 0.4, 9).map((value, row) => (row === 12 ? 35 : value)), /One odd shot, row 13\.$/, "Next: Look at row 13."],
    ["all alike", Array.from({ length: 12 }, () => 27), /All 12 shots read 27 s: their spread cannot be seen\.$/, "Next: Log one more decimal."],
  ] as const)("says of %s what the function says", async (_, times, decision, next) => {
    const [first, second, third] = await lines(logOf(times));
    expect([first, second, third]).toEqual(expected("Shot time", times, time));
    expect(first).toMatch(decision);
    expect(third).toMatch(next);
  });

  it("leaves out and counts what looks wrong, keeps texts that can be read, and says that the setting changed", async () => {
    const times = around(30, (row) => (row >= 18 && row < 22 ? 33 : 27), 0.4, 11);
    const moved = Object.fromEntries([18, 19, 20, 21].map((row) => [row, { Setting: 2.1 }]));
    const log = logOf(times, { ...moved, 3: { Time: `${times[3]} s`, Dose: "18,1 g" }, 6: { Dose: 36, Beverage: 18 }, 9: { Beverage: undefined }, 12: { Time: 0.0188 } });
    const judged = times.map((value, row) => ([6, 9, 12].includes(row) ? null : value));
    const sheet = await opened(log);
    const [first, , third] = expected("Shot time", judged, { ...time, excluded: 3 }, log.Setting);
    expect(sheet.value("A2")).toBe(first);
    expect(first).toContain("the setting changed there");
    expect(sheet.value("A4")).toBe(third);
    expect(sheet.value("A5")).toBe("30 rows, 3 left out for what looks wrong in them.");
    // Row 4 of the log as numbers, and row 7, which is left out.
    expect(["Q12", "S12", "U12"].map((at) => sheet.value(at))).toEqual([18.1, times[3], ""]);
    expect(["Q15", "S15", "U15"].map((at) => sheet.value(at))).toEqual(["", "", "Dose and beverage look swapped: 18 g and 36 g?"]);
    // In the report: the worst first, the text last.
    expect([12, 13, 14, 15, 16].map((row) => [sheet.value(`A${row}`, 1), sheet.value(`B${row}`, 1)])).toEqual(
      [[7, "cannot be"], [13, "cannot be"], [10, "doubtful"], [4, "only text"], [undefined, ""]],
    );
    // By setting: shots that stayed, and the mean time of the four at 2.1.
    expect([32, 33].map((row) => [sheet.value(`A${row}`, 1), sheet.value(`B${row}`, 1)])).toEqual([[2.1, 4], [2.2, 23]]);
    expect(sheet.value("D32", 1)).toBeCloseTo(times.slice(18, 22).reduce((sum, value) => sum + value) / 4, 9);
  });

  it("asks to mend a log of which more than a fifth looks wrong", async () => {
    const times = around(30, () => 27, 0.4, 13);
    const swapped = (count: number) => Object.fromEntries(Array.from({ length: count }, (_, row) => [3 * row, { Dose: 36, Beverage: 18 }]));
    expect((await lines(logOf(times, swapped(7)))).slice(0, 3)).toEqual([
      "Shot time. 7 rows look wrong, beside 23 that can be judged: mend the log first.", "Centred: Not known. Tight: Not known.", "Next: Mend what looks wrong, the worst first.",
    ]);
    expect((await lines(logOf(times, swapped(6))))[0]).toBe("Shot time. No movement shown.");
  });

  it.each([["Dose", "Dose", "g", 17.5, 18.5], ["Beverage", "Beverage", "g", 34, 38], ["Strength", "Strength", "%", 8.5, 10.5]] as const)("judges the %s where that is asked", async (judge, heading, unit, low, high) => {
    const log = logOf(around(30, () => 27, 0.4, 17));
    const [first, second, third] = await lines(log, { judge });
    expect([first, second, third]).toEqual(expected(judge, log[heading] as number[], { low, high, unit }));
  });

  it("says the same in ounces, clock cells and percent cells", async () => {
    const times = around(30, () => 31, 0.4, 3);
    const units = { ...defaultUnits, mass: "oz", percent: "cell", time: "clock" } as UnitChoice;
    expect(await lines(logOf(times), {}, units)).toEqual(await lines(logOf(times)));
  });

  it("takes names as settings, rows without one, and limits that are the wrong way round", async () => {
    const times = around(24, () => 27, 0.4, 19);
    const sheet = await opened(logOf(times, Object.fromEntries(times.map((_, row) => [row, { Setting: row % 2 === 0 ? "A" : undefined }]))));
    expect(["A32", "A33", "B32", "B33"].map((at) => sheet.value(at, 1))).toEqual(["A", "not given", 12, 12]);
    expect(await lines(logOf(times), { time_low: 30, time_high: 24 })).toEqual(["What is wanted is from a lower number to a higher one.", "", "", "24 rows, 0 left out for what looks wrong in them."]);
  });

  it("judges a log of 2,000 rows to its last", async () => {
    const times = around(2000, (row) => (row < 1200 ? 26 : 29), 0.8, 21);
    const sheet = await opened(logOf(times));
    expect(sheet.value("A2")).toMatch(/^Shot time\. Moved: 28\.97 s from shot 120\d on, 25\.99 s before\.$/);
    expect(sheet.value("A5")).toMatch(/^2000 rows, 0 left out/);
    expect(sheet.value("O2008")).toBe(2000);
  });
});
