/** The cafés that a column of a log names, each with its sums, beside those of the whole log. */
import { settingKey } from "../../shared/settings";
import { LogSums, type Window } from "./log-sums";

export interface CafeInLog {
  /** As it is written where it comes first; empty where the cell is blank. */
  readonly cafe: string;
  readonly sums: LogSums;
}

/** A column with more names than this names something else. */
export const mostCafes = 2000;

export class CafesInLog {
  private readonly known = new Map<string, CafeInLog>();
  private left = false;

  constructor(private readonly windows: readonly Window[]) {}

  /** There are more than can be told apart. */
  get tooMany(): boolean {
    return this.left;
  }

  /** In the order in which they come. */
  get all(): readonly CafeInLog[] {
    return [...this.known.values()];
  }

  /** The café of a cell; undefined where there are too many. */
  of(cell: string): CafeInLog | undefined {
    // A name cut out of the file would keep its whole piece of the file in memory.
    const cafe = [...cell.trim()].join("");
    const key = settingKey(cafe);
    const known = this.known.get(key);
    if (known) return known;
    if (this.known.size >= mostCafes) {
      this.left = true;
      return undefined;
    }
    const added = { cafe, sums: new LogSums(this.windows) };
    this.known.set(key, added);
    return added;
  }
}
