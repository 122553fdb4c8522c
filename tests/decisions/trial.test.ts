import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { comparePairs } from "../../shared/comparison/index.ts";
import { compareDecision, type Decision, type TrialQuestion } from "../../shared/decisions/trial.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { worded } from "../../src/sheet/wording.ts";
import { problemOf } from "../problem-of.ts";
import { call, type CellError, grid, useUnits } from "../worksheet.ts";

/**
 * A trial made so that what it should say can be read off: in each round every setting once, in an order of its own; the shots of a setting lie
 * at its mean less, at and above it by `apart`, so that their standard deviation is `apart`.
 */
function trial(means: Readonly<Record<string, number>>, apart: number, rounds = 3): TrialQuestion & { results: (number | null)[][]; runs: number[] } {
  const names = Object.keys(means);
  const order = Array.from({ length: rounds }, (_, round) => names.map((_, place) => names[(place + 2 * round) % names.length]!)).flat();
  const offsets = rounds === 3 ? [-1, 0, 1] : Array.from({ length: rounds }, (_, round) => Math.sqrt((rounds - 1) / rounds) * (round % 2 === 0 ? -1 : 1));
  const results = order.map((name, shot) => means[name]! + apart * offsets[(Math.floor(shot / names.length) + names.indexOf(name)) % rounds]!);
  const settings = order.map((name) => (Number.isNaN(Number(name)) ? name : Number(name)));
  return { settings, results: [results], outcomes: ["Taste"], unit: "°C", worth: [0.5], runs: order.map((_, run) => run + 1) };
}

const said = (it: Decision): Record<"decision" | "sure" | "next", string> => ({
  decision: worded(it.decision, defaultUnits), sure: worded(it.sure, defaultUnits), next: worded(it.next, defaultUnits),
});
const only = (question: TrialQuestion): Decision => compareDecision(question)[0]!;
const branchOf = (question: TrialQuestion): number => only(question).branch;

const thousand = "If they were alike, a gap that big would come less than once in 1,000 trials.";
const untyped = "If it took several mornings, type them.";

