import { describe, expect, it } from "vitest";
import { csvCell, csvOf } from "../src/hosts/browser/csv-sheet.ts";
import { copyName } from "../src/hosts/browser/file-names.ts";
import { argumentCountProblem } from "../src/hosts/browser/function-metadata.ts";
import { emptySheet, putCell } from "../src/xlsx/workbook.ts";
import { demoWorkbook, readySheetOn } from "../src/xlsx/ready-sheets.ts";

describe("the name of a copy", () => {
  it.each([
    ["log.xlsx", "log (Pucksheet copy).xlsx"],
    ["log.csv", "log (Pucksheet copy).xlsx"],
    ["log (Pucksheet copy).xlsx", "log (Pucksheet copy 2).xlsx"],
    ["log (Pucksheet copy 9).xlsx", "log (Pucksheet copy 10).xlsx"],
    ["March 2.5.xlsx", "March 2.5 (Pucksheet copy).xlsx"],
    ["Demo log", "Demo log (Pucksheet copy).xlsx"],
  ])("of %s", (name, copy) => {
    expect(copyName(name, "xlsx")).toBe(copy);
    expect(copyName(name, "xlsx")).not.toBe(name);
  });
});

describe("a cell of a .csv file", () => {
  it.each([
    ["18.2", ".", 18.2],
    ["18,2", ",", 18.2],
    ["-0.5", ".", -0.5],
    ["1e3", ".", 1000],
    ["18,2", ".", "18,2"],
    ["18.2", ",", "18.2"],
    ["007", ".", "007"],
    ["0:27", ".", "0:27"],
    ["=1+1", ".", "=1+1"],
    ["-A1", ".", "-A1"],
    ["+SUM(A1)", ".", "+SUM(A1)"],
    ["1234567890123456", ".", "1234567890123456"],
    ["5.33E-06", ".", 0.00000533],
    ["5.33E-06", ",", 0.00000533],
    ["5,33e-6", ",", 0.00000533],
    ["1.5E3", ",", 1500],
    ["356,064", ".", "356,064"],
    ["356.064", ",", "356.064"],
    ["1e999", ".", "1e999"],
    ["1e-999", ".", "1e-999"],
    ["0e-999", ".", 0],
    ["123456789012345e2", ".", 12345678901234500],
    ["2026-02-30", ".", "2026-02-30"],
  ] as const)("%s with the decimal sign %s", (text, decimal, value) => {
    expect(csvCell(text, decimal)).toEqual({ value });
  });

  it("is a date where the year comes first, and nothing where it is blank", () => {
    // Microsoft's documentation of the date system: 1 January 2008 is day 39448.
    expect(csvCell("2008-01-01", ".")).toEqual({ value: 39448, style: { format: "yyyy-mm-dd" } });
    expect(csvCell("  ", ".")).toBeUndefined();
  });
});

it("a sheet as .csv holds what the cells show, each row as wide as the widest", () => {
  const sheet = emptySheet("Log");
  putCell(sheet, 0, 0, { value: 39448, style: { format: "d mmm" } });
  putCell(sheet, 0, 1, { value: 0.0003125, style: { format: "h:mm:ss" } });
  putCell(sheet, 2, 0, { value: 'a "b", c', formula: "A1" });
  putCell(sheet, 2, 2, { value: true });
  putCell(sheet, 2, 1, { value: { error: "#N/A" } });
  putCell(sheet, 3, 0, { value: 1, style: { format: '0.0" days"' } });
  putCell(sheet, 3, 1, { value: -5 });
  putCell(sheet, 3, 2, { value: "=cmd|' /C calc'!A0" });
  expect(csvOf(sheet)).toBe('\ufeff2008-01-01,00:00:27,\r\n,,\r\n"a ""b"", c",#N/A,TRUE\r\n1,-5,"\'=cmd|\' /C calc\'!A0"\r\n');
});

it("a wrong number of arguments is told with the arguments there are", () => {
  const metadata = { id: "X", name: "FLOW", parameters: [{ name: "beverage" }, { name: "time" }, { name: "firstdrip", optional: true }] };
  expect(argumentCountProblem(metadata, 2)).toBeUndefined();
  expect(argumentCountProblem(metadata, 3)).toBeUndefined();
  expect(argumentCountProblem(metadata, 1)).toBe("ESPRESSO.FLOW takes 2 to 3 arguments (beverage, time, [firstdrip]), but has 1.");
  expect(argumentCountProblem({ id: "V", name: "VERSION", parameters: [] }, 1)).toBe("ESPRESSO.VERSION takes no argument, but has 1.");
});

describe("the demo log", () => {
  const { sheets, names } = demoWorkbook();

  it("holds at least 40 shots at several grinds, near 18 g in, 36 g out and 25 s, on several days", () => {
    const { area, columns } = sheets[0]!.tables[0]!;
    const column = (heading: string) =>
      sheets[0]!.cells.slice(area.top + 1, area.bottom + 1).map((row) => row?.[area.left + columns.indexOf(heading)]?.value).filter((value) => typeof value === "number");
    expect(column("Dose").length).toBeGreaterThanOrEqual(40);
    expect(new Set(column("Setting")).size).toBeGreaterThanOrEqual(6);
    const mean = (values: number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(mean(column("Dose"))).toBeCloseTo(18, 0);
    expect(mean(column("Beverage"))).toBeCloseTo(36, 0);
    expect(Math.abs(mean(column("Time")) - 25)).toBeLessThan(2);
  });

  it("is made of ready sheets, so that it follows a change of units", () => {
    for (const { name } of sheets) expect(readySheetOn(names, name), name).toBeDefined();
  });
});
