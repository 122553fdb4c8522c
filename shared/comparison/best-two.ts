/** Two settings turned at once: where the results peak, or which way they rise. */
import { noAnswer, Problem } from "../problem";
import { printed } from "../words";
import { extremesOf, mean, sum } from "../statistics/describe";
import { leastSquares } from "../statistics/fit";
import { lessBlockMeans, placesOf } from "../statistics/two-way";
import { levelledOf, numbered } from "./groups";
import type { Setting } from "../settings";

interface TwoArguments {
  readonly first: readonly number[];
  readonly second: readonly number[];
  readonly results: readonly number[];
  readonly blocks?: readonly Setting[] | undefined;
}

export interface BestTwo {
  readonly first: number | Problem;
  readonly second: number | Problem;
  /** There, averaged over the blocks, all weighing the same. */
  readonly result: number | Problem;
  readonly kind: "peak" | "valley" | "saddle" | "ridge";
}

/** Below this part of the larger curvature the smaller one is as good as none: results hardly change along its line. */
const RIDGE = 0.05;

/**
 * Stationary point of a full second-order surface, as in response surface methodology (Box & Wilson 1951, J. R. Stat. Soc. B 13:1; Lenth
 * 2009, J. Stat. Softw. 32(7)). Both settings are scaled to the range tried, so that curvatures compare.
 */
export function bestTwo({ first, second, results, blocks }: TwoArguments): BestTwo {
  if (results.length === 0) noAnswer("There is no shot with both settings and a result yet.");
  const { level, results: shifted, noise } = levelledOf(results);
  const axes = [axisOf("first", first), axisOf("second", second)] as const;
  const [x, y] = [first.map(axes[0].coded), second.map(axes[1].coded)];
  const terms = [x, y, x.map((value, shot) => value * y[shot]!), x.map((value) => value * value), y.map((value) => value * value)];
  const places = placesOf(blocks ? numbered(blocks).numbers : results.map(() => 0));
  const needed = terms.length + places.length;
  if (results.length < needed) noAnswer(`A surface of two settings needs at least ${needed} shots here, but there are ${results.length}.`);
  const fit = leastSquares(terms.map((term) => lessBlockMeans(term, places)), lessBlockMeans(shifted, places));
  if (!fit) {
    const inside = places.length > 1 ? ", within the blocks too" : "";
    noAnswer(`The settings tried cannot show a surface. Each needs three different values at least, and the two must not only change together${inside}.`);
  }
  if (fit.totalSumOfSquares <= noise) noAnswer("All results are alike, so no settings are best.");
  const [b1, b2, b12, b11, b22] = fit.slopes as [number, number, number, number, number];

  const curvatures = eigenvalues(b11, b12 / 2, b22);
  const [large, small] = Math.abs(curvatures[0]) >= Math.abs(curvatures[1]) ? curvatures : [curvatures[1], curvatures[0]];
  if (Math.abs(large) <= 1e-10 * Math.hypot(b1, b2)) noAnswer(`The results rise evenly, without any curve. Go on with ${direction(axes, b1, b2)}.`);
  if (Math.abs(small) < RIDGE * Math.abs(large)) return { ...without(ridgeWords(axes, fit.slopes, large)), kind: "ridge" };

  const determinant = 4 * b11 * b22 - b12 * b12;
  const [u, v] = [(b12 * b2 - 2 * b22 * b1) / determinant, (b12 * b1 - 2 * b11 * b2) / determinant];
  const kind = large * small < 0 ? "saddle" : large < 0 ? "peak" : "valley";
  if (Math.max(Math.abs(u), Math.abs(v)) > 1 + 1e-12) {
    const better = kind === "peak" ? direction(axes, u, v) : direction(axes, b1, b2);
    return { ...without(`The ${kind} of the fitted surface lies outside the settings tried. Results rise with ${better}: try there.`), kind };
  }
  const overBlocks = (values: readonly number[]): number => mean(places.map((own) => mean(own.map((place) => values[place]!))));
  const height = overBlocks(shifted) - sum(terms.map((term, k) => fit.slopes[k]! * overBlocks(term)));
  return { first: axes[0].typed(u), second: axes[1].typed(v), result: level + height + (b1 * u + b2 * v) / 2, kind };
}