/** Each rule: data that must trigger it, every sentence as a person reads it, and data one step away that must not. */
const rules: {
  branch: number;
  what: string;
  given: TrialQuestion;
  decision: string;
  sure?: string;
  next?: string;
  title?: string;
  method?: string;
  not?: TrialQuestion;
}[] = [
  {
    branch: 1, what: "nothing is typed", given: { settings: [null, null], results: [[null, null]], outcomes: ["Taste"] },
    decision: "Type what you vary and the settings; pull in the order shown.",
    not: trial({ 91: 6, 93: 7 }, 0.1),
  },
  {
    branch: 1, what: "only settings are typed", given: { settings: [91, 93], results: [[null, null]], outcomes: ["Taste"] },
    decision: "No taste typed yet. Pull in the order shown.",
  },
  {
    branch: 2, what: "there is one setting", given: { settings: [93, 93, 91], results: [[6, 7, null]], outcomes: ["Taste"], unit: "°C" },
    decision: "Only 93 °C so far. Pull another setting.",
    not: { settings: [93, 93, 91], results: [[6, 7, 6]], outcomes: ["Taste"], unit: "°C" },
  },
  {
    branch: 3, what: "each morning had its own setting",
    given: { settings: [91, 91, 93, 93], results: [[6, 6.2, 7, 7.1]], outcomes: ["Taste"], blocks: ["Mon", "Mon", "Tue", "Tue"] },
    decision: "Each morning had its own settings: the two cannot be told apart. Pull two on one morning.",
    not: { settings: [91, 93, 93, 91], results: [[6, 7, 7.1, 6.1]], outcomes: ["Taste"], blocks: ["Mon", "Mon", "Tue", "Tue"] },
  },
  {
    branch: 3, what: "some settings share no morning",
    given: {
      settings: [90, 91, 90, 91, 93, 94, 93, 94], results: [[6, 6.2, 6.1, 6.3, 7, 7.1, 7.3, 7.2]], outcomes: ["Taste"], unit: "°C",
      blocks: [1, 1, 2, 2, 3, 3, 4, 4],
    },
    decision: "No morning had 90 °C and 93 °C, directly or over other settings: the two cannot be told apart. Pull both on one morning.",
  },
  {
    branch: 4, what: "settings were pulled one after another",
    given: { settings: [91, 91, 91, 93, 93, 93], results: [[6, 6.2, 6.1, 7, 7.1, 7.2]], outcomes: ["Taste"], runs: [1, 2, 3, 4, 5, 6] },
    decision: "Settings were pulled one after another: a warming machine would look the same. Pull them mixed.",
    not: { settings: [91, 91, 91, 93, 93, 93], results: [[6, 6.2, 6.1, 7, 7.1, 7.2]], outcomes: ["Taste"], runs: [1, 4, 6, 2, 3, 5] },
  },
  {
    branch: 5, what: "shots are still to come",
    given: { ...trial({ 91: 6, 93: 9 }, 0.1, 4), planned: 6 },
    decision: "8 of 12 shots in. The answer comes with the last.",
    not: { ...trial({ 91: 6, 93: 9 }, 0.1, 4), planned: 4 },
  },
  {
    branch: 6, what: "each setting was pulled once", given: { settings: [91, 93, 94], results: [[19.5, 19.9, 20.1]], outcomes: ["Extraction, %"], unit: "°C" },
    decision: "One shot each: most 20.1 % at 94 °C, which may be luck. Pull each again.",
    not: { settings: [91, 93, 94, 91, 93], results: [[19.5, 19.9, 20.1, 19.4, 20]], outcomes: ["Extraction, %"], unit: "°C" },
  },
  {
    branch: 6, what: "only one setting was repeated", given: { settings: [91, 93, 94, 93], results: [[19.5, 19.9, 20.1, 20]], outcomes: ["Extraction, %"], unit: "°C" },
    decision: "Only 93 °C was pulled more than once: there is nothing to compare it with. Pull again 91 and 94 °C.",
  },
  {
    branch: 6, what: "settings and mornings need all shots",
    given: { settings: [91, 93, 93, 94, 94, 91], results: [[6, 7, 7, 8, 8, 7]], outcomes: ["Taste"], blocks: [1, 1, 2, 2, 3, 4] },
    decision: "Too few shots to judge by: settings and mornings need them all. Pull each again.",
  },
  {
    branch: 7, what: "shots at one setting read alike", given: { settings: [91, 93, 91, 93, 93, 91], results: [[6, 7, 6, 7, 7, 6]], outcomes: ["Taste"] },
    decision: "Shots at one setting all read alike: luck cannot be judged. Read one more decimal.",
    not: { settings: [91, 93, 91, 93, 93, 91], results: [[6, 7, 6, 7, 7, 6.1]], outcomes: ["Taste"] },
  },
  {
    branch: 8, what: "two tasters score against each other",
    given: { settings: [91, 93, 91, 93, 93, 91, 93, 91], results: [[1, 2, 3, 4, 5, 6, 7, 8], [9, 8, 7, 6, 5, 4, 3, 2.5]], outcomes: ["Taste", "Taste"] },
    decision: "Tasters 1 and 2 score against each other. Agree on a scale.",
    not: { settings: [91, 93, 91, 93, 93, 91, 93, 91], results: [[1, 2, 3, 4, 5, 6, 7, 8], [9, 2, 7, 6, 5, 8, 3, 2.5]], outcomes: ["Taste", "Taste"] },
  },
  {
    branch: 8, what: "one taster scores against the others",
    given: {
      settings: [91, 93, 91, 93, 93, 91, 93, 91],
      results: [[1, 2, 3, 4, 5, 6, 7, 8], [2, 1, 3, 4, 6, 5, 7, 8], [9, 8, 7, 6, 5, 4, 3, 2.5]],
      outcomes: ["Taste 1", "Taste 2", "Taste 3"],
    },
    decision: "Taster 3 scores against the others. Agree on a scale.",
  },
  {
    branch: 9, what: "the top beats all", given: { ...trial({ 89: 5.3, 91: 6, 93: 6.6, 95: 5.8 }, 0.1), blocks: undefined },
    decision: "Use 93 °C. It gave 0.6 points more than the next, 91 °C (0.3 to 0.9), and more than every other.",
    sure: thousand, title: "93 °C tasted best", method: "Tukey–Kramer; p below 0.001.",
    next: "Try halfway to the neighbours: 92 and 94 °C.",
    not: trial({ 89: 5.3, 91: 6.5, 93: 6.6, 95: 5.8 }, 0.1),
  },
  {
    branch: 9, what: "the better of two", given: trial({ 91: 6, 93: 6.6 }, 0.2),
    decision: "Use 93 °C. It gave 0.6 points more than 91 °C (0.1 to 1.1).",
    sure: "If they were alike, a gap that big would come about once in 40 trials.",
    next: "Nothing above 93 °C was tried: 95 °C next, if the maker allows it.",
    method: "Tukey–Kramer; p 0.021.",
    not: trial({ 91: 6, 93: 6.4 }, 0.2),
  },
  {
    branch: 9, what: "the best is at the low end", given: trial({ 91: 6.6, 93: 6 }, 0.2),
    decision: "Use 91 °C. It gave 0.6 points more than 93 °C (0.1 to 1.1).",
    sure: "If they were alike, a gap that big would come about once in 40 trials.",
    next: "Nothing below 91 °C was tried: 89 °C next, if the maker allows it.",
  },
  {
    branch: 9, what: "going on would pass 0", given: { ...trial({ 1: 6.6, 3: 6 }, 0.2), unit: "" },
    decision: "Use 1. It gave 0.6 points more than 3 (0.1 to 1.1).",
    sure: "If they were alike, a gap that big would come about once in 40 trials.",
    next: "Nothing below 1 was tried.",
  },
  {
    branch: 9, what: "settings are names", given: trial({ Oak: 5, Elm: 6, Ash: 7 }, 0.2),
    decision: "Use Ash. It gave 1.0 points more than the next, Elm (0.5 to 1.5), and more than every other.",
    sure: "If they were alike, a gap that big would come about once in 300 trials.",
    next: "Serve Ash and Elm blind to others.", title: "Ash tasted best",
  },
  {
    branch: 9, what: "extraction has most at one setting", given: { ...trial({ 91: 19.1, 93: 20.2, 95: 21.3 }, 0.2), outcomes: ["Extraction, %"] },
    decision: "For most extraction, 95 °C. It gave 1.1 points of extraction more than the next, 93 °C (0.6 to 1.6), and more than every other.",
    sure: "If they were alike, a gap that big would come about once in 500 trials.",
    next: "Nothing above 95 °C was tried: 97 °C next, if the maker allows it.", title: "95 °C gave most extraction",
  },
  {
    branch: 9, what: "a curve peaks beside the best setting", given: trial({ 88: 4.96, 90: 6.43, 92: 6.62, 94: 5.53 }, 0.07),
    decision: "Use 92 °C. It gave 0.19 points more than the next, 90 °C (0.01 to 0.37), and more than every other.",
    sure: "If they were alike, a gap that big would come about once in 20 trials.",
    next: "A curve peaks at 91.3 °C (91.2 to 91.4): pull it against 92 °C.",
  },
  {
    branch: 10, what: "a setting between two kept ones is beaten", given: trial({ 88: 6.5, 90: 5.6, 92: 5.5, 94: 6.6 }, 0.1),
    decision: "Keep to 88 or 94 °C; 90 °C gave less than 94 °C. Less in between is unusual: repeat first.",
    sure: thousand, next: "", title: "94 °C tasted better than 90 °C",
    not: trial({ 88: 5.5, 90: 5.6, 92: 6.5, 94: 6.6 }, 0.1),
  },
  {
    branch: 11, what: "the top beats some", given: trial({ 91: 6.6, 93: 6.7, 97: 5.8 }, 0.2),
    decision: "Keep to 91 or 93 °C; between them no difference is shown. 93 °C gave 0.9 points more than 97 °C (0.4 to 1.4).",
    sure: "If they were alike, a gap that big would come about once in 200 trials.",
    next: "Nothing below 91 °C was tried: 89 °C next, if the maker allows it.", title: "93 °C tasted better than 97 °C",
    not: trial({ 91: 6.6, 93: 6.7, 97: 6.4 }, 0.2),
  },
  {
    branch: 11, what: "names are kept", given: trial({ Oak: 6.6, Elm: 6.7, Ash: 5.7 }, 0.2),
    decision: "Keep to Elm or Oak; between them no difference is shown. Elm gave 1.0 points more than Ash (0.5 to 1.5).",
    sure: "If they were alike, a gap that big would come about once in 300 trials.",
    next: "Serve Elm and Oak blind to others.",
  },
  {
    branch: 12, what: "only a lower pair differs", given: { ...uneven() },
    decision: "88 °C gave 0.9 points less than 92 °C (0.5 to 1.3); the best is not shown. Leave 88 °C out.",
    sure: thousand,
    next: "Pull the others again, in mixed order.", title: "92 °C tasted better than 88 °C",
  },
  {
    branch: 13, what: "every difference is shown to be small", given: trial({ 91: 6, 93: 6.05, 95: 6.1 }, 0.1),
    decision: "Treat them alike in taste: any difference is under 0.5 points (19 in 20). Choose by ease.",
    title: "No difference in taste of 0.5 points", method: "Tukey–Kramer; intervals at 95 %.",
    not: { ...trial({ 91: 6, 93: 6.05, 95: 6.1 }, 0.1), worth: [0.3] },
  },
  {
    branch: 14, what: "the difference worth having would have come out", given: { ...trial({ 91: 6, 93: 6.4, 95: 6.1 }, 0.4, 8), worth: [0.8] },
    decision: "No difference in taste is shown; 0.8 points would probably have come out (4 in 5).",
    next: "Choose by ease, or try settings further apart.", title: "No difference in taste shown",
    not: { ...trial({ 91: 6, 93: 6.4, 95: 6.1 }, 0.4, 8), worth: [0.6] },
  },
  {
    branch: 15, what: "more shots would show it", given: trial({ 91: 6, 93: 6.4, 95: 6.1 }, 0.4),
    decision: "No difference in taste is shown yet.",
    next: `A new trial with 14 of each, judged alone, would probably show 0.5 points, if there. ${untyped}`,
    not: trial({ 91: 6, 93: 6.4, 95: 6.1 }, 0.7),
  },
  {
    branch: 15, what: "nobody said what is worth having", given: { ...trial({ 91: 6, 93: 6.4, 95: 6.1 }, 0.4), worth: undefined, blocks: [1, 1, 1, 2, 2, 2, 3, 3, 3] },
    decision: "No difference in taste is shown yet.",
    next: "Say what difference would be worth having, to see how many it takes.",
  },
  {
    branch: 16, what: "shots vary too much", given: trial({ 91: 6, 93: 6.4, 95: 6.1 }, 0.8),
    decision: "No difference in taste is shown; shots vary too much (0.8 points). Make dose and puck alike first.",
    next: untyped,
    not: trial({ 91: 6, 93: 6.4, 95: 6.1 }, 0.3),
  },
];

