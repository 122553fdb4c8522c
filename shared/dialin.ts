/**
 * Dialling in: which grind setting lands on a time, at which pressure, and reading a curve through measured points.
 * Shot time is taken as log-linear in the setting, so that one step of the grinder changes it by a constant share.
 */
import { badInput, noAnswer, Problem } from "./problem";
import type { QuantityName } from "./quantities";
import { amount, printed, range, words } from "./words";
import { leastSquares, leverageAt, residualSd, standardErrors, valueAt, type Fit } from "./statistics/fit";
import { tQuantileTwoSided } from "./statistics/distributions";
import { inverseInterval } from "./statistics/inverse-interval";
import { findRoot } from "./statistics/root";

type Numbers = readonly number[];

const twoShotsOnly = new Problem("no answer", "Two shots always lie on a line, so there is no spread for an interval. Pull a third.");

/**
 * The setting for a time, with the interval for one new shot by inverting its prediction interval.
 * Source: Draper & Smith, Applied Regression Analysis; Greenwell & Schubert Kabban (2014), The R Journal 6(1):90.
 */
export function grindForTime({ settings, times }: { settings: Numbers; times: Numbers }): (
  asked: { target: number; confidence?: number },
) => { setting: number; low: number | Problem; high: number | Problem } {
  requireShots(settings, 2, "settings");
  const requireTried = insideOf(times, "time", "times of the shots");
  const fit = fitOrRefuse([settings], times.map(Math.log), "the settings");
  const slope = fit.slopes[0]!;
  const centre = fit.centres[0]!;
  return ({ target, confidence = 0.95 }) => {
    requireTried("target", target);
    if (slope === 0) noAnswer("The times do not change with the setting, so no setting follows from a time.");
    const setting = centre + (Math.log(target) - fit.mean) / slope;
    const interval = settingInterval(fit, setting, confidence);
    return interval instanceof Problem ? { setting, low: interval, high: interval } : { setting, ...interval };
  };
}

function settingInterval(fit: Fit, setting: number, confidence: number): { low: number; high: number } | Problem {
  if (fit.df < 1) return twoShotsOnly;
  const line = { slope: fit.slopes[0]!, slopeVariance: fit.unscaledCovariance[0]![0]!, centre: fit.centres[0]!, variance: 1 + 1 / fit.count };
  return inverseInterval({ ...line, spread: residualSd(fit), df: fit.df }, setting, confidence) ??
    new Problem("no answer", "The shots scatter too much for an interval: the grind's effect on time is not certain at this confidence. Pull more shots, further apart.");
}

/** The time at a setting, with the prediction interval for one new shot. */
export function timeForGrind({ settings, times }: { settings: Numbers; times: Numbers }): (
  asked: { setting: number; confidence?: number },
) => { time: number; timeLow: number | Problem; timeHigh: number | Problem } {
  requireShots(settings, 2, "settings");
  const requireTried = insideOf(settings, "setting", "settings tried");
  const fit = fitOrRefuse([settings], times.map(Math.log), "the settings");
  return ({ setting, confidence = 0.95 }) => {
    requireTried("setting", setting);
    const middle = valueAt(fit, [setting]);
    if (fit.df < 1) return { time: Math.exp(middle), timeLow: twoShotsOnly, timeHigh: twoShotsOnly };
    const half = tQuantileTwoSided(1 - confidence, fit.df) * residualSd(fit) * Math.sqrt(1 + leverageAt(fit, [setting]));
    return { time: Math.exp(middle), timeLow: Math.exp(middle - half), timeHigh: Math.exp(middle + half) };
  };
}

/** The setting that holds a time at another pressure: ln time is fitted linearly to the setting and to ln pressure. */
export function grindForPressure({ settings, pressures, times }: { settings: Numbers; pressures: Numbers; times: Numbers }): (
  asked: { pressure: number; target: number },
) => number {
  requireShots(settings, 3, "settings and pressures");
  const requirePressureTried = insideOf(pressures, "pressure", "pressures of the shots");
  const requireTimeTried = insideOf(times, "time", "times of the shots");
  const requireSettingTried = insideOf(settings, "setting", "settings tried; pull a shot near it and ask again");
  const fit = fitOrRefuse([settings, pressures.map(Math.log)], times.map(Math.log), "setting and pressure apart");
  const [perSetting, perPressure] = fit.slopes as [number, number];
  return ({ pressure, target }) => {
    requirePressureTried("pressure", pressure);
    requireTimeTried("target", target);
    if (perSetting === 0) noAnswer("The times do not change with the setting, so no setting follows from a time.");
    const setting = (Math.log(target) - fit.intercept - perPressure * Math.log(pressure)) / perSetting;
    requireSettingTried("The setting found,", setting);
    return setting;
  };
}

