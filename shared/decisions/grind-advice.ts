/**
 * What to do with the grinder next, in one sentence. With shots of today: leave it, or a step and how sure it is. Without: the setting to
 * start with, from the log alone. Each rule has a number, so that a test can drive every one of them; the first that applies speaks.
 */
import { grindForTime, timeForGrind } from "../dialin/grind";
import { levelOf, nextGrind, slopeIsClear, slopeWithinDays, timedShots, type DayLog, type TodaysCells, type TodaysShots } from "../dialin/next-grind";
import { Problem } from "../problem";
import { settingKey } from "../settings";
import { extremesOf, mean } from "../statistics/describe";
import { amount, difference, printedTo, range, rounded, words, type Amount, type Words } from "../words";
import { decimalsOf, type Advice } from "./sentences";

export interface GrindAdvice extends Advice {
  /** The setting to take, "" where the sentence names none; low and high where one new shot of this time would come from, 95 %. */
  readonly setting: number | "";
  readonly low: number | "";
  readonly high: number | "";
}

/** The time wanted, s, and how far off it may be. */
export interface Wanted {
  readonly target?: number;
  readonly tolerance?: number;
}

export function grindAdvice(given: TodaysCells & DayLog): (wanted: Wanted) => GrindAdvice {
  const shots = timedShots(given);
  const answer = shots.time.length > 0 ? today({ ...given, ...shots }) : start(given);
  return ({ target, tolerance }) => {
    if (target === undefined || tolerance === undefined) return advice(2, "Give the time that you want, and how far off it may be.");
    return answer(target, tolerance);
  };
}

type Answer = (target: number, tolerance: number) => GrindAdvice;

/** Where a rule names no setting, without numbers. */
export function advice(branch: number, sentence: Words, setting: number | "" = "", interval?: { low: number; high: number } | null): GrindAdvice {
  return { branch, sentence, setting, low: interval?.low ?? "", high: interval?.high ?? "" };
}

/** With shots of today. */
function today(given: TodaysShots & DayLog): Answer {
  const saying = sayingOf(given);
  const level = levelOf(given);
  const last = given.time[given.time.length - 1]!;
  const atLast = mean(given.time.filter((_, shot) => given.setting[shot] === level.last));
  const line = slopeWithinDays(given);
  const isClear = line !== null && slopeIsClear(line);
  return (target, tolerance) => {
    const say = saying(target);
    const isInside = (time: number): boolean => Math.abs(time - target) <= tolerance + 1e-9;
    const here = say.setting(level.last);

    if (isInside(last)) return advice(6, words`On target: ${say.time(last)}. Leave ${here}.`, level.last);
    const off = words`${say.difference(last - target)} ${last > target ? "slow" : "fast"}`;
    if (isInside(atLast)) return advice(7, words`${off}, but today averages ${say.time(atLast)}. Leave ${here}.`, level.last);

    if (!line || !isClear) return advice(8, words`${off}. One step ${last > target ? "coarser" : "finer"}; the log cannot say how far.`);
    const expected = Math.exp(level.logTime + line.slope * (level.last - level.centre));
    const next = nextGrind(line, level, target);
    // Where today's shots together ask for the opposite of what the last one does, they do not ask for a step.
    if (isInside(expected) || last > target !== expected > target) {
      return advice(7, words`${off}, but today's shots together put ${here} at ${say.time(expected)}. Leave ${here}.`, level.last);
    }
    if (next.cut) return advice(9, words`${off}. Go to ${say.setting(next.setting)} first, the longest step tried.`, next.setting);
    if (!next.interval) return advice(10, words`${off}. Try ${say.found(next.setting, level.last)(next.setting)}; how sure is not known yet.`, next.setting);
    const { low, high } = next.interval;
    const found = say.found(next.setting, level.last, low, high);
    if (low <= level.last && level.last <= high) {
      const interval = `${found(low)} to ${found(high)}`;
      return advice(11, words`${off}. Next: ${found(next.setting)} (${interval}). Shots differ that much: one more at ${here} will do too.`, next.setting, next.interval);
    }
    return advice(12, words`${off}. Next: ${found(next.setting)}, between ${found(low)} and ${found(high)}.`, next.setting, next.interval);
  };
}

