/**
 * What rankings by several tasters say: is any sample different (Friedman), is there a trend in a known order (Page). ISO 8587.
 * Chances are exact for small panels, by going through all rankings that tasters without a preference could give; the usual approximations beyond.
 */
import { badInput, noAnswer } from "../problem.ts";
import { chiSquareUpper, normalQuantile, normalUpper } from "../statistics/distributions.ts";

/** Tasters down, samples across. */
export type Block = readonly (readonly number[])[];

/** A block of ranks: 1 is the first, and tied samples share their mean rank. */
export type Ranks = Block;

/** What a block holds: ranks, or scores that are ranked within each taster, the highest first. */
export const rankingGiven = ["ranks", "scores"] as const;
export type RankingGiven = (typeof rankingGiven)[number];

interface Asked {
  readonly given?: RankingGiven;
}

/** Up to how many tasters the Friedman chance is exact, by the number of samples. */
export const exactFriedmanTasters: Readonly<Record<number, number>> = { 2: 100, 3: 30, 4: 10, 5: 5, 6: 3 };
/** Up to how many tasters and samples the chance of Page's L is exact. */
export const exactPageTasters = 20;
export const exactPageSamples = 10;

interface Friedman {
  readonly friedman: number;
  readonly df: number;
  readonly p: number;
}

interface RankSums {
  readonly sums: readonly number[];
}

/** Friedman's test with its correction for ties, the rank sums, and the least significant difference between two of them. */
export function tasteRanks({ ranks: block }: { readonly ranks: Block }): (asked: Asked) => RankSums & Friedman & { readonly leastDifference: number } {
  return ({ given = "ranks" }) => {
    const ranks = given === "scores" ? rankedScores(block, "ranks") : checkedRanks(withoutZeros(block));
    const [tasters, samples] = [ranks.length, ranks[0]!.length];
    return {
      ...friedmanOf(ranks),
      sums: rankSums(ranks),
      leastDifference: normalQuantile(0.975) * Math.sqrt((tasters * samples * (samples + 1)) / 6),
    };
  };
}

/** Friedman's test alone. */
export function friedmanOf(ranks: Ranks): Friedman {
  const [tasters, samples] = [ranks.length, ranks[0]!.length];
  const squares = rankSums(ranks).reduce((sum, it) => sum + it * it, 0);
  const raw = (12 / (tasters * samples * (samples + 1))) * squares - 3 * tasters * (samples + 1);
  const friedman = raw / (1 - tieTerm(ranks) / (tasters * samples * (samples ** 2 - 1)));
  const df = samples - 1;
  const exact = tasters <= (exactFriedmanTasters[samples] ?? 0);
  return { friedman, df, p: exact ? exactFriedman(ranks, squares) : chiSquareUpper(friedman, df) };
}

/** Page's test of a trend: the samples stand in the order expected, the one expected first (with the highest score) in the first column. */
export function tasteTrend({ ranks: block }: { readonly ranks: Block }): (asked: Asked) => { readonly page: number; readonly p: number } {
  return ({ given = "ranks" }) => {
    const ranks = given === "scores" ? rankedScores(block, "ranks") : checkedRanks(withoutZeros(block));
    const [tasters, samples] = [ranks.length, ranks[0]!.length];
    const page = rankSums(ranks).reduce((sum, it, index) => sum + (index + 1) * it, 0);
    const exact = tasters <= exactPageTasters && samples <= exactPageSamples;
    return { page, p: exact ? exactPage(ranks, page) : normalUpper((page - (tasters * samples * (samples + 1) ** 2) / 4) / pageSpread(ranks)) };
  };
}

/** Scores ranked within each taster, the highest first. `name` is that of the argument, for a refusal. */
export function rankedScores(scores: Block, name: string): Ranks {
  requireBlock(scores, name);
  if (scores.every(allAlike)) noAnswer("Every taster scored all samples alike, so there is nothing to compare.");
  return scores.map((row) => midRanks(row.map((it) => -it)));
}

