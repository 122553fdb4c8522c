import { describe, expect, it } from "vitest";
import { logOdd } from "../../shared/log";
import { problemOf } from "../problem-of.ts";
import { chance } from "../simulated-log.ts";

describe("odd values", () => {
  // NIST/SEMATECH e-Handbook 1.3.5.17.1, mass spectrometer readings: G = 2.4687, one outlier.
  const spectrometer = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
  // NIST/SEMATECH e-Handbook 1.3.5.17.3, data of Rosner (1983): three outliers, 6.01, 5.42 and 5.34.
  const rosner = [
    -0.25, 0.68, 0.94, 1.15, 1.2, 1.26, 1.26, 1.34, 1.38, 1.43, 1.49, 1.49, 1.55, 1.56, 1.58, 1.65, 1.69, 1.7,
    1.76, 1.77, 1.81, 1.91, 1.94, 1.96, 1.99, 2.06, 2.09,
    2.1, 2.14, 2.15, 2.23, 2.24, 2.26, 2.35, 2.37, 2.4, 2.47, 2.54, 2.62, 2.64, 2.9, 2.92, 2.92, 2.93, 3.21, 3.26, 3.3, 3.59, 3.68, 4.3, 4.64, 5.34, 5.42, 6.01,
  ];
  const odd = (values: (number | null)[], method?: string): (number | null)[] => {
    const found = logOdd({ values, method });
    return values.filter((_, row) => found[row] === true);
  };

  it("are the three of Rosner's data, of which the first two alone would not be found", () => expect(odd(rosner)).toEqual([5.34, 5.42, 6.01]));
  it("is the one of the handbook's readings, by Grubbs", () => expect(odd(spectrometer, "grubbs")).toEqual([245.57]));
  it("is the same one by the modified z, 29.96", () => expect(odd(spectrometer, "median")).toEqual([245.57]));

  it("follow Grubbs' critical value for both sides, 2.1266 for eight values at 5 %", () => {
    // Seven values of 0 and ±1 and one at the end: its G passes the critical value between 4.5 and 4.6 standard units of this set.
    const g = (values: number[]): number => {
      const average = values.reduce((sum, it) => sum + it, 0) / values.length;
      const sd = Math.sqrt(values.reduce((sum, it) => sum + (it - average) ** 2, 0) / (values.length - 1));
      return Math.max(...values.map((it) => Math.abs(it - average))) / sd;
    };
    for (let end = 1; end < 10; end += 0.01) {
      const values = [-1, -1, 0, 0, 0, 1, 1, end];
      if (Math.abs(g(values) - 2.126645) < 1e-4) continue;
      expect(odd(values, "grubbs").length > 0, `end ${end}`).toBe(g(values) > 2.126645);
    }
  });

  it("keep rows and blanks", () => {
    expect(logOdd({ values: [null, ...spectrometer], method: "grubbs" })).toEqual(["", ...Array<boolean>(7).fill(false), true]);
  });

  it("say when a test has too little to go by", () => {
    expect(problemOf(() => odd([1, 2, 3])).message).toMatch(/needs 15 values or more, but there are 3/);
    expect(problemOf(() => odd([1, 2], "grubbs")).message).toMatch(/three values/);
    expect(problemOf(() => odd([5, 5, 5, 5, 9], "median")).message).toMatch(/More than half of the values are 5/);
    expect(problemOf(() => odd([1, 2], "other")).message).toMatch(/“esd”, “grubbs” or “median”/);
    expect(odd(Array<number>(20).fill(0.1))).toEqual([]);
    expect(odd([...Array<number>(20).fill(0.1), 5])).toEqual([5]);
  });

  it("find planted values among many and nothing more, to the significance", () => {
    const luck = chance(5);
    const values = Array.from({ length: 2000 }, () => luck.around(27, 2));
    for (let row = 0; row < 100; row += 10) values[row] = 270;
    expect(odd(values)).toEqual(Array<number>(10).fill(270));
  });
});
