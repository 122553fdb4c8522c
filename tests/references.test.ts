/** References, read and written. The cases are those of Microsoft's "Using structured references" and "Overview of formulas", and of a person's own sheets. */
import { describe, expect, it } from "vitest";
import { absolute, areaOf, moved, referenceTo, sheetPrefix, splitReference, tableColumn, tableColumnOf } from "../src/sheet/references.ts";

it.each([
  ["B2:D9", { top: 1, left: 1, bottom: 8, right: 3 }],
  ["$D$9:B2", { top: 1, left: 1, bottom: 8, right: 3 }],
  ["XFD1048576", { top: 1_048_575, left: 16_383, bottom: 1_048_575, right: 16_383 }],
  ["B:B", { top: 0, left: 1, bottom: 1_048_575, right: 1 }],
  ["3:5", { top: 2, left: 0, bottom: 4, right: 16_383 }],
  ["XFE1", undefined],
  ["A1048577", undefined],
  ["A0", undefined],
  ["A1:B2:C3", undefined],
  ["Dose", undefined],
])("%s is the area it says", (reference, area) => {
  expect(areaOf(reference)).toEqual(area);
});

it("an area is written as it is read", () => {
  for (const reference of ["A1", "Z1", "AA10:AB11", "XFD1:XFD1048576"]) expect(referenceTo(areaOf(reference)!)).toBe(reference);
});

it("an address moves over the end of the letters", () => {
  expect(moved("Z9", 2, 1)).toBe("AA11");
  expect(moved("$AZ$1", 0, 1)).toBe("BA1");
});

it.each([["B4", "$B$4"], ["B4:C9", "$B$4:$C$9"], ["$B4", "$B$4"], ["3:5", "$3:$5"], ["B:C", "$B:$C"]])("%s fixed in place is %s", (reference, fixed) => {
  expect(absolute(reference)).toBe(fixed);
});

describe("a column of a table", () => {
  it.each([
    ["Shots", "Dose", "Shots[Dose]"],
    ["Shots", "Odd cup found", "Shots[Odd cup found]"],
    ["Shots", "Dose [g]", "Shots[Dose '[g']]"],
    ["Shots", "Barista's #", "Shots[Barista''s '#]"],
  ])("%s, %s is %s, and back", (table, heading, reference) => {
    expect(tableColumn(table, heading)).toBe(reference);
    expect(tableColumnOf(reference)).toEqual({ table, heading });
  });

  it.each(["Shots[[#This Row],[Dose]]", "Shots[[A]:[F]]", "B4:C9", "[Dose]", "Shots[]"])("%s is none", (reference) => {
    expect(tableColumnOf(reference)).toBeUndefined();
  });
});

describe("the sheet of a reference", () => {
  it.each([
    ["Shots", "Shots!"],
    ["Shot log", "'Shot log'!"],
    ["Ana's log", "'Ana''s log'!"],
    ["2026", "'2026'!"],
    ["AB12", "'AB12'!"],
    ["Dial-in", "'Dial-in'!"],
  ])("%s is spelled %s, and back", (sheet, prefix) => {
    expect(sheetPrefix(sheet)).toBe(prefix);
    expect(splitReference(`${prefix}$B$4:$C$9`)).toEqual({ sheet, rest: "$B$4:$C$9" });
  });

  it("may be left out", () => {
    expect(splitReference("$B$4")).toEqual({ rest: "$B$4" });
  });
});
