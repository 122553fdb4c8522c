import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Problem } from "../shared/problem";
import { Running } from "../shared/statistics/running";
import { LogSums, mostSettings, type LogState, type Window } from "../src/log-file/log-sums";
import { plausibleShots, type PlainShot } from "./simulated-log";

const windows: readonly Window[] = [{ measure: "time", low: 25, high: 31 }, { measure: "extraction", low: 18, high: 21 }];

function sumsOf(shots: readonly PlainShot[]): LogSums {
  const sums = new LogSums(windows);
  for (const shot of shots) {
    sums.add(Math.round(shot.dose), shot, shot.time < 40, Math.round(1000 * shot.beverage));
    sums.counts.rows++;
  }
  return sums;
}

/** As another machine would get it. */
const sent = (sums: LogSums): LogSums => LogSums.of(JSON.parse(JSON.stringify(sums.state)) as LogState);

function expectClose(actual: LogState, expected: LogState): void {
  const close = (one: unknown, other: unknown): void => {
    if (typeof one !== "number" || Number.isInteger(other)) expect(one).toEqual(other);
    else expect(Math.abs(one - (other as number))).toBeLessThanOrEqual(1e-12 * Math.abs(other as number));
  };
  expect(actual.counts).toEqual(expected.counts);
  expect(actual.watched).toEqual(expected.watched);
  expect(actual.settings.map(({ setting }) => setting)).toEqual(expected.settings.map(({ setting }) => setting));
  actual.settings.forEach((it, index) => {
    for (const part of ["sound", "odd"] as const) {
      expect(it[part].shots).toBe(expected.settings[index]![part].shots);
      for (const measure of ["ratio", "time", "strength", "extraction"] as const) it[part][measure].forEach((one, at) => close(one, expected.settings[index]![part][measure][at]));
    }
  });
}

describe("sums of a log", () => {
  it("merged from parts are those of the whole", () => {
    const shots = plausibleShots(4000, 11);
    const whole = sumsOf(shots).state;
    fc.assert(fc.property(fc.array(fc.integer({ min: 0, max: shots.length }), { maxLength: 6 }), (cuts) => {
      const ends = [...cuts.sort((a, b) => a - b), shots.length];
      const merged = new LogSums(windows);
      ends.forEach((end, index) => merged.merge(sent(sumsOf(shots.slice(ends[index - 1] ?? 0, end)))));
      expectClose(merged.state, whole);
    }), { numRuns: 50 });
  });

  it("keep the mean and the standard deviation of a two-pass calculation, also beside a large offset", () => {
    const values = plausibleShots(5000, 5).map(({ time }) => 1e6 + time);
    const mean = 1e6 + values.reduce((sum, it) => sum + (it - 1e6), 0) / values.length;
    const sd = Math.sqrt(values.reduce((sum, it) => sum + (it - mean) ** 2, 0) / (values.length - 1));
    for (const parts of [1, 2, 7, 100]) {
      const merged = new Running();
      for (let part = 0; part < parts; part++) {
        const running = new Running();
        for (let at = part; at < values.length; at += parts) running.add(values[at]!);
        merged.merge(running);
      }
      // Of 16 digits the offset takes 5 or so from the standard deviation.
      expect(Math.abs((merged.mean as number) / mean - 1)).toBeLessThan(1e-15 * parts + 1e-14);
      expect(Math.abs((merged.sd as number) / sd - 1)).toBeLessThan(1e-9);
    }
  });

  it("count what is inside, and keep the latest shots", () => {
    const times = Array.from({ length: 2500 }, (_, shot) => 20 + (shot % 20));
    const sums = new LogSums(windows.slice(0, 1));
    times.forEach((time, row) => sums.add(time % 3, { dose: 18, beverage: 36, time, strength: null }, true, row));
    const [watched] = sums.state.watched;
    expect(watched).toEqual({
      window: windows[0], shots: 2500, inside: 2500 * 7 / 20, latest: times.slice(-1000),
      rows: times.map((_, row) => row).slice(-1000), settings: times.map((time) => time % 3).slice(-1000),
    });
    const half = new LogSums(windows.slice(0, 1));
    times.slice(0, 1700).forEach((time, row) => half.add(time % 3, { dose: 18, beverage: 36, time, strength: null }, true, row));
    const rest = new LogSums(windows.slice(0, 1));
    times.slice(1700).forEach((time, row) => rest.add(time % 3, { dose: 18, beverage: 36, time, strength: null }, true, 1700 + row));
    half.merge(sent(rest));
    expect(half.state.watched).toEqual([watched]);
  });

  it("leave out what is beyond all numbers, and stop where there are too many settings", () => {
    const sums = new LogSums();
    sums.add("a", { dose: 1e-320, beverage: 36, time: Infinity, strength: 9 }, false, 2);
    const [all] = sums.summary()[0]!.settings;
    expect([all!.shots, all!.meanStrength]).toEqual([1, 9]);
    for (const none of [all!.meanRatio, all!.meanTime, all!.meanExtraction]) expect(none).toBeInstanceOf(Problem);
    const [one, other] = [0, 1].map((half) => {
      const many = new LogSums();
      for (let setting = 0; setting < mostSettings - 1; setting++) many.add(`${half}-${setting}`, { dose: 18, beverage: 36, time: 27, strength: null }, true, 2 + setting);
      return many;
    });
    expect(one!.tooManySettings).toBe(false);
    one!.merge(other!);
    expect([one!.tooManySettings, one!.state.settings.length]).toEqual([true, mostSettings]);
  });
});
