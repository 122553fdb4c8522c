/** A simulation is one made case whose truth is known, and whether the event came; its rate is counted over many, from a fixed seed. */
import type { RandomGenerator } from "pure-rand/types/RandomGenerator";
import { seededRandom } from "../../shared/statistics/random.ts";

export interface Simulation {
  readonly topic: string;
  readonly what: string;
  /** Between which parts of 1 the event should come; absent where it only shows why a default is as it is. */
  readonly aim?: readonly [least: number, most: number];
  /** Whether the event came in one made case; null where the case does not count. */
  readonly event: (draw: Draw) => boolean | null;
}

/** Random numbers of a made case. */
export interface Draw {
  /** Normal deviates. */
  normal(): number;
  /** Between 0 and 1. */
  even(): number;
  /** For a shuffle. */
  seed(): number;
}

function drawFrom(random: RandomGenerator): Draw {
  const uniform = (): number => ((random.next() >>> 0) + 0.5) / 4294967296;
  let kept: number | null = null;
  return {
    /** Box and Muller 1958, Ann. Math. Stat. 29:610. */
    normal() {
      if (kept !== null) {
        const value = kept;
        kept = null;
        return value;
      }
      const [radius, angle] = [Math.sqrt(-2 * Math.log(uniform())), 2 * Math.PI * uniform()];
      kept = radius * Math.sin(angle);
      return radius * Math.cos(angle);
    },
    even: uniform,
    seed: () => 1 + Math.floor(uniform() * 2147483646),
  };
}

/** The part of `runs` made cases in which the event came, from a seed of its own for each simulation. */
export function rateOf(simulation: Simulation, runs: number): { rate: number; counted: number } {
  const seed = [...`${simulation.topic}, ${simulation.what}`].reduce((hash, letter) => (Math.imul(hash, 31) + letter.charCodeAt(0)) & 0x7fffffff, 7);
  const draw = drawFrom(seededRandom(seed));
  let [events, counted] = [0, 0];
  for (let run = 0; run < runs; run++) {
    const event = simulation.event(draw);
    if (event === null) continue;
    counted++;
    if (event) events++;
  }
  return { rate: events / counted, counted };
}
