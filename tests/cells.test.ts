import { afterEach, describe, expect, it } from "vitest";
import { recentProblems } from "../src/sheet/recent-problems.ts";
import { call, CellError, grid, useUnits } from "./worksheet.ts";

/** The rules of a cell, each by what a person would see. */
afterEach(() => useUnits());

const message = (cell: unknown): string => (cell instanceof CellError ? `${cell.code} ${cell.message}` : `no error, but ${String(cell)}`);

describe("sizes", () => {
  it("one cell, one row and one column repeat to fit a block", () => {
    expect(grid("RATIO", [[18], [20]], [[36, 40]])).toEqual([[2, 40 / 18], [36 / 20, 2]]);
    expect(grid("RATIO", 18, [[36, 45]])).toEqual([[2, 2.5]]);
  });

  it("other sizes are one error for the whole formula, with both sizes", () => {
    expect(message(call("RATIO", [18, 18, 18], [36, 36]))).toBe("#VALUE! dose has 3 rows, but beverage has 2 rows. Give ranges of the same size, or single cells.");
    expect(message(call("GRIND.FORTIME", [1, 2, 3], [40, 30], 35))).toBe("#VALUE! settings has 3 cells, but times has 2 cells. They must be equally long.");
  });

  it("a row of results refuses arguments that are wider than a column", () => {
    expect(message(call("SHOT", [[18, 18]], 36, 10, 25))).toContain("2 columns wide");
  });
});

describe("blanks", () => {
  it.each([null, "", 0])("a row whose required cells are all blank (%s) is blank", (blank) => {
    expect(grid("EXTRACTION", [[blank], [18]], [[blank], [36]], [[blank], [10]])).toEqual([[""], [20]]);
  });

  it.each([null, "", 0])("a row is blank where all required cells that have more than one row are (%s), whatever single cells hold", (blank) => {
    expect(grid("EXTRACTION", 18, [[36], [blank]], [[10], [blank]])).toEqual([[20], [""]]);
    expect(grid("EXTRACTION", 18, 36, [[10], [blank]])).toEqual([[20], [""]]);
    expect(grid("SHOT", 18, [[36], [blank]], [[10], [10]], [[25], [blank]])).toEqual([[2, 20, 3.6, 1.44], ["", "", "", ""]]);
  });

  it("a row that has only some of them has a gap", () => {
    const [row] = grid("EXTRACTION", 18, [[36], [37]], [[null], [10]]);
    expect(message(row![0])).toBe("#N/A strength is blank or 0 in this row.");
  });

  it("a blank that cannot be a typed 0 is called blank, in a list too", () => {
    expect(message(call("RUN.ORDER", 6, null))).toContain("no error");
    expect(message(call("WATER.BLEND", [[250], [""]], [[5], [5]], [[10], [10]]))).toContain("no error");
    const [, gap] = grid("WATER.BLEND", [[250], [""]], [[5], [5]], [[10], [10]]);
    expect(message(gap![0])).toBe("#N/A raw is blank in this row.");
    expect(message(call("GRIND.FORPRESSURE", [1, 2, 3], [[9], [0], [9]], [30, 25, 20], 9, 25))).toContain("pressures is blank or 0 in row 2");
  });

  it("a row with a gap says which cell is blank", () => {
    expect(message(call("EXTRACTION", 18, 36, [[null]]))).toBe("#N/A strength is blank or 0 in this row.");
  });

  it("a blank optional cell means the default", () => {
    expect(grid("FLOW", [[36], [36]], [[25], [25]], [[null], [7]])).toEqual([[1.44], [2]]);
  });

  it("a shot without a strength has its ratio and flow", () => {
    expect(grid("SHOT", [18, 18], [36, 36], [[""], [10]], [25, 25])).toEqual([[2, "", "", 1.44], [2, 20, 3.6, 1.44]]);
  });

  it("a setting without a time is left out of a fit, and a time without a setting is not", () => {
    expect(call("GRIND.FORTIME", [[1], [1.5], [2]], [[40], [""], [20]], 28.284271247461902)).toEqual([expect.closeTo(1.5, 9), expect.any(CellError), expect.any(CellError)]);
    expect(message(call("GRIND.FORTIME", [[1], [""], [2]], [[40], [30], [20]], 30))).toBe("#N/A settings is blank in row 2, where times has a value. Fill it in, or clear both.");
  });
});

