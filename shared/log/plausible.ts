/** A shot as a log has it, and what can be expected of it. */
import type { QuantityName } from "../quantities";
import type { Cell } from "../reading";
import { flow, ratio, solids } from "../shot";
import { amount, range, words, type Words } from "../words";

export const columns = ["dose", "beverage", "time", "strength"] as const;
export type ShotColumn = (typeof columns)[number];

/** A row as it was typed; numbers in g, s and %. */
export type TypedShot = Readonly<Record<ShotColumn, Cell>>;

/** The numbers of a row, as far as it has any. */
export type Shot = Partial<Record<ShotColumn, number>>;

/** How the log writes its numbers before they are converted to g, s and %: it decides which slips can have been made. */
export interface LogUnits {
  readonly mass: string;
  readonly time: string;
  readonly percent: string;
}

interface Range {
  readonly least: number;
  readonly most: number;
}

/** What an espresso can be expected to have, wide enough for a single, a triple, a ristretto and a lungo. Common practice, no source. */
const expected = {
  dose: { least: 6, most: 30 },
  beverage: { least: 5, most: 150 },
  time: { least: 5, most: 120 },
  strength: { least: 2.5, most: 20 },
  ratio: { least: 1, most: 6 },
  /** Little more than 30 % of roasted coffee dissolves at all. */
  extraction: { least: 10, most: 30 },
  flow: { least: 0.2, most: 8 },
} as const satisfies Partial<Record<QuantityName, Range>>;
export type Expected = keyof typeof expected;

/** What an espresso can have at all: a row beyond this cannot be right. Common practice, no source. */
const possible: Readonly<Record<Expected, Range>> = {
  dose: { least: 3, most: 60 },
  beverage: { least: 2, most: 500 },
  time: { least: 2, most: 180 },
  strength: { least: 0.5, most: 30 },
  ratio: { least: 0.7, most: 20 },
  extraction: { least: 5, most: 32 },
  flow: { least: 0.05, most: 20 },
};

/** Whether all that the row has, and all that follows from it, can be expected. */
export function isPlausible(shot: Shot): boolean {
  return isWithinAll(expected, shot);
}

/** The same of bare numbers, NaN for what the row does not have: the longest logs ask this of every row. */
export function arePlausible(dose: number, beverage: number, time: number, strength: number): boolean {
  return areWithin(expected, dose, beverage, time, strength);
}

/** Whether the row can be right at all. */
export function isPossible(shot: Shot): boolean {
  return isWithinAll(possible, shot);
}

export function isExpected(name: Expected, shot: Shot): boolean {
  const value = valueOf(shot, name);
  return value === undefined || (value >= expected[name].least && value <= expected[name].most);
}

function isWithinAll(limits: Readonly<Record<Expected, Range>>, { dose, beverage, time, strength }: Shot): boolean {
  // A number that is none is no blank.
  if (Number.isNaN(dose) || Number.isNaN(beverage) || Number.isNaN(time) || Number.isNaN(strength)) return false;
  return areWithin(limits, dose ?? NaN, beverage ?? NaN, time ?? NaN, strength ?? NaN);
}

/** What follows from a number is asked only where that number holds, and no limit lets a 0 pass; what follows from NaN is NaN. */
function areWithin(limits: Readonly<Record<Expected, Range>>, dose: number, beverage: number, time: number, strength: number): boolean {
  return (
    isWithin(limits.dose, dose) && isWithin(limits.beverage, beverage) && isWithin(limits.time, time) && isWithin(limits.strength, strength) &&
    isWithin(limits.ratio, ratio({ dose, beverage })) &&
    isWithin(limits.extraction, extractionOf(dose, beverage, strength)) &&
    isWithin(limits.flow, flow({ beverage, time }))
  );
}

function extractionOf(dose: number, beverage: number, strength: number): number {
  return (100 * solids({ beverage, strength })) / dose;
}

/** NaN is nothing that could be outside. */
function isWithin({ least, most }: Range, value: number): boolean {
  return !(value < least || value > most);
}

/** A number of the row, or one that follows from it; undefined where the row does not have what it takes. */
function valueOf({ dose, beverage, time, strength }: Shot, name: Expected): number | undefined {
  if (name === "ratio") return dose && beverage ? ratio({ dose, beverage }) : undefined;
  if (name === "extraction") return dose && beverage && strength ? extractionOf(dose, beverage, strength) : undefined;
  if (name === "flow") return beverage && time && time > 0 ? flow({ beverage, time }) : undefined;
  return { dose, beverage, time, strength }[name] ?? undefined;
}

/** What is out of place, where no slip explains it. A number out of place explains what follows from it. */
export function outOfPlace(shot: Shot): Words[] {
  const odd = (name: Expected): boolean => !isExpected(name, shot);
  const typed = columns.filter(odd);
  const names: readonly Expected[] = typed.length > 0 ? typed : (["ratio", "extraction", "flow"] as const).filter(odd);
  return names.map((name) => {
    const value = valueOf(shot, name)!;
    if (name === "ratio" && value < 1) return words`Beverage ${amount("beverage", shot.beverage!)} is lighter than the dose, ${amount("dose", shot.dose!)}.`;
    if (name === "extraction" && value > 30) {
      return words`Extraction would be ${amount("extraction", value)}, more than the ${amount("extraction", 30)} or so that coffee gives up: check strength, beverage and dose.`;
    }
    const { least, most } = expected[name];
    return words`${named(name)} ${amount(name, value)} is outside ${range(name, least, most)}, what an espresso can be expected to have.`;
  });
}

/** The name of a number as a sentence begins with it. */
export function named(name: Expected): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}
