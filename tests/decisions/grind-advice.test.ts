import { describe, expect, it } from "vitest";
import { grindAdvice, type GrindAdvice } from "../../shared/decisions/grind-advice.ts";
import { grindNext, type DayLog } from "../../shared/dialin/next-grind.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { worded } from "../../src/sheet/wording.ts";
import { seededNormal } from "../made-data.ts";

/** Three days of one coffee: each day another level, each step of 0.1 some 9 % of the time. */
const log: DayLog = {
  days: ["Mon", "Mon", "Mon", "Tue", "Tue", "Tue", "Wed", "Wed", "Wed"],
  settings: [2.3, 2.1, 2.25, 2.3, 2.4, 2.35, 2.4, 2.2, 2.3],
  times: [24.5, 29.4, 25.1, 29.3, 27.1, 27.9, 25.5, 30.1, 27.9],
};
/** The same with shots that differ by some 5 % from what their setting gives. */
const rough: DayLog = { ...log, times: [25.6, 29.1, 24.2, 28, 27.9, 27.3, 26.7, 30.5, 26.8] };
/** The same with times that the setting does not explain. */
const scattered: DayLog = { ...log, times: [26, 24, 29, 25, 29, 24.5, 28, 26, 27] };
const oneSetting: DayLog = { ...log, settings: log.settings.map(() => 2.3) };
/** One day with two shots: a slope, and nothing to judge it by, not even its direction. */
const twoShots: DayLog = { settings: [2.3, 2.1], times: [25, 30], days: ["Mon", "Mon"] };
/** Three shots of one day: the direction is clear at one-sided 5 %, the interval at 95 % has no end. */
const threeShots: DayLog = { settings: [2.3, 2.2, 2.1], times: [25, 27, 30], days: ["Mon", "Mon", "Mon"] };
const none: DayLog = { settings: [], times: [], days: [] };

function said({ branch, sentence }: GrindAdvice): string {
  return `${branch}: ${worded(sentence, defaultUnits)}`;
}

interface Case {
  readonly why: string;
  readonly today: readonly (readonly [setting: number, time: number])[];
  readonly log: DayLog;
  readonly target?: number;
  readonly tolerance?: number;
  readonly says: string;
}

describe("with shots of today", () => {
  const target = 27;
  it.each<Case>([
    { why: "no time wanted yet", today: [[2.3, 27]], log, says: "2: Give the time that you want, and how far off it may be." },
    { why: "the last shot on target", today: [[2.3, 27.5]], log, target, says: "6: On target: 27.5 s. Leave 2.30." },
    { why: "at the very edge of the tolerance", today: [[2.3, 30]], log, target, says: "6: On target: 30.0 s. Leave 2.30." },
    { why: "on target without any log", today: [[2.3, 27]], log: none, target, says: "6: On target: 27 s. Leave 2.3." },
    { why: "one slow shot among good ones", today: [[2.3, 25.5], [2.3, 26], [2.3, 30.5]], log, target, says: "7: 3.5 s slow, but today averages 27.3 s. Leave 2.30." },
    { why: "one fast shot among good ones", today: [[2.3, 29], [2.3, 23]], log, target, says: "7: 4.0 s fast, but today averages 26.0 s. Leave 2.30." },
    { why: "a slow shot at a new setting, but the others say it is right", today: [[2.4, 24.5], [2.4, 24.5], [2.4, 24.6], [2.3, 30.5]], log, target, says: "7: 3.5 s slow, but today's shots together put 2.30 at 27.7 s. Leave 2.30." },
    { why: "no day changed the setting", today: [[2.3, 31]], log: oneSetting, target, says: "8: 4.0 s slow. One step coarser; the log cannot say how far." },
    { why: "no log at all", today: [[2.3, 22]], log: none, target, says: "8: 5 s fast. One step finer; the log cannot say how far." },
    { why: "times that do not follow the setting", today: [[2.3, 31]], log: scattered, target, says: "8: 4.0 s slow. One step coarser; the log cannot say how far." },
    { why: "further than any step tried", today: [[2.3, 36]], log, target, says: "9: 9.0 s slow. Go to 2.50 first, the longest step tried." },
    { why: "further than any step tried, the other way", today: [[2.3, 20]], log, target, says: "9: 7.0 s fast. Go to 2.10 first, the longest step tried." },
    { why: "two shots, which show no direction", today: [[2.3, 31]], log: twoShots, target, says: "8: 4 s slow. One step coarser; the log cannot say how far." },
    { why: "a slope with too much spread for an interval", today: [[2.2, 29]], log: threeShots, target, tolerance: 1, says: "10: 2 s slow. Try 2.28; how sure is not known yet." },
    { why: "one slow shot, and shots differ by as much", today: [[2.3, 30.5]], log: rough, target, says: "11: 3.5 s slow. Next: 2.49 (2.23 to 3.52). Shots differ that much: one more at 2.30 will do too." },
    { why: "three slow shots alike", today: [[2.3, 30.3], [2.3, 30.2], [2.3, 30.1]], log, target, says: "12: 3.1 s slow. Next: 2.43, between 2.39 and 2.47." },
    { why: "three fast shots alike", today: [[2.3, 23.8], [2.3, 24], [2.3, 23.9]], log, target, says: "12: 3.1 s fast. Next: 2.16, between 2.12 and 2.20." },
  ])("$why", ({ today, log: days, target: wanted, tolerance = 3, says }) => {
    const advice = grindAdvice({ setting: today.map(([setting]) => setting), time: today.map(([, time]) => time), ...days })({ target: wanted, tolerance });
    expect(said(advice)).toBe(says);
  });
});

