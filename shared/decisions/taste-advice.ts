/**
 * What a blind tasting lets one say: of a test whether two coffees can be told apart, and of a ranking. Each rule has a number, so that a test
 * can drive every one of them. Nothing is said before everyone has answered, as looking on and stopping when it suits finds what is not there.
 */
import { Problem } from "../problem";
import { binomialLower } from "../statistics/distributions";
import { studentizedRange } from "../statistics/studentized-range";
import {
  guessingIn, tasteAlike, tasteDuoTrio, tasteNeeded, tastePaired, tasteTasters, tasteTriangle, type DiscriminationTest,
} from "../tasting/discrimination";
import { tasteRanks, type Ranks, type RankingGiven } from "../tasting/ranking";
import type { Words } from "../words";
import { capitalised, counted, listed, once, type Advice } from "./sentences";

export interface TasteAdvice extends Advice {
  readonly next: Words;
}

/** Below this chance so few right answers are no accident of guessing: the key may be wrong, or cups were swapped. */
const hardlyByGuessing = 0.025;

/** The part of all people for which the number of tasters to take is told. */
const worthFinding = 0.2;

/** Tasters are those who have answered, `panel` those who are to. */
export function tasteAdvice({ correct, test, tasters = 0, panel = tasters, significance = 0.05, most = 0.2 }: {
  correct: number; test: DiscriminationTest; tasters?: number; panel?: number; significance?: number; most?: number;
}): TasteAdvice {
  const planned = Math.max(panel, tasters);
  const needed = planned === 0 ? 1 : neededOf(planned, test, significance);
  if (needed === undefined) {
    const enough = Math.ceil(Math.log(significance) / Math.log(guessingIn(test)) - 1e-12);
    return { branch: 2, sentence: `${counted(planned, "taster")} cannot show it: take ${enough} or more.`, next: "" };
  }
  if (tasters === 0) return { branch: 1, sentence: "Serve in the order shown.", next: "Fix the number of tasters now." };
  if (tasters < planned) return { branch: 0, sentence: `${tasters} of ${planned} in.`, next: "" };
  const found = `${correct} of ${tasters}`;
  const p = guessedAtLeast(test, correct, tasters);
  if (p <= significance) {
    const sentence = `They can tell: ${found} (${needed} needed); guessing gets that ${once(p)}.`;
    return { branch: 3, sentence, next: "That says nothing of which is better." };
  }
  if (binomialLower(correct, tasters, guessingIn(test)) < hardlyByGuessing) {
    return { branch: 4, sentence: `${found}, fewer than guessing gives: check the key.`, next: "Were cups or codes swapped?" };
  }
  const { alike, discriminatorsAtMost } = tasteAlike({ correct, tasters, test, most });
  if (alike) {
    const share = Math.ceil(100 * discriminatorsAtMost);
    return { branch: 5, sentence: `Treat them alike: at most ${share} in 100 can tell (19 in 20).`, next: "For people who taste as these do." };
  }
  const { stableTasters } = tasteTasters({ discriminators: worthFinding, test, significance });
  return {
    branch: 6,
    sentence: `Not shown: ${found}, ${needed} needed; nor shown alike.`,
    next: `${stableTasters} tasters would find it 4 times in 5 if 2 in 10 can tell.`,
  };
}

function neededOf(tasters: number, test: DiscriminationTest, significance: number): number | undefined {
  try {
    return tasteNeeded({ tasters, test, significance });
  } catch (problem) {
    if (problem instanceof Problem && problem.kind === "no answer") return undefined;
    throw problem;
  }
}

function guessedAtLeast(test: DiscriminationTest, correct: number, tasters: number): number {
  if (test === "paired") return tastePaired({ chosen: correct, tasters, sides: 1 });
  return test === "triangle" ? tasteTriangle({ correct, tasters }) : tasteDuoTrio({ correct, tasters });
}

/**
 * Columns are samples, rows tasters; a taster who has not ranked all samples is not in yet. Which samples are apart is judged by Nemenyi's
 * test (Hollander & Wolfe, 1999, section 7.3), which holds for all pairs together.
 */
export function tasteRanksAdvice({ ranks, samples }: {
  readonly ranks: readonly (readonly (number | null)[])[]; readonly samples?: readonly string[];
}): (asked: RanksAsked) => TasteAdvice {
  return (asked) => advisedOn(ranks, samples, asked);
}

interface RanksAsked {
  readonly given?: RankingGiven;
  readonly panel?: number;
  readonly significance?: number;
}

function advisedOn(
  ranks: readonly (readonly (number | null)[])[], samples: readonly string[] | undefined, { given, panel = 0, significance = 0.05 }: RanksAsked,
): TasteAdvice {
  // No rank is 0, but some builds of Excel hand a blank cell over as one.
  const columns = given === "scores" ? ranks : ranks.map((column) => column.map((it) => (it === 0 ? null : it)));
  const served = columns.flatMap((column, place) => (column.some((it) => it !== null) ? [{ column, name: samples?.[place] ?? letterOf(place) }] : []));
  const rows = served[0]?.column.map((_, row) => served.map(({ column }) => column[row] ?? null)) ?? [];
  const complete = rows.filter((row): row is number[] => !row.includes(null));
  if (complete.length < Math.max(2, panel)) {
    const isWaiting = panel >= 2 && complete.length > 0;
    return isWaiting
      ? { branch: 0, sentence: `${complete.length} of ${panel} in.`, next: "" }
      : { branch: 1, sentence: `Type two tasters’ ${given === "scores" ? "scores" : "ranks"}.`, next: "" };
  }
  const { p, sums } = tasteRanks({ ranks: complete })({ given });
  const said = p <= significance ? `Such an order would come ${once(p)} by chance.` : "";
  if (p > significance) return { branch: 2, sentence: "No common order is shown.", next: "That does not show that they are alike." };
  const apart = leastApart(complete, significance);
  const names = served.map(({ name }) => name);
  const order = names.map((name, place) => ({ name, sum: sums[place]! })).sort((a, b) => a.sum - b.sum);
  const [best] = order;
  const first = order.filter(({ sum }) => sum - best!.sum < apart);
  const behind = order.filter(({ sum }) => first.every((it) => sum - it.sum >= apart));
  const behindBest = order.filter(({ sum }) => sum - best!.sum >= apart);
  const named = (list: readonly { name: string }[], last: "and" | "or"): string => listed(list.map(({ name }) => name), last);
  if (first.length === 1) return { branch: 3, sentence: `${capitalised(best!.name)} is liked best, ahead of all.`, next: said };
  if (behind.length > 0) return { branch: 4, sentence: `${capitalised(named(first, "or"))}, ahead of ${named(behind, "and")}.`, next: said };
  if (behindBest.length > 0) {
    return { branch: 5, sentence: `${capitalised(best!.name)} is ahead of ${named(behindBest, "and")}; no favourite is shown.`, next: said };
  }
  return { branch: 6, sentence: "An order is shown, no favourite.", next: said };
}

/** How far apart two rank sums have to be. */
function leastApart(ranks: Ranks, significance: number): number {
  const [tasters, samples] = [ranks.length, ranks[0]!.length];
  return studentizedRange(samples).quantileUpper(significance, Infinity) * Math.sqrt((tasters * samples * (samples + 1)) / 12);
}

function letterOf(place: number): string {
  return String.fromCharCode(65 + place);
}
