/**
 * What the functions bundle offers to the page it runs in. The bundle and the page share no modules, only this object,
 * which the bundle puts on `globalThis.pucksheet` when it loads.
 */
import { recentProblems, onProblems, type RecentProblem } from "./recent-problems";
import type { UnitChoice } from "./unit-choice";
import { currentUnits, hasGivenUpWaiting, useUnits, type UnitsInUse } from "./workbook-units";

export interface FunctionsLink {
  /** Sets the workbook's units, with a note in words where they could not be read. Functions that need units wait until this is first called. */
  useUnits(choice: UnitChoice, note?: string): void;
  /** The units in use; undefined until they are known. */
  units(): UnitsInUse | undefined;
  /** Whether a cell has given up waiting for the units and has to be calculated again when they are known. */
  hasGivenUpWaiting(): boolean;
  /** What the functions refused lately, most recent first. */
  recentProblems(): readonly RecentProblem[];
  /** Calls back after the list of problems has changed; returns the way to stop. */
  onProblems(listener: () => void): () => void;
}

declare global {
  var pucksheet: FunctionsLink | undefined;
}

/** What a page that holds the functions itself has at hand. */
export const functionsLink: FunctionsLink = { useUnits, units: currentUnits, hasGivenUpWaiting, recentProblems, onProblems };

export function offerToPage(): void {
  globalThis.pucksheet = functionsLink;
}