describe("without a shot of today", () => {
  const clear = { settings: [1, 1.2, 1.4, 1.6, 1.8, 2], times: [41.5, 34, 29.5, 24, 20.5, 17] };
  it.each<Omit<Case, "today">>([
    { why: "no time wanted yet", log: clear, says: "2: Give the time that you want, and how far off it may be." },
    { why: "several days, none of them today", log, target: 27, says: "1: Pull one shot at 2.30, where the log ends, and type its setting and time." },
    { why: "nothing yet", log: none, target: 27, says: "21: Pull a shot at each of two settings." },
    { why: "one shot", log: { settings: [2.3], times: [30] }, target: 27, says: "21: Pull a shot at each of two settings." },
    { why: "two shots at one setting", log: { settings: [2.3, 2.3], times: [30, 28] }, target: 27, says: "22: All at 2.3: change one step, pull again." },
    { why: "two shots, both shorter", log: { settings: [2, 2.3], times: [25, 21] }, target: 27, says: "23: 27 s is outside both. Pull a third finer than 2.0." },
    { why: "two shots, both longer", log: { settings: [2, 2.3], times: [40, 33] }, target: 27, says: "23: 27 s is outside both. Pull a third coarser than 2.3." },
    { why: "two shots, both shorter, on a grinder that counts the other way", log: { settings: [8, 7], times: [25, 21] }, target: 27, says: "23: 27 s is outside both. Pull a third finer than 8." },
    { why: "two shots around the time", log: { settings: [2, 2.3], times: [30, 24] }, target: 27, says: "24: Start at 2.14. A third tells how sure." },
    { why: "two settings, one time", log: { settings: [2, 2.3], times: [27, 27] }, target: 27, says: "25: Time does not clearly follow the grind. Try a setting further off." },
    { why: "times that do not follow the setting", log: { settings: [2, 2.1, 2.2, 2.3], times: [26, 29, 24, 27] }, target: 27, says: "25: Time does not clearly follow the grind. Try a setting further off." },
    { why: "the same outside the times", log: { settings: [2, 2.1, 2.2, 2.3], times: [26, 29, 24, 27] }, target: 35, says: "25: Time does not clearly follow the grind. Try a setting further off." },
    { why: "longer than any tried", log: clear, target: 45, says: "26: 45.0 s is longer than any tried. Go finer than 1.0." },
    { why: "shorter than any tried", log: clear, target: 15, says: "26: 15.0 s is shorter than any tried. Go coarser than 2.0." },
    { why: "longer than any tried, on a grinder that counts the other way", log: { settings: [2, 4, 6, 8], times: [15, 19.5, 25, 32] }, target: 45, says: "26: 45.0 s is longer than any tried. Go finer than 8." },
    { why: "inside the times, but the line reaches it only beyond the settings", log: { settings: [2, 2, 2.1, 2.2, 2.3], times: [32, 29, 27, 25, 22.5] }, target: 31.5, says: "26: 31.5 s lies beyond the settings tried. Go finer than 2.0." },
    { why: "one shot would scatter more than it may", log: { settings: [2, 2.1, 2.2, 2.3], times: [32, 28, 26.5, 22.5] }, target: 27, tolerance: 1, says: "28: Start at 2.15; it may take 23.2 to 31.4 s. Pull two more." },
    { why: "sure enough", log: clear, target: 27, says: "29: Set 1.48 (1.43 to 1.53): 25.9 to 28.2 s, 19 shots in 20." },
  ])("$why", ({ log: days, target: wanted, tolerance = 3, says }) => {
    expect(said(grindAdvice({ setting: [], time: [], ...days })({ target: wanted, tolerance }))).toBe(says);
  });
});