interface Axis {
  readonly name: string;
  /** From -1 to 1 over the range tried, and back. */
  readonly coded: (value: number) => number;
  readonly typed: (coded: number) => number;
}

function axisOf(name: string, settings: readonly number[]): Axis {
  const [least, most] = extremesOf(settings);
  if (least === most) noAnswer(`All values of ${name} are equal, so nothing can be seen of it. Turn both settings.`);
  const [centre, half] = [least + (most - least) / 2, (most - least) / 2];
  return { name, coded: (value) => (value - centre) / half, typed: (coded) => centre + half * coded };
}

/** Of a symmetric 2 × 2 matrix. */
function eigenvalues(a: number, b: number, c: number): [number, number] {
  const half = Math.hypot((a - c) / 2, b);
  return [(a + c) / 2 + half, (a + c) / 2 - half];
}

/** "higher first and lower second"; a setting that hardly counts is left out. */
function direction(axes: readonly [Axis, Axis], u: number, v: number): string {
  const size = Math.hypot(u, v);
  const ways = [u, v].flatMap((way, k) => (Math.abs(way) < 0.1 * size ? [] : [`${way > 0 ? "higher" : "lower"} ${axes[k]!.name}`]));
  return ways.join(" and ");
}

/** The line along which results hardly change, through the point of it that is nearest to the middle of the settings tried. */
function ridgeWords(axes: readonly [Axis, Axis], slopes: readonly number[], large: number): string {
  const [b1, b2, b12, b11] = slopes as [number, number, number, number];
  // Across the ridge runs the eigenvector of the larger curvature.
  const across = Math.abs(b12) > 1e-12 * Math.abs(large) ? [b12 / 2, large - b11] : Math.abs(large - b11) <= Math.abs(large) / 2 ? [1, 0] : [0, 1];
  const length = Math.hypot(across[0]!, across[1]!);
  const [p, q] = [across[0]! / length, across[1]! / length];
  const distance = -(b1 * p + b2 * q) / (2 * large);
  const what = large < 0 ? "highest" : "lowest";
  const ends = insideSquare([distance * p, distance * q], [-q, p]);
  if (!ends) return `The results change along one line only, and are ${what} outside the settings tried. Results rise with ${direction(axes, b1, b2)}: try there.`;
  const [from, to] = ends.map(([u, v]) => `${axes[0].name} ${printed(axes[0].typed(u))}, ${axes[1].name} ${printed(axes[1].typed(v))}`) as [string, string];
  return `The results are ${what} along a line, not at a point: from ${from} to ${to}. Choose on it by ease or taste.`;
}

type Point = readonly [number, number];

/** The ends of the part of a line that lies inside the square from -1 to 1; null where it passes by. */
function insideSquare(point: Point, way: Point): [Point, Point] | null {
  let [from, to] = [-Infinity, Infinity];
  for (const k of [0, 1] as const) {
    if (Math.abs(way[k]) < 1e-12) {
      if (Math.abs(point[k]) > 1) return null;
      continue;
    }
    const crossings = [(-1 - point[k]) / way[k], (1 - point[k]) / way[k]];
    from = Math.max(from, Math.min(...crossings));
    to = Math.min(to, Math.max(...crossings));
  }
  const at = (steps: number): Point => [point[0] + steps * way[0], point[1] + steps * way[1]];
  return from <= to ? [at(from), at(to)] : null;
}

function without(why: string): { first: Problem; second: Problem; result: Problem } {
  const problem = new Problem("no answer", why);
  return { first: problem, second: problem, result: problem };
}