/** The top has two shots only, so that it beats nothing; two others have many. */
function uneven(): TrialQuestion {
  const shots: [number, number[]][] = [[88, [5.1, 5.4, 5.7, 5.4, 5.1]], [92, [6.1, 6.3, 6.5, 6.3, 6.0, 6.2]], [96, [5.6, 7.2]]];
  return { settings: shots.flatMap(([setting, list]) => list.map(() => setting)), results: [shots.flatMap(([, list]) => list)], outcomes: ["Taste"], unit: "°C", worth: [0.5] };
}

describe("each rule of a trial", () => {
  it.each(rules)("$branch: $what", ({ branch, given, decision, sure, next, title, method, not }) => {
    const it = only(given);
    expect(it.branch).toBe(branch);
    expect(said(it).decision).toBe(decision);
    if (sure !== undefined) expect(said(it).sure).toBe(sure);
    if (next !== undefined) expect(said(it).next).toBe(next);
    if (title !== undefined) expect(it.chartTitle).toBe(title);
    if (method !== undefined) expect(it.methodUsed).toBe(method);
    if (not) expect(branchOf(not)).not.toBe(branch);
  });

  it("are all driven", () => {
    expect([...new Set(rules.map(({ branch }) => branch))].sort((a, b) => a - b)).toEqual(Array.from({ length: 16 }, (_, index) => index + 1));
  });
});

