/**
 * The next setting of a morning. Coffee and weather shift all times of a day together, but hardly what a step of the grinder does to them:
 * the days of a log give the slope of ln time on setting, today's shots give the height of the line.
 */
import { noAnswer, Problem } from "../problem";
import { settingKey, type Setting } from "../settings";
import { mean, sum } from "../statistics/describe";
import { tQuantileTwoSided } from "../statistics/distributions";
import { inverseInterval } from "../statistics/inverse-interval";
import { amount, printed, words } from "../words";
import type { Numbers } from "./shots";

export interface DayLog {
  readonly settings: Numbers;
  readonly times: Numbers;
  /** The day of each shot, in the order pulled; all of one day where left out. */
  readonly days?: readonly Setting[];
}

/** Shots of today in the order pulled, as they stand in cells: null where nothing is typed. */
export interface TodaysCells {
  readonly setting: readonly (number | null)[];
  readonly time: readonly (number | null)[];
}

export interface TodaysShots {
  readonly setting: Numbers;
  readonly time: Numbers;
}

/** The shots that have a time; one without a setting is refused with its place. */
export function timedShots({ setting, time }: TodaysCells): TodaysShots {
  const timed = time.flatMap((it, shot) => (it === null ? [] : [{ shot, time: it }]));
  return {
    setting: timed.map(({ shot }) => setting[shot] ?? noAnswer(`setting is blank in entry ${shot + 1}, where time has a value. Fill it in, or clear both.`)),
    time: timed.map((it) => it.time),
  };
}

/** What a log says of the grinder, whatever the level of its days. */
export interface GrindSlope {
  /** Change of ln time for each step of the setting; 0 where the log cannot tell. */
  readonly slope: number;
  /** Variance of the slope for a residual variance of 1. */
  readonly slopeVariance: number;
  /** Residual standard deviation of ln time within days, and its degrees of freedom. */
  readonly spread: number;
  readonly df: number;
  /** The widest change of setting between consecutive shots of one day. */
  readonly widestStep: number;
}

/** Least squares of ln time on setting, pooled within days; null where no day changed the setting. */
export function slopeWithinDays({ settings, times, days = settings.map(() => "") }: DayLog): GrindSlope | null {
  const shotsOf = new Map<string, number[]>();
  days.forEach((day, shot) => {
    const key = settingKey(day);
    const shots = shotsOf.get(key);
    if (shots) shots.push(shot);
    else shotsOf.set(key, [shot]);
  });
  const offSettings: number[] = [];
  const offLogTimes: number[] = [];
  let widestStep = 0;
  for (const shots of shotsOf.values()) {
    const own = shots.map((shot) => settings[shot]!);
    const logTimes = shots.map((shot) => Math.log(times[shot]!));
    const [centre, level] = [mean(own), mean(logTimes)];
    for (const value of own) offSettings.push(value - centre);
    for (const value of logTimes) offLogTimes.push(value - level);
    own.forEach((value, place) => (widestStep = Math.max(widestStep, Math.abs(value - (own[place - 1] ?? value)))));
  }
  if (widestStep === 0) return null;
  const squares = sum(offSettings.map((off) => off * off));
  const slope = sum(offSettings.map((off, shot) => off * offLogTimes[shot]!)) / squares;
  const left = sum(offLogTimes.map((off, shot) => (off - slope * offSettings[shot]!) ** 2));
  const df = settings.length - shotsOf.size - 1;
  return { slope, slopeVariance: 1 / squares, spread: df > 0 ? Math.sqrt(left / df) : 0, df, widestStep };
}

/** Whether the log shows which way time goes with the setting, one-sided at 5 %; two shots alone cannot. */
export function slopeIsClear({ slope, slopeVariance, spread, df }: GrindSlope): boolean {
  return slope !== 0 && df > 0 && Math.abs(slope) > tQuantileTwoSided(0.1, df) * spread * Math.sqrt(slopeVariance);
}

/** Where today's shots put the line: the mean of their settings and of their ln times, and how many they are. */
export interface TodaysLevel {
  readonly centre: number;
  readonly logTime: number;
  readonly shots: number;
  readonly last: number;
}

export function levelOf({ setting, time }: TodaysShots): TodaysLevel {
  return { centre: mean(setting), logTime: mean(time.map(Math.log)), shots: setting.length, last: setting[setting.length - 1]! };
}

export interface NextGrind {
  /** The setting that the line gives, and the one to take: not further from today's last setting than any step tried. */
  readonly onTheLine: number;
  readonly setting: number;
  readonly cut: boolean;
  /** Where one new shot of this time would come from, 95 %; null where it has no end, or the log no spread to judge by. */
  readonly interval: { readonly low: number; readonly high: number } | null;
}

/** The step for a time, from the slope of a log and the level of today. Needs a slope that is not 0. */
export function nextGrind(line: GrindSlope, today: TodaysLevel, target: number, confidence = 0.95): NextGrind {
  const onTheLine = today.centre + (Math.log(target) - today.logTime) / line.slope;
  const step = onTheLine - today.last;
  // A step as wide as one that was tried is not cut, whatever the last binary digit says.
  const cut = Math.abs(step) > line.widestStep * (1 + 1e-9);
  const interval = line.df > 0 ? inverseInterval({ ...line, centre: today.centre, variance: 1 + 1 / today.shots }, onTheLine, confidence) : null;
  // Twelve digits, so that 2.3 and 0.2 are 2.5 in a cell.
  const longest = Number((today.last + Math.sign(step) * line.widestStep).toPrecision(12));
  return { onTheLine, setting: cut ? longest : onTheLine, cut, interval };
}

/** The next setting with its interval for one new shot: a proposal. */
export function grindNext(given: TodaysCells & DayLog): (asked: { target: number }) => { setting: number; low: number | Problem; high: number | Problem } {
  const shots = timedShots(given);
  if (shots.time.length === 0) noAnswer("No shot of today has a time yet. Pull one at the last setting and type its time.");
  const line = slopeWithinDays(given) ?? noAnswer("No day of the log changed the setting, so it cannot say what a step of the grinder does. Log shots at two settings of one day.");
  if (line.slope === 0) noAnswer("The times of the log do not change with the setting, so no setting follows from a time.");
  const today = levelOf(shots);
  return ({ target }) => {
    const next = nextGrind(line, today, target);
    if (next.interval && !next.cut) return { setting: next.setting, ...next.interval };
    const why = new Problem("no answer", next.cut
      ? words`The line gives ${printed(next.onTheLine)} for ${amount("time", target)}, but the longest step tried on one day is ${printed(line.widestStep)}. Take this step first and pull again.`
      : line.df > 0
        ? "The shots of the log scatter too much for an interval: what a step of the grinder does is not certain. Log more days that changed the setting."
        : "The log has just enough shots for a slope and none left to judge its spread by. Log one more.");
    return { setting: next.setting, low: why, high: why };
  };
}
