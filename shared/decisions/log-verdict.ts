/**
 * What a log of shots tells whoever is asked about it: is it steady, does it lie right, is it tight enough, what next.
 * Steady is judged by two tests alone, not by the signals of a control chart: those raise a false alarm in 46 of 100 steady logs of 100 shots.
 * Each text says no more than its test supports. `rules` names the rule that spoke for each.
 */
import { movementOf, type Drift, type Stretch } from "../log/movement";
import type { Values } from "../log/limits";
import { oddAmong } from "../log/odd";
import { badInput } from "../problem";
import { printed } from "../words";
import { largestSizeOf, mean, standardDeviation, sumOfSquares } from "../statistics/describe";
import { chiSquareLower, chiSquareUpper, tQuantileTwoSided } from "../statistics/distributions";
import { neighbourTest } from "../statistics/von-neumann";
import { counted, resultWords, type ResultWords } from "./sentences";

export interface LogVerdict {
  readonly steady: string;
  readonly centred: string;
  readonly tight: string;
  readonly next: string;
  readonly rules: {
    readonly steady: "too few" | "all alike" | "moved" | "drifted" | "odd" | "no movement";
    readonly centred: "not known" | "off" | "near";
    readonly tight: "not known" | "counted" | "fits" | "too wide";
    readonly next: "more" | "finer" | "ask" | "look" | "narrow" | "shift" | "leave";
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
}

const notKnown = "Not known.";

const leastShots = 10;
/** Together they raise a false alarm in about 5 of 100 steady logs. */
const significance = { neighbours: 0.03, oddShots: 0.02 };
/** Remarks beside a verdict are held to this. */
const remark = 0.01;

export function logVerdict({ values }: { readonly values: Values }): (limits: VerdictLimits) => LogVerdict {
  return ({ low, high, unit = "", units }) => {
    if (!(low < high)) badInput(`low, ${printed(low)}, must be less than high, ${printed(high)}.`);
    const { symbol, size, isTime } = spoken(unit, units);
    return verdictOf(values.map((value) => (value === null ? null : value * size)), { low: low * size, high: high * size, symbol, isTime });
  };
}

interface Wanted {
  readonly low: number;
  readonly high: number;
  readonly symbol: string;
  readonly isTime: boolean;
}

/** The unit as a sentence says it, and by what the values must be multiplied for it. */
function spoken(unit: string, units: WrittenUnits | undefined): { symbol: string; size: number; isTime: boolean } {
  const symbol = unit.trim();
  if (symbol === "h:mm:ss" || symbol === "s") return { symbol: "s", size: units?.time === "clock" ? 86400 : 1, isTime: true };
  return { symbol, size: symbol === "%" && units?.percent === "cell" ? 100 : 1, isTime: false };
}

/** A value with its place in the list, blanks counted, so that whoever reads of it finds it. */
interface Shot {
  readonly row: number;
  readonly value: number;
}

function verdictOf(values: Values, wanted: Wanted): LogVerdict {
  const shots = values.flatMap((value, index) => (value === null ? [] : [{ row: index + 1, value }]));
  const all = valuesOf(shots);
  if (shots.length < leastShots) {
    return {
      steady: shots.length === 0 ? "No shots yet." : `${counted(shots.length, "shot")}: too few.`, centred: notKnown, tight: notKnown, next: "Log more.",
      rules: { steady: "too few", centred: "not known", tight: "not known", next: "more" },
    };
  }
  // Typed values have a few digits: what is smaller than that is rounding.
  if (standardDeviation(all) <= 1e-13 * largestSizeOf(all)) return alike(all, wanted);

  const steady = steadiness(shots, wanted.symbol);
  // An odd shot is to be looked at, not to be averaged in.
  const judged = steady.rule === "odd" ? all.filter((value) => !steady.isOdd(value)) : all;
  const centred = centring(judged, wanted);
  const tight = steady.rule === "moved" || steady.rule === "drifted" ? insideCount(all, wanted) : tightness(judged, wanted);
  const next = whatNext(steady, centred, tight, wanted);
  const said = (text: string): string =>
    judged === all || text === notKnown ? text : `Without the odd ${judged.length === all.length - 1 ? "shot" : "shots"}: ${text.charAt(0).toLowerCase()}${text.slice(1)}`;
  return {
    steady: steady.text, centred: said(centred.text), tight: said(tight.text), next: next.text,
    rules: { steady: steady.rule, centred: centred.rule, tight: tight.rule, next: next.rule },
  };
}

function valuesOf(shots: readonly Shot[]): number[] {
  return shots.map(({ value }) => value);
}

/** Where the log was kept too coarsely to see any spread. */
function alike(shots: readonly number[], { low, high, symbol }: Wanted): LogVerdict {
  const level = shots[0]!;
  const off = Math.abs(level - (low + high) / 2) > (high - low) / 8;
  return {
    steady: `All ${shots.length} shots read ${withUnit(printed(level), symbol)}: their spread cannot be seen.`,
    centred: off ? notKnown : "Near the middle.", tight: notKnown, next: "Log one more decimal.",
    rules: { steady: "all alike", centred: off ? "not known" : "near", tight: "not known", next: "finer" },
  };
}

interface Steadiness {
  readonly rule: "moved" | "drifted" | "odd" | "no movement";
  readonly text: string;
  /** Where to look, for what is next. */
  readonly place: string;
  readonly isOdd: (value: number) => boolean;
}

/** Odd shots that stand alone are set aside before the others are judged: one far off would hide a movement, or at an end look like one. */
function steadiness(shots: readonly Shot[], symbol: string): Steadiness {
  const isOdd = oddAmong(valuesOf(shots), significance.oddShots);
  const odd = shots.filter(({ value }) => isOdd(value));
  const standAlone = !shots.some(({ value }, place) => place > 0 && isOdd(value) && isOdd(shots[place - 1]!.value));
  const moved = movement(standAlone ? shots.filter(({ value }) => !isOdd(value)) : shots, symbol);
  if (odd.length > 0) {
    const oddWords = odd.length === 1 ? `One odd shot, row ${odd[0]!.row}.` : `${odd.length} odd shots, the first in row ${odd[0]!.row}.`;
    if (!moved) return { rule: "odd", place: `row ${odd[0]!.row}`, text: oddWords, isOdd };
    return { ...moved, text: standAlone ? `${moved.text} ${oddWords}` : moved.text, isOdd };
  }
  if (moved) return { ...moved, isOdd };
  const inTurn = neighbourTest(valuesOf(shots)).inTurn < remark;
  const text = inTurn ? "No movement shown, but shots go up and down in turn, as they do where every shot is corrected." : "No movement shown.";
  return { rule: "no movement", place: "", text, isOdd };
}

/** What moved, where neighbours are more alike than chance lets them be. */
function movement(shots: readonly Shot[], symbol: string): Omit<Steadiness, "isOdd"> | null {
  const values = valuesOf(shots);
  if (neighbourTest(values).alike >= significance.neighbours) return null;
  const { what, residuals } = movementOf(values);
  const said = what.kind === "stretch" ? stretchWords(what, shots, symbol) : driftWords(what, symbol);
  const alikeStill = neighbourTest(residuals).alike < remark;
  return { ...said, text: alikeStill ? `${said.text} Neighbours are alike besides: control limits from shot to shot are too narrow.` : said.text };
}

function stretchWords({ from, to, level, otherLevel, error }: Stretch, shots: readonly Shot[], symbol: string): { rule: "moved"; text: string; place: string } {
  const say = saying(symbol, 2 * error, level - otherLevel);
  const [first, last] = [shots[from]!.row, shots[to - 1]!.row];
  const isLast = to === shots.length;
  const where = isLast ? `from shot ${first} on` : `at shots ${first}–${last}`;
  return { rule: "moved", place: `shot ${first}`, text: `Moved: ${say.one(level)} ${where}, ${say.one(otherLevel)} before${isLast ? "" : " and after"}.` };
}

function driftWords({ slope, error }: Drift, symbol: string): { rule: "drifted"; text: string; place: string } {
  const say = saying(symbol, 2 * error, slope);
  return { rule: "drifted", place: "", text: `Drifted ${slope > 0 ? "up" : "down"} by ${say.one(Math.abs(slope))} a shot.` };
}

interface Judgement<Rule> {
  readonly rule: Rule;
  readonly text: string;
}

interface Centring extends Judgement<LogVerdict["rules"]["centred"]> {
  /** How far the mean lies above the middle, and how surely: half of its 95 % interval. */
  readonly off: number;
  readonly reach: number;
}

/** The mean against the middle of what is wanted; an eighth of the width is near enough. */
function centring(shots: readonly number[], { low, high, symbol, isTime }: Wanted): Centring {
  const off = mean(shots) - (low + high) / 2;
  const reach = tQuantileTwoSided(0.05, shots.length - 1) * (standardDeviation(shots) / Math.sqrt(shots.length));
  const near = (high - low) / 8;
  if (Math.abs(off) > reach && Math.abs(off) > near) {
    const side = isTime ? (off > 0 ? "slow" : "fast") : off > 0 ? "high" : "low";
    return { rule: "off", text: `${saying(symbol, reach, off).one(Math.abs(off))} ${side} on average.`, off, reach };
  }
  if (Math.abs(off) + reach <= near) return { rule: "near", text: "Near the middle.", off, reach };
  return { rule: "not known", text: notKnown, off, reach };
}

type Tightness = Judgement<LogVerdict["rules"]["tight"]>;

function insideCount(shots: readonly number[], { low, high }: Wanted): Tightness {
  return { rule: "counted", text: `${shots.filter((value) => value >= low && value <= high).length} of ${shots.length} inside.` };
}

/**
 * Pp, the width wanted over six standard deviations, against 1, by its 95 % interval: the sum of squares over the variance that Pp = 1 allows
 * is chi-square distributed.
 */
function tightness(shots: readonly number[], { low, high }: Wanted): Tightness {
  const df = shots.length - 1;
  const squares = sumOfSquares(shots) / ((high - low) / 6) ** 2;
  if (chiSquareLower(squares, df) <= 0.025) return { rule: "fits", text: "Spread fits." };
  if (chiSquareUpper(squares, df) < 0.025) return { rule: "too wide", text: "Spread too wide." };
  return { rule: "not known", text: notKnown };
}

function whatNext(steady: Steadiness, centred: Centring, tight: Tightness, { symbol, isTime }: Wanted): Judgement<LogVerdict["rules"]["next"]> {
  if (steady.rule === "moved") return { rule: "ask", text: `Ask what changed at ${steady.place}.` };
  if (steady.rule === "drifted") return { rule: "ask", text: "Ask what changes from shot to shot." };
  if (steady.rule === "odd") return { rule: "look", text: `Look at ${steady.place}.` };
  if (tight.rule === "too wide") return { rule: "narrow", text: "Dose and puck alike first." };
  if (centred.rule === "off") {
    const by = saying(symbol, centred.reach, centred.off).one(Math.abs(centred.off));
    const less = centred.off > 0;
    return { rule: "shift", text: isTime ? `Move the grind once, ${less ? "coarser" : "finer"}, for ${by} ${less ? "less" : "more"}.` : `Bring it ${less ? "down" : "up"} once, by ${by}.` };
  }
  return centred.rule === "near" && tight.rule === "fits" ? { rule: "leave", text: "Leave it." } : { rule: "more", text: "Log more." };
}

/** Amounts to what is known of them, and to three digits at most. */
function saying(symbol: string, reach: number, amount: number): ResultWords {
  return resultWords(symbol, Math.max(reach, Math.abs(amount) / 100), amount);
}

function withUnit(text: string, symbol: string): string {
  return symbol === "" ? text : `${text} ${symbol}`;
}
