import { describe, expect, it, test } from "vitest";
import { logVerdict, type LogVerdict } from "../../shared/decisions/log-verdict.ts";
import { problemOf } from "../problem-of.ts";
import { chance } from "../simulated-log.ts";

const times = { low: 24, high: 30, unit: "s" };

/** Made shots, typed to a tenth; their level by the number of the shot. */
function made(n: number, level: (shot: number) => number, spread: number, seed: number): number[] {
  const luck = chance(seed);
  return Array.from({ length: n }, (_, index) => Math.round(10 * (level(index + 1) + luck.around(0, spread))) / 10);
}

const steady = made(40, () => 27, 0.6, 1);

interface Example {
  readonly name: string;
  readonly values: (number | null)[];
  readonly limits?: { low: number; high: number; unit?: string; excluded?: number; units?: { time: string; percent: string } };
  readonly texts: readonly [steady: string, centred: string, tight: string, next: string];
  readonly rules: LogVerdict["rules"];
}

const rules = (
  steadyRule: LogVerdict["rules"]["steady"], centred: LogVerdict["rules"]["centred"], tight: LogVerdict["rules"]["tight"], next: LogVerdict["rules"]["next"],
): LogVerdict["rules"] => ({ steady: steadyRule, centred, tight, next });

/** Neighbours alike at every place, as where a machine warms and cools. */
function wandering(): number[] {
  const luck = chance(15);
  let off = 0;
  return Array.from({ length: 120 }, () => Math.round(10 * (27 + (off = 0.75 * off + luck.around(0, 0.7)))) / 10);
}

const percent = { low: 18, high: 20, unit: "%" };
const replaced = (values: readonly number[], value: number, ...shots: readonly number[]): number[] =>
  values.map((it, index) => (shots.includes(index + 1) ? value : it));

