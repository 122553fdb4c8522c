/** A log as it was kept, as numbers that can be summed up: what looks wrong is left out, with the reason, so that it can be counted. */
import type { Words } from "../words";
import { readRows, type LogColumns } from "./check";

export interface ReadShot {
  readonly dose: number | "";
  readonly beverage: number | "";
  readonly time: number | "";
  readonly strength: number | "";
  /** Why the row is left out; empty for a row that stays. */
  readonly leftOut: Words;
}

/** Texts that can be read stay: only what cannot be right, or is doubtful, is left out. */
export function readLog(log: LogColumns): ReadShot[] {
  return readRows(log).map(({ shot, finding }) => {
    if (finding && finding.grade !== "only text") return { dose: "", beverage: "", time: "", strength: "", leftOut: finding.doubts };
    const { dose = "", beverage = "", time = "", strength = "" } = shot;
    return { dose, beverage, time, strength, leftOut: "" };
  });
}
