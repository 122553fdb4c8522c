import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { calibrate } from "../shared/instruments.ts";
import { messageOf, problemOf } from "./problem-of.ts";

/** A refractometer at known sugar solutions, invented. Values by R: tests/reference/scripts/instruments.R. */
const known = { readings: [0.02, 4.97, 5.06, 9.91, 10.08, 14.88], references: [0, 5, 5, 10, 10, 15] };

describe("calibration", () => {
  it.each([
    [{ reading: 9.4 }, [9.42947072485026, 9.19752069603118, 9.66269255315837]],
    [{ reading: 9.4, confidence: 0.9 }, [9.42947072485026, 9.2512707288859, 9.60842043149938]],
    // The value lies inside the references, the end of its interval may pass them.
    [{ reading: 14.8 }, [14.8750152793057, 14.6113622918573, 15.1435294654979]],
    [{ reading: 0.05 }, [0.000611172228332472, -0.269087621523099, 0.265366787129559]],
  ])("gives what R's line, read backwards, gives: %j", (asked, expected) => {
    const { trueValue, low, high } = calibrate(known)(asked);
    // R's ends come from a root finder, good to some 1e-13.
    [trueValue, low, high].forEach((value, index) => expect(value).toBeCloseTo(expected[index]!, 11));
  });

  it("works for an instrument that falls while the true value rises", () => {
    const { trueValue, low, high } = calibrate({ readings: [9.8, 8.1, 6.05, 3.9, 2.2], references: [1, 2, 3, 4, 5] })({ reading: 5 });
    expect([trueValue, low, high].map((it) => Number((it as number).toFixed(9)))).toEqual([3.520618557, 3.253367231, 3.794070998]);
  });

  it("gives the value alone where two readings or an exact line leave no spread", () => {
    const two = calibrate({ readings: [0.1, 10.2], references: [0, 10] })({ reading: 10.2 });
    expect(two.trueValue).toBeCloseTo(10, 12);
    expect(messageOf(two.low)).toMatch(/^Two readings always lie on a line.*third known value\.$/);
    expect(two.high).toBe(two.low);
    const exact = calibrate({ readings: [0.1, 5.1, 10.1], references: [0, 5, 10] })({ reading: 7.1 });
    expect(exact.trueValue).toBeCloseTo(7, 12);
    expect(messageOf(exact.low)).toMatch(/^The readings lie exactly on a line/);
  });

  it("has no interval where the readings hardly follow the references", () => {
    const { trueValue, low } = calibrate({ readings: [5, 1, 6, 2.5], references: [0, 5, 10, 15] })({ reading: 3.6 });
    expect(trueValue).toBeGreaterThan(0);
    expect(messageOf(low)).toMatch(/^The readings scatter too much for an interval/);
  });

  it("says nothing beyond the references, and to the ends of them it does", () => {
    const at = calibrate({ readings: [0.3, 10.6, 5.35], references: [0, 10, 5] });
    expect(problemOf(() => at({ reading: 12.1 }))).toEqual({
      kind: "no answer", message: "reading 12.1 stands for a value above the references, 0 to 10. Read a known value above 10.",
    });
    expect(problemOf(() => at({ reading: -1 })).message).toBe("reading -1 stands for a value below the references, 0 to 10. Read a known value below 0.");
    fc.assert(fc.property(fc.double({ min: -1e3, max: 1e3, noNaN: true }), fc.double({ min: 0.01, max: 1e3, noNaN: true }), (offset, factor) => {
      const references = [1, 4.7];
      const readings = references.map((it) => offset + factor * it);
      const ends = calibrate({ readings, references });
      readings.forEach((reading, index) => expect(ends({ reading }).trueValue).toBeCloseTo(references[index]!, 6));
    }));
  });

  it.each<[string, number[], number[], RegExp]>([
    ["no reading", [], [], /but there are none\.$/],
    ["one reading", [5], [5], /but there is one\.$/],
    ["one known value", [5, 5.1], [5, 5], /^All references are 5\./],
    ["readings that do not move", [5, 5, 5], [0, 5, 10], /^The readings do not change/],
  ])("has no answer for %s", (_, readings, references, words) => {
    const refusal = problemOf(() => calibrate({ readings, references }));
    expect(refusal.kind).toBe("no answer");
    expect(refusal.message).toMatch(words);
  });

  it("holds the true value 19 times in 20", () => {
    // 600 calibrations of five known values from a fixed generator; one binomial spread is 0.9 %.
    let state = 99;
    const uniform = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
    const references = [0, 3, 6, 9, 12];
    let held = 0;
    for (let round = 0; round < 600; round++) {
      const read = (it: number): number => 0.2 + 0.97 * it + 0.1 * normal();
      const { low, high } = calibrate({ readings: references.map(read), references })({ reading: read(7) });
      if ((low as number) <= 7 && 7 <= (high as number)) held++;
    }
    expect(held / 600).toBeGreaterThan(0.95 - 3.5 * 0.009);
    expect(held / 600).toBeLessThan(0.95 + 3.5 * 0.009);
  });
});