describe("several outcomes", () => {
  const taste = trial({ 91: 6, 93: 6.6, 95: 6.1 }, 0.22);
  const none = trial({ 91: 20, 93: 20.3, 95: 19.9 }, 0.5);

  it("share 5 %: what one of them alone would claim, it may not claim beside others", () => {
    const alone = only(taste);
    expect(alone.branch).toBe(11);
    expect(alone.methodUsed).toBe("Tukey–Kramer; p 0.036.");
    const both = compareDecision({ ...taste, outcomes: ["Taste", "Extraction, %"], results: [...taste.results, ...none.results] });
    expect(both.map(({ branch }) => branch)).toEqual([15, 15]);
    expect(both[0]!.methodUsed).toBe("Tukey–Kramer; Holm over 2 outcomes; p 0.036.");
  });

  it("leave the second its 5 % once the first is claimed", () => {
    const clear = trial({ 91: 18, 93: 19, 95: 20 }, 0.1);
    const both = compareDecision({ ...taste, outcomes: ["Taste", "Extraction, %"], results: [...taste.results, ...clear.results] });
    expect(both.map(({ branch }) => branch)).toEqual([11, 9]);
  });

  it("count only those with a result", () => {
    const empty = taste.results[0]!.map(() => null);
    const both = compareDecision({ ...taste, outcomes: ["Taste", "Extraction, %"], results: [...taste.results, empty] });
    expect(both.map(({ branch }) => branch)).toEqual([11, 1]);
    expect(said(both[1]!).decision).toBe("No extraction typed yet. Pull in the order shown.");
  });

  it("have a worth of their own, or one for all", () => {
    const question = { ...none, outcomes: ["Taste", "Extraction (%)"], results: [...none.results, ...none.results] };
    const worths = (worth: number[]): (string | undefined)[] => compareDecision({ ...question, worth }).map((it) => /show (\S+)/.exec(said(it).next)?.[1]);
    expect(worths([0.8])).toEqual(["0.8", "0.8"]);
    expect(worths([0.8, 0.9])).toEqual(["0.8", "0.9"]);
    expect(problemOf(() => compareDecision({ ...question, worth: [1, 2, 3] })).message).toContain("worth has 3 values");
  });

  it("need a name for each column", () => {
    expect(problemOf(() => compareDecision({ ...taste, outcomes: ["Taste", "Extraction"] })).message).toContain("results has 1 columns, but outcomes has 2 names");
  });
});

