import { describe, expect, it } from "vitest";
import { logLimits } from "../../shared/log";
import { problemOf } from "../problem-of.ts";

describe("control limits", () => {
  // NIST/SEMATECH e-Handbook 6.3.2.2, flow rate example: centre 50.81, mean moving range 1.8778, limits 55.8041 and 45.8159 with d2 = 1.128.
  const flowRates = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

  it("are those of the NIST handbook's worked example", () => {
    const limits = logLimits({ values: flowRates })({});
    expect(limits.centre).toBeCloseTo(50.81, 10);
    // The handbook prints four decimals.
    expect(limits.high).toBeCloseTo(55.8041, 4);
    expect(limits.low).toBeCloseTo(45.8159, 4);
    // 3.267 times the mean moving range, 16.9 / 9.
    expect(limits.rangeLimit).toBeCloseTo(3.267 * 16.9 / 9, 10);
  });

  it("skip blanks", () => expect(logLimits({ values: [null, ...flowRates.slice(0, 4), null, ...flowRates.slice(4)] })({})).toEqual(logLimits({ values: flowRates })({})));
  it("need two values", () => expect(problemOf(() => logLimits({ values: [36, null] })({})).message).toBe("There is one value; limits need two or more."));
});

describe("limits of a baseline", () => {
  const before = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

  it("come from the first values that are not blank", () => {
    expect(logLimits({ values: [null, ...before.slice(0, 3), null, ...before.slice(3), 90, 95] })({ baseline: 10 })).toEqual(logLimits({ values: before })({}));
  });

  it("wait for as many values as they ask for", () => {
    expect(problemOf(() => logLimits({ values: before })({ baseline: 20 }))).toEqual({ kind: "no answer", message: "baseline asks for 20 values, but there are 10 so far." });
  });
});
