/** One cell as a function needs it: a number in canonical units, a text, or a refusal in words. */
import { Problem } from "../../shared/problem";
import { isChoice, isNumber, quantity, type NumberQuantity, type QuantityName } from "../../shared/quantities";
import { toCanonical, type Scale } from "../../shared/units";
import { amount, argumentName, functionNamed, printed, quoted, words, type Words } from "../../shared/words";
import { isForeignError, type ForeignError } from "./cell-error";
import { spelled } from "./spelling";
import { chosenUnit, type UnitChoice } from "./unit-choice";

/** What a cell can be read as; `undefined` is a blank. */
export type Reading = number | string | boolean | Problem | ForeignError | undefined;

export interface CellReader {
  read(cell: unknown): Reading;
  /** Which numbers are read without more ado. */
  readonly accepted: AcceptedNumbers;
}

/** A cell is (cell − zero) × size in canonical units, and fine where that lies within the limits and is not the value excluded. */
export interface AcceptedNumbers {
  readonly zero: number;
  readonly size: number;
  readonly least: number;
  readonly most: number;
  readonly excluded: number | undefined;
}

const none: AcceptedNumbers = { zero: 0, size: 1, least: Infinity, most: -Infinity, excluded: undefined };

export function isBlank(cell: unknown): boolean {
  return cell === null || cell === undefined || cell === "";
}

const readers = new WeakMap<UnitChoice, Map<string, CellReader>>();

/** How the cells of a parameter are read, from the quantity it stands for and the units of the workbook. */
export function readerOf(parameter: string, name: QuantityName, choice: UnitChoice): CellReader {
  let ofChoice = readers.get(choice);
  if (!ofChoice) readers.set(choice, (ofChoice = new Map()));
  const key = `${parameter} ${name}`;
  let reader = ofChoice.get(key);
  if (!reader) ofChoice.set(key, (reader = makeReader(parameter, name, choice)));
  return reader;
}

function makeReader(argument: string, name: QuantityName, choice: UnitChoice): CellReader {
  const parameter = argumentName(argument);
  const record = quantity(name);
  const limits = isNumber(record) ? limitsOf(record, choice) : none;
  const accepted = isNumber(record) && !record.whole ? limits : none;
  const read = isNumber(record)
    ? numberReader(parameter, name, record, choice, limits)
    : isChoice(record) ? choiceReader(parameter, record.options) : kinds[record.cell](parameter);
  return { accepted, read: (cell) => (typeof cell !== "object" || cell === null ? read(cell) : readObject(cell, read)) };
}

type Read = CellReader["read"];

/** The same slip often fills a column. Where a column has ever new ones, keeping them costs more than making them: they are kept anew now and then. */
const refusalsKept = 1000;
const refusalsPassed = 20 * refusalsKept;

/** An error of another cell passes; a number that carries a number format is unwrapped. */
function readObject(cell: object, read: Read): Reading {
  if (isForeignError(cell)) return cell;
  return "basicValue" in cell ? read(cell.basicValue) : read("a value of a kind that a formula cannot read");
}

const kinds = { text: textReader, setting: settingReader, any: () => anyReader } as const satisfies Record<string, (parameter: string) => Read>;

function limitsOf({ measure, least, most = Infinity, above, zeroIsBlank }: NumberQuantity, choice: UnitChoice): AcceptedNumbers {
  const { zero = 0, size }: Scale = measure ? chosenUnit(choice, measure) : { size: 1 };
  return { zero, size, least: least ?? above ?? -Infinity, most, excluded: above ?? (zeroIsBlank ? 0 : undefined) };
}

function numberReader(
  parameter: string, name: QuantityName, record: NumberQuantity, choice: UnitChoice, { least, most, excluded }: AcceptedNumbers,
): Read {
  const unit = record.measure ? chosenUnit(choice, record.measure) : undefined;
  const refusals = new Map<unknown, Problem>();
  let passed = 0;
  return (cell) => {
    if (cell === 0 && record.zeroIsBlank) return undefined;
    const value = typeof cell === "number" ? (unit ? toCanonical(cell, unit) : cell) : NaN;
    if (value >= least && value <= most && value !== excluded && (!record.whole || Number.isInteger(value))) return value;
    if (isBlank(cell)) return undefined;
    let refusal = refusals.get(cell);
    if (!refusal) {
      refusal = typeof cell === "number" ? new Problem("bad input", outside(parameter, cell, value, name, record, choice)) : notANumber(parameter, cell);
      if (refusals.size < refusalsKept) refusals.set(cell, refusal);
      else if (++passed > refusalsPassed) {
        refusals.clear();
        passed = 0;
      }
    }
    return refusal;
  };
}

