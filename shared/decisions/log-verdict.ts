/**
 * What a log of shots tells whoever is asked about it: is it steady, does it lie right, is it tight enough, what next.
 * Each text says no more than its test supports. `rules` names the rule that spoke for each.
 */
import type { Values } from "../log/limits";
import type { Drift, Stretch } from "../log/movement";
import { steadinessOf, valuesOf, type LoggedShot, type Moved, type Steadiness } from "../log/steadiness";
import { badInput } from "../problem";
import { settingKey, type Setting } from "../settings";
import { printed } from "../words";
import { largestSizeOf, mean, standardDeviation, sumOfSquares } from "../statistics/describe";
import { chiSquareLower, chiSquareUpper, tQuantileTwoSided } from "../statistics/distributions";
import { counted, resultWords } from "./sentences";

export interface LogVerdict {
  readonly steady: string;
  readonly centred: string;
  readonly tight: string;
  readonly next: string;
  readonly rules: {
    readonly steady: "to mend" | "too few" | "all alike" | "moved" | "drifted" | "odd" | "no movement";
    readonly centred: "not known" | "off" | "near";
    readonly tight: "not known" | "counted" | "fits" | "too wide";
    readonly next: "mend" | "more" | "finer" | "ask" | "look" | "narrow" | "shift" | "leave";
  };
}

/** How a workbook writes times and percentages, so that sentences say seconds and % where its cells hold clock times and fractions. */
interface WrittenUnits {
  readonly time: string;
  readonly percent: string;
}

export interface VerdictLimits {
  readonly low: number;
  readonly high: number;
  /** The unit of the values, as it stands beside them. */
  readonly unit?: string;
  readonly units?: WrittenUnits;
  /** Rows of the log that are not among the values because they look wrong. */
  readonly excluded?: number;
}

const notKnown = "Not known.";
const leastShots = 10;
/** Where more of the rows look wrong, the others tell nothing of the log. */
const mostLeftOut = 1 / 5;

interface Log {
  readonly values: Values;
  /** The setting of each value, and the row by which it is found; without rows they are counted from 1, blanks included. */
  readonly settings?: readonly (Setting | null)[] | undefined;
  readonly rows?: Values | undefined;
}

export function logVerdict({ values, settings, rows }: Log): (limits: VerdictLimits) => LogVerdict {
  const shots = values.flatMap((value, index) => (value === null ? [] : [{ row: rows?.[index] ?? index + 1, value, setting: settings?.[index] }]));
  const all = valuesOf(shots);
  // Typed values have a few digits: what is smaller than that is rounding.
  const isAlike = all.length > 1 && standardDeviation(all) <= 1e-13 * largestSizeOf(all);
  const judge = all.length >= leastShots && !isAlike ? verdictOf(all, steadinessOf(shots)) : null;
  return ({ low, high, unit = "", units, excluded = 0 }) => {
    if (!(low < high)) badInput(`low, ${printed(low)}, must be less than high, ${printed(high)}.`);
    if (excluded > mostLeftOut * (excluded + all.length)) return toMend(excluded, all.length);
    const wanted = { low, high, unit: spoken(unit, units) };
    if (all.length < leastShots) return tooFew(all.length);
    return judge ? judge(wanted) : alike(all, wanted);
  };
}

/** The unit as a sentence says it. */
interface SpokenUnit {
  readonly symbol: string;
  /** By what the values must be multiplied for it. */
  readonly size: number;
  readonly isTime: boolean;
}

interface Wanted {
  readonly low: number;
  readonly high: number;
  readonly unit: SpokenUnit;
}

function spoken(unit: string, units: WrittenUnits | undefined): SpokenUnit {
  const symbol = unit.trim();
  if (symbol === "h:mm:ss" || symbol === "s") return { symbol: "s", size: units?.time === "clock" ? 86400 : 1, isTime: true };
  return { symbol, size: symbol === "%" && units?.percent === "cell" ? 100 : 1, isTime: false };
}

function toMend(leftOut: number, shots: number): LogVerdict {
  return {
    steady: `${counted(leftOut, "row looks", "rows look")} wrong, beside ${shots} that can be judged: mend the log first.`,
    centred: notKnown, tight: notKnown, next: "Mend what looks wrong, the worst first.",
    rules: { steady: "to mend", centred: "not known", tight: "not known", next: "mend" },
  };
}

function tooFew(shots: number): LogVerdict {
  return {
    steady: shots === 0 ? "No shots yet." : `${counted(shots, "shot")}: too few.`, centred: notKnown, tight: notKnown, next: "Log more.",
    rules: { steady: "too few", centred: "not known", tight: "not known", next: "more" },
  };
}