/** The shot time as it would have been at another beverage mass, by the mean flow after the first drop. */
export function timeAtBeverage({ time, beverage, target, firstDrip = 0 }: { time: number; beverage: number; target: number; firstDrip?: number }): number {
  if (firstDrip >= time) badInput(words`firstdrip, ${amount("firstDrip", firstDrip)}, must be less than time, ${amount("time", time)}.`);
  if (Math.abs(target - beverage) > beverage / 4) {
    noAnswer(words`From ${amount("beverage", beverage)} to ${amount("beverage", target)} is more than 25 % of the beverage, too far to stretch a time. Pull the shot again.`);
  }
  return firstDrip + ((time - firstDrip) * target) / beverage;
}

type CurveMethod = "linear" | "monotone";

/** The value of a curve through the points, at `at`. */
export function curve({ x, y }: { x: Numbers; y: Numbers }): (asked: { at: number; method?: CurveMethod }) => number {
  const points = sortedPoints(x, y);
  const requireSpanned = insideOf(points.x, "x", "x of the points");
  return ({ at, method = "linear" }) => {
    requireSpanned("at", at);
    return segment(points, segmentAt(points.x, at), method)(at);
  };
}

/** The index of the point that begins the segment with `at` in it. */
function segmentAt(x: Numbers, at: number): number {
  let [left, right] = [0, x.length - 1];
  while (right - left > 1) {
    const middle = (left + right) >> 1;
    if (x[middle]! <= at) left = middle;
    else right = middle;
  }
  return left;
}

/** The smallest x at which the curve reaches `target`. */
export function curveWhere({ x, y }: { x: Numbers; y: Numbers }): (asked: { target: number; method?: CurveMethod }) => number {
  const points = sortedPoints(x, y);
  const last = points.x.length - 1;
  const rising = runningMaximum(points.y);
  const falling = runningMaximum(points.y.map((value) => -value));
  return ({ target, method = "linear" }) => {
    const reached = points.y[0]! <= target ? firstAtLeast(rising, target) : firstAtLeast(falling, -target);
    if (reached > last) noAnswer(`The curve goes from ${printed(-falling[last]!)} to ${printed(rising[last]!)} and never reaches ${printed(target)}.`);
    if (points.y[reached] === target) return points.x[reached]!;
    const along = segment(points, reached - 1, method);
    return findRoot((at) => along(at) - target, points.x[reached - 1]!, points.x[reached]!);
  };
}

function runningMaximum(values: Numbers): number[] {
  let most = -Infinity;
  return values.map((value) => (most = Math.max(most, value)));
}

/** The index of the first of rising values that is at least this; their number where none is. */
function firstAtLeast(rising: Numbers, value: number): number {
  let [least, most] = [0, rising.length];
  while (least < most) {
    const middle = (least + most) >> 1;
    if (rising[middle]! >= value) most = middle;
    else least = middle + 1;
  }
  return least;
}

interface Points {
  readonly x: Numbers;
  readonly y: Numbers;
}

/** Points by rising x, those of the same x averaged. */
function sortedPoints(x: Numbers, y: Numbers): Points {
  const byX = new Map<number, { total: number; count: number }>();
  x.forEach((value, index) => {
    const so = byX.get(value);
    if (so) {
      so.total += y[index]!;
      so.count++;
    } else byX.set(value, { total: y[index]!, count: 1 });
  });
  const sorted = [...byX].sort(([a], [b]) => a - b);
  if (sorted.length < 2) noAnswer(`A curve needs points at two different x or more, but has ${sorted.length}.`);
  return { x: sorted.map(([value]) => value), y: sorted.map(([, { total, count }]) => total / count) };
}

