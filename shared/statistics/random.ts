/**
 * Seeded shuffles: the same seed gives the same order in every host, for ever.
 * Generator: xoroshiro128+ of the library pure-rand; 32-bit integer steps only, so that no engine can differ.
 */
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import type { RandomGenerator } from "pure-rand/types/RandomGenerator";
import { badInput } from "../problem";
import { printed } from "../words";

const LARGEST_SEED = 2147483647;

/** A generator for one seed, a whole number from 0 to 2147483647. */
export function seededRandom(seed: number): RandomGenerator {
  if (!Number.isInteger(seed) || seed < 0 || seed > LARGEST_SEED) {
    badInput(`seed ${printed(seed)} has to be a whole number from 0 to ${LARGEST_SEED}.`);
  }
  return xoroshiro128plus(mixed(seed));
}

/** A new list in random order (Fisher-Yates); every order is equally likely. */
export function shuffled<T>(list: readonly T[], random: RandomGenerator): T[] {
  const result = [...list];
  for (let last = result.length - 1; last > 0; last--) {
    const chosen = uniformInt(random, 0, last);
    const moved = result[last]!;
    result[last] = result[chosen]!;
    result[chosen] = moved;
  }
  return result;
}

/**
 * People type 1, 2, 3 as seeds, and the generator's first numbers are alike for seeds that differ in a few bits only.
 * The finishing steps of MurmurHash3 (A. Appleby, public domain) spread every bit of the seed over all 32.
 */
function mixed(seed: number): number {
  let bits = (seed + 0x9e3779b9) | 0;
  bits = Math.imul(bits ^ (bits >>> 16), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 13), 0xc2b2ae35);
  return bits ^ (bits >>> 16);
}
