import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formulaFromFile, formulaToFile, needsArrayMark } from "../src/xlsx/formula-in-file.ts";
import { filled, joined, partsOf } from "../src/sheet/formula-text.ts";
import { address, columnIndex, columnName, placeOf } from "../src/sheet/references.ts";

const ours = new Set(["ESPRESSO.RATIO", "ESPRESSO.GRIND.FORTIME"]);

describe("the parts of a formula", () => {
  it("are the whole formula, whatever it is", () => {
    fc.assert(fc.property(fc.string({ unit: fc.constantFrom(..."A1$:!'\"[]@#(),.+ LETé7_") }), (formula) => joined(partsOf(formula)) === formula));
  });

  it.each([
    ['"A1" & A1', 'text "A1"|other  |other &|other  |reference A1'],
    ["'My A1'!B2+Log!C3", "sheet 'My A1'!|reference B2|other +|sheet Log!|reference C3"],
    ["LOG10(A1)", "name LOG10|other (|reference A1|other )"],
    ["A:A", "reference A|other :|reference A"],
    ["Shots[[#This Row],[A1]]", "name Shots|structured [[#This Row],[A1]]"],
    ["1.5E-3+#N/A", "other 1.5E-3|other +|other #N/A"],
    ["ESPRESSO.RATIO(B2)", "name ESPRESSO.RATIO|other (|reference B2|other )"],
  ])("of %s", (formula, parts) => {
    expect(partsOf(formula).map(({ kind, text }) => `${kind} ${text}`).join("|")).toBe(parts);
  });
});

describe("a formula filled down and across", () => {
  it.each([
    ["ESPRESSO.RATIO(B2,$C2)", 1, 1, "ESPRESSO.RATIO(C3,$C3)"],
    ["SUM(B$2:B2)", 3, 0, "SUM(B$2:B5)"],
    ["SUM(A:A)+SUM($3:3)", 1, 1, "SUM(B:B)+SUM($3:4)"],
    ['"B2"&Log!B2', 2, 0, '"B2"&Log!B4'],
    ["A1", -1, 0, "#REF!"],
    ["Z9", 0, 1, "AA9"],
  ])("%s by %i rows and %i columns", (formula, rows, columns, moved) => {
    expect(filled(formula, rows, columns)).toBe(moved);
  });

  it("names every column of a sheet, and reads its name back", () => {
    expect([0, 25, 26, 701, 702, 16383].map(columnName)).toEqual(["A", "Z", "AA", "ZZ", "AAA", "XFD"]);
    expect(columnName(16384)).toBeUndefined();
    fc.assert(fc.property(fc.integer({ min: 0, max: 16383 }), (column) => columnIndex(columnName(column)!) === column));
    expect(placeOf(address(41, 27))).toEqual({ row: 41, column: 27 });
    expect(placeOf("doses")).toBeUndefined();
  });
});

describe("a formula in a file", () => {
  it.each([
    ["ESPRESSO.RATIO(B2,C2)", "_xldudf_ESPRESSO_RATIO(B2,C2)"],
    ["ESPRESSO.GRIND.FORTIME(A1:A3,B1:B3,25)", "_xldudf_ESPRESSO_GRIND_FORTIME(A1:A3,B1:B3,25)"],
    ["SORT(FILTER(A2:B9,B2:B9>1))", "_xlfn._xlws.SORT(_xlfn._xlws.FILTER(A2:B9,B2:B9>1))"],
    ["LET(x,A1,y,x+1,y*x)", "_xlfn.LET(_xlpm.x,A1,_xlpm.y,_xlpm.x+1,_xlpm.y*_xlpm.x)"],
    ["MAP(A1:A3,LAMBDA(v,w,ESPRESSO.RATIO(v,w)))", "_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.v,_xlpm.w,_xldudf_ESPRESSO_RATIO(_xlpm.v,_xlpm.w)))"],
    ['IF(A1="LET(x,1,x)",x,SUM(A1))', 'IF(A1="LET(x,1,x)",x,SUM(A1))'],
    ["STDEV.S(A1:A9)+x", "_xlfn.STDEV.S(A1:A9)+x"],
    ["LET(f,LAMBDA(a,a*2),f(3))", "_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.a,_xlpm.a*2),_xlpm.f(3))"],
  ])("%s", (typed, inFile) => {
    expect(formulaToFile(typed, ours)).toBe(inFile);
    expect(formulaFromFile(inFile, ours)).toBe(typed);
  });

  it("keeps the functions of other add-ins as they are", () => {
    expect(formulaFromFile("_xldudf_OTHER_THING(A1)", ours)).toBe("_xldudf_OTHER_THING(A1)");
  });

  it.each(["B2/C2", "SUM(A1:A9)", "SUM(A1:A9,C1)*2", "IF(A1>1,SUM(Log!A1:A9),0)", "STDEV.S(A:A)"])("needs no mark: %s", (formula) => {
    expect(needsArrayMark(formula, ours)).toBe(false);
  });

  it.each(["ESPRESSO.RATIO(B2,C2)", "SUM(A1:A9*2)", "SUM(ABS(A1:A9))", "A1:A9", "SUM({1,2})", "SORT(A1:A9)", "doses*2", "SUM(Shots[dose])"])("needs the mark of an array: %s", (formula) => {
    expect(needsArrayMark(formula, ours)).toBe(true);
  });

  it("names of ours with underscores alone are read too, as a program writes them that knows no dots", () => {
    expect(formulaFromFile('ESPRESSO_GRIND_FORTIME(A1:A3,B1:B3,25)+espresso_ratio(B2,C2)&"ESPRESSO_RATIO(1,2)"', ours)).toBe('ESPRESSO.GRIND.FORTIME(A1:A3,B1:B3,25)+ESPRESSO.RATIO(B2,C2)&"ESPRESSO_RATIO(1,2)"');
    expect(formulaFromFile("ESPRESSO_FRESHNESS(B2)", ours)).toBe("ESPRESSO_FRESHNESS(B2)");
  });
});
