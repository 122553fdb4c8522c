import { expect, it } from "vitest";
import { rateOf } from "../scripts/simulate/simulation.ts";
import { simulations } from "../scripts/simulations.ts";

/** A few of what `npm run simulate` counts, each at its fixed seed; a rate may lie beyond its aim by what chance does to this many cases once in 10,000. */
const some: readonly (readonly [topic: string, what: string, cases: number])[] = [
  ["Equal spread, equal numbers", "4 × 3, test", 1000],
  ["Equal spread, equal numbers", "4 × 3, pairs", 1000],
  ["Equal spread, equal numbers", "7 × 2, test", 1000],
  ["Equal spread, equal numbers", "8 × 3, pairs", 600],
  ["Equal spread, every second setting one shot more", "7 × 3, test", 1000],
  ["One setting three times as scattered, equal numbers", "4 × 3, test", 1000],
  ["The first setting three times as scattered, other numbers", "4, 12, 12, 12, test", 1000],
  ["Mornings as blocks", "4 × 3, mornings 2 SD, test", 1000],
  ["Mornings as blocks", "5 × 3, two shots lost, mornings 2 SD, pairs", 1000],
  ["Power, 4 × 3, one 2.5 SD off", "mornings 2 SD, blocks", 1000],
  ["Tasters as blocks", "4 tasters × 4 samples × 3 cups, level 2, views 1 SD", 1000],
  ["Rank correlation of unrelated lists", "15 pairs", 1000],
  ["Drift of steady runs", "4 × 3, settings apart", 1000],
  ["Best setting of a true parabola", "5 × 3, refused for lack of fit", 1000],
  ["Shots needed for 1.5 SD have the power", "4 settings", 1000],
  ["Trial decided, 4 × 3", "two outcomes, neither differs, mornings 2 SD: a difference claimed", 400],
  ["Trial decided, 4 × 3", "one outcome, 2.5 SD, mornings 2 SD: the right setting named", 400],
  ["Panel decided, 8 tasters, 4 cups, 6 attributes", "nothing differs: a difference claimed", 100],
  ["Tasters as blocks", "8 tasters × 4 samples, one in ten missed", 700],
  ["Samples that one in five tells apart", "triangle of 25 tasters: may be treated alike", 1000],
  ["Log judged steady or not", "30 steady shots: said to have moved, drifted or an odd one", 700],
  ["Log judged tight, its spread exactly as wanted", "30 shots: fits", 700],
  ["Log whose movement is found", "40 shots, a drift by 3 SD", 200],
  ["Morning led to the time", "five shots by the advice: the last setting within 1.5 s", 200],
];

it.each(some)("%s: %s", (topic, what, cases) => {
  const simulation = simulations.find((it) => it.topic === topic && it.what === what);
  expect(simulation?.aim, "scripts/simulations.ts has it, with an aim").toBeDefined();
  const { rate, counted } = rateOf(simulation!, cases);
  const [least, most] = simulation!.aim!;
  const chance = (aim: number): number => 3.9 * Math.sqrt((aim * (1 - aim)) / counted);
  expect(rate).toBeGreaterThanOrEqual(least - chance(least));
  expect(rate).toBeLessThanOrEqual(most + chance(most));
});
