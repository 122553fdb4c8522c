/**
 * Entries of a messy log as numbers: “0:27”, “27,5 s”, “18.2 g”, “1:2.2”, “9,4 %”. What can mean two things is refused in words, never guessed.
 * There is no standard for how people type a shot; the forms are common practice.
 */
import { badInput, noAnswer } from "./problem";
import { amount, functionNamed, printed, quoted, range, rounded, words, type Words } from "./words";
import { quantities } from "./quantities";
import { units } from "./units";

/** A cell as it was typed; null is a blank. */
export type Cell = number | string | boolean | null;

/** How an entry that does not say its unit or its decimal mark is to be read. */
export interface Entry {
  text: Cell;
  /** Size of the unit of a number without one, in the canonical unit: 28.349523125 where masses are written in ounces. */
  bareUnit?: number;
  /** The log is known to write decimal commas, so that 18,250 is no thousands. */
  decimalComma?: boolean;
}

/** The number of a cell that holds nothing else: a number, or a text such as 18.2, or 18,2 where decimal commas are known. It is the quick way for long logs. */
export function plainNumber(cell: Cell, decimalComma: boolean): number | undefined {
  if (typeof cell === "number") return cell;
  if (typeof cell !== "string") return undefined;
  if (/^\d+(?:\.\d+)?$/.test(cell) && (!decimalComma || !cell.includes("."))) return Number(cell);
  return decimalComma && /^\d+,\d+$/.test(cell) ? Number(cell.replace(",", ".")) : undefined;
}

/** A shot time, s. `bareunit` may be 1, 60 for minutes or 86400 for clock cells. */
export function readSeconds({ text: typed, bareUnit = 1, decimalComma = false }: Entry): number {
  const cell = plainNumber(typed, decimalComma) ?? typed;
  if (typeof cell === "number") return secondsOfNumber(cell, bareUnit);
  const text = plainText(cell, "a time");
  const clock = /^(?:(\d{1,2}):)?(\d{0,3}):(\d+)(?:[.,](\d+))? ?([ap]m)?$/.exec(text);
  if (clock) return secondsOfClock(text, clock);
  const apart = new RegExp(`^(\\d+) ?(?:${minuteWords}) ?(${number}) ?(?:${secondWords})?$`).exec(text);
  if (apart) {
    const seconds = numberIn(apart[2]!, decimalComma);
    if (seconds >= 60) badInput(words`${quoted(text)} has 60 seconds or more beside the minutes.`);
    return shotTime(Number(apart[1]) * 60 + seconds, text);
  }
  const { value, unit } = measured(text, decimalComma, "a time", words`${amount("time", 27)} or 0:27`);
  if (unit === "") return secondsOfNumber(value, bareUnit);
  if (new RegExp(`^(?:${secondWords})$`).test(unit)) return shotTime(value, text);
  if (new RegExp(`^(?:${minuteWords})$`).test(unit)) return shotTime(value * 60, text);
  return unknownUnit(text, unit, "a time");
}

/** A mass, g. */
export function readGrams({ text: typed, bareUnit = 1, decimalComma = false }: Entry): number {
  const cell = plainNumber(typed, decimalComma) ?? typed;
  if (typeof cell === "number") return mass(cell * bareUnit, printed(cell));
  const text = plainText(cell, "a mass");
  const { value, unit } = measured(text, decimalComma, "a mass", words`a number, or as ${rounded(amount("dose", 18.2), 0.1)}`);
  if (unit === "") return mass(value * bareUnit, text);
  if (/^(?:ml|cl|l|fl\.? ?oz)$/.test(unit)) badInput(words`${quoted(text)} is a volume, not a mass. ${functionNamed("MASS.FROMVOLUME")} turns a volume without foam into a mass.`);
  const size = massUnits.find(([words]) => words.test(unit))?.[1];
  return size === undefined ? unknownUnit(text, unit, "a mass") : mass(value * size, text);
}

/** A ratio, g of beverage for each g of dose. */
export function readRatio({ text: cell, decimalComma = false }: Entry): number {
  if (typeof cell === "number") {
    if (cell > 0 && cell < 1) {
      badInput(`${printed(cell)} would be a beverage lighter than its dose. A sheet turns 1:2 typed into a cell into a clock time, ${clockText(cell * 86400)} here: type '1:2 with an apostrophe, or 2.`);
    }
    return ratioWithin(cell, printed(cell));
  }
  const text = plainText(cell, "a ratio");
  const pair = new RegExp(`^(${number}) ?(?:g|grams?)? ?(?::|/|to|in|zu) ?(${number}) ?(?:g|grams?)?$`).exec(text);
  if (!pair) {
    const { value, unit } = measured(text, decimalComma, "a ratio", "1:2.2, 18:36 or 2.2");
    return unit === "" || unit === "x" ? ratioWithin(value, text) : unknownUnit(text, unit, "a ratio");
  }
  const dose = numberIn(pair[1]!, decimalComma);
  const beverage = numberIn(pair[2]!, decimalComma);
  if (!(dose > 0)) badInput(words`${quoted(text)} has no dose before the colon.`);
  if (beverage < dose && dose !== 1) {
    badInput(words`${quoted(text)} would be a beverage lighter than its dose. Write the dose first, as in 1:${printed(beverage > 0 ? dose / beverage : dose)}.`);
  }
  return ratioWithin(beverage / dose, text);
}

