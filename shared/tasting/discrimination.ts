/**
 * Can tasters tell two coffees apart: triangle, duo-trio and paired tests.
 * Under pure guessing the number of correct answers is binomial: ISO 4120 (triangle, 1/3), ISO 10399 (duo-trio, 1/2), ISO 5495 (paired, 1/2).
 */
import { badInput, noAnswer, Problem } from "../problem.ts";
import { printed } from "../words.ts";
import { binomialLower, binomialUpper, normalLower, normalQuantile } from "../statistics/distributions.ts";
import { integrate } from "../statistics/integrate.ts";
import { findRoot } from "../statistics/root.ts";

export const discriminationTests = ["triangle", "duo-trio", "paired"] as const;
export type DiscriminationTest = (typeof discriminationTests)[number];

interface TestModel {
  /** Chance of a correct answer by guessing. */
  readonly guessing: number;
  /** Chance of a correct answer at the distance d′. */
  readonly correctAt: (distance: number) => number;
}

/** Chances at a distance: Ennis (1993), J. Sensory Studies 8:353. */
const models: Readonly<Record<DiscriminationTest, TestModel>> = {
  triangle: { guessing: 1 / 3, correctAt: triangleCorrect },
  "duo-trio": { guessing: 1 / 2, correctAt: duoTrioCorrect },
  paired: { guessing: 1 / 2, correctAt: (distance) => normalLower(distance / Math.SQRT2) },
};

/** Chance of a correct answer by guessing. */
export function guessingIn(test: DiscriminationTest): number {
  return models[test].guessing;
}

/**
 * The chance in a triangle, from its slope: sqrt(2/3) φ(t/√6) (2 Φ(t/√2) − 1). It follows from the usual integral
 * 2 ∫ [Φ(−z√3 + d√(2/3)) + Φ(−z√3 − d√(2/3))] φ(z) dz over z > 0 by completing the square, and is smooth, so it is quickly summed.
 */
function triangleCorrect(distance: number): number {
  const slope = (t: number): number => (Math.exp((-t * t) / 12) / Math.sqrt(3 * Math.PI)) * (2 * normalLower(t / Math.SQRT2) - 1);
  return 1 / 3 + integrate(slope, 0, distance);
}

function duoTrioCorrect(distance: number): number {
  const [near, far] = [normalLower(distance / Math.SQRT2), normalLower(distance / Math.sqrt(6))];
  return 1 - near - far + 2 * near * far;
}

/** Chance of at least this many correct answers in a triangle test by guessing alone. */
export function tasteTriangle({ correct, tasters }: { correct: number; tasters: number }): number {
  return guessed("triangle", correct, tasters);
}

/** The same for a duo-trio test. */
export function tasteDuoTrio({ correct, tasters }: { correct: number; tasters: number }): number {
  return guessed("duo-trio", correct, tasters);
}

function guessed(test: DiscriminationTest, correct: number, tasters: number): number {
  requireCount("correct", correct, tasters);
  return binomialUpper(correct, tasters, models[test].guessing);
}

/** Chance that one of two samples is chosen this often by guessing: this one (one side), or either as often (two sides). */
export function tastePaired({ chosen, tasters, sides = 2 }: { chosen: number; tasters: number; sides?: number }): number {
  requireCount("chosen", chosen, tasters);
  if (sides === 1) return binomialUpper(chosen, tasters, 0.5);
  return Math.min(1, 2 * binomialUpper(Math.max(chosen, tasters - chosen), tasters, 0.5));
}

function requireCount(name: string, count: number, tasters: number): void {
  if (count > tasters) badInput(`${name}, ${printed(count)}, must be at most the number of tasters, ${printed(tasters)}.`);
}