describe("several tasters of one shot", () => {
  const shots = trial({ 91: 6, 93: 7 }, 0.2, 4);
  const [high, low] = [1, -1].map((level) => shots.results[0]!.map((it, shot) => it! + level + 0.1 * Math.sin(shot)));

  it("count as their mean, and only where all in use scored it", () => {
    const both = { ...shots, outcomes: ["Taste 1", "Taste 2", "Taste 3"], results: [high!, low!, high!.map(() => null)] };
    expect(said(only(both)).decision).toMatch(/^Use 93 °C\. It gave 1\.0 points more than 91 °C/);
    const partly = { ...both, results: [high!, low!.map((it, shot) => (shot < 2 ? null : it)), both.results[2]!], planned: 4 };
    expect(said(only(partly)).decision).toBe("6 of 8 shots in. The answer comes with the last.");
  });
});

describe("beside the decision", () => {
  it("a setting with a single shot is left out, and named", () => {
    const many = trial({ 91: 6, 93: 6.9 }, 0.1);
    const single = { ...many, settings: [...many.settings, 96], results: [[...many.results[0]!, 7.5]], runs: [...many.runs, 7] };
    expect(said(only(single))).toEqual({ ...said(only(many)), sure: `${thousand} 96 °C was pulled once only: left out.` });
  });

  it("a drift over the runs is told, within the mornings, from p below 0.01", () => {
    const drifting = (change: number): TrialQuestion => {
      const { results, ...rest } = trial({ 91: 20, 93: 20.1, 95: 20 }, 0.05, 4);
      const wobble = [0.02, -0.03, 0.01, 0.03, -0.02, 0, -0.01, 0.02, -0.02, 0.01, 0.03, -0.04];
      return { ...rest, outcomes: ["Extraction, %"], results: [results[0]!.map((_, run) => 20 + wobble[run]! + change * run)] };
    };
    expect(said(only(drifting(0.05))).next).toContain("Extraction rose 0.05 points a shot. The mixed order spreads it; warm up longer.");
    expect(said(only(drifting(-0.05))).next).toContain("Extraction fell 0.05 points a shot.");
    expect(said(only(drifting(0))).next).not.toContain("a shot.");
    expect(said(only({ ...drifting(0.05), runs: undefined })).next).not.toContain("a shot.");
    // The step from one morning to the next is none of its own runs.
    const mornings = drifting(0).results[0]!.map((it, run) => it! + (run < 6 ? 0 : 1));
    const twoMornings = { ...drifting(0), results: [mornings], blocks: mornings.map((_, run) => (run < 6 ? 1 : 2)) };
    expect(said(only(twoMornings)).next).not.toContain("a shot.");
    expect(said(only({ ...twoMornings, blocks: undefined })).next).toContain("rose");
  });

  it("the method names blocks and spread", () => {
    const days = trial({ 91: 6, 93: 6.2 }, 0.2, 4);
    expect(only({ ...days, blocks: days.runs.map((_, run) => Math.floor(run / 4)) }).methodUsed).toMatch(/^Tukey–Kramer, mornings as blocks; p 0\.\d{3}\.$/);
    expect(only(trial({ 91: 6, 93: 6.2 }, 0.8, 8)).methodUsed).toMatch(/^Games–Howell, own spreads; p 0\.\d{3}\.$/);
  });
});