const examples: readonly Example[] = [
  {
    name: "nothing yet", values: [null, null],
    texts: ["No shots yet.", "Not known.", "Not known.", "Log more."], rules: rules("too few", "not known", "not known", "more"),
  },
  {
    name: "a log of which more than a fifth looks wrong", values: steady, limits: { ...times, excluded: 11 },
    texts: ["11 rows look wrong, beside 40 that can be judged: mend the log first.", "Not known.", "Not known.", "Mend what looks wrong, the worst first."],
    rules: rules("to mend", "not known", "not known", "mend"),
  },
  {
    name: "a log of which a fifth looks wrong", values: steady, limits: { ...times, excluded: 10 },
    texts: ["No movement shown.", "Near the middle.", "Spread fits.", "Leave it."], rules: rules("no movement", "near", "fits", "leave"),
  },
  {
    name: "one row, and it looks wrong", values: [null], limits: { ...times, excluded: 1 },
    texts: ["1 row looks wrong, beside 0 that can be judged: mend the log first.", "Not known.", "Not known.", "Mend what looks wrong, the worst first."],
    rules: rules("to mend", "not known", "not known", "mend"),
  },
  {
    name: "nine shots", values: steady.slice(0, 9),
    texts: ["9 shots: too few.", "Not known.", "Not known.", "Log more."], rules: rules("too few", "not known", "not known", "more"),
  },
  {
    name: "a good log", values: steady,
    texts: ["No movement shown.", "Near the middle.", "Spread fits.", "Leave it."], rules: rules("no movement", "near", "fits", "leave"),
  },
  {
    name: "ten steady shots that are slow", values: made(10, () => 31, 0.3, 3),
    texts: ["No movement shown.", "4.0 s slow on average.", "Spread fits.", "Move the grind once, coarser, for 4.0 s less."],
    rules: rules("no movement", "off", "fits", "shift"),
  },
  {
    name: "fast shots", values: made(30, () => 24.5, 0.6, 3),
    texts: ["No movement shown.", "2.5 s fast on average.", "Spread fits.", "Move the grind once, finer, for 2.5 s more."],
    rules: rules("no movement", "off", "fits", "shift"),
  },
  {
    name: "slow shots whose spread is not known yet", values: made(12, () => 29, 0.8, 22),
    texts: ["No movement shown.", "2.1 s slow on average.", "Not known.", "Move the grind once, coarser, for 2.1 s less."],
    rules: rules("no movement", "off", "not known", "shift"),
  },
  {
    name: "a dozen shots that tell little", values: made(12, () => 27.2, 1.1, 16),
    texts: ["No movement shown.", "Not known.", "Not known.", "Log more."], rules: rules("no movement", "not known", "not known", "more"),
  },
  {
    name: "shots in the middle whose spread is not known yet", values: made(30, () => 27, 1, 17),
    texts: ["No movement shown.", "Near the middle.", "Not known.", "Log more."], rules: rules("no movement", "near", "not known", "more"),
  },
  {
    name: "shots that scatter", values: made(40, () => 27, 3, 11),
    texts: ["No movement shown.", "Not known.", "Spread too wide.", "Dose and puck alike first."], rules: rules("no movement", "not known", "too wide", "narrow"),
  },
  {
    name: "slow shots that scatter", values: made(60, () => 32, 3, 12),
    texts: ["No movement shown.", "5.6 s slow on average.", "Spread too wide.", "Dose and puck alike first."],
    rules: rules("no movement", "off", "too wide", "narrow"),
  },
  {
    name: "a log that moved for good", values: made(30, (shot) => (shot >= 21 ? 33 : 28), 0.8, 4),
    texts: ["Moved: 33.0 s from shot 21 on, 28.2 s before.", "2.8 s slow on average.", "20 of 30 inside.", "Ask what changed at shot 21."],
    rules: rules("moved", "off", "counted", "ask"),
  },
  {
    name: "a log that moved for four shots", values: made(40, (shot) => (shot >= 19 && shot <= 22 ? 33 : 28), 0.5, 6),
    texts: ["Moved: 33.0 s at shots 19–22, 27.9 s before and after.", "1.4 s slow on average.", "36 of 40 inside.", "Ask what changed at shot 19."],
    rules: rules("moved", "off", "counted", "ask"),
  },
  {
    name: "a log with blanks, which count as places", values: [null, ...made(30, (shot) => (shot >= 21 ? 33 : 28), 0.8, 4), null],
    texts: ["Moved: 33.0 s from shot 22 on, 28.2 s before.", "2.8 s slow on average.", "20 of 30 inside.", "Ask what changed at shot 22."],
    rules: rules("moved", "off", "counted", "ask"),
  },
  {
    name: "a drift inside the limits", values: made(40, (shot) => 24.5 + 0.1 * shot, 0.4, 7),
    texts: ["Drifted up by 0.101 s a shot.", "Not known.", "40 of 40 inside.", "Ask what changes from shot to shot."],
    rules: rules("drifted", "not known", "counted", "ask"),
  },
  {
    name: "a drift downwards, out of the limits", values: made(40, (shot) => 30 - 0.1 * shot, 0.4, 8),
    texts: ["Drifted down by 0.09 s a shot.", "1.0 s slow on average.", "38 of 40 inside.", "Ask what changes from shot to shot."],
    rules: rules("drifted", "off", "counted", "ask"),
  },
  {
    name: "a log that wanders", values: wandering(),
    texts: [
      "Moved: 25.4 s at shots 68–94, 26.9 s before and after. Neighbours are alike besides: control limits from shot to shot are too narrow.",
      "Near the middle.", "120 of 120 inside.", "Ask what changed at shot 68.",
    ],
    rules: rules("moved", "near", "counted", "ask"),
  },
  {
    name: "a log that is corrected after every shot", values: made(40, (shot) => 27 + (shot % 2 === 0 ? -1 : 1), 0.3, 13),
    texts: ["No movement shown, but shots go up and down in turn, as they do where every shot is corrected.", "Near the middle.", "Not known.", "Log more."],
    rules: rules("no movement", "near", "not known", "more"),
  },
  {
    name: "one odd shot", values: replaced(steady, 45, 26),
    texts: ["One odd shot, row 26.", "Without the odd shot: near the middle.", "Without the odd shot: spread fits.", "Look at row 26."],
    rules: rules("odd", "near", "fits", "look"),
  },
  {
    name: "one odd shot at the end, which is no movement", values: replaced(steady, 45, 40),
    texts: ["One odd shot, row 40.", "Without the odd shot: near the middle.", "Without the odd shot: spread fits.", "Look at row 40."],
    rules: rules("odd", "near", "fits", "look"),
  },
  {
    name: "two odd shots apart", values: replaced(steady, 45, 6, 31),
    texts: ["2 odd shots, the first in row 6.", "Without the odd shots: near the middle.", "Without the odd shots: spread fits.", "Look at row 6."],
    rules: rules("odd", "near", "fits", "look"),
  },
  {
    name: "two odd shots in a row, which are a movement", values: replaced(steady, 45, 6, 7),
    texts: ["Moved: 45.0 s at shots 6–7, 27.2 s before and after.", "Not known.", "38 of 40 inside.", "Ask what changed at shot 6."],
    rules: rules("moved", "not known", "counted", "ask"),
  },
  {
    name: "an odd shot that hides a drift", values: made(40, (shot) => (shot === 30 ? 90 : 25 + 0.08 * shot), 0.4, 9),
    texts: ["Drifted up by 0.07 s a shot. One odd shot, row 30.", "Not known.", "39 of 40 inside.", "Ask what changes from shot to shot."],
    rules: rules("drifted", "not known", "counted", "ask"),
  },
  {
    name: "an odd shot among slow ones", values: made(30, (shot) => (shot === 12 ? 60 : 30), 0.4, 10),
    texts: ["One odd shot, row 12.", "Without the odd shot: 3.1 s slow on average.", "Without the odd shot: spread fits.", "Look at row 12."],
    rules: rules("odd", "off", "fits", "look"),
  },
  {
    name: "an odd shot among scattered ones", values: made(30, (shot) => (shot === 12 ? 90 : 27), 3, 10),
    texts: ["One odd shot, row 12.", "Not known.", "Without the odd shot: spread too wide.", "Look at row 12."],
    rules: rules("odd", "not known", "too wide", "look"),
  },
  {
    name: "times written to whole seconds, all the same", values: steady.map(() => 27),
    texts: ["All 40 shots read 27 s: their spread cannot be seen.", "Near the middle.", "Not known.", "Log one more decimal."],
    rules: rules("all alike", "near", "not known", "finer"),
  },
  {
    name: "times that are all the same and off the middle", values: steady.map(() => 31),
    texts: ["All 40 shots read 31 s: their spread cannot be seen.", "Not known.", "Not known.", "Log one more decimal."],
    rules: rules("all alike", "not known", "not known", "finer"),
  },
  {
    name: "extractions, which are high and not slow", values: made(30, () => 19.5, 0.3, 19), limits: percent,
    texts: ["No movement shown.", "0.53 % high on average.", "Not known.", "Bring it down once, by 0.53 %."], rules: rules("no movement", "off", "not known", "shift"),
  },
  {
    name: "low extractions", values: made(30, () => 18.3, 0.2, 20), limits: percent,
    texts: ["No movement shown.", "0.73 % low on average.", "Spread fits.", "Bring it up once, by 0.73 %."], rules: rules("no movement", "off", "fits", "shift"),
  },
  {
    name: "values without a unit", values: made(30, () => 21.7, 0.2, 20).map((it) => it / 10), limits: { low: 1.8, high: 2.2 },
    texts: ["No movement shown.", "0.167 high on average.", "Spread fits.", "Bring it down once, by 0.167."], rules: rules("no movement", "off", "fits", "shift"),
  },
  {
    name: "percent cells, said in %", values: made(30, () => 19.5, 0.3, 19).map((it) => it / 100),
    limits: { low: 0.18, high: 0.2, unit: "%", units: { time: "s", percent: "cell" } },
    texts: ["No movement shown.", "0.53 % high on average.", "Not known.", "Bring it down once, by 0.53 %."], rules: rules("no movement", "off", "not known", "shift"),
  },
  {
    name: "clock cells, said in seconds", values: made(10, () => 31, 0.3, 3).map((it) => it / 86400),
    limits: { low: 24 / 86400, high: 30 / 86400, unit: "h:mm:ss", units: { time: "clock", percent: "number" } },
    texts: ["No movement shown.", "4.0 s slow on average.", "Spread fits.", "Move the grind once, coarser, for 4.0 s less."],
    rules: rules("no movement", "off", "fits", "shift"),
  },
];