describe("errors of other cells", () => {
  const error = new CellError("#DIV/0!");
  it("spoil their own row, and come out as they are", () => {
    const result = grid("EXTRACTION", [18, 18], [[error], [36]], [10, 10]);
    expect(result[0]![0]).toBe(error);
    expect(result[1]![0]).toBe(20);
  });

  it("in a list are named with their place", () => {
    expect(message((call("GRIND.FORTIME", [1, 1.5, 2], [[40], [error], [20]], 30) as CellError))).toContain("row 2 of times holds the error #DIV/0!");
  });
});

describe("what is no number", () => {
  it("is refused with what it is", () => {
    expect(message(call("RATIO", "18 g", 36))).toBe("#VALUE! dose must be a number, but is the text “18 g”. ESPRESSO.READ functions turn typed entries into numbers.");
    expect(message(call("RATIO", true, 36))).toBe("#VALUE! dose must be a number, but is TRUE.");
  });
});

describe("limits and styles", () => {
  it("say the value, the limit and the unit", () => {
    expect(message(call("EXTRACTION", -18, 36, 10))).toBe("#VALUE! dose must be more than 0 g, but is -18 g.");
    expect(message(call("RATIO", 1e300, 36))).toBe("#VALUE! dose must be at most 5000 g, but is 1e+300 g.");
  });

  it("name the setting where only the other percent style fits", () => {
    expect(message(call("EXTRACTION", 18, 36, 0.095))).toContain("set percentages to percent cells in the Pucksheet pane");
    useUnits({ percent: "cell" });
    expect(call("EXTRACTION", 18, 36, 0.1)).toBeCloseTo(0.2, 12);
    expect(message(call("EXTRACTION", 18, 36, 9.5))).toContain("set percentages to numbers in the Pucksheet pane");
  });

  it("tell a clock cell from seconds, and minutes from seconds", () => {
    expect(message(call("FLOW", 36, 27 / 86400))).toContain("looks like a clock cell (27 s)");
    useUnits({ time: "clock" });
    expect(call("FLOW", 36, 25 / 86400)).toBeCloseTo(1.44, 12);
    expect(message(call("FLOW", 36, 27 / 1440))).toContain("a sheet reads 0:27 as 27 minutes");
  });

  it("are shown in the workbook's unit", () => {
    useUnits({ mass: "oz" });
    expect(message(call("RATIO", -1, 36))).toBe("#VALUE! dose must be more than 0 oz, but is -1 oz.");
  });
});

describe("a number with a number format attached", () => {
  it("is read as its number", () => {
    expect(call("RATIO", [[{ type: "Double", basicValue: 18, numberFormat: "0.0" }]], 36)).toBe(2);
  });
});

describe("recent problems", () => {
  it("name the function, the words and how many cells showed them", async () => {
    grid("RATIO", [-7, -7, -7], [36, 36, 36]);
    const [latest] = recentProblems();
    expect(latest).toMatchObject({ functionName: "RATIO", message: "dose must be more than 0 g, but is -7 g.", count: 3 });
  });

  it("are the last ones where every cell of a long column has its own", () => {
    const texts = Array.from({ length: 5000 }, (_, row) => `note ${row}`);
    const results = grid("RATIO", texts, texts.map(() => 36));
    expect(results.map(([cell]) => message(cell)).filter((it, row) => it.includes(`is the text “note ${row}”.`))).toHaveLength(texts.length);
    expect(recentProblems().map((it) => it.message.match(/note \d+/)?.[0])).toEqual(texts.slice(-20).reverse());
  });
});

describe("a number next to nothing", () => {
  it("is refused in words where the result is beyond all numbers", () => {
    expect(message(call("EXTRACTION", 1e-320, 36, 9.5))).toMatch(/^#VALUE! A dose of \S+ g is next to nothing, so no extraction follows from it\. Check the dose\.$/);
    expect(message(call("EXTRACTION.IMMERSION", 1e-320, 36, 9.5))).toContain("is next to nothing");
    expect(message(call("EXTRACTION", 1e-3, 36, 9.5))).toContain("more than the whole dose");
    expect(message(call("RATIO", 1e-320, 36))).toMatch(/too large or too small/);
  });
});