/** The ranks, refused where they are none, saying what the row should be. */
function checkedRanks(ranks: Block): Ranks {
  const samples = requireBlock(ranks, "ranks");
  ranks.forEach((row, index) => {
    const right = midRanks(row);
    if (right.some((it, column) => Math.abs(it - row[column]!) > 1e-9)) {
      badInput(
        `Taster ${index + 1} of ranks has ${row.join(", ")}. Ranks run from 1 to ${samples}, and tied samples share their mean rank: write ${right.join(", ")}. ` +
          "Scores are taken with given “scores”.",
      );
    }
  });
  if (ranks.every(allAlike)) noAnswer("Every taster ranked all samples alike, so there is nothing to compare.");
  return ranks;
}

/** Some builds of Excel hand a blank cell over as 0, and no rank is 0: rows and columns of nothing else are blank. */
function withoutZeros(block: Block): Block {
  const isFilled = (values: readonly number[]): boolean => values.some((it) => it !== 0);
  const rows = block.filter(isFilled);
  const columns = (rows[0] ?? []).map((_, column) => isFilled(rows.map((row) => row[column]!)));
  return rows.map((row) => row.filter((_, column) => columns[column]));
}

function requireBlock(block: Block, name: string): number {
  const samples = block[0]?.length ?? 0;
  if (block.length < 2) noAnswer(`${name} holds fewer than two tasters: one taster's ranking has nothing to be compared with.`);
  if (samples < 2) noAnswer(`${name} holds fewer than two samples: put the tasters down and the samples across.`);
  return samples;
}

function allAlike(row: readonly number[]): boolean {
  return row.every((it) => it === row[0]);
}

function midRanks(row: readonly number[]): number[] {
  return row.map((value) => row.filter((it) => it < value).length + (row.filter((it) => it === value).length + 1) / 2);
}

function rankSums(ranks: Ranks): number[] {
  return ranks[0]!.map((_, column) => ranks.reduce((sum, row) => sum + row[column]!, 0));
}

/** Sum of t³ − t over the groups of t tied samples of each taster. */
function tieTerm(ranks: Ranks): number {
  return ranks.reduce((sum, row) => sum + row.reduce((inner, value) => inner + row.filter((it) => it === value).length ** 2 - 1, 0), 0);
}

/** Standard deviation of Page's L where tasters have no preference, ties included. */
function pageSpread(ranks: Ranks): number {
  const samples = ranks[0]!.length;
  const orders = (samples * (samples ** 2 - 1)) / 12;
  const variance = ranks.reduce((sum, row) => sum + row.reduce((inner, it) => inner + (it - (samples + 1) / 2) ** 2, 0) * orders, 0);
  return Math.sqrt(variance / (samples - 1));
}

/** Ranks doubled, so that mean ranks are whole numbers and sums compare exactly. */
function doubled(row: readonly number[]): number[] {
  return row.map((it) => Math.round(2 * it));
}

/**
 * Chance that the squares of the rank sums reach what was seen. Taster by taster, the distribution of the sums over all arrangements
 * of each taster's ranks; as the samples are alike, only the sums in order of size matter.
 */
export function exactFriedman(ranks: Ranks, squares: number): number {
  const samples = ranks[0]!.length;
  const base = 2 * samples * ranks.length + 1;
  const each = samples * (samples + 1); // sum of one taster's doubled ranks
  let states = new Map([[keyOf(doubled(ranks[0]!).sort((a, b) => a - b), base), 1]]);
  const sums = new Array<number>(samples);
  const next = new Array<number>(samples);
  for (const [tasters, row] of ranks.entries()) {
    if (tasters === 0) continue; // whatever the first taster's order, the sums in order of size are the same
    const arrangements = arrangementsOf(doubled(row));
    const reached = new Map<number, number>();
    for (const [key, chance] of states) {
      fromKey(key, base, each * tasters, sums);
      for (const arrangement of arrangements) {
        for (let i = 0; i < samples; i++) {
          const value = sums[i]! + arrangement[i]!;
          let place = i;
          for (; place > 0 && next[place - 1]! > value; place--) next[place] = next[place - 1]!;
          next[place] = value;
        }
        const to = keyOf(next, base);
        reached.set(to, (reached.get(to) ?? 0) + chance / arrangements.length);
      }
    }
    states = reached;
  }
  let p = 0;
  for (const [key, chance] of states) {
    fromKey(key, base, each * ranks.length, sums);
    if (sums.reduce((sum, it) => sum + it * it, 0) >= Math.round(4 * squares)) p += chance;
  }
  return Math.min(1, p);
}

