/** The ready sheet that checks an installation: that it finds what is wrong, and names it. */
import { expect, it } from "vitest";
import { liveCases } from "../scripts/conformance.ts";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { calculatedSheet } from "./ready-sheet-engine.ts";

it("runs a hundred values, of all functions that a cell can compare by a number", async () => {
  const cases = liveCases();
  expect(cases).toHaveLength(100);
  const checked = new Set(cases.map(({ functionId }) => functionId));
  const others = (await readDeclarations()).map(({ name }) => name).filter((name) => !checked.has(name));
  // Those without an outside value, or whose arguments or answers are texts or long lists.
  expect(others.length).toBeLessThan(28);
  expect(new Set(cases.map(({ source }) => source)).size).toBeGreaterThan(20);
});

it("counts those that agree, names those that do not, and says what to do", async () => {
  const sheet = await calculatedSheet("Check", { figures: "none" });
  expect([sheet.value("A2"), sheet.value("A3")]).toEqual(["All 100 values agree.", expect.stringMatching(/^Pucksheet \d+\.\d+\.\d+ calculates here what others/)]);
  const name = String(sheet.value("A20"));
  await sheet.type({ C20: 123456 });
  expect(sheet.value("A2")).toBe(`1 of 100 values do not agree: ${name}.`);
  expect(sheet.value("A3")).toMatch(/^Load the page or the add-in anew/);
  await sheet.type({ C30: "x", C31: -1, C40: 0.5, C50: 7777, C60: -3, C70: 1e9 });
  expect(sheet.value("A2")).toMatch(/^7 of 100 values do not agree: (?:[A-Z.0-9]+, ){4}[A-Z.0-9]+ and others\.$/);
});

it("asks for the units of a new workbook where others are chosen", async () => {
  const sheet = await calculatedSheet("Check", { figures: "none", units: { ...defaultUnits, mass: "oz" } });
  expect([sheet.value("A2"), sheet.value("A3")]).toEqual([expect.stringMatching(/^The check needs the units that a workbook starts with/), ""]);
});