describe("at equal time", () => {
  // Times of three shots a setting, in the order of trial(): each setting at 26, 27 and 28 s, unless a test says otherwise.
  const timesOf = (own: Readonly<Record<string, readonly number[]>>, settings: TrialQuestion["settings"]): number[] => {
    const next = new Map<string, number>();
    return settings.map((setting) => {
      const key = String(setting);
      const place = next.get(key) ?? 0;
      next.set(key, place + 1);
      return (own[key] ?? [26, 28, 27])[place]!;
    });
  };
  const withTime = (
    means: Record<string, number>, apart: number, own: Record<string, number[]>, slope: (setting: unknown) => number, rounds = 3,
  ): TrialQuestion => {
    const question = trial(means, apart, rounds);
    const times = timesOf(own, question.settings);
    return { ...question, times, target: 27, results: [question.results[0]!.map((it, shot) => it! + slope(question.settings[shot]) * (times[shot]! - 27))] };
  };
  const sureOf = (question: TrialQuestion): string => said(only(question)).sure;

  it.each([
    ["a setting has no shots there", withTime({ 91: 6, 93: 7 }, 0.1, { 91: [29, 30, 31] }, () => 0.1), "91 °C has no shots around 27 s: not compared at equal time."],
    ["none has", { ...withTime({ 91: 6, 93: 7 }, 0.1, {}, () => 0.1), target: 35 }, "No setting has shots around 35 s: not compared at equal time."],
    ["slopes differ", withTime({ 91: 6, 93: 7 }, 0.02, {}, (setting) => (setting === 91 ? 0.5 : -0.5)), "Time acts differently by setting: no comparison at 27 s."],
    ["a difference stays", withTime({ 91: 6, 93: 7 }, 0.1, {}, () => 0.1), "At 27 s for all, a difference is still shown."],
    ["time made it", withTime({ 91: 6, 93: 6 }, 0.05, { 91: [25.8, 25.9, 26.1, 27.1], 93: [26.9, 28.1, 27.9, 28.2] }, () => 0.4, 4), "At 27 s for all, a difference is no longer shown: time may have made it."],
    ["time hid it", withTime({ 91: 6.5, 93: 6 }, 0.03, { 91: [25, 26, 27.5], 93: [26.5, 27.5, 29] }, () => 0.4), "At 27 s for all, one appears: repeat with times closer together."],
    ["there is none either way", withTime({ 91: 6, 93: 6.1 }, 0.2, {}, () => 0.1), "At 27 s for all, none is shown either."],
    ["a shot has no time", { ...withTime({ 91: 6, 93: 7 }, 0.1, {}, () => 0.1), times: [27, null, 26, 27, 28, 26] }, "Not every shot has a time: not compared at equal time."],
    ["all times are the same", { ...withTime({ 91: 6, 93: 7 }, 0.1, {}, () => 0), times: [27, 27, 27, 27, 27, 27] }, "Times say too little to take them out: not compared at equal time."],
  ])("%s", (_, question, sentence) => {
    expect(sureOf(question)).toContain(sentence);
  });

  it("is not spoken of where no times are given", () => {
    expect(sureOf(trial({ 91: 6, 93: 7 }, 0.1))).not.toContain("for all");
  });

  it("is said at the mean time where none is wanted", () => {
    expect(sureOf({ ...withTime({ 91: 6, 93: 7 }, 0.1, {}, () => 0.1), target: undefined })).toContain("At 27.0 s for all, a difference is still shown.");
  });
});

describe("a panel: tasters as blocks", () => {
  const cups = ["A", "B", "C"];
  const panel = (scores: readonly (readonly (number | null)[])[], name = "Sweet"): TrialQuestion => ({
    settings: scores.flatMap(() => cups),
    blocks: scores.flatMap((row, taster) => row.map(() => `taster ${taster + 1}`)),
    results: [scores.flat()],
    outcomes: [name],
    kind: "tasters",
    worth: [1],
  });
  const clear = [[3, 5, 7], [4, 6.5, 8], [2, 4, 6.5], [5, 7, 9]];

  it.each([
    [9, "Most sweet: C. It got 2.0 points more than the next, B (1.5 to 2.5), and more than every other.", panel(clear, "Sweet, points"), "C had most sweet"],
    [9, "Best liked: C. It got 2.0 points more than the next, B (1.5 to 2.5), and more than every other.", panel(clear, "Liking"), "C was liked best"],
    [11, "Most sweet: B or C; between them no difference is shown. C got 2.3 more than A (1.7 to 2.8).", panel([[3, 5, 5.5], [4, 6.5, 6], [2, 4, 4.5], [5, 7, 7]]), "C had more sweet than A"],
    [2, "Only A so far. Serve another cup.", panel([[3, null, null], [4, null, null]]), "No difference in sweet shown yet"],
    [3, "No taster scored A and B, directly or over other cups: tasters and cups cannot be told apart. Let one score both.", panel([[3, null, null], [null, 6, 7]]), "No difference in sweet shown yet"],
    [6, "One score each: most 7.0 at C, which may be luck. Let more tasters score them.", panel([[3, 5, 7]]), "No difference in sweet shown yet"],
    [6, "Only A was scored more than once: there is nothing to compare it with. Let more tasters score B and C.", panel([[3, 5, 7], [4, null, null]]), "No difference in sweet shown yet"],
    [7, "All tasters see the same differences, to the last point: luck cannot be judged. Score with finer steps.", panel([[3, 5, 7], [4, 6, 8]]), "No difference in sweet shown yet"],
    [13, "Treat them alike in sweet: any difference is under 1 (19 in 20). Choose by ease.", panel([[3, 3.1, 3], [4, 4, 4.1], [2.1, 2, 2], [5, 5.1, 5]]), "No difference in sweet of 1"],
    [15, "No difference in sweet is shown yet.", panel([[3, 4, 3], [4, 4, 5], [3, 2, 2], [5, 6, 5]]), "No difference in sweet shown"],
    [16, "No difference in sweet is shown; tasters differ too much (2.7). Agree on a scale first.", panel([[3, 8, 3], [4, 1, 5], [6, 2, 2], [5, 6, 9]]), "No difference in sweet shown"],
  ])("%i: %s", (branch, sentence, question, title) => {
    const it = only(question);
    expect([it.branch, said(it).decision, it.chartTitle]).toEqual([branch, sentence, title]);
    if (branch > 8) expect(it.methodUsed).toMatch(/^Tukey–Kramer, tasters as blocks.* About these pulls and tasters only\.$/);
  });

  it("averages repeats of a taster first: more spoons of one taster are no more tasters", () => {
    const twice: TrialQuestion = {
      ...panel(clear),
      settings: [...panel(clear).settings, ...panel(clear).settings],
      blocks: [...panel(clear).blocks!, ...panel(clear).blocks!],
      results: [[...panel(clear).results[0]!, ...panel(clear).results[0]!]],
    };
    expect(only(twice)).toEqual(only(panel(clear)));
  });

  it("plans tasters, and needs them named", () => {
    expect(said(only(panel([[3, 4, 3], [4, 4, 5], [3, 2, 2], [5, 6, 5]]))).next).toMatch(/^A new tasting with \d+ tasters, judged alone, would probably show 1, if there\.$/);
    expect(said(only({ ...panel(clear), planned: 5 })).decision).toBe("12 of 15 scores in. The answer comes with the last.");
    expect(problemOf(() => compareDecision({ ...panel(clear), blocks: undefined })).message).toContain("blocks are the tasters");
  });
});

