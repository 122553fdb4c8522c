/** What a run knows of one café: what the summary and the report need, which other machines can join. */
import { grades } from "../../shared/log/check";
import { settingKey } from "../../shared/settings";
import type { Finding } from "./audit";
import { LogSums, type LogState } from "./log-sums";

/** A finding with its place. */
export interface PlacedFinding extends Finding {
  readonly file: string;
  /** Empty where the file is no workbook. */
  readonly sheet: string;
}

export interface CafeState {
  readonly cafe: string;
  readonly files: readonly string[];
  readonly state: LogState;
  /** The gravest findings, the gravest first. */
  readonly gravest: readonly PlacedFinding[];
}

/** Of one café, for the report; all findings are written elsewhere. */
const mostGravest = 100;

/** Keeps the gravest findings of those that come. */
export class Gravest {
  private readonly kept: PlacedFinding[] = [];

  add(finding: PlacedFinding): void {
    if (this.kept.length >= mostGravest && gravity(finding) >= gravity(this.kept[this.kept.length - 1]!)) return;
    // Equally grave ones stay in the order in which they came.
    let place = this.kept.length;
    while (place > 0 && gravity(this.kept[place - 1]!) > gravity(finding)) place--;
    this.kept.splice(place, 0, finding);
    if (this.kept.length > mostGravest) this.kept.pop();
  }

  get findings(): readonly PlacedFinding[] {
    return this.kept;
  }
}

/** The gravest first. */
export function inGravity(findings: readonly PlacedFinding[]): PlacedFinding[] {
  return [...findings].sort((a, b) => gravity(a) - gravity(b));
}

/** 0 is the gravest. */
function gravity({ refused, grade }: Finding): number {
  return refused ? 0 : 1 + grades.indexOf(grade);
}

/** Runs that read logs of the same café become one, in their order. */
export function joinedCafes(cafes: readonly CafeState[]): CafeState[] {
  const joined = new Map<string, CafeState>();
  for (const cafe of cafes) {
    const key = settingKey(cafe.cafe);
    const known = joined.get(key);
    joined.set(key, known ? joinedTwo(known, cafe) : cafe);
  }
  return [...joined.values()];
}

function joinedTwo(first: CafeState, second: CafeState): CafeState {
  const sums = LogSums.of(first.state);
  sums.merge(LogSums.of(second.state));
  return {
    cafe: first.cafe,
    files: [...first.files, ...second.files],
    state: sums.state,
    gravest: inGravity([...first.gravest, ...second.gravest]).slice(0, mostGravest),
  };
}
