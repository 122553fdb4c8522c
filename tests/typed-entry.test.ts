/** What is typed where decimals have a comma. */
import { describe, expect, it } from "vitest";
import { hasDecimalComma, numberWithComma, withCommas } from "../src/hosts/browser/typed-entry.ts";

describe("a number with a decimal comma", () => {
  it.each([
    ["18,2", 18.2],
    ["-0,5", -0.5],
    ["+3,25", 3.25],
    ["1.018,2", 1018.2],
    [" 18,2 ", 18.2],
  ])("%s is %d", (text, value) => expect(numberWithComma(text)).toEqual({ value, percent: false }));
  it("is a percentage with its sign", () => {
    const read = numberWithComma("9,4 %")!;
    expect(read.percent).toBe(true);
    expect(read.value).toBeCloseTo(0.094, 15);
  });
  it.each(["18", "18.2", "18,2,1", "1.01,2", "a 18,2", "18,", ",5", "18,2 g", ""])("%j is none", (text) => expect(numberWithComma(text)).toBeUndefined());
  it("is usual in some languages", () => {
    expect(["de", "it", "fr", "pt-BR"].map(hasDecimalComma)).toEqual([true, true, true, true]);
    expect(["en", "en-GB", "ja"].map(hasDecimalComma)).toEqual([false, false, false]);
  });
});

describe("a formula", () => {
  it.each([
    ["=ESPRESSO.RATIO(18;36)", "=ESPRESSO.RATIO(18,36)"],
    ["=ESPRESSO.EXTRACTION(18,2;36,5;9,41)", "=ESPRESSO.EXTRACTION(18.2,36.5,9.41)"],
    ['=IF(A1>1,5;"a;b,c";B1)', '=IF(A1>1.5,"a;b,c",B1)'],
    ["=SUM(A1:A3;{1;2})", "=SUM(A1:A3,{1;2})"],
    // A comma is an argument's where the formula has no ";" of its own.
    ["=ESPRESSO.RATIO(18,36)", "=ESPRESSO.RATIO(18,36)"],
    ["=SUM({1;2})", "=SUM({1;2})"],
    ['=T("a;b")', '=T("a;b")'],
    ["='a;b'!A1+1", "='a;b'!A1+1"],
    ["=Shots[a;b]", "=Shots[a;b]"],
    ["=SUM(A1,A2;1)", "=SUM(A1,A2,1)"],
  ])("%s becomes %s", (typed, read) => expect(withCommas(typed)).toBe(read));
});