/** Smallest number of correct answers that guessing reaches with no more than the chance `significance`. */
export function tasteNeeded({ tasters, test, significance = 0.05 }: { tasters: number; test: DiscriminationTest; significance?: number }): number {
  const { guessing } = models[test];
  const all = guessing ** tasters;
  if (all > significance * (1 + rounding)) {
    const enough = Math.ceil(Math.log(significance) / Math.log(guessing) - rounding);
    noAnswer(
      `Even if all ${tasters} tasters were right, that happens by guessing with a chance of ${printed(all)}, more than ${printed(significance)}. ` +
        `Take at least ${enough} tasters.`,
    );
  }
  let [low, high] = [0, tasters];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (binomialUpper(middle, tasters, guessing) <= significance * (1 + rounding)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** A tie that only rounding breaks counts as reached. */
const rounding = 1e-12;

/**
 * Can the samples be treated alike? The share of tasters who tell the difference, at most: the exact one-sided limit (Clopper & Pearson) of the
 * share of correct answers, less what guessing gives (ISO 4120). Alike where that is below `most`, the share that still does not matter.
 */
export function tasteAlike({ correct, tasters, test, most = 0.2, confidence = 0.95 }: {
  correct: number; tasters: number; test: DiscriminationTest; most?: number; confidence?: number;
}): { discriminatorsAtMost: number; alike: boolean; mostCorrect: number | Problem } {
  requireCount("correct", correct, tasters);
  const { guessing } = models[test];
  const tail = 1 - confidence;
  const share = correct === tasters ? 1 : findRoot((it) => binomialLower(correct, tasters, it) - tail, 0, 1);
  const mostCorrect = mostForAlike(tasters, guessing + most * (1 - guessing), tail);
  return {
    discriminatorsAtMost: Math.max(0, (share - guessing) / (1 - guessing)),
    alike: correct <= mostCorrect,
    mostCorrect: mostCorrect >= 0 ? mostCorrect : new Problem("no answer", tooFewForAlike(tasters, guessing, most, tail)),
  };
}

/** Greatest number correct whose chance, that or fewer, is below the tail where so many are right; -1 where there is none. */
function mostForAlike(tasters: number, share: number, tail: number): number {
  let [low, high] = [-1, tasters];
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (binomialLower(middle, tasters, share) < tail * (1 - rounding)) low = middle;
    else high = middle - 1;
  }
  return low;
}

function tooFewForAlike(tasters: number, guessing: number, most: number, tail: number): string {
  let enough = tasters + 1;
  while (enough <= mostTasters && mostForAlike(enough, guessing + most * (1 - guessing), tail) < enough * guessing) enough++;
  const advice = enough <= mostTasters ? `With ${enough} tasters, a panel that can only guess shows it about half the time` : `${mostTasters} tasters would not be enough`;
  return `Not even 0 correct answers of ${tasters} would show that at most ${printed(100 * most)} in 100 tell the difference. ${advice}.`;
}

const mostTasters = 10_000;

/**
 * Tasters for a test that finds a share of discriminators with this power. The power goes up and down as tasters are added one by one,
 * so there are two answers: the first number that is enough, and the number from which on every number is.
 */
export function tasteTasters({ discriminators, test, significance = 0.05, power = 0.8 }: {
  discriminators: number; test: DiscriminationTest; significance?: number; power?: number;
}): { firstTasters: number; stableTasters: number } {
  const { guessing } = models[test];
  const gain = discriminators * (1 - guessing);
  // The dips of the power after each step of the needed number lie within a few times 1 / gain of one another.
  const lookAhead = Math.ceil(4 / gain) + 50;
  let needed = 1; // as for no tasters at all: more than there are
  let first = 0;
  let lastFailure = 0;
  for (let tasters = 1; first === 0 || tasters <= lastFailure + lookAhead; tasters++) {
    if (first === 0 && tasters > mostTasters) {
      noAnswer(
        `With ${printed(discriminators)} of the tasters telling the difference, more than ${mostTasters} would be needed for a power of ${printed(power)}.`,
      );
    }
    // One more taster raises the needed number by one at most.
    if (binomialUpper(needed, tasters, guessing) > significance * (1 + rounding)) needed++;
    if (binomialUpper(needed, tasters, guessing + gain) >= power * (1 - rounding)) first ||= tasters;
    else lastFailure = tasters;
  }
  return { firstTasters: first, stableTasters: lastFailure + 1 };
}

/**
 * The distance d′ between two coffees in the eyes of tasters, with its 95 % interval: the exact (Clopper-Pearson) interval
 * of the share of correct answers, carried through the model. No better than guessing is a distance of 0.
 */
export function tasteDistance({ correct, tasters, test }: { correct: number; tasters: number; test: DiscriminationTest }): {
  distance: number | Problem; low: number; high: number | Problem;
} {
  requireCount("correct", correct, tasters);
  const tail = 0.025;
  const least = correct === 0 ? 0 : findRoot((share) => binomialUpper(correct, tasters, share) - tail, 0, 1);
  if (correct === tasters) {
    const endless = new Problem("no answer", `All ${tasters} tasters were right, so the distance has no upper limit. Test with more tasters, or with samples closer together.`);
    return { distance: endless, low: distanceAt(least, test), high: endless };
  }
  const most = findRoot((share) => binomialLower(correct, tasters, share) - tail, 0, 1);
  return { distance: distanceAt(correct / tasters, test), low: distanceAt(least, test), high: distanceAt(most, test) };
}

function distanceAt(share: number, test: DiscriminationTest): number {
  const { guessing, correctAt } = models[test];
  if (share <= guessing) return 0;
  if (test === "paired") return Math.SQRT2 * normalQuantile(share);
  let beyond = 2;
  while (beyond < 64 && correctAt(beyond) < share) beyond *= 2;
  return findRoot((distance) => correctAt(distance) - share, beyond > 2 ? beyond / 2 : 0, beyond, 1e-13);
}