/** Where the log was kept too coarsely to see any spread. */
function alike(shots: readonly number[], { low, high, unit }: Wanted): LogVerdict {
  const level = shots[0]!;
  const off = Math.abs(level - (low + high) / 2) > (high - low) / 8;
  const reading = `${printed(level * unit.size)}${unit.symbol === "" ? "" : ` ${unit.symbol}`}`;
  return {
    steady: `All ${shots.length} shots read ${reading}: their spread cannot be seen.`,
    centred: off ? notKnown : "Near the middle.", tight: notKnown, next: "Log one more decimal.",
    rules: { steady: "all alike", centred: off ? "not known" : "near", tight: "not known", next: "finer" },
  };
}

/** What is asked of a list for any limits, worked out once. */
interface Judged {
  readonly shots: number;
  readonly mean: number;
  /** Half of the 95 % interval of the mean. */
  readonly reach: number;
  readonly squares: number;
}

function judgedOf(values: readonly number[]): Judged {
  const squares = sumOfSquares(values);
  const df = values.length - 1;
  return { shots: values.length, mean: mean(values), squares, reach: tQuantileTwoSided(0.05, df) * Math.sqrt(squares / df / values.length) };
}

function verdictOf(all: readonly number[], steadiness: Steadiness): (wanted: Wanted) => LogVerdict {
  // An odd shot is to be looked at, not to be averaged in.
  const isOdd = !steadiness.moved && steadiness.odd.length > 0;
  const judged = judgedOf(isOdd ? valuesOf(steadiness.others) : all);
  const sorted = Float64Array.from(all).sort();
  return (wanted) => verdict(judged, sorted, steadiness, wanted);
}

function verdict(judged: Judged, sorted: Float64Array, steadiness: Steadiness, wanted: Wanted): LogVerdict {
  const steady = steadyOf(steadiness, wanted.unit);
  const centred = centring(judged, wanted);
  const tight = steady.rule === "moved" || steady.rule === "drifted" ? insideCount(sorted, wanted) : tightness(judged, wanted);
  const next = whatNext(steady, centred, tight, wanted.unit);
  const said = (text: string): string =>
    steady.rule !== "odd" || text === notKnown ? text : `Without the odd ${steadiness.odd.length === 1 ? "shot" : "shots"}: ${text.charAt(0).toLowerCase()}${text.slice(1)}`;
  return {
    steady: steady.text, centred: said(centred.text), tight: said(tight.text), next: next.text,
    rules: { steady: steady.rule, centred: centred.rule, tight: tight.rule, next: next.rule },
  };
}

interface Judgement<Rule> {
  readonly rule: Rule;
  readonly text: string;
}

interface Steady extends Judgement<LogVerdict["rules"]["steady"]> {
  /** Where to look, for what is next. */
  readonly place: string;
  readonly settingChanged?: boolean;
}

function steadyOf({ odd, oddStandAlone, moved, inTurn }: Steadiness, unit: SpokenUnit): Steady {
  const [firstOdd] = odd;
  if (moved) {
    const said = movedWords(moved, unit);
    return firstOdd && oddStandAlone ? { ...said, text: `${said.text} ${oddWords(odd)}` } : said;
  }
  if (firstOdd) return { rule: "odd", place: `row ${firstOdd.row}`, text: oddWords(odd) };
  const text = inTurn ? "No movement shown, but shots go up and down in turn, as they do where every shot is corrected." : "No movement shown.";
  return { rule: "no movement", place: "", text };
}

function oddWords(odd: readonly LoggedShot[]): string {
  return odd.length === 1 ? `One odd shot, row ${odd[0]!.row}.` : `${odd.length} odd shots, the first in row ${odd[0]!.row}.`;
}

function movedWords({ what, among, alikeBesides }: Moved, unit: SpokenUnit): Steady {
  const said = what.kind === "stretch" ? stretchWords(what, among, unit) : driftWords(what, unit);
  return alikeBesides ? { ...said, text: `${said.text} Neighbours are alike besides: control limits from shot to shot are too narrow.` } : said;
}

function stretchWords({ from, to, level, otherLevel, error }: Stretch, shots: readonly LoggedShot[], unit: SpokenUnit): Steady {
  const say = saying(unit, 2 * error, level - otherLevel);
  const [first, last] = [shots[from]!.row, shots[to - 1]!.row];
  const isLast = to === shots.length;
  const where = isLast ? `from shot ${first} on` : `at shots ${first}–${last}`;
  const text = `Moved: ${say(level)} ${where}, ${say(otherLevel)} before${isLast ? "" : " and after"}`;
  const settingChanged = settingChangedAt(from, shots);
  return { rule: "moved", place: `shot ${first}`, text: `${text}${settingChanged ? "; the setting changed there" : ""}.`, settingChanged };
}

