/** How made mornings end that follow the advice on the grinder, and how often it names a step in the wrong direction. */
import { grindAdvice } from "../../shared/decisions/grind-advice.ts";
import { grindNext, type DayLog } from "../../shared/dialin/next-grind.ts";
import type { Draw, Simulation } from "./simulation.ts";

const [target, slope, daySpread, usual] = [27, -0.9, 0.1, 2.3];

/** The time that a setting gives on a day of this level, without the shot's own scatter. */
function timeAt(level: number, setting: number): number {
  return target * Math.exp(level + slope * (setting - usual));
}

/** Five days of four shots, each day of its own level. */
function logOf(draw: Draw, spread: number): DayLog {
  const days = Array.from({ length: 20 }, (_, shot) => Math.floor(shot / 4));
  const levels = Array.from({ length: 5 }, () => daySpread * draw.normal());
  const settings = days.map((day, shot) => [2.3, 2.2, 2.35, 2.45][shot % 4]! + 0.05 * (day % 2));
  return { days, settings, times: days.map((day, shot) => timeAt(levels[day]!, settings[shot]!) * Math.exp(spread * draw.normal())) };
}

/** How far, in seconds, the setting is off after six shots, each where `next` says. */
function morning(draw: Draw, spread: number, next: (setting: readonly number[], time: readonly number[], log: DayLog) => number): number {
  const log = logOf(draw, spread);
  const level = daySpread * draw.normal();
  const [setting, time]: [number[], number[]] = [[usual], []];
  for (let shot = 0; shot < 6; shot++) {
    const present = setting[shot]!;
    time.push(timeAt(level, present) * Math.exp(spread * draw.normal()));
    setting.push(Math.round(100 * next(setting, time, log)) / 100);
  }
  return Math.abs(timeAt(level, setting[6]!) - target);
}

/** What one round of a log of few shots, all of one day, says to a shot that is 5 s off. */
function stepNamed(draw: Draw, shots: number): "right" | "wrong" | "none" {
  const settings = Array.from({ length: shots }, (_, shot) => usual + 0.1 * ((shot % 3) - 1));
  const times = settings.map((setting) => timeAt(0, setting) * Math.exp(0.05 * draw.normal()));
  const isSlow = draw.even() < 0.5;
  const { branch, setting } = grindAdvice({ setting: [usual], time: [isSlow ? 32 : 22], settings, times })({ target, tolerance: 2 });
  if (branch < 9 || setting === "") return "none";
  return setting > usual === isSlow ? "right" : "wrong";
}

const advised = (tolerance: number) => (setting: readonly number[], time: readonly number[], log: DayLog): number => {
  const advice = grindAdvice({ setting: setting.slice(0, time.length), time, ...log })({ target, tolerance });
  return advice.setting === "" ? setting[setting.length - 1]! : advice.setting;
};

const proposed = (shots: number) => (setting: readonly number[], time: readonly number[], log: DayLog): number =>
  grindNext({ setting: setting.slice(0, time.length).slice(-shots), time: time.slice(-shots), ...log })({ target }).setting;

/** Grinder and days: 1 on the scale takes ln time by 1.2; days shift it by 10 %, shots vary by 3 %. */
function dayOf({ normal }: Draw): { expected(setting: number): number; shot(setting: number): number } {
  const level = Math.log(27) + 0.1 * normal();
  const expected = (setting: number): number => Math.exp(level - 1.2 * (setting - 2));
  return { expected, shot: (setting) => expected(setting) * Math.exp(0.03 * normal()) };
}

/** Six earlier days of four shots each, then a day on which each shot is pulled as the advice of the last says. */
function ledMorning(draw: Draw): boolean {
  const log = { settings: [] as number[], times: [] as number[], days: [] as number[] };
  for (let day = 1; day <= 6; day++) {
    const { shot } = dayOf(draw);
    for (const setting of [2, 2.1, 1.95, 2.05]) {
      log.settings.push(setting);
      log.times.push(shot(setting));
      log.days.push(day);
    }
  }
  const today = dayOf(draw);
  const [setting, time] = [[2], [today.shot(2)]] as [number[], number[]];
  for (let shot = 1; shot < 5; shot++) {
    const advised = grindAdvice({ setting, time, ...log })({ target: 27, tolerance: 1.5 }).setting;
    const next = advised === "" ? setting[setting.length - 1]! : advised;
    setting.push(next);
    time.push(today.shot(next));
  }
  const last = grindAdvice({ setting, time, ...log })({ target: 27, tolerance: 1.5 }).setting;
  return Math.abs(today.expected(last === "" ? setting[4]! : last) - 27) <= 1.5;
}

export const mornings: readonly Simulation[] = [
  { topic: "Morning led to the time", what: "five shots by the advice: the last setting within 1.5 s", aim: [0.9, 1], event: ledMorning },
  { topic: "Morning led to the time", what: "five shots at the setting it began with: within 1.5 s", event: (draw) => Math.abs(dayOf(draw).expected(2) - 27) <= 1.5 },
  ...[0.03, 0.05].flatMap((spread): Simulation[] => {
    const topic = `Morning of six shots that scatter by ${100 * spread} %`;
    return [
      ...[2, 3].map((tolerance): Simulation => ({
        topic, what: `by the advice: ends within ${tolerance} s`, aim: [0.9, 1], event: (draw) => morning(draw, spread, advised(tolerance)) <= tolerance,
      })),
      { topic, what: "every proposal by all of today's shots: ends within 1.5 s", event: (draw) => morning(draw, spread, proposed(6)) <= 1.5 },
      { topic, what: "every proposal by the last shot alone: ends within 1.5 s", event: (draw) => morning(draw, spread, proposed(1)) <= 1.5 },
    ];
  }),
  { topic: "Log of 2 shots of one day, a shot 5 s off", what: "a step is named", aim: [0, 0], event: (draw) => stepNamed(draw, 2) !== "none" },
  ...[3, 4, 6].flatMap((shots): Simulation[] => {
    const topic = `Log of ${shots} shots of one day, a shot 5 s off`;
    return [
      { topic, what: "a step is named", event: (draw) => stepNamed(draw, shots) !== "none" },
      {
        topic, what: "a step that is named goes the wrong way", aim: [0, 0.01],
        event: (draw) => {
          const step = stepNamed(draw, shots);
          return step === "none" ? null : step === "wrong";
        },
      },
    ];
  }),
];
