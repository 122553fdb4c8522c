import { describe, expect, it } from "vitest";
import { logCapability } from "../../shared/log";
import { Problem } from "../../shared/problem";
import { problemOf } from "../problem-of.ts";

describe("capability", () => {
  it("is the NIST handbook's 1.0 and 0.6667 for limits 8 and 20, mean 16 and standard deviation 2 of all values", () => {
    // NIST/SEMATECH e-Handbook 6.1.6; three values with that mean and that standard deviation.
    const it = logCapability({ values: [14, null, 16, 18] })({ low: 8, high: 20 });
    expect([it.shots, it.inside, it.meanValue, it.sdOverall, it.pp, it.ppk]).toEqual([3, 100, 16, 2, 1, 2 / 3]);
    // Moving ranges of 2 and 2, over 1.128.
    expect(it.sdWithin).toBeCloseTo(2 / 1.128, 12);
    expect(it.cp).toBeCloseTo(12 / (6 * (2 / 1.128)), 12);
    expect(it.cpk).toBeCloseTo(4 / (3 * (2 / 1.128)), 12);
  });

  it("parts the spread from shot to shot from that of all shots, which moves count into", () => {
    const values = Array.from({ length: 40 }, (_, shot) => 27 + (shot % 2) * 0.4 + (shot >= 20 ? 4 : 0));
    const it = logCapability({ values })({ low: 24, high: 36 });
    expect(it.sdOverall as number).toBeGreaterThan(4 * (it.sdWithin as number));
    expect(it.cp as number).toBeGreaterThan(4 * (it.pp as number));
  });

  it("has the interval of Ppk that holds it 19 times in 20", () => {
    // 1500 logs of 40 shots from a fixed generator, one binomial spread 0.6 %; Bissell's interval is a normal approximation, good to 1 % here.
    let state = 5;
    const uniform = (): number => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32;
    const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
    let held = 0;
    for (let round = 0; round < 1500; round++) {
      const { low, high } = logCapability({ values: Array.from({ length: 40 }, () => 28 + normal()) })({ low: 24, high: 30 });
      // 2 from the nearer limit over three standard deviations of 1.
      if ((low as number) <= 2 / 3 && 2 / 3 <= (high as number)) held++;
    }
    expect(held / 1500).toBeGreaterThan(0.95 - 0.01 - 3.5 * 0.006);
    expect(held / 1500).toBeLessThan(0.95 + 0.01 + 3.5 * 0.006);
  });

  it("counts the share inside, limits included", () => {
    expect(logCapability({ values: [24, 25, 30, 31] })({ low: 25, high: 30 }).inside).toBe(50);
  });

  it("gives what it can of one value or of equal ones", () => {
    const one = logCapability({ values: [27] })({ low: 25, high: 30 });
    expect([one.shots, one.inside, one.meanValue]).toEqual([1, 100, 27]);
    for (const cell of [one.sdWithin, one.sdOverall, one.cp, one.ppk, one.low]) expect(cell).toBeInstanceOf(Problem);
    const equal = logCapability({ values: [27, 27] })({ low: 25, high: 30 });
    expect([equal.sdWithin, equal.sdOverall]).toEqual([0, 0]);
    for (const cell of [equal.cp, equal.pp, equal.high]) expect(cell).toBeInstanceOf(Problem);
    expect(problemOf(() => logCapability({ values: [27] })({ low: 30, high: 25 })).message).toMatch(/low, 30, must be less than high, 25/);
    expect(problemOf(() => logCapability({ values: [null] })).message).toBe("There are no values.");
  });
});