/** One number for all sums but the last, which the total gives. */
function keyOf(sums: readonly number[], base: number): number {
  let key = 0;
  for (let i = 0; i < sums.length - 1; i++) key = key * base + sums[i]!;
  return key;
}

function fromKey(key: number, base: number, total: number, sums: number[]): void {
  let last = total;
  for (let i = sums.length - 2; i >= 0; i--) {
    sums[i] = key % base;
    last -= sums[i]!;
    key = Math.floor(key / base);
  }
  sums[sums.length - 1] = last;
}

/** All different orders of some numbers. */
function arrangementsOf(values: readonly number[]): number[][] {
  if (values.length <= 1) return [[...values]];
  return [...new Set(values)].flatMap((first) => {
    const rest = [...values];
    rest.splice(rest.indexOf(first), 1);
    return arrangementsOf(rest).map((it) => [first, ...it]);
  });
}

/** Chance that L reaches what was seen: the sum of independent tasters, each with the distribution of its own ranks. */
export function exactPage(ranks: Ranks, page: number): number {
  const known = new Map<string, Float64Array>();
  let total = Float64Array.of(1);
  let offset = 0;
  for (const row of ranks) {
    const values = doubled(row).sort((a, b) => a - b);
    const key = values.join();
    const chances = known.get(key) ?? oneTaster(values);
    known.set(key, chances);
    // The smallest sum has the largest rank in the first place.
    offset += values.reduce((sum, it, index) => sum + it * (values.length - index), 0);
    total = convolved(total, chances);
  }
  let p = 0;
  for (let index = Math.max(0, Math.round(2 * page) - offset); index < total.length; index++) p += total[index]!;
  return Math.min(1, p);
}

/** Distribution of the sum of place × rank over all orders of one taster's ranks (given in rising order), counted from its smallest. */
function oneTaster(values: readonly number[]): Float64Array {
  const size = values.length;
  const most = values.reduce((sum, it, index) => sum + it * (index + 1), 0);
  const least = values.reduce((sum, it, index) => sum + it * (size - index), 0);
  // By the set of ranks that the first places have used up.
  const sets: (Float64Array | undefined)[] = new Array(2 ** size);
  sets[0] = new Float64Array(most + 1);
  sets[0][0] = 1;
  for (let set = 0; set < 2 ** size - 1; set++) {
    const from = sets[set]!;
    sets[set] = undefined;
    const place = bitsIn(set) + 1;
    for (let rank = 0; rank < size; rank++) {
      if ((set >> rank) & 1) continue;
      const to = (sets[set | (1 << rank)] ??= new Float64Array(most + 1));
      const step = place * values[rank]!;
      for (let sum = 0; sum + step <= most; sum++) to[sum + step]! += from[sum]! / (size - place + 1);
    }
  }
  return sets[2 ** size - 1]!.slice(least);
}

function bitsIn(set: number): number {
  let count = 0;
  for (let rest = set; rest > 0; rest >>= 1) count += rest & 1;
  return count;
}

function convolved(first: Float64Array, second: Float64Array): Float64Array<ArrayBuffer> {
  const result = new Float64Array(first.length + second.length - 1);
  for (let j = 0; j < second.length; j++) {
    const weight = second[j]!;
    if (weight === 0) continue;
    for (let i = 0; i < first.length; i++) result[i + j]! += weight * first[i]!;
  }
  return result;
}
