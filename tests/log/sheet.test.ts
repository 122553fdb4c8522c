import { afterEach, describe, expect, it } from "vitest";
import { call, CellError, grid, useUnits } from "../worksheet";

afterEach(() => useUnits());

const slow = [31.2, 30.8, 31.1, 30.9, 31.3, 30.7, 31, 31.2, 30.9, 31];
const sentences = ["No movement shown.", "4.0 s slow on average.", "Spread fits.", "Move the grind once, coarser, for 4.0 s less."];

describe("the watching of a log in a sheet", () => {
  it("LOG.VERDICT says seconds and % in workbooks of clock cells and percent cells", () => {
    expect(call("LOG.VERDICT", slow, 24, 30, "s")).toEqual(sentences);
    useUnits({ time: "clock", percent: "cell" });
    expect(call("LOG.VERDICT", slow.map((it) => it / 86400), 24 / 86400, 30 / 86400, "h:mm:ss")).toEqual(sentences);
    expect((call("LOG.VERDICT", slow.map((it) => it / 100), 0.24, 0.3, "%") as string[])[1]).toBe("4.0 % high on average.");
  });

  it("LOG.VERDICT gives a row for each pair of limits", () => {
    const rows = grid("LOG.VERDICT", slow, [24, 28], [30, 34], "s");
    expect(rows).toEqual([sentences, ["No movement shown.", "Near the middle.", "Spread fits.", "Leave it."]]);
  });

  it("LOG.VERDICT keeps the places of blanks and stops at an error, saying where it is", () => {
    const moved = [...Array.from({ length: 12 }, (_, shot) => 27 + (shot % 3) / 5), "", ...Array.from({ length: 12 }, (_, shot) => 32 + (shot % 3) / 5)];
    expect((call("LOG.VERDICT", moved, 24, 30, "s") as string[])[0]).toMatch(/^Moved: 32\.\d* s from shot 14 on, 27\.\d* s before\./);
    expect((call("LOG.VERDICT", [...slow, new CellError("#DIV/0!")], 24, 30) as CellError).message).toContain("#DIV/0!");
  });

  it("LOG.VERDICT takes settings and rows beside the values, blanks included", () => {
    const moved = [...Array.from({ length: 12 }, (_, shot) => 27 + (shot % 3) / 5), "", ...Array.from({ length: 12 }, (_, shot) => 32 + (shot % 3) / 5)];
    const settings = moved.map((_, shot) => (shot === 3 ? "" : shot > 12 ? 2.2 : 2.4));
    const rows = moved.map((_, shot) => shot + 7);
    const texts = call("LOG.VERDICT", moved, 24, 30, "s", settings, rows) as string[];
    expect(texts[0]).toMatch(/^Moved: 32\.\d* s from shot 20 on, 27\.\d* s before; the setting changed there\.$/);
    expect(texts[3]).toBe("Ask why the setting changed.");
    expect((call("LOG.VERDICT", moved, 24, 30, "s", settings.slice(1)) as CellError).message).toMatch(/settings/);
  });

  it("LOG.EWMA and LOG.CUSUM give blank rows for blanks, and refuse limits that cannot be", () => {
    const rows = grid("LOG.EWMA", [27, "", 28], 27, 1);
    expect(rows.map((row) => row.length)).toEqual([4, 4, 4]);
    expect(rows[1]).toEqual(["", "", "", ""]);
    expect(grid("LOG.CUSUM", ["", 27, 28], 27, 1)[0]).toEqual(["", "", ""]);
    expect((grid("LOG.EWMA", [27, 28], 27, 1, 2)[0]![0] as CellError).message).toMatch(/weight.*1/);
  });

  it("LOG.LIMITS answers for each baseline", () => {
    const rows = grid("LOG.LIMITS", [27, 28, 27, 28, 40], [4, 5, 6]);
    expect(rows[0]![0]).toBe(27.5);
    expect(rows[1]![0]).toBe(30);
    expect((rows[2]![0] as CellError).message).toBe("baseline asks for 6 values, but there are 5 so far.");
  });

  it("LOG.FINDINGS reads and says the units of the workbook", () => {
    useUnits({ mass: "oz" });
    const ounces = (grams: number): number => grams / 28.349523125;
    const table = grid("LOG.FINDINGS", [ounces(18), 18], [ounces(36), ounces(36)], [27, 27], [9.5, 9.5]);
    expect(table[1]!.slice(0, 2)).toEqual([2, "cannot be"]);
    expect(table[1]![2]).toMatch(/^Dose 18 oz looks like grams where ounces are expected/);
  });
});