function notANumber(parameter: string, cell: unknown): Problem {
  if (typeof cell === "boolean") return new Problem("bad input", `${parameter} must be a number, but is ${cell ? "TRUE" : "FALSE"}.`);
  const text = String(cell);
  if (text.trim() === "") return new Problem("bad input", `${parameter} must be a number, but the cell holds only spaces; clear it.`);
  // Spelled at once, as a whole column of texts is no rarity.
  return new Problem("bad input", `${parameter} must be a number, but is the text ${quoted(text)}. ${spelled("READ")} functions turn typed entries into numbers.`);
}

function outside(parameter: string, cell: number, value: number, name: QuantityName, record: NumberQuantity, choice: UnitChoice): Words {
  if (!Number.isFinite(value)) return `${parameter} must be a number, but is ${cell}.`;
  const otherStyle = wrongStyle(cell, record, choice);
  if (otherStyle) return words`${parameter} is ${cell}. ${otherStyle}`;
  const is = amount(name, value);
  if (record.whole && !Number.isInteger(value)) return words`${parameter} must be a whole number, but is ${is}.`;
  if (record.above !== undefined && value <= record.above) return words`${parameter} must be more than ${amount(name, record.above)}, but is ${is}.`;
  if (record.least !== undefined && value < record.least) return words`${parameter} must be at least ${amount(name, record.least)}, but is ${is}.`;
  return words`${parameter} must be at most ${amount(name, record.most!)}, but is ${is}.`;
}

/** How a missing value of this quantity is told: where 0 reads as blank, it may have been typed. */
export function blankInWords(name: QuantityName): string {
  const record = quantity(name);
  return isNumber(record) && record.zeroIsBlank ? "blank or 0" : "blank";
}

/** A percentage or a time that fits only in the other style says which setting to change. */
function wrongStyle(cell: number, record: NumberQuantity, choice: UnitChoice): Words | undefined {
  const fits = (value: number): boolean => value >= (record.least ?? record.above ?? -Infinity) && value <= (record.most ?? Infinity) && value !== record.above;
  if (record.measure === "percent") {
    if (choice.percent === "number" && fits(cell * 100)) {
      return `That would be ${printed(cell)} %; if it is a percent cell (${printed(cell * 100)} %), type ${printed(cell * 100)}, or set percentages to percent cells in the Pucksheet pane.`;
    }
    if (choice.percent === "cell" && fits(cell)) {
      return `Percentages of this workbook are percent cells, so that would be ${printed(cell * 100)} %; type ${printed(cell)}%, or set percentages to numbers in the Pucksheet pane.`;
    }
  }
  if (record.measure === "time") {
    if (choice.time === "s" && cell > 0 && fits(cell * 86400)) {
      return words`That looks like a clock cell (${cell * 86400} s); type seconds, set shot times to clock cells in the Pucksheet pane, or read it with ${functionNamed("READ.SECONDS")}.`;
    }
    if (choice.time === "clock" && fits(cell)) {
      return `Shot times of this workbook are clock cells; type 0:00:27 for 27 seconds, or set shot times to seconds in the Pucksheet pane.`;
    }
    if (choice.time === "clock" && fits(cell * 1440)) {
      return `That is ${printed(cell * 1440)} minutes: a sheet reads 0:27 as 27 minutes. Type 0:00:27 for 27 seconds.`;
    }
  }
  return undefined;
}

/** A text out of a list, whatever its case and with or without a degree sign. */
function choiceReader(parameter: string, options: readonly string[]): Read {
  const folded = (text: string): string => text.trim().replace(/^°/, "").toLowerCase();
  return (cell) => {
    if (isBlank(cell)) return undefined;
    const text = String(cell);
    // The same letters in another case can be two units, so an exact match comes first.
    const option = options.find((it) => it === text.trim().replace(/^°/, "")) ?? options.find((it) => folded(it) === folded(text));
    return option ?? new Problem("bad input", `${parameter} must be one of ${options.map((it) => `“${it}”`).join(", ")}, but is ${quoted(text)}.`);
  };
}

function textReader(parameter: string): Read {
  return (cell) => {
    if (isBlank(cell)) return undefined;
    if (typeof cell === "string") return cell.trim();
    return new Problem("bad input", `${parameter} must be a text, but is ${String(cell)}.`);
  };
}

/** A setting that nothing is fitted to: a number or a name. TRUE is neither, and most likely a slip. */
function settingReader(parameter: string): Read {
  return (cell) => {
    if (typeof cell === "string") return cell.trim() || undefined;
    if (typeof cell === "boolean") return new Problem("bad input", `${parameter} must be a number or a text, but is ${cell ? "TRUE" : "FALSE"}.`);
    return anyReader(cell);
  };
}

function anyReader(cell: unknown): Reading {
  return isBlank(cell) ? undefined : (cell as Reading);
}