const [shotSd, daySd, slope, target] = [0.04, 0.1, -0.9, 27];

/** One made morning after five made days: six shots, each where the sentence before it says. */
function morning(normal: () => number, tolerance: number): { off: number; steps: number[]; widestStep: number } {
  const timeAt = (day: number, setting: number): number => target * Math.exp(day + slope * (setting - 2.3));
  const pulled = (day: number, setting: number): number => Math.round(10 * timeAt(day, setting) * Math.exp(shotSd * normal())) / 10;
  const days: string[] = [];
  const settings: number[] = [];
  const times: number[] = [];
  for (let day = 0; day < 5; day++) {
    const level = daySd * normal();
    for (const setting of [2.3, 2.2, 2.35, 2.45].map((it) => it + 0.05 * (day % 2))) {
      days.push(`day ${day}`);
      settings.push(setting);
      times.push(pulled(level, setting));
    }
  }
  const level = daySd * normal();
  const setting: number[] = [2.3];
  const time: number[] = [];
  let advised = 2.3;
  for (let shot = 0; shot < 6; shot++) {
    time.push(pulled(level, advised));
    const advice = grindAdvice({ setting, time, settings, times, days })({ target, tolerance });
    if (advice.setting !== "") advised = Math.round(100 * advice.setting) / 100;
    setting.push(advised);
  }
  return { off: Math.abs(timeAt(level, advised) - target), steps: setting.slice(1).map((it, shot) => Math.abs(it - setting[shot]!)), widestStep: 0.2 };
}

describe("mornings that follow the sentences", () => {
  const tolerance = 2;
  const normal = seededNormal(7);
  const mornings = Array.from({ length: 200 }, () => morning(normal, tolerance));

  it("end within the tolerance, nine times in ten", () => {
    expect(mornings.filter(({ off }) => off <= tolerance).length).toBeGreaterThan(180);
  });

  it("never take a step longer than any tried, but for the rounding of settings", () => {
    for (const { steps, widestStep } of mornings) expect(Math.max(...steps)).toBeLessThanOrEqual(widestStep + 0.005 + 1e-9);
  });
});

it("a step is named in the right direction, 99 times in 100, however little the log holds", () => {
  const normal = seededNormal(3);
  let [named, wrong] = [0, 0];
  for (const shots of [2, 3, 4, 6]) {
    for (let trial = 0; trial < 300; trial++) {
      const settings = Array.from({ length: shots }, (_, shot) => 2.3 + 0.1 * ((shot % 3) - 1));
      const times = settings.map((setting) => target * Math.exp(slope * (setting - 2.3) + 0.08 * normal()));
      const isSlow = trial % 2 === 0;
      const advice = grindAdvice({ setting: [2.3], time: [isSlow ? 32 : 22.5], settings, times })({ target, tolerance: 2 });
      if (advice.branch < 9) continue;
      named++;
      if ((advice.setting as number) > 2.3 !== isSlow) wrong++;
    }
  }
  expect(named).toBeGreaterThan(200);
  expect(wrong / named).toBeLessThan(0.01);
});

it("the proposal of the next setting uses all of today's shots, as the last alone hunts after its scatter", () => {
  const normal = seededNormal(11);
  // Slope of the made log above, and a grinder that is 4 s slow today.
  const timeAt = (setting: number): number => 31 * Math.exp(-0.77 * (setting - 2.3));
  const near = (shots: number): number => {
    const trials = Array.from({ length: 400 }, () => {
      const setting = Array.from({ length: shots }, () => 2.3);
      const time = setting.map((it) => timeAt(it) * Math.exp(0.05 * normal()));
      return grindNext({ ...log, setting, time })({ target: 27 }).setting;
    });
    return trials.filter((setting) => Math.abs(timeAt(setting) - 27) <= 1.5).length / trials.length;
  };
  expect(near(4)).toBeGreaterThan(0.9);
  expect(near(1)).toBeLessThan(near(4) - 0.1);
});
