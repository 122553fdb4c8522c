import { describe, expect, it } from "vitest";
import { logSummary } from "../../shared/log";
import { Problem } from "../../shared/problem";
import { problemOf } from "../problem-of.ts";
import { CellError, grid } from "../worksheet.ts";

describe("summary", () => {
  it("has mean and standard deviation of each setting, in order, and counts shots without a setting", () => {
    const table = logSummary({
      settings: [10, 6, "6", null, 6, null, "coarse"],
      dose: [18, 18, 20, 18, 18, null, 18],
      beverage: [36, 36, 50, 36, null, null, 36],
      time: [25, 27, 29, 25, 28, null, null],
      strength: [10, 9, 8, null, null, null, null],
    });
    expect(table.map((it) => [it.anySetting, it.shots])).toEqual([[6, 3], [10, 1], ["coarse", 1], ["no setting", 1]]);
    const six = table[0]!;
    expect([six.meanRatio, six.meanTime, six.sdTime, six.meanStrength]).toEqual([2.25, 28, 1, 8.5]);
    // Extractions 18 and 20 %: mean 19, standard deviation √2; ratios 2 and 2.5.
    expect(six.meanExtraction).toBeCloseTo(19, 12);
    expect(six.sdExtraction).toBeCloseTo(Math.SQRT2, 12);
    expect(six.sdRatio).toBeCloseTo(0.5 / Math.SQRT2, 12);
    expect(table[1]!.sdTime).toBeInstanceOf(Problem);
    expect(table[2]!.meanTime).toBeInstanceOf(Problem);
  });

  it("keeps its digits where values are large and close, as NIST's NumAcc4 asks", () => {
    // NIST StRD NumAcc4: 10000000.2 and 10000000.1, 10000000.3 in turn, 1001 values; mean 10000000.2, standard deviation 0.1 exactly.
    const values = [10000000.2, ...Array.from({ length: 1000 }, (_, index) => (index % 2 === 0 ? 10000000.1 : 10000000.3))];
    const none = values.map(() => null);
    const row = logSummary({ settings: values.map(() => "all"), dose: none, beverage: none, time: values, strength: none })[0]!;
    expect(row.meanTime).toBeCloseTo(10000000.2, 7);
    // The values themselves are stored to 2e-9, which is 2e-8 of the spread.
    expect(row.sdTime).toBeCloseTo(0.1, 8);
  });

  it("is refused where there are no shots", () => {
    expect(problemOf(() => logSummary({ settings: [1], dose: [null], beverage: [null], time: [null], strength: [null] })).message).toBe("There are no shots.");
  });
});

describe("in a sheet", () => {
  it("LOG.SUMMARY has headings in the units of the workbook and gaps where a setting has too little", () => {
    const table = grid("LOG.SUMMARY", ["6", "6", 8], [18, 18, 18], [36, 36, null], [27, 28, 26], [9.5, null, null]);
    expect(table[0]![0]).toBe("Setting");
    expect(table[0]!.slice(2)).toEqual([
      "Ratio, mean", "Ratio, SD", "Time, mean, s", "Time, SD, s", "Strength, mean, %", "Strength, SD, %", "Extraction, mean, %", "Extraction, SD, %",
    ]);
    expect(table[2]!.slice(0, 2)).toEqual([8, 1]);
    expect(table[2]![2]).toBeInstanceOf(CellError);
  });
});