/** At the place or beside it, since the luck of one shot moves the place that is found by one. */
function settingChangedAt(place: number, shots: readonly LoggedShot[]): boolean {
  const near = shots.slice(Math.max(0, place - 2), place + 2).map(({ setting }) => setting ?? null);
  return new Set(near.filter((setting) => setting !== null).map(settingKey)).size > 1;
}

function driftWords({ slope, error }: Drift, unit: SpokenUnit): Steady {
  return { rule: "drifted", place: "", text: `Drifted ${slope > 0 ? "up" : "down"} by ${saying(unit, 2 * error, slope)(Math.abs(slope))} a shot.` };
}

interface Centring extends Judgement<LogVerdict["rules"]["centred"]> {
  /** How far the mean lies above the middle, and how surely: half of its 95 % interval. */
  readonly off: number;
  readonly reach: number;
}

/** The mean against the middle of what is wanted; an eighth of the width is near enough. */
function centring({ mean: level, reach }: Judged, { low, high, unit }: Wanted): Centring {
  const off = level - (low + high) / 2;
  const near = (high - low) / 8;
  if (Math.abs(off) > reach && Math.abs(off) > near) {
    const side = unit.isTime ? (off > 0 ? "slow" : "fast") : off > 0 ? "high" : "low";
    return { rule: "off", text: `${saying(unit, reach, off)(Math.abs(off))} ${side} on average.`, off, reach };
  }
  if (Math.abs(off) + reach <= near) return { rule: "near", text: "Near the middle.", off, reach };
  return { rule: "not known", text: notKnown, off, reach };
}

type Tightness = Judgement<LogVerdict["rules"]["tight"]>;

function insideCount(sorted: Float64Array, { low, high }: Wanted): Tightness {
  return { rule: "counted", text: `${countBelow(sorted, high, true) - countBelow(sorted, low, false)} of ${sorted.length} inside.` };
}

/** How many of the values, sorted, lie below a limit, or on it too. */
function countBelow(sorted: Float64Array, limit: number, orOn: boolean): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (sorted[middle]! < limit || (orOn && sorted[middle] === limit)) from = middle + 1;
    else to = middle;
  }
  return from;
}

/**
 * Pp, the width wanted over six standard deviations, against 1, by its 95 % interval: the sum of squares over the variance that Pp = 1 allows
 * is chi-square distributed.
 */
function tightness(judged: Judged, { low, high }: Wanted): Tightness {
  const df = judged.shots - 1;
  const squares = judged.squares / ((high - low) / 6) ** 2;
  if (chiSquareLower(squares, df) <= 0.025) return { rule: "fits", text: "Spread fits." };
  if (chiSquareUpper(squares, df) < 0.025) return { rule: "too wide", text: "Spread too wide." };
  return { rule: "not known", text: notKnown };
}

function whatNext(steady: Steady, centred: Centring, tight: Tightness, unit: SpokenUnit): Judgement<LogVerdict["rules"]["next"]> {
  if (steady.rule === "moved") return { rule: "ask", text: steady.settingChanged ? "Ask why the setting changed." : `Ask what changed at ${steady.place}.` };
  if (steady.rule === "drifted") return { rule: "ask", text: "Ask what changes from shot to shot." };
  if (steady.rule === "odd") return { rule: "look", text: `Look at ${steady.place}.` };
  if (tight.rule === "too wide") return { rule: "narrow", text: "Dose and puck alike first." };
  if (centred.rule === "off") {
    const by = saying(unit, centred.reach, centred.off)(Math.abs(centred.off));
    const less = centred.off > 0;
    return { rule: "shift", text: unit.isTime ? `Move the grind once, ${less ? "coarser" : "finer"}, for ${by} ${less ? "less" : "more"}.` : `Bring it ${less ? "down" : "up"} once, by ${by}.` };
  }
  return centred.rule === "near" && tight.rule === "fits" ? { rule: "leave", text: "Leave it." } : { rule: "more", text: "Log more." };
}

/** How amounts are said: to what is known of them, and to three digits of this one at most. */
function saying({ symbol, size }: SpokenUnit, reach: number, amount: number): (value: number) => string {
  const { one } = resultWords(symbol, size * Math.max(reach, Math.abs(amount) / 100), size * amount);
  return (value) => one(size * value);
}