describe("whatever is typed", () => {
  it("a result without its setting or its morning is refused with its row", () => {
    const { settings, ...rest } = trial({ 91: 6, 93: 7 }, 0.1);
    const gap = settings.map((it, row) => (row === 2 ? null : it));
    expect(problemOf(() => compareDecision({ ...rest, settings: gap })).message).toBe("settings is blank in row 3, where a result is typed. Fill it in, or clear the result.");
    const blocks = settings.map((_, row) => (row === 4 ? null : "Mon"));
    expect(problemOf(() => compareDecision({ ...rest, settings, blocks })).message).toContain("blocks is blank in row 5");
    const lost = rest.results[0]!.map((it, row) => (row === 2 ? null : it));
    expect(only({ ...rest, settings: gap, results: [lost] }).branch).toBeGreaterThan(8);
  });

  /** Any trial: names or numbers, gaps, ties, single shots, days that are confounded or not. */
  const anyTrial = fc.integer({ min: 0, max: 24 }).chain((shots) => {
    const result = fc.oneof(fc.constantFrom(5, 6, 7), fc.double({ min: 0, max: 10, noNaN: true }));
    const listOf = <T>(each: fc.Arbitrary<T>): fc.Arbitrary<T[]> => fc.array(each, { minLength: shots, maxLength: shots });
    return fc.record({
      settings: fc.oneof(listOf<number | string>(fc.constantFrom(88, 90, 92.5, 94)), listOf<number | string>(fc.constantFrom("Oak", "Elm", "Ash"))),
      results: fc.array(listOf(fc.option(result, { freq: 6 })), { minLength: 2, maxLength: 2 }),
      blocks: fc.option(listOf(fc.constantFrom("Mon", "Tue", "Wed")), { nil: undefined }),
      runs: fc.constantFrom(undefined, Array.from({ length: shots }, (_, run) => run + 1)),
      worth: fc.constantFrom(undefined, [0.5]),
      planned: fc.constantFrom(undefined, 2, 3),
      outcomes: fc.constantFrom(["Taste", "Taste"], ["Taste", "Extraction, %"]),
    });
  });

  it("every decision is one of the rules, in whole sentences, and claims only what COMPARE.PAIRS shows", () => {
    fc.assert(
      fc.property(anyTrial, (question) => {
        const decisions = compareDecision({ ...question, unit: "°C" });
        expect(decisions).toHaveLength(new Set(question.outcomes).size);
        for (const it of decisions) {
          expect(it.branch).toBeGreaterThanOrEqual(1);
          expect(it.branch).toBeLessThanOrEqual(16);
          const { decision, sure, next } = said(it);
          for (const text of [decision, sure, next].filter((one) => one !== "")) {
            expect(text).toMatch(/^[A-Z0-9].*\.$/);
            expect(text).not.toMatch(/undefined|NaN|Infinity|null|\s\s|\(\)|-0\.0\b/);
          }
          if (it.branch < 9 || it.branch > 12) expect(decision).not.toMatch(/(gave|got) .*(more|less) than|^(Use|Keep|For most)/);
          if (decisions.length > 1 || it.branch < 9 || it.branch > 12) continue;
          const counted = question.settings.flatMap((_, row) => {
            const used = question.results.filter((column) => column.some((value) => value !== null));
            return used.every((column) => column[row] !== null) ? [row] : [];
          });
          const used = question.results.filter((column) => column.some((value) => value !== null));
          const often = counted.filter((row) => counted.filter((other) => question.settings[other] === question.settings[row]).length > 1);
          const pairs = comparePairs({
            settings: often.map((row) => question.settings[row]!),
            results: often.map((row) => used.reduce((sum, column) => sum + column[row]!, 0) / used.length),
            blocks: question.blocks && often.map((row) => question.blocks![row]!),
          });
          expect(pairs.some(({ p }) => (p as number) < 0.05)).toBe(true);
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe("on the sheet", () => {
  const settings = [91, 93, 95, 93, 95, 91, 95, 91, 93, 91];
  const taste = [6.1, 6.9, 6.2, 7, 6, 5.9, 6.1, 6, 7.1, ""];
  const extraction = [19.4, 19.9, 20.3, "", 20.6, 19.5, 20.5, 19.3, 19.7, ""];
  const rows = taste.map((it, row) => [it, extraction[row]]);
  const mornings = [1, 1, 1, 2, 2, 2, 3, 3, 3, 3];

  it("each outcome has its row, and its own gaps", () => {
    const decisions = grid("COMPARE.DECISION", settings, rows, [["Taste", "Extraction, %"]], mornings, null, "°C", 0.5);
    expect(decisions.map((row) => row.slice(0, 2))).toEqual([
      [9, "Use 93 °C. It gave 0.9 points more than the next, 95 °C (0.5 to 1.3), and more than every other."],
      [9, "For most extraction, 95 °C. It gave 0.6 points of extraction more than the next, 93 °C (0.1 to 1.1), and more than every other."],
    ]);
    expect(decisions[1]![5]).toBe("Tukey–Kramer, mornings as blocks; Holm over 2 outcomes; p 0.027.");
  });

  it("one column, empty mornings and runs in order are as good as none", () => {
    const blank = settings.map(() => "");
    const plain = call("COMPARE.DECISION", settings, taste, "Taste", null, null, "°C");
    expect(call("COMPARE.DECISION", settings, taste, "Taste", blank, null, "°C", null, blank)).toEqual(plain);
    expect((plain as unknown[])[0]).toBe(9);
  });

  it("says times in seconds where cells hold clock times", () => {
    const times = [26, 27, 28, 28, 26, 27, 27, 28, 26, 27];
    useUnits({ time: "clock" });
    const clocks = times.map((it) => it / 86400);
    const decision = call("COMPARE.DECISION", settings, taste, "Taste", null, null, "°C", 0.5, null, null, clocks, 27 / 86400) as unknown[];
    useUnits();
    expect(decision).toEqual(call("COMPARE.DECISION", settings, taste, "Taste", null, null, "°C", 0.5, null, null, times, 27));
    expect(decision[2]).toContain("At 27 s for all, a difference is still shown.");
  });

  it("says percentages in % where cells hold fractions", () => {
    const asked = (shots: unknown[], worth: number): unknown => call("COMPARE.DECISION", settings, shots, "Extraction, %", null, null, "°C", worth);
    const alike = extraction.map((_, row) => 20 + 0.1 * Math.sin(5 * row));
    const numbers = [asked(extraction, 0.5), asked(alike, 0.5)];
    useUnits({ percent: "cell" });
    const fraction = (it: unknown): unknown => (it === "" ? "" : (it as number) / 100);
    const cells = [asked(extraction.map(fraction), 0.005), asked(alike.map(fraction), 0.005)];
    useUnits();
    expect(cells).toEqual(numbers);
    expect(numbers.map((row) => (row as unknown[])[0])).toEqual([9, 13]);
  });

  it("refuses what does not fit, in words", () => {
    const message = (...cells: unknown[]): string => (call("COMPARE.DECISION", ...cells) as CellError).message;
    expect(message(settings, taste, [["Taste", "Sweet"]])).toContain("results has 1 columns, but outcomes has 2 names");
    expect(message(settings, taste.slice(1), "Taste")).toContain("equally long");
    expect(message(settings, taste, "")).toContain("outcomes is blank");
    expect(message([...settings.slice(0, 4), "", ...settings.slice(5)], taste, "Taste")).toContain("settings is blank in row 5, where a result is typed");
  });
});
