/**
 * Is a log steady? Judged by whether neighbours are alike, and by one test of odd values; together they raise a false alarm in about 5 of
 * 100 steady logs, where the signals of a control chart raise one in 46 of 100 logs of 100 shots.
 */
import type { Setting } from "../settings";
import { neighbourTest } from "../statistics/von-neumann";
import { movementOf, type Drift, type Stretch } from "./movement";
import { oddAmong } from "./odd";

/** A value with its row, so that whoever reads of it finds it, and the setting that it was pulled at. */
export interface LoggedShot {
  readonly row: number;
  readonly value: number;
  readonly setting?: Setting | null | undefined;
}

export interface Steadiness {
  readonly odd: readonly LoggedShot[];
  /** The shots that are not odd. */
  readonly others: readonly LoggedShot[];
  /** The odd shots stand alone, so that they are no movement. */
  readonly oddStandAlone: boolean;
  readonly moved: Moved | null;
  /** Shots go up and down in turn. */
  readonly inTurn: boolean;
}

export interface Moved {
  readonly what: Stretch | Drift;
  /** The shots that were judged; a stretch counts its places among them. */
  readonly among: readonly LoggedShot[];
  /** Neighbours are alike also where the movement is taken out. */
  readonly alikeBesides: boolean;
}

/** Together they raise a false alarm in about 5 of 100 steady logs. */
const significance = { neighbours: 0.03, oddShots: 0.02 };
/** Remarks beside a verdict are held to this. */
const remark = 0.01;

/**
 * For ten shots or more that are not all the same. Odd shots that stand alone are set aside before the others are judged: one far off would
 * hide a movement, or at an end look like one.
 */
export function steadinessOf(shots: readonly LoggedShot[]): Steadiness {
  const isOdd = oddAmong(valuesOf(shots), significance.oddShots);
  const odd = shots.filter(({ value }) => isOdd(value));
  const others = shots.filter(({ value }) => !isOdd(value));
  const oddStandAlone = !shots.some(({ value }, place) => place > 0 && isOdd(value) && isOdd(shots[place - 1]!.value));
  const moved = movedAmong(oddStandAlone ? others : shots);
  const inTurn = !moved && odd.length === 0 && neighbourTest(valuesOf(shots)).inTurn < remark;
  return { odd, others, oddStandAlone, moved, inTurn };
}

function movedAmong(among: readonly LoggedShot[]): Moved | null {
  const values = valuesOf(among);
  if (neighbourTest(values).alike >= significance.neighbours) return null;
  const { what, residuals } = movementOf(values);
  return { what, among, alikeBesides: neighbourTest(residuals).alike < remark };
}

export function valuesOf(shots: readonly LoggedShot[]): number[] {
  return shots.map(({ value }) => value);
}
