/**
 * The parts of the sentences that a person acts on, so that every decision says odds, settings and amounts in the same way.
 * A sentence claims a direction only where its test supports it; the caller decides that, these only word it.
 */
import { inSettingOrder, type Setting } from "../settings";
import { printed, printedTo, words, type Words } from "../words";

/** What a rule gives: its number, so that a test can drive every one, and its sentence. */
export interface Advice {
  readonly branch: number;
  readonly sentence: Words;
}

/** Of several rules that speak together. */
export interface TopicAdvice extends Advice {
  readonly topic: string;
}

const ODDS = [1000, 500, 300, 200, 150, 100, 70, 50, 40, 30, 25, 20, 15, 10, 8, 6, 5, 4, 3, 2];

/**
 * How rare a p-value is, in words: "about once in 40 trials". The number is never larger than 1 / p, so that a chance is not
 * made out to be rarer than it is.
 */
export function once(p: number, of = "trials"): string {
  if (p < 1 / ODDS[0]!) return `less than once in 1,000 ${of}`;
  const odds = ODDS.find((it) => it <= 1 / p + 1e-9);
  return odds === undefined ? "more often than not" : `about once in ${odds === 1000 ? "1,000" : odds} ${of}`;
}

/** "1 shot", "8 shots". */
export function counted(count: number, thing: string, several = `${thing}s`): string {
  return `${printed(count)} ${count === 1 ? thing : several}`;
}

/** "88", "88 or 90", "88, 90 or 94". */
export function listed(items: readonly string[], last: "and" | "or"): string {
  return items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} ${last} ${items[items.length - 1]!}`;
}

/** Sentences one after the other; empty ones leave no gap. */
export function together(...sentences: readonly Words[]): Words {
  return sentences.filter((it) => it !== "").reduce((before, next) => (before === "" ? next : words`${before} ${next}`), "");
}

/** The same sentence with a capital at its start. */
export function capitalised(sentence: string): string {
  return sentence.charAt(0).toUpperCase() + sentence.slice(1);
}

/** The most decimals that any of these numbers was typed with: 2.3 and 2.25 have 2. */
export function decimalsOf(values: readonly number[]): number {
  const enough = (decimals: number): boolean =>
    values.every((value) => {
      const scaled = value * 10 ** decimals;
      return Math.abs(scaled - Math.round(scaled)) <= 1e-9 * Math.max(1, Math.abs(scaled));
    });
  return [0, 1, 2, 3, 4, 5].find(enough) ?? 6;
}

/** The settings of one trial or log as its sentences say them: all with the same decimals, and with their unit. */
export interface SettingWords {
  /** "93 °C", or the name. */
  one(setting: Setting): string;
  /** "91 or 93 °C", in the order of settings. */
  several(settings: readonly Setting[], last: "and" | "or"): string;
  /** A setting that was worked out, with one decimal more: "92.6 °C". */
  found(setting: number): string;
  /** "92.0 to 93.3", worked out, without the unit, for brackets after a setting that has it. */
  span(low: number, high: number): string;
  /** A setting to try: "92 °C", with one decimal more only where the decimals typed would change it. */
  proposed(...settings: readonly number[]): string;
}

/** Settings keep the decimals that the most precisely typed of them has. `unit` is empty for the marks of a grinder and for names. */
export function settingWords(settings: readonly Setting[], unit = ""): SettingWords {
  const decimals = decimalsOf(settings.filter((it) => typeof it === "number"));
  const withUnit = (text: string): string => (unit === "" ? text : `${text} ${unit}`);
  const bare = (setting: Setting): string => (typeof setting === "number" ? printedTo(10 ** -decimals, setting) : setting.trim());
  const finer = (setting: number, more = 1): string => printedTo(10 ** -(decimals + more), setting);
  const one = (setting: Setting): string => (typeof setting === "number" ? withUnit(bare(setting)) : bare(setting));
  return {
    one,
    several(chosen, last) {
      const sorted = [...chosen].sort(inSettingOrder);
      const numbers = sorted.every((it) => typeof it === "number");
      return numbers ? withUnit(listed(sorted.map(bare), last)) : listed(sorted.map(one), last);
    },
    found: (setting) => withUnit(finer(setting)),
    span(low, high) {
      const more = [1, 2, 3].find((it) => finer(low, it) !== finer(high, it)) ?? 1;
      return `${finer(low, more)} to ${finer(high, more)}`;
    },
    proposed(...chosen) {
      const fine = decimalsOf(chosen) > decimals;
      return withUnit(listed(chosen.map((it) => (fine ? finer(it) : bare(it))), "and"));
    },
  };
}

/** Results of one outcome as its sentences say them. */
export interface ResultWords {
  /** "0.6 points". */
  one(value: number): string;
  /** "0.2 to 1.0", without the unit, for brackets after an amount that has it. */
  span(low: number, high: number): string;
}

/**
 * Results rounded to what is known of them: `reach`, half the width of their interval, keeps one digit. Amounts in `kept` are
 * said in as many more digits as it takes that they do not read 0.
 */
export function resultWords(unit: string, reach: number, ...kept: readonly number[]): ResultWords {
  const known = 10 ** Math.floor(Math.log10(reach));
  const least = Math.min(...kept.map(Math.abs).filter((it) => it > 0));
  const step = Math.min(known, least === Infinity ? known : 10 ** Math.floor(Math.log10(2 * least)));
  return {
    one: (value) => `${printedTo(step, value)}${unit === "" ? "" : ` ${unit}`}`,
    span: (low, high) => `${printedTo(step, low)} to ${printedTo(step, high)}`,
  };
}
