/** Made data for tests: the same numbers every time. */
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { seededRandom } from "../shared/statistics/random.ts";

/** Normal deviates of mean 0 and standard deviation 1, by Box and Muller. */
export function seededNormal(seed: number): () => number {
  const random = seededRandom(seed);
  const uniform = (): number => uniformFloat64(random);
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}
