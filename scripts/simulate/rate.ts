/** A line of a simulation's table: how often something is said that is not so, or is found that is. */
export interface Rate {
  readonly what: string;
  /** Part of the rounds, 0 to 1. */
  readonly rate: number;
  /** What it is meant to be, as in "4 to 6 %". */
  readonly aim?: string;
}

/** In how many of the rounds something happens. */
export function rateOf(rounds: number, happens: () => boolean): number {
  let count = 0;
  for (let round = 0; round < rounds; round++) if (happens()) count++;
  return count / rounds;
}
