import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { repairedFunctions, repairEngine, repairLibrary } from "../../src/hosts/browser/grid/repaired-engine.ts";
import { fittedNumber } from "../../src/hosts/browser/grid/repairs/numbers-cut-at-edges.ts";
import { withRowReferences } from "../../src/hosts/browser/grid/repairs/own-row-of-tables.ts";
import { engineFaults } from "./engine-faults.ts";
import { pageFaults } from "./page-faults.ts";

repairLibrary();

it.each(engineFaults)("$file is put right", async ({ shows, right }) => {
  expect(await shows({ functions: repairedFunctions(), started: repairEngine })).toEqual(right);
});

it("every repair has a fault that is shown", () => {
  const files = readdirSync("src/hosts/browser/grid/repairs").map((name) => name.replace(/\.ts$/, ""));
  expect([...engineFaults, ...pageFaults].map(({ file }) => file).sort()).toEqual(files.sort());
});

describe("the column of a table in a formula's own row", () => {
  it.each([
    ["=[@dose]*2", "Shots", "=Shots[[#This Row],[dose]]*2"],
    ["=[@[dose, g]]", "Shots", "=Shots[[#This Row],[dose, g]]"],
    ["=Other[@dose]", undefined, "=Other[[#This Row],[dose]]"],
    ['="[@dose]"', "Shots", '="[@dose]"'],
    ["=[@dose]", undefined, "=[@dose]"],
  ])("%s in the table %s", (typed, table, spelled) => {
    expect(withRowReferences(typed, table)).toBe(spelled);
  });
});

it("numbers without a format take the digits that their cell has room for", () => {
  expect(fittedNumber(1 / 3, 72, 11)).toBe("0.333333");
  expect(fittedNumber(19.8898888889, 72, 11)).toBe("19.88989");
  expect(fittedNumber(1.5, 72, 11)).toBe("1.5");
  expect(fittedNumber(1 / 3, 30, 11)).toBe("0.3");
  expect(Number(fittedNumber(1.23456e-9, 72, 11))).toBeCloseTo(1.23456e-9, 11);
});
