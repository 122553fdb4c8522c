/** A curve through measured points: its value somewhere, and where it reaches a value. */
import { noAnswer } from "../problem";
import { findRoot } from "../statistics/root";
import { printed } from "../words";
import { insideOf, type Numbers } from "./shots";

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
    const way = (at - x0) / width;
    const rest = 1 - way;
    return y0 * (1 + 2 * way) * rest ** 2 + d0 * width * way * rest ** 2 + y1 * way * way * (3 - 2 * way) - d1 * width * way * way * rest;
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
