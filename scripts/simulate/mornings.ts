/** How made mornings end that follow the advice on the grinder, and how often it names a step in the wrong direction. */
import { grindAdvice } from "../../shared/decisions/grind-advice.ts";
import { grindNext, type DayLog } from "../../shared/dialin/next-grind.ts";
import { luckOf, type Luck } from "./luck.ts";
import { rateOf, type Rate } from "./rate.ts";

const rounds = 2_000;
const [target, slope, daySpread, usual] = [27, -0.9, 0.1, 2.3];

/** The time that a setting gives on a day of this level, without the shot's own scatter. */
function timeAt(level: number, setting: number): number {
  return target * Math.exp(level + slope * (setting - usual));
}

/** Five days of four shots, each day of its own level. */
function logOf(luck: Luck, spread: number): DayLog {
  const days = Array.from({ length: 20 }, (_, shot) => Math.floor(shot / 4));
  const levels = Array.from({ length: 5 }, () => luck.around(0, daySpread));
  const settings = days.map((day, shot) => [2.3, 2.2, 2.35, 2.45][shot % 4]! + 0.05 * (day % 2));
  return { days, settings, times: days.map((day, shot) => timeAt(levels[day]!, settings[shot]!) * Math.exp(luck.around(0, spread))) };
}

/** How far, in seconds, the setting is off after six shots, each where `next` says. */
function morning(luck: Luck, spread: number, next: (setting: readonly number[], time: readonly number[], log: DayLog) => number): number {
  const log = logOf(luck, spread);
  const level = luck.around(0, daySpread);
  const [setting, time]: [number[], number[]] = [[usual], []];
  for (let shot = 0; shot < 6; shot++) {
    const present = setting[shot]!;
    time.push(timeAt(level, present) * Math.exp(luck.around(0, spread)));
    setting.push(Math.round(100 * next(setting, time, log)) / 100);
  }
  return Math.abs(timeAt(level, setting[6]!) - target);
}

/** What one round of a log of few shots, all of one day, says to a shot that is 5 s off. */
function stepNamed(luck: Luck, shots: number): "right" | "wrong" | "none" {
  const settings = Array.from({ length: shots }, (_, shot) => usual + 0.1 * ((shot % 3) - 1));
  const times = settings.map((setting) => timeAt(0, setting) * Math.exp(luck.around(0, 0.05)));
  const isSlow = luck.even() < 0.5;
  const { branch, setting } = grindAdvice({ setting: [usual], time: [isSlow ? 32 : 22], settings, times })({ target, tolerance: 2 });
  if (branch < 9 || setting === "") return "none";
  return setting > usual === isSlow ? "right" : "wrong";
}

export function morningRates(): Rate[] {
  const luck = luckOf(2);
  const rates: Rate[] = [];
  for (const spread of [0.03, 0.05]) {
    const scatter = `shots that scatter by ${100 * spread} %`;
    for (const tolerance of [2, 3]) {
      const advised = (setting: readonly number[], time: readonly number[], log: DayLog): number => {
        const advice = grindAdvice({ setting: setting.slice(0, time.length), time, ...log })({ target, tolerance });
        return advice.setting === "" ? setting[setting.length - 1]! : advice.setting;
      };
      rates.push({ what: `${scatter}, advice: ends within ${tolerance} s`, rate: rateOf(rounds, () => morning(luck, spread, advised) <= tolerance), aim: "at least 90 %" });
    }
    for (const [name, shots] of [["all of today's shots", 6], ["the last shot alone", 1]] as const) {
      const proposed = (setting: readonly number[], time: readonly number[], log: DayLog): number =>
        grindNext({ setting: setting.slice(0, time.length).slice(-shots), time: time.slice(-shots), ...log })({ target }).setting;
      rates.push({ what: `${scatter}, every proposal by ${name}: ends within 1.5 s`, rate: rateOf(rounds, () => morning(luck, spread, proposed) <= 1.5) });
    }
  }
  for (const shots of [2, 3, 4, 6]) {
    const named = Array.from({ length: rounds }, () => stepNamed(luck, shots)).filter((it) => it !== "none");
    rates.push({ what: `log of ${shots} shots: a step is named`, rate: named.length / rounds });
    rates.push({ what: `log of ${shots} shots: named the wrong way`, rate: named.filter((it) => it === "wrong").length / rounds, aim: "at most 1 %" });
  }
  return rates;
}