/** Without a shot of today: from the log alone. */
function start({ settings, times, days = [] }: DayLog): Answer {
  const saying = sayingOf({ settings, times });
  if (new Set(days.map(settingKey)).size > 1) {
    const lastSetting = settings[settings.length - 1]!;
    return (target) => advice(1, words`Pull one shot at ${saying(target).setting(lastSetting)}, where the log ends, and type its setting and time.`, lastSetting);
  }
  if (settings.length < 2) return () => advice(21, "Pull a shot at each of two settings.");
  const [least, most] = extremesOf(settings);
  if (least === most) return (target) => advice(22, words`All at ${saying(target).setting(least)}: change one step, pull again.`);

  const [shortest, longest] = extremesOf(times);
  const line = slopeWithinDays({ settings, times });
  const level = levelOf({ setting: settings, time: times });
  const unclear = advice(25, "Time does not clearly follow the grind. Try a setting further off.");
  const fits = line && line.slope !== 0 ? { settingFor: grindForTime({ settings, times }), timeAt: timeForGrind({ settings, times }) } : null;
  return (target, tolerance) => {
    const say = saying(target);
    const isOutside = target < shortest || target > longest;
    const finer = target > longest;
    const settingOf = (time: number): string => say.setting(settings[times.indexOf(time)]!);
    if (settings.length === 2 && isOutside && shortest < longest) {
      const beyond = settingOf(finer ? longest : shortest);
      return advice(23, words`${say.time(target)} is outside both. Pull a third ${finer ? "finer" : "coarser"} than ${beyond}.`);
    }
    if (!line || !fits) return unclear;
    const next = nextGrind(line, level, target);
    if (settings.length > 2 && !next.interval) return unclear;
    const { onTheLine } = next;
    if (isOutside || onTheLine < least || onTheLine > most) {
      const isFiner = isOutside ? finer : onTheLine > most === line.slope > 0;
      const beyond = isOutside ? words`is ${finer ? "longer" : "shorter"} than any tried` : "lies beyond the settings tried";
      return advice(26, words`${say.time(target)} ${beyond}. Go ${isFiner ? "finer" : "coarser"} than ${say.setting(isFiner === line.slope > 0 ? most : least)}.`);
    }
    const { setting, low, high } = fits.settingFor({ target });
    if (low instanceof Problem || high instanceof Problem) {
      return advice(24, words`Start at ${say.found(setting, ...settings)(setting)}. A third tells how sure.`, setting);
    }
    const found = say.found(setting, low, high);
    const expected = fits.timeAt({ setting });
    const [from, to] = [expected.timeLow as number, expected.timeHigh as number];
    if (to - from > 2 * tolerance) {
      return advice(28, words`Start at ${found(setting)}; it may take ${say.span(from, to)}. Pull two more.`, setting, { low, high });
    }
    return advice(29, words`Set ${found(setting)} (${found(low)} to ${found(high)}): ${say.span(from, to)}, 19 shots in 20.`, setting, { low, high });
  };
}

interface Saying {
  /** A setting that was typed. */
  setting(value: number): string;
  /**
   * How settings that were worked out are printed: with the decimals typed, one more where those are fewer than two, and one more again
   * where the proposal would read like another of them.
   */
  found(proposal: number, ...others: readonly number[]): (value: number) => string;
  time(value: number): Amount;
  span(from: number, to: number): Amount;
  /** The size of a difference of times. */
  difference(value: number): Amount;
}

/** Settings with the decimals typed, times to the tenth or the second as they are typed. */
function sayingOf({ settings, times, ...today }: DayLog & Partial<TodaysShots>): (target: number) => Saying {
  const typedDecimals = decimalsOf([...(today.setting ?? []), ...settings]);
  const withDecimals = (decimals: number) => (value: number): string => printedTo(10 ** -decimals, value);
  const workedOut = typedDecimals < 2 ? typedDecimals + 1 : typedDecimals;
  const timesAreWhole = decimalsOf([...(today.time ?? []), ...times]) === 0;
  const found: Saying["found"] = (proposal, ...others) => {
    const print = withDecimals(workedOut);
    return others.some((other) => print(other) === print(proposal)) ? withDecimals(workedOut + 1) : print;
  };
  return (target) => {
    const timeStep = timesAreWhole && decimalsOf([target]) === 0 ? 1 : 0.1;
    return {
      setting: withDecimals(typedDecimals),
      found,
      time: (value) => rounded(amount("time", value), timeStep),
      span: (from, to) => rounded(range("time", from, to), timeStep),
      difference: (value) => rounded(difference("time", Math.abs(value)), timeStep),
    };
  };
}
