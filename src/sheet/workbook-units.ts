/** The units in use by the workbook that is open. Until the host has read them, functions that need them wait. */
import type { UnitChoice } from "./unit-choice";

export interface UnitsInUse {
  readonly choice: UnitChoice;
  /** Why these are the defaults, where the file's own could not be read. */
  readonly note?: string;
}

let inUse: UnitsInUse | undefined;
let announce: (units: UnitsInUse) => void;
const known = new Promise<UnitsInUse>((resolve) => {
  announce = resolve;
});

export function useUnits(choice: UnitChoice, note?: string): void {
  inUse = note === undefined ? { choice } : { choice, note };
  announce(inUse);
}

export function currentUnits(): UnitsInUse | undefined {
  return inUse;
}

/** Runs with the workbook's units: at once where they are known, else when they are. */
export function withUnits<T>(run: (units: UnitsInUse) => T): T | Promise<T> {
  return inUse ? run(inUse) : known.then(() => run(inUse!));
}

let gaveUp = false;

/** For a host with a clock that lets no cell wait for ever: a cell says that it waits in vain, and has to be calculated again. */
export function giveUpWaiting(): void {
  gaveUp = true;
}

export function hasGivenUpWaiting(): boolean {
  return gaveUp;
}