/** A percentage, as a number of percent: 9.4 stands for 9.4 %. */
export function readPercent({ text: typed, bareUnit = 1, decimalComma = false }: Entry): number {
  const cell = plainNumber(typed, decimalComma) ?? typed;
  if (typeof cell === "number") return percentOfNumber(cell, bareUnit);
  const text = plainText(cell, "a percentage");
  const { value, unit } = measured(text, decimalComma, "a percentage", "9.4 or 9.4 %");
  if (unit === "") return percentOfNumber(value, bareUnit);
  if (/^(?:%|per ?cent|pct\.?|prozent)$/.test(unit)) return percentWithin(value, text);
  if (unit === "‰") return percentWithin(value / 10, text);
  return unknownUnit(text, unit, "a percentage");
}

/** No entry is longer; what follows cannot make it one. */
const longestEntry = 60;

const number = "(?:\\d[\\d.,]*(?: \\d{3}(?!\\d)[\\d.,]*)*|[.,]\\d+)(?:e[+-]?\\d{1,3})?";
const secondWords = "s|sec\\.?|secs|seconds?|sek\\.?|sekunden?|segundos?|secondes?|secondi|\"|''";
const minuteWords = "m|min\\.?|mins|minutes?|minuten?|minutos?|minuti|'";
const massUnits: readonly (readonly [RegExp, number])[] = [
  [/^(?:g|gr|gms?|grams?|gramm|grammes?|gramos?|grammi)\.?$/, units.mass.g.size],
  [/^(?:oz|ounces?)\.?$/, units.mass.oz.size],
  [/^kg\.?$/, 1000],
  [/^mg\.?$/, 0.001],
];

/** The text in plain letters: full-width digits, thin and hard spaces and curly marks are the same signs to a reader. */
function plainText(cell: string | boolean | null, what: string): string {
  if (cell === null) noAnswer("The cell is blank.");
  if (typeof cell === "boolean") badInput(`${cell ? "TRUE" : "FALSE"} is not ${what}.`);
  const text = cell
    .replace(/[″”“]/g, "\"").replace(/[′’‘]/g, "'")
    .normalize("NFKC").replace(/\s+/g, " ").replace(/[−–]/g, "-").trim().toLowerCase();
  if (text === "") badInput("The cell holds only spaces; clear it.");
  return text.length > longestEntry ? `${text.slice(0, longestEntry - 1)}…` : text;
}

/** A number and the words after it. */
function measured(text: string, decimalComma: boolean, what: string, forms: Words): { value: number; unit: string } {
  const parts = new RegExp(`^([+-]?) ?(${number})(.*)$`).exec(text);
  if (!parts) badInput(words`${quoted(text)} is not ${what}. Write it as ${forms}.`);
  const [, sign, digits, rest] = parts as unknown as [string, string, string, string];
  if (/\d/.test(rest)) badInput(words`${quoted(text)} holds more than one number. Write ${what} as ${forms}.`);
  const value = numberIn(digits, decimalComma);
  if (sign === "-" && value > 0) badInput(words`${quoted(text)} is negative, which ${what} cannot be.`);
  return { value, unit: rest.trim() };
}

/** A number with a decimal point or a decimal comma. Thousands are understood only where they are set apart by spaces. */
function numberIn(written: string, decimalComma: boolean): number {
  const text = /^\d{1,3}(?: \d{3})+(?!\d)/.test(written) ? written.replace(/ /g, "") : written;
  if (text.includes(" ")) badInput(words`${quoted(written)} holds more than one number.`);
  const marks = text.match(/[.,]/g) ?? [];
  if (marks.length > 1) badInput(words`${quoted(written)} has more than one point or comma. Write it with one decimal mark and no thousands mark.`);
  const thousands = decimalComma ? /^[1-9]\d{0,2}\.\d{3}$/ : /^[1-9]\d{0,2},\d{3}$/;
  if (thousands.test(text)) {
    badInput(words`${quoted(written)} can be ${text.replace(",", ".")} or ${text.replace(/[.,]/, "")}. Write it with ${decimalComma ? "a decimal comma" : "a decimal point"}, or without a thousands mark.`);
  }
  return Number(text.replace(",", "."));
}

function secondsOfNumber(value: number, bareUnit: number): number {
  if (bareUnit === 60) return shotTime(value * 60, `${printed(value)} min`);
  // A sheet keeps a clock time as a fraction of a day, and no shot takes less than a second.
  if (value > 0 && value < 1) return secondsOfDay(value);
  if (bareUnit !== 1) {
    badInput(`${printed(value)} is no clock time, and shot times of this workbook are clock cells. Type 0:00:27 for 27 seconds, or 27 s as text.`);
  }
  return shotTime(value, printed(value));
}