/** The curve between a point and the next. */
function segment(points: Points, left: number, method: CurveMethod): (at: number) => number {
  const [x0, x1] = [points.x[left]!, points.x[left + 1]!];
  const [y0, y1] = [points.y[left]!, points.y[left + 1]!];
  const width = x1 - x0;
  if (method === "linear") return (at) => y0 + ((y1 - y0) * (at - x0)) / width;
  const [d0, d1] = [monotoneSlope(points, left), monotoneSlope(points, left + 1)];
  return (at) => {
    const s = (at - x0) / width;
    return y0 * (1 + 2 * s) * (1 - s) ** 2 + d0 * width * s * (1 - s) ** 2 + y1 * s * s * (3 - 2 * s) + d1 * width * s * s * (s - 1);
  };
}

/**
 * Slope at a point that keeps the cubic monotone between points: a weighted harmonic mean of the neighbouring slopes.
 * Source: Fritsch & Butland (1984), SIAM J. Sci. Stat. Comput. 5:300, of the family of Fritsch & Carlson (1980); at the ends, the
 * three-point formula limited to keep the shape.
 */
function monotoneSlope({ x, y }: Points, index: number): number {
  const width = (left: number): number => x[left + 1]! - x[left]!;
  const chord = (left: number): number => (y[left + 1]! - y[left]!) / width(left);
  const last = x.length - 1;
  if (last === 1) return chord(0);
  if (index === 0) return endSlope(width(0), width(1), chord(0), chord(1));
  if (index === last) return endSlope(width(last - 1), width(last - 2), chord(last - 1), chord(last - 2));
  const [before, after] = [chord(index - 1), chord(index)];
  if (before * after <= 0) return 0;
  const [w1, w2] = [2 * width(index) + width(index - 1), width(index) + 2 * width(index - 1)];
  return (w1 + w2) / (w1 / before + w2 / after);
}

function endSlope(near: number, far: number, chordNear: number, chordFar: number): number {
  const slope = ((2 * near + far) * chordNear - near * chordFar) / (near + far);
  if (slope * chordNear <= 0) return 0;
  return chordNear * chordFar <= 0 && Math.abs(slope) > 3 * Math.abs(chordNear) ? 3 * chordNear : slope;
}

/** The power of pressure that the flow follows: 1 would be Darcy's law for a bed that does not change. */
export function flowExponent({ pressures, flows }: { pressures: Numbers; flows: Numbers }): {
  exponent: number; low: number | Problem; high: number | Problem; r2: number | Problem;
} {
  requireShots(pressures, 2, "pressures", "pressure");
  const fit = fitOrRefuse([pressures.map(Math.log)], flows.map(Math.log), "the pressures");
  const exponent = fit.slopes[0]!;
  if (fit.df < 1) {
    return { exponent, low: twoShotsOnly, high: twoShotsOnly, r2: twoShotsOnly };
  }
  const half = tQuantileTwoSided(0.05, fit.df) * standardErrors(fit)[1]!;
  const r2 = fit.totalSumOfSquares > 0 ? 1 - fit.residualSumOfSquares / fit.totalSumOfSquares : new Problem("no answer", "All flows are the same, so there is nothing to explain.");
  return { exponent, low: exponent - half, high: exponent + half, r2 };
}

function fitOrRefuse(columns: readonly Numbers[], y: Numbers, what: string): Fit {
  return leastSquares(columns, y) ?? noAnswer(`The shots do not tell ${what}: change one without the other, or try more different values.`);
}

function requireShots(values: Numbers, least: number, what: string, quantity: QuantityName = "setting"): void {
  if (values.length < least) noAnswer(`This needs at least ${least} shots with a result, but there ${values.length === 1 ? "is 1" : `are ${values.length}`}.`);
  if (new Set(values).size < 2) noAnswer(words`All shots have the same ${what}, ${amount(quantity, values[0]!)}. Try another.`);
}

/** Refuses what lies outside the data. */
function insideOf(data: Numbers, quantity: QuantityName, what: string): (name: string, value: number) => void {
  let [least, most] = [Infinity, -Infinity];
  for (const value of data) [least, most] = [Math.min(least, value), Math.max(most, value)];
  // A setting that was tried is inside, whatever the last binary digit says.
  const slack = 1e-9 * (most - least);
  return (name, value) => {
    if (value < least - slack || value > most + slack) {
      noAnswer(words`${name} ${amount(quantity, value)} is outside ${range(quantity, least, most)}, the ${what}.`);
    }
  };
}
