import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../shared/problem";
import { messageOf } from "./problem-of";
import { readGrams, readPercent, readRatio, readSeconds, type Cell, type Entry } from "../shared/reading";
import { call, CellError, useUnits } from "./worksheet";

type Read = (entry: Entry) => number;

function refusal(read: Read, entry: Entry): string {
  try {
    return `was read as ${read(entry)}`;
  } catch (thrown) {
    if (thrown instanceof Problem) return messageOf(thrown);
    throw thrown;
  }
}

function understands(read: Read, entries: readonly (readonly [Cell, number])[]): void {
  for (const [text, value] of entries) {
    it(`reads ${JSON.stringify(text)} as ${value}`, () => expect(read({ text })).toBeCloseTo(value, 9));
  }
}

function refuses(read: Read, entries: readonly (readonly [Cell, RegExp])[]): void {
  for (const [text, words] of entries) it(`refuses ${JSON.stringify(text)}`, () => expect(refusal(read, { text })).toMatch(words));
}

it("reads no number as −0", () => {
  for (const text of [-0, "-0", "-0 %", "−0"]) expect(Object.is(readPercent({ text }), 0), JSON.stringify(text)).toBe(true);
});

describe("shot times", () => {
  understands(readSeconds, [
    [27.5, 27.5], ["27", 27], ["27,5 s", 27.5], ["27.5s", 27.5], ["27 sec.", 27], [" 27\u2009s ", 27], ["２７ s", 27], ["27\u00a0seconds", 27],
    ["0:27", 27], ["00:27", 27], ["1:04", 64], ["0:27.5", 27.5], ["0:27,5", 27.5], [":27", 27], ["0:00:27", 27], ["12:00:27 AM", 27],
    ["1'04\"", 64], ["1′04″", 64], ["27\"", 27], ["27″", 27], ["1 min 4 s", 64], ["1m4s", 64], ["0.45 min", 27], ["1,5 min", 90], ["2.75E+01", 27.5],
    // 27 s is 27/86400 of a day, as a sheet keeps it.
    [0.0003125, 27], [0.000318287037037037, 27.5], ["0.0003125", 27], [60 / 86400, 60],
  ]);
  refuses(readSeconds, [
    // 27 minutes are 27/1440 of a day: what a sheet keeps when 0:27 is typed.
    [0.01875, /clock time 0:27:00, which is 27 min: a sheet takes 0:27 for hours and minutes\. Type 0:00:27/],
    [64 / 1440, /1 h 4 min: a sheet takes 1:04.*Type 0:01:04/],
    ["0:27:00", /27 min: a sheet takes 0:27/], ["12:27 AM", /27 min/], ["27:00", /27 min/], ["08:15 PM", /20 h 15 min/],
    [0.451, /too long for a shot.*minutes/], [0, /1 to 600 s/], [-3, /1 to 600 s/], ["-27", /negative/], [45000.2, /1 to 600 s/],
    ["0:7", /two digits/], ["0:75", /end at 59/], ["1:75:00", /end at 59/], ["1 min 75 s", /60 seconds or more/],
    ["25-27 s", /more than one number/], ["ca. 27", /is not a time/], ["27 g", /ends in “g”, which is no unit of a time/], ["fast", /is not a time/],
    ["1.234,5", /more than one point or comma/], ["1,234 s", /1\.234 or 1234/], [true, /TRUE is not a time/], ["   ", /only spaces/], [null, /blank/],
    [1e300, /1 to 600 s/], ["1e999", /1 to 600 s/],
  ]);

  it("takes numbers of a workbook of clock cells as fractions of a day only", () => {
    expect(readSeconds({ text: 0.0003125, bareUnit: 86400 })).toBe(27);
    expect(readSeconds({ text: "27 s", bareUnit: 86400 })).toBe(27);
    expect(refusal(readSeconds, { text: 27, bareUnit: 86400 })).toMatch(/Type 0:00:27/);
  });

  it("reads every whole second back from the forms a stopwatch and a sheet give", () => {
    fc.assert(fc.property(fc.integer({ min: 1, max: 600 }), (seconds) => {
      const clock = `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
      for (const text of [seconds, `${seconds}`, `${seconds} s`, clock, `0:${clock.padStart(5, "0")}`]) expect(readSeconds({ text })).toBe(seconds);
      if (seconds % 60 !== 0) expect(readSeconds({ text: seconds / 86400 })).toBe(seconds);
    }));
  });
});

describe("masses", () => {
  understands(readGrams, [
    // 1 oz = 28.349523125 g exactly (NIST SP 811, appendix B).
    [18.2, 18.2], ["18.2 g", 18.2], ["18,2g", 18.2], ["18.2 grams", 18.2], ["0,64 oz", 18.1436948], ["0.64 ounces", 18.1436948], [".64oz", 18.1436948],
    ["0.018 kg", 18], ["18", 18], ["1 234,5", 1234.5], ["1\u202f234.5 g", 1234.5], ["0,640", 0.64], ["18.250", 18.25], ["+18", 18],
  ]);
  refuses(readGrams, [
    ["18,250", /18\.250 or 18250/], ["1.234,5", /more than one point or comma/], ["1,234.5 g", /more than one point or comma/],
    ["36 ml", /is a volume.*MASS\.FROMVOLUME/], ["1 fl oz", /volume/], ["18 %", /“%”/], ["18 36", /more than one number/], ["18/36", /more than one number/],
    [0, /more than 0/], [-18, /more than 0/], ["-18 g", /negative/], ["1E+300", /at most 5000 g/], ["eighteen", /is not a mass/], [false, /FALSE/],
  ]);

  it("takes a number without a unit in the unit it is told", () => {
    expect(readGrams({ text: 0.64, bareUnit: 28.349523125 })).toBeCloseTo(18.1436948, 9);
    expect(readGrams({ text: "18 g", bareUnit: 28.349523125 })).toBe(18);
  });

  it("trusts a log that is known to write decimal commas", () => {
    expect(readGrams({ text: "18,250", decimalComma: true })).toBe(18.25);
    expect(readGrams({ text: "18.2", decimalComma: true })).toBe(18.2);
    expect(refusal(readGrams, { text: "1.234", decimalComma: true })).toMatch(/1\.234 or 1234/);
  });
});

describe("ratios", () => {
  understands(readRatio, [
    ["1:2.2", 2.2], ["1 : 2,2", 2.2], ["2.2", 2.2], [2.2, 2.2], ["18:36", 2], ["18 g : 36 g", 2], ["1/2", 2], ["1 to 2.5", 2.5], ["01:02.2", 2.2], ["1:0.9", 0.9], ["2x", 2],
  ]);
  refuses(readRatio, [
    // A sheet keeps 1:2 typed into a cell as 62 minutes of a day, and 18:36 as 1116.
    [62 / 1440, /clock time, 1:02:00 here.*'1:2/], [1116 / 1440, /18:36:00/],
    ["2:1", /lighter than its dose.*1:2/], ["36:18", /lighter than its dose/], ["0:2", /no dose/], ["1:2:3", /more than one number/], [0, /0\.1 to 100/], ["1:1000", /0\.1 to 100/],
    ["double", /is not a ratio/], ["2 g", /“g”/],
  ]);
});

describe("percentages", () => {
  understands(readPercent, [["9,4 %", 9.4], ["9.4", 9.4], [9.4, 9.4], ["9.4%", 9.4], ["９．４％", 9.4], ["0.5 %", 0.5], ["94 ‰", 9.4], ["9.4 percent", 9.4], [0, 0], [1, 1]]);
  refuses(readPercent, [
    [0.094, /0\.094 % or a percent cell of 9\.4 %/], ["0.094", /percent cell/], ["9.4 brix", /“brix”/], ["120 %", /0 to 100 %/], ["-1 %", /negative/], [-1, /0 to 100 %/],
  ]);

  it("takes numbers of a workbook of percent cells as fractions", () => {
    expect(readPercent({ text: 0.094, bareUnit: 100 })).toBeCloseTo(9.4, 12);
    expect(readPercent({ text: "9.4 %", bareUnit: 100 })).toBe(9.4);
    expect(refusal(readPercent, { text: 9.4, bareUnit: 100 })).toMatch(/Type 9\.4%/);
  });
});

describe("any entry at all", () => {
  it("is either a number within the limits or a refusal in a full sentence", () => {
    const typed = fc.oneof(fc.double(), fc.string(), fc.boolean(), fc.stringMatching(/^[0-9:.,' smgoz%-]{0,12}$/));
    fc.assert(fc.property(typed, fc.constantFrom(readSeconds, readGrams, readRatio, readPercent), (text, read) => {
      try {
        expect(Number.isFinite(read({ text }))).toBe(true);
      } catch (thrown) {
        if (!(thrown instanceof Problem)) throw thrown;
        expect(messageOf(thrown)).toMatch(/^.{10,}\.$/s);
      }
    }), { numRuns: 3000 });
  });
});

describe("in a workbook with other units", () => {
  it("numbers without a unit are in its units, and so are the results, so that other functions take them", () => {
    useUnits({ mass: "oz", time: "clock", percent: "cell" });
    try {
      expect(call("READ.GRAMS", "18 g")).toBeCloseTo(18 / 28.349523125, 12);
      expect(call("READ.GRAMS", 0.64)).toBeCloseTo(0.64, 12);
      expect(call("READ.SECONDS", "0:27")).toBeCloseTo(27 / 86400, 15);
      expect(call("READ.SECONDS", 27 / 86400)).toBeCloseTo(27 / 86400, 15);
      expect(call("READ.SECONDS", 27)).toBeInstanceOf(CellError);
      expect(call("READ.PERCENT", "9.5 %")).toBeCloseTo(0.095, 15);
      expect(call("READ.PERCENT", 0.095)).toBeCloseTo(0.095, 15);
      expect(call("EXTRACTION", call("READ.GRAMS", "18 g"), call("READ.GRAMS", "36"), call("READ.PERCENT", "9,5 %"))).toBeInstanceOf(CellError); // 36 oz from 18 g
      expect(call("EXTRACTION", call("READ.GRAMS", "18 g"), call("READ.GRAMS", "36 g"), call("READ.PERCENT", "9,5 %"))).toBeCloseTo(0.19, 12);
    } finally {
      useUnits();
    }
  });
});