describe("the verdict on a log", () => {
  test.each(examples.map((it) => [it.name, it] as const))("of %s", (_, { values, limits = times, texts, rules: expected }) => {
    const verdict = logVerdict({ values })(limits);
    expect([verdict.steady, verdict.centred, verdict.tight, verdict.next]).toEqual(texts);
    expect(verdict.rules).toEqual(expected);
  });

  it("drives every rule there is", () => {
    const spoken = (part: keyof LogVerdict["rules"]): Set<string> => new Set(examples.map((it) => it.rules[part]));
    expect(spoken("steady")).toEqual(new Set(["to mend", "too few", "all alike", "moved", "drifted", "odd", "no movement"]));
    expect(spoken("centred")).toEqual(new Set(["not known", "off", "near"]));
    expect(spoken("tight")).toEqual(new Set(["not known", "counted", "fits", "too wide"]));
    expect(spoken("next")).toEqual(new Set(["mend", "more", "finer", "ask", "look", "narrow", "shift", "leave"]));
  });

  it("judges the spread by the exact chi-square interval of Pp", () => {
    // 31 shots with a standard deviation of s: Pp = 6 / 6 s, its 95 % interval by chi-square points 16.79077 and 46.97924 on 30 (SciPy 1.17.1).
    const unit = made(31, () => 0, 1, 30);
    const average = unit.reduce((sum, it) => sum + it, 0) / 31;
    const sd = Math.sqrt(unit.reduce((sum, it) => sum + (it - average) ** 2, 0) / 30);
    const tight = (s: number): string => logVerdict({ values: unit.map((it) => 27 + (s * (it - average)) / sd) })(times).rules.tight;
    const fits = Math.sqrt(16.79077 / 30);
    const wide = Math.sqrt(46.97924 / 30);
    expect([tight(fits * 0.9999), tight(fits * 1.0001), tight(wide * 0.9999), tight(wide * 1.0001)]).toEqual(["fits", "not known", "not known", "too wide"]);
  });

  it("raises a false alarm in about 5 of 100 steady logs, whatever their length", () => {
    const luck = chance(31);
    for (const shots of [10, 30, 100]) {
      let alarms = 0;
      for (let log = 0; log < 1000; log++) {
        const verdict = logVerdict({ values: Array.from({ length: shots }, () => luck.around(27, 1)) })(times);
        if (verdict.rules.steady !== "no movement") alarms++;
      }
      // One binomial spread is 0.7 %; the aim is 4 to 6 %.
      expect(alarms / 1000, `${shots} shots`).toBeGreaterThan(0.04 - 2.5 * 0.007);
      expect(alarms / 1000, `${shots} shots`).toBeLessThan(0.06 + 2.5 * 0.007);
    }
  });

  it("says where a move came with a change of the setting, and only there", () => {
    const moved = made(30, (shot) => (shot >= 21 ? 33 : 28), 0.8, 4);
    const told = (setting: (shot: number) => number | string | null): string[] => {
      const { steady: text, next } = logVerdict({ values: moved, settings: moved.map((_, index) => setting(index + 1)) })(times);
      return [text, next];
    };
    const plain = ["Moved: 33.0 s from shot 21 on, 28.2 s before.", "Ask what changed at shot 21."];
    const changed = ["Moved: 33.0 s from shot 21 on, 28.2 s before; the setting changed there.", "Ask why the setting changed."];
    expect(told((shot) => (shot >= 21 ? 2.2 : 2.4))).toEqual(changed);
    expect(told((shot) => (shot >= 20 ? "fine" : "coarse"))).toEqual(changed);
    expect(told((shot) => (shot >= 15 ? 2.2 : 2.4))).toEqual(plain);
    expect(told((shot) => (shot >= 15 ? 2.4 : "2.4 "))).toEqual(plain);
    expect(told(() => 2.4)).toEqual(plain);
    expect(told(() => null)).toEqual(plain);
  });

  it("counts as the log does where rows are given", () => {
    const rows = (values: readonly unknown[]): number[] => values.map((_, index) => 1000 + 2 * index);
    const moved = made(30, (shot) => (shot >= 21 ? 33 : 28), 0.8, 4);
    expect(logVerdict({ values: moved, rows: rows(moved) })(times).next).toBe("Ask what changed at shot 1040.");
    const odd = replaced(steady, 45, 26);
    expect(logVerdict({ values: odd, rows: rows(odd) })(times).steady).toBe("One odd shot, row 1050.");
    expect(logVerdict({ values: odd, rows: odd.map(() => null) })(times).steady).toBe("One odd shot, row 26.");
  });

  it("refuses limits that are none", () => {
    expect(problemOf(() => logVerdict({ values: steady })({ low: 30, high: 24 }))).toEqual({ kind: "bad input", message: "low, 30, must be less than high, 24." });
  });
});
