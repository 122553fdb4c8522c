import { describe, expect, it } from "vitest";
import { grindNext, slopeWithinDays } from "../shared/dialin/next-grind.ts";
import { Problem } from "../shared/problem.ts";
import { messageOf, problemOf } from "./problem-of.ts";

const log = {
  days: ["Mon", "Mon", "Tue", "Tue", "Wed"],
  settings: [2.3, 2.1, 2.4, 2.3, 2.2],
  times: [24.5, 29.4, 27.1, 29.6, 30.1],
};
const today = { setting: [2.3], time: [31] };

describe("the slope within days", () => {
  it("is that of each day, whatever the level of the days", () => {
    const slope = -0.8;
    const settings = [2, 2.1, 2.3, 2.1, 2.4, 2.2];
    const times = settings.map((setting, shot) => 27 * Math.exp(slope * setting + (shot < 3 ? 0.3 : -0.2)));
    const found = slopeWithinDays({ settings, times, days: [1, 1, 1, "2", "2", "2"] })!;
    expect(found.slope).toBeCloseTo(slope, 12);
    expect(found.df).toBe(3);
    expect(found.widestStep).toBeCloseTo(0.3, 12);
  });

  it("counts shots of a day together wherever they stand, and steps only inside a day", () => {
    const found = slopeWithinDays({ settings: [2, 9, 2.2, 9.1], times: [27, 27, 24, 26], days: ["a", "b", "A ", "b"] })!;
    expect(found.widestStep).toBeCloseTo(0.2, 12);
    expect(found.df).toBe(1);
  });

  it("needs a day that changed the setting", () => {
    expect(slopeWithinDays({ settings: [2, 2.2, 2.4], times: [30, 27, 24], days: [1, 2, 3] })).toBeNull();
  });
});

describe("the next setting", () => {
  it("is a proposal with an interval around it", () => {
    const { setting, low, high } = grindNext({ ...log, ...today })({ target: 28 });
    expect(low as number).toBeLessThan(setting);
    expect(high as number).toBeGreaterThan(setting);
  });

  it("is never further off than the widest step tried, and says what would have been needed", () => {
    for (const [time, step] of [[50, 0.2], [15, -0.2]] as const) {
      const next = grindNext({ ...log, setting: [2.5, 2.3], time: [24.5, time] })({ target: 27 });
      expect(next.setting).toBeCloseTo(2.3 + step, 12);
      expect(next.low).toBeInstanceOf(Problem);
      expect(messageOf(next.high)).toMatch(/^The line gives \d\.\d+ for 27 s, but the longest step tried on one day is 0\.2\./);
    }
  });

  it("has no interval where the log has no spread, or too much of it", () => {
    const twoShots = { settings: [2.3, 2.1], times: [25, 30] };
    expect(messageOf(grindNext({ ...twoShots, ...today })({ target: 28 }).low)).toContain("none left to judge its spread");
    const scattered = { settings: [2.3, 2.1, 2.2, 2.3], times: [25, 26, 30, 24] };
    expect(messageOf(grindNext({ ...scattered, ...today })({ target: 30 }).low)).toContain("scatter too much");
  });

  it.each([
    ["without a shot of today", { ...log, setting: [], time: [] }, "No shot of today"],
    ["without a day that changed the setting", { ...today, settings: [2, 2.1], times: [30, 27], days: [1, 2] }, "No day of the log changed the setting"],
    ["without a log", { ...today, settings: [], times: [] }, "No day of the log changed the setting"],
    ["where the setting changes nothing", { ...today, settings: [2, 2.1], times: [27, 27] }, "do not change with the setting"],
  ])("does not follow %s", (_, given, why) => {
    expect(problemOf(() => grindNext(given)).message).toContain(why);
  });
});
