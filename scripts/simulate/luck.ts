/** Random numbers of a simulation: the same for the same seed. */
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { seededRandom } from "../../shared/statistics/random.ts";

export interface Luck {
  /** Between 0 and 1. */
  even(): number;
  /** Normally distributed. */
  around(mean: number, spread: number): number;
}

export function luckOf(seed: number): Luck {
  const generator = seededRandom(seed);
  const even = (): number => uniformFloat64(generator);
  return {
    even,
    // Box and Muller's transform.
    around: (mean, spread) => mean + spread * Math.sqrt(-2 * Math.log(1 - even())) * Math.cos(2 * Math.PI * even()),
  };
}