function secondsOfDay(fraction: number): number {
  // Milliseconds are finer than any stopwatch and coarser than the rounding of a fraction of a day.
  const seconds = Math.round(fraction * 86400 * 1000) / 1000;
  if (seconds >= 120 && seconds % 60 === 0) {
    badInput(`${printed(fraction)} in the cell is the clock time ${clockText(seconds)}, which is ${minutesText(seconds)}: ${asHoursAndMinutes(seconds)}`);
  }
  if (seconds > quantities.time.most) {
    badInput(`${printed(fraction)} in the cell would be the clock time ${clockText(seconds)}, too long for a shot. If it means minutes, write it as ${printed(fraction)} min.`);
  }
  return shotTime(seconds, printed(fraction));
}

function secondsOfClock(text: string, [, first, second, third, decimals, half]: RegExpExecArray): number {
  if (third!.length !== 2) badInput(words`${quoted(text)} does not have two digits of seconds. Write 0:07 for seven seconds.`);
  // “0:27 am” is hours and minutes; so is the hour of “12:00:27 am”, midnight.
  const parts = half && first === undefined ? [Number(second), Number(third), 0] : [Number(first ?? 0), Number(second), Number(third)];
  const [hours, minutes, seconds] = parts as [number, number, number];
  if (seconds >= 60 || ((first !== undefined || half) && minutes >= 60)) badInput(words`${quoted(text)} is no clock time: minutes and seconds end at 59.`);
  const midnight = half && hours === 12 ? hours - 12 : hours;
  const total = (midnight + (half === "pm" ? 12 : 0)) * 3600 + minutes * 60 + seconds + Number(`0.${decimals ?? 0}`);
  if (total > quantities.time.most && total % 60 === 0) badInput(words`${quoted(text)} is ${minutesText(total)}: ${asHoursAndMinutes(total)}`);
  return shotTime(total, text);
}

function asHoursAndMinutes(seconds: number): string {
  const typed = `${Math.floor(seconds / 3600)}:${twoDigits(Math.floor(seconds / 60) % 60)}`;
  return `a sheet takes ${typed} for hours and minutes. Type 0:0${typed.padStart(4, "0")} or '${typed} with an apostrophe if minutes and seconds are meant.`;
}

function minutesText(seconds: number): string {
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  return `${hours > 0 ? `${hours} h ` : ""}${minutes} min`;
}

/** Seconds as h:mm:ss. */
function clockText(seconds: number): string {
  const whole = Math.round(seconds);
  return `${Math.floor(whole / 3600)}:${twoDigits(Math.floor(whole / 60) % 60)}:${twoDigits(whole % 60)}`;
}

function twoDigits(value: number): string {
  return String(value).padStart(2, "0");
}

function shotTime(seconds: number, written: string): number {
  const { least, most } = quantities.time;
  return within(seconds, least, most, words`A shot time must be ${range("time", least, most)}, but ${quoted(written)} is ${amount("time", seconds)}.`);
}

function mass(grams: number, written: string): number {
  if (grams === 0) badInput(words`A mass must be more than ${amount("dose", 0)}, but is ${quoted(written)}.`);
  const most = amount("dose", quantities.dose.most);
  return within(grams, 0, most.value, words`A mass must be more than 0 and at most ${most}, but ${quoted(written)} is ${amount("dose", grams)}.`);
}

function ratioWithin(ratio: number, written: string): number {
  const { least, most } = quantities.ratio;
  return within(ratio, least, most, words`A ratio must be ${least} to ${most}, but ${quoted(written)} is ${ratio}.`);
}

function percentOfNumber(value: number, bareUnit: number): number {
  if (bareUnit !== 1) {
    if (value > 1) badInput(`${printed(value)} would be ${printed(value * 100)} %, as percentages of this workbook are percent cells. Type ${printed(value)}%.`);
    return percentWithin(value * bareUnit, printed(value));
  }
  if (value > 0 && value < 1) {
    badInput(`${printed(value)} can be ${printed(value)} % or a percent cell of ${printed(value * 100)} %. Write ${printed(value * 100)}, or “${printed(value)} %” as text.`);
  }
  return percentWithin(value, printed(value));
}

function percentWithin(percent: number, written: string): number {
  // A sum with 0, as −0 is shown as “-0” by some programs.
  return 0 + within(percent, 0, 100, words`A percentage must be ${range("readPercent", 0, 100)}, but ${quoted(written)} is ${amount("readPercent", percent)}.`);
}

/** Written so that what is not a number is refused too. */
function within(value: number, least: number, most: number, otherwise: Words): number {
  if (!(value >= least && value <= most)) badInput(otherwise);
  return value;
}

function unknownUnit(text: string, unit: string, what: string): never {
  return badInput(words`${quoted(text)} ends in ${quoted(unit)}, which is no unit of ${what} that is known here.`);
}
