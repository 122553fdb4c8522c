/**
 * What a log of one shot says: when it began to drip, how it flowed and at which pressure. Readings come at any rate; between two of them
 * mass and pressure run straight.
 */
import { badInput, noAnswer } from "./problem";
import { amount, words } from "./words";

export interface ShotLog {
  /** s, in the order read; null for a row to be left out. */
  readonly times: readonly (number | null)[];
  /** g; null where nothing was read. */
  readonly masses: readonly (number | null)[];
  /** bar, gauge; null where nothing was read. */
  readonly pressures?: readonly (number | null)[];
}

export interface ShotProfile {
  readonly firstDrip: number;
  /** "" where `beverage` is left out or not reached. */
  readonly beverageTime: number | "";
  readonly meanFlow: number | "";
  /** Over any 1 s; "" where the shot drips for less than that. */
  readonly greatestFlow: number | "";
  readonly meanPressure: number | "";
  readonly greatestPressure: number | "";
  readonly pressureBefore: number | "";
}

/** g: what a scale shows before anything has dripped, and how close to the last mass the last drop has fallen. */
const dripMass = 0.2;

interface Reading {
  readonly time: number;
  readonly value: number;
}

/** `beverage` is the mass, g, whose time is wanted. */
export function shotProfile({ times, masses, pressures = [] }: ShotLog): (asked: { beverage?: number }) => ShotProfile {
  requireOrder(times);
  const mass = pouring(withoutKnocks(readings(times, masses)));
  const pressure = readings(times, pressures);
  const firstDrip = mass[0]!.time;
  const most = Math.max(...mass.map(({ value }) => value));
  const lastDrip = firstTimeAt(mass, most - dripMass) ?? firstDrip;
  const of = {
    greatestFlow: greatestRise(mass),
    meanPressure: meanBetween(pressure, firstDrip, lastDrip),
    greatestPressure: pressure.length > 0 ? Math.max(...pressure.map(({ value }) => value)) : "",
    pressureBefore: meanBetween(pressure, -Infinity, firstDrip),
  } as const;
  return ({ beverage }) => {
    const beverageTime = beverage === undefined ? undefined : firstTimeAt(mass, beverage);
    const end = beverageTime ?? lastDrip;
    const meanFlow = end > firstDrip ? (valueAt(mass, end) - mass[0]!.value) / (end - firstDrip) : "";
    return { firstDrip, beverageTime: beverageTime ?? "", meanFlow, ...of };
  };
}

function requireOrder(times: readonly (number | null)[]): void {
  let latest = -Infinity;
  times.forEach((time, index) => {
    if (time !== null && time < latest) {
      badInput(words`times, entry ${index + 1}, ${amount("time", time)}, comes after ${amount("time", latest)}: a log of one shot runs forward. Give each shot's rows alone.`);
    }
    latest = time ?? latest;
  });
}

/** The readings that are there; of several at one time the last. */
function readings(times: readonly (number | null)[], values: readonly (number | null)[]): Reading[] {
  const result: Reading[] = [];
  values.forEach((value, index) => {
    const time = times[index] ?? null;
    if (value === null || time === null) return;
    if (result[result.length - 1]?.time === time) result.pop();
    result.push({ time, value });
  });
  return result;
}

/**
 * Without single knocks of the scale: a reading above or below both its neighbours, and further off their line than these are off theirs, is
 * put on that line. Medians of three would do the same to a resting scale, but shift the readings after a knock on a rising one.
 */
function withoutKnocks(mass: readonly Reading[]): Reading[] {
  const offLine = (index: number): number => {
    const [before, after] = [mass[index - 1], mass[index + 1]];
    return before && after ? mass[index]!.value - lineAt(before, after, mass[index]!.time) : 0;
  };
  return mass.map((it, index) => {
    const [before, after] = [mass[index - 1], mass[index + 1]];
    if (!before || !after || (it.value - before.value) * (it.value - after.value) <= 0) return it;
    const isKnock = Math.abs(offLine(index)) > Math.max(Math.abs(offLine(index - 1)), Math.abs(offLine(index + 1)));
    return isKnock ? { time: it.time, value: lineAt(before, after, it.time) } : it;
  });
}

/** The value at a time on the line through two readings. */
function lineAt(before: Reading, after: Reading, time: number): number {
  return before.value + ((after.value - before.value) * (time - before.time)) / (after.time - before.time);
}

/** The time of a value on the line through two readings. */
function timeOn(before: Reading, after: Reading, value: number): number {
  return before.time + ((after.time - before.time) * (value - before.value)) / (after.value - before.value);
}

/** The masses from the first drop on: since they last rose past the drip mass, leaving aside that the cup is taken away at the end. */
function pouring(mass: readonly Reading[]): Reading[] {
  const isDripping = ({ value }: Reading): boolean => value > dripMass;
  let end = mass.length;
  while (end > 0 && !isDripping(mass[end - 1]!)) end--;
  if (end === 0) noAnswer(words`No mass is above ${amount("beverage", dripMass)}: nothing dripped.`);
  let start = end - 1;
  while (start > 0 && isDripping(mass[start - 1]!)) start--;
  const [before, first] = [mass[start - 1], mass[start]!];
  if (!before) noAnswer(words`The log begins with ${amount("beverage", first.value)} on the scale: it does not hold the first drip.`);
  const time = timeOn(before, first, dripMass);
  return [{ time, value: dripMass }, ...mass.slice(start, end).filter((it) => it.time > time)];
}

/** When the readings first reach a value; undefined if never. */
function firstTimeAt(all: readonly Reading[], value: number): number | undefined {
  const index = all.findIndex((it) => it.value >= value);
  if (index < 0) return undefined;
  const [before, at] = [all[index - 1], all[index]!];
  return before ? timeOn(before, at, value) : at.time;
}

function valueAt(all: readonly Reading[], time: number): number {
  const index = all.findIndex((it) => it.time >= time);
  const [before, at] = [all[index - 1], all[index]!];
  return before ? lineAt(before, at, time) : at.value;
}

/** The greatest rise over any second: along straight pieces it begins or ends at a reading. */
function greatestRise(mass: readonly Reading[]): number | "" {
  const [first, last] = [mass[0]!.time, mass[mass.length - 1]!.time];
  if (last - first < 1) return "";
  const begins = mass.flatMap(({ time }) => [time, time - 1]).filter((time) => time >= first && time + 1 <= last).sort((a, b) => a - b);
  const [from, to] = [walkAlong(mass), walkAlong(mass)];
  return begins.reduce((most, begin) => Math.max(most, to(begin + 1) - from(begin)), -Infinity);
}

/** The value at each of a row of rising times, walking along the readings once. */
function walkAlong(all: readonly Reading[]): (time: number) => number {
  let index = 1;
  return (time) => {
    while (index < all.length - 1 && all[index]!.time < time) index++;
    return lineAt(all[index - 1]!, all[index]!, time);
  };
}

/** Mean over the time between two moments, as far as there are readings; "" where there are none. */
function meanBetween(all: readonly Reading[], from: number, to: number): number | "" {
  let [area, time] = [0, 0];
  all.forEach((after, index) => {
    const before = all[index - 1];
    if (!before) return;
    const [start, end] = [Math.max(from, before.time), Math.min(to, after.time)];
    if (end <= start) return;
    area += ((lineAt(before, after, start) + lineAt(before, after, end)) / 2) * (end - start);
    time += end - start;
  });
  return time > 0 ? area / time : "";
}
