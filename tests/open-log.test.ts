/** A log that stands in a sheet, taken over by the log audit. */
import { describe, expect, it } from "vitest";
import { openLog } from "../src/log-file/open-log.ts";
import { describedReadySheet } from "../src/ready-sheets/index.ts";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { describedSheet } from "../src/xlsx/ready-sheet.ts";

const columnsIn = (cells: unknown[][], units = defaultUnits) => openLog(cells, units)?.columns;
const headings = ["Date", "Dose in (g)", "Cup", "Shot time (s)", "TDS %", "Grind", "Comment"];

describe("the log in a sheet", () => {
  it("is found under its headings, wherever they stand, with its days as they are read", () => {
    expect(columnsIn([["Bar by the river"], [], headings, [46083, 18.1, 36, 27, 9.4, 2.2, "first"], ["", "18,2 g", "", "0:28", "", "", ""], []])).toEqual({
      Day: ["2026-03-02", undefined], Dose: [18.1, "18,2 g"], Beverage: [36, undefined], Time: [27, "0:28"], Strength: [9.4, undefined], Setting: [2.2, undefined], Note: ["first", undefined],
    });
  });

  it("is read in the units of its headings, and where they name none in those of the workbook", () => {
    const ounces = columnsIn([["Dose (oz)", "Beverage (oz)", "Time (min)"], [0.64, 1.27, 0.45]]);
    // One avoirdupois ounce is 28.349523125 g.
    expect(ounces!.Dose![0]).toBeCloseTo(0.64 * 28.349523125, 9);
    expect(ounces!.Time![0]).toBeCloseTo(27, 9);
    const inOunces = columnsIn([["Dose", "Beverage", "Time"], [0.64, 1.27, 27]], { ...defaultUnits, mass: "oz" });
    expect(inOunces!.Dose![0]).toBeCloseTo(0.64 * 28.349523125, 9);
  });

  it("ends with its last shot, and keeps the gaps before it", () => {
    const log = openLog([["Dose", "Beverage", "Time", "Note"], [18, 36, 27, ""], [null, null, null, null], [18, 36, 28, ""], ["", "", "", "closed early"]], defaultUnits)!;
    expect(log.rows).toBe(3);
    expect(log.columns.Time).toEqual([27, undefined, 28]);
  });

  it.each<[string, unknown[][]]>([
    ["a sheet without headings", [[18, 36, 27], [18, 36, 28]]],
    ["a sheet of something else", [["Item", "Price", "Date"], ["Milk", 1.2, 46083]]],
    ["headings without a row", [headings, ["", "", ""]]],
    ["a log without shot times", [["Dose", "Beverage", "Strength"], [18, 36, 9.4]]],
    ["two columns that are both the dose", [["Dose", "Dose", "Beverage", "Time"], [18, 18.1, 36, 27]]],
    ["nothing", []],
  ])("is not seen in %s", (_, cells) => expect(openLog(cells, defaultUnits)).toBeUndefined());

  it("is that of a shot log, of which coffees are no doses", () => {
    const { cells } = describedSheet(describedReadySheet("ShotLog", { units: defaultUnits, figures: "example" }));
    const log = openLog(cells.map((line) => line?.map((cell) => cell?.value)), defaultUnits)!;
    expect(log.rows).toBe(20);
    expect(log.columns.Coffee!.slice(0, 5)).toEqual(["House", undefined, undefined, undefined, "Guest"]);
    expect(["Setting", "Dose", "Beverage", "Time", "Strength"].map((heading) => log.columns[heading]![19])).toEqual([2.35, 18.1, 36.1, 31.5, 9.8]);
  });
});
