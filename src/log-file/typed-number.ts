/** The text of a cell of a log as a number. */
import type { ShotColumn } from "../../shared/log/plausible";
import type { Problem } from "../../shared/problem";
import { plainNumber, readGrams, readPercent, readSeconds } from "../../shared/reading";
import type { UnitChoice } from "../sheet/unit-choice";
import { worded } from "../sheet/wording";

const readers = { dose: readGrams, beverage: readGrams, time: readSeconds, strength: readPercent } as const;

/** In g, s and %; null where the cell is blank. Throws a Problem where it cannot be read. */
export function typedNumber(column: ShotColumn, cell: string, { bareUnit = 1, decimalComma = false } = {}): number | null {
  const text = cell.trim();
  if (text === "") return null;
  // A plain number is left to the check, which knows what it may have been meant to be.
  const plain = plainNumber(text, decimalComma);
  return plain === undefined ? readers[column]({ text, bareUnit, decimalComma }) : plain * bareUnit;
}

export function unreadWords(column: ShotColumn, problem: Problem, units: UnitChoice): string {
  return `${column.charAt(0).toUpperCase()}${column.slice(1)} cannot be read: ${worded(problem.words, units)}`;
}
