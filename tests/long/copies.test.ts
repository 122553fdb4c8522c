import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/xlsx/open-workbook.ts";
import { saveCopy } from "../../src/xlsx/save-copy.ts";
import { after } from "../copies/as-the-grid.ts";
import { newFaults } from "../copies/faults.ts";
import { differsOnlyInWhatWasDone } from "../copies/edited-in-the-grid.ts";
import { foreignBytes, foreignWorkbooks } from "../copies/foreign-files.ts";
import { beginnings, holdsAfterEdits } from "../copies/saved-and-opened.ts";

describe("after many edits at random, saved and opened, is what it was on the page:", () => {
  it.each(beginnings)("%s", (name) => holdsAfterEdits(name, 1000));
});

describe("is valid to Microsoft's validator with rows and columns inserted:", () => {
  it.each(foreignWorkbooks)("%s", async (name) => {
    const bytes = foreignBytes(name);
    const options = { fileName: name, ours: new Set<string>() };
    const before = openWorkbook(bytes, options).workbook;
    const journal = before.sheets.flatMap(({ name: sheet }) => [
      { kind: "insert rows" as const, sheet, at: 1, count: 2 },
      { kind: "insert columns" as const, sheet, at: 1, count: 1 },
    ]);
    const saved = await saveCopy(bytes, { before, now: after(before, journal), journal }, options);
    expect(await newFaults(name, bytes, saved.bytes)).toEqual([]);
  });
});

describe("worked on in the grid, differs only in what was done:", () => {
  it.each(foreignWorkbooks)("%s", (name) => differsOnlyInWhatWasDone(name, { validated: true }));
});
