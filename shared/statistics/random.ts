/**
 * Seeded shuffles: the same seed gives the same order in every host, for ever.
 * Generator: xoroshiro128+ of the library pure-rand; 32-bit integer steps only, so that no engine can differ.
 */
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
    const chosen = uniformBelow(last + 1, random);
    const moved = result[last]!;
    result[last] = result[chosen]!;
    result[chosen] = moved;
  }
  return result;
}

/**
 * A whole number from 0 to below `size`, every one equally likely: the generator's 32 bits are drawn again where they lie past the last whole
 * multiple of the size. Gives what the library's own uniformInt gives, which is four times as long since it goes beyond 32 bits.
 */
export function uniformBelow(size: number, random: RandomGenerator): number {
  const multiple = 2 ** 32 - (2 ** 32 % size);
  for (;;) {
    const bits = random.next() + 2 ** 31;
    if (bits < multiple) return bits % size;
  }
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
