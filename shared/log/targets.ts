/** Shots against the target of their coffee: a bar keeps several coffees in one log, each with a dose, a beverage mass and a time of its own. */
import { settingKey, type Setting } from "../settings";
import { amount, difference, rounded, words, type Amount, type Words } from "../words";
import { decimalsOf } from "../decisions/sentences";
import { readRows, type LogColumns, type ReadRow } from "./check";
import type { Shot } from "./plausible";

/** The coffees that have a target, a row each; null where nothing is typed. */
export interface CoffeeTargets {
  readonly targetCoffees: readonly (Setting | null)[];
  readonly doseTargets: readonly (number | null)[];
  readonly beverageTargets: readonly (number | null)[];
  readonly timeTargets: readonly (number | null)[];
}

/** How far off a shot may be; what is not said is not asked for. */
export interface Tolerances {
  readonly doseTolerance?: number;
  readonly beverageTolerance?: number;
  readonly tolerance?: number;
}

export type Target = Pick<Shot, "dose" | "beverage" | "time">;
type Aimed = keyof Target;

/** The target of a coffee. A bar of one coffee need not name it: the only target is that of shots without a name. */
export function targetsOf({ targetCoffees, doseTargets, beverageTargets, timeTargets }: CoffeeTargets): (coffee: Setting | null) => Target | undefined {
  const rows = targetCoffees.flatMap((coffee, row) => {
    const [dose, beverage, time] = [doseTargets[row] ?? undefined, beverageTargets[row] ?? undefined, timeTargets[row] ?? undefined];
    return dose === undefined && beverage === undefined && time === undefined ? [] : [{ key: keyOf(coffee), target: { dose, beverage, time } }];
  });
  return (coffee) => {
    const key = keyOf(coffee);
    return (rows.find((row) => row.key === key) ?? (key === "" && rows.length === 1 ? rows[0] : undefined))?.target;
  };
}

/** Day and coffee are written once and hold until another stands there. */
export function carriedDown(cells: readonly (Setting | null)[]): (Setting | null)[] {
  let above: Setting | null = null;
  return cells.map((cell) => (above = isBlank(cell) ? above : cell));
}

/** Some builds of Excel hand a blank cell over as 0, which no day and no coffee is called. */
function isBlank(cell: Setting | null): boolean {
  return cell === null || cell === 0 || String(cell).trim() === "";
}

function keyOf(coffee: Setting | null): string {
  return isBlank(coffee) ? "" : settingKey(coffee!);
}

/** How much heavier or slower than its target a shot is, where that is more than it may be. */
export function offTarget(shot: Shot, target: Target, { doseTolerance, beverageTolerance, tolerance }: Tolerances): Target {
  const allowed = { dose: doseTolerance, beverage: beverageTolerance, time: tolerance };
  const off = (name: Aimed): number | undefined => {
    const [is, wanted, most] = [shot[name], target[name], allowed[name]];
    if (is === undefined || wanted === undefined || most === undefined) return undefined;
    // What the last binary digit adds is no difference.
    return Math.abs(is - wanted) > most + 1e-9 ? is - wanted : undefined;
  };
  return { dose: off("dose"), beverage: off("beverage"), time: off("time") };
}

/** Numbers as finely as a log of espresso writes them: masses to 0.1 g, times to 0.1 s or to whole seconds where all are typed so. */
export interface LogPrint {
  amount(name: Aimed, value: number): Amount;
  /** The size of a difference. */
  difference(name: Aimed, value: number): Amount;
}

export function printOf(times: readonly number[]): LogPrint {
  const step = { dose: 0.1, beverage: 0.1, time: decimalsOf(times) === 0 ? 1 : 0.1 };
  return {
    amount: (name, value) => rounded(amount(name, value), step[name]),
    difference: (name, value) => rounded(difference(name, Math.abs(value)), step[name]),
  };
}

export function timesOf(rows: readonly ReadRow[], { timeTargets }: CoffeeTargets): number[] {
  return [...rows.flatMap(({ shot }) => shot.time ?? []), ...timeTargets.flatMap((time) => time ?? [])];
}

/** Nothing is typed in the row. */
export function isUntyped({ shot, finding }: ReadRow): boolean {
  return finding === null && Object.keys(shot).length === 0;
}

/** Whether a row can be relied on: nothing looks wrong in it, or only its spelling. */
export function isTrusted({ finding }: ReadRow): boolean {
  return finding === null || finding.grade === "only text";
}

interface AgainstTarget {
  /** The time wanted of the shot's coffee, s; "" where it has none. */
  readonly wantedTime: number | "";
  readonly words: Words;
}

/** For every shot what looks wrong in it, else what of it is off the target of its coffee. */
export function shotCheck(
  { coffees, ...given }: LogColumns & CoffeeTargets & Tolerances & { readonly coffees: readonly (Setting | null)[] },
): AgainstTarget[] {
  const rows = readRows(given);
  const named = carriedDown(coffees);
  const targetOf = targetsOf(given);
  const print = printOf(timesOf(rows, given));
  return rows.map((row, index) => {
    const { shot } = row;
    if (isUntyped(row)) return { wantedTime: "", words: "" };
    const target = targetOf(named[index] ?? null);
    const wantedTime = target?.time ?? "";
    if (row.finding) return { wantedTime, words: row.finding.words };
    if (!target) return { wantedTime, words: "No target for this coffee." };
    const off = offTarget(shot, target, given);
    const parts = [
      ...said("Dose", off.dose, print.difference("dose", off.dose ?? 0), ["heavy", "light"]),
      ...said("Cup", off.beverage, print.difference("beverage", off.beverage ?? 0), ["heavy", "light"]),
      ...said("Time", off.time, print.difference("time", off.time ?? 0), ["long", "short"]),
    ];
    return { wantedTime, words: parts.length === 0 ? "" : parts.reduce((before, next) => words`${before} · ${next}`) };
  });
}

function said(what: string, off: number | undefined, size: Amount, [more, less]: readonly [string, string]): Words[] {
  return off === undefined ? [] : [words`${what} ${size} ${off > 0 ? more : less}`];
}
