/** Who gets which sample when, and under which code. */
import { seededRandom, shuffled } from "../statistics/random.ts";

/**
 * Serving orders from Williams squares (Williams 1949, Austral. J. Sci. Res. A 2:149; MacFie et al. 1989, J. Sensory Studies 4:129):
 * each sample stands equally often in each place and follows each other sample equally often. An odd number of samples needs two squares.
 * Every set of orders is used up before the next begins, with its samples and rows shuffled anew.
 */
export function tasteOrder({ samples, tasters, seed = 1 }: { samples: number; tasters: number; seed?: number }): { taster: number; serving: number[] }[] {
  const random = seededRandom(seed);
  const numbers = Array.from({ length: samples }, (_, index) => index + 1);
  const orders: number[][] = [];
  while (orders.length < tasters) {
    const names = shuffled(numbers, random);
    // Square by square, so that a panel of one square is balanced over the places.
    for (const square of shuffled(williamsSquares(samples), random)) {
      orders.push(...shuffled(square, random).map((row) => row.map((index) => names[index]!)));
    }
  }
  return orders.slice(0, tasters).map((serving, index) => ({ taster: index + 1, serving }));
}

/** The squares of an even number of samples (one) or an odd number (two, mirrored), samples counted from 0. */
function williamsSquares(samples: number): number[][][] {
  // 0, 1, last, 2, last but one, …: all steps between neighbours differ.
  const first = Array.from({ length: samples }, (_, place) => (place % 2 === 1 ? (place + 1) / 2 : (samples - place / 2) % samples));
  const square = Array.from({ length: samples }, (_, shift) => first.map((it) => (it + shift) % samples));
  return samples % 2 === 0 ? [square] : [square, square.map((row) => [...row].reverse())];
}

/** Different three-digit codes, 100 to 999, in random order. */
export function tasteCodes({ count, seed = 1 }: { count: number; seed?: number }): number[] {
  const all = Array.from({ length: 900 }, (_, index) => 100 + index);
  return shuffled(all, seededRandom(seed)).slice(0, count);
}
