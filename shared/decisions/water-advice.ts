/**
 * What a water report means for taste, for scale and for corrosion, and what to do: one sentence each. Each rule has a number, so that a test
 * can drive every one of them. Nothing is said of health, and the maker's limits come first.
 */
import { Problem } from "../problem";
import { waterFilterLife } from "../water/filter-life";
import { waterLarsonSkold } from "../water/indices";
import { limitsOf, readReport, reportItems, standing, type LimitRow, type Limits, type Report, type ReportName } from "../water/report";
import { waterScale } from "../water/scale";
import { amount, functionNamed, rounded, words, type Amount, type Words } from "../words";
import { capitalised, listed, together, type TopicAdvice } from "./sentences";

export interface WaterAdvice extends TopicAdvice {
  readonly topic: "taste" | "scale" | "corrosion";
  readonly next: Words;
}

/** Litres are those used a day; limits replace rows of the standard, or add some, such as the maker's for chloride. */
export function waterAdvice({ items, amounts, litres, limits: own }: {
  readonly items: readonly string[]; readonly amounts: readonly number[]; readonly litres?: number; readonly limits?: readonly LimitRow[];
}): WaterAdvice[] {
  const report = readReport(items, amounts);
  const limits = limitsOf(own);
  return [taste(report, limits), scale(report, litres), corrosion(report, limits)];
}

const askSupplier = "A report of the supplier or a drop test tells.";

function missing(given: Report, needed: readonly ReportName[]): string {
  return listed(needed.filter((it) => given[it] === undefined).map((it) => reportItems[it].name), "and");
}

/** Whole mg/L and tenths of pH, or as much finer as it takes to tell an amount from its limit. */
function stepOf(name: ReportName, value: number, limit: number): number {
  const usual = name === "ph" || (value < 10 && value % 1 !== 0) ? 0.1 : 1;
  return [usual, usual / 10, usual / 100].find((step) => Math.round(value / step) !== Math.round(limit / step)) ?? usual / 1000;
}

/** "alkalinity 156 mg/L CaCO3 is above 70 mg/L CaCO3", in the workbook's units. */
function finding(name: ReportName, given: Report, limits: Limits, isFirst: boolean): Words {
  const [value, range] = [given[name]!, limits[name]!];
  const is = standing(value, range)!;
  const limit = (is === "below" ? range.low : range.high) as number;
  const { name: item, quantity } = reportItems[name];
  const said = (one: number): Amount => rounded(amount(quantity, one), stepOf(name, value, limit));
  return words`${isFirst && name !== "ph" ? capitalised(item) : item} ${said(value)} is ${is} ${said(limit)}`;
}

/** What the ranges are for. */
const tasteItems = ["hardness", "calciumHardness", "alkalinity", "ph", "tds", "sodium", "chlorine"] as const;

/** What mixes by volume: a blend has of it what its two waters bring. */
const mixing = ["hardness", "alkalinity"] as const;

function taste(given: Report, limits: Limits): WaterAdvice {
  const topic = "taste";
  const without = missing(given, ["hardness", "alkalinity", "ph"]);
  if (without) return { topic, branch: 1, sentence: `Also needs ${without}.`, next: askSupplier };

  const standings = tasteItems.flatMap((name) => {
    const value = given[name];
    const is = value === undefined ? undefined : standing(value, limits[name]);
    return is === undefined ? [] : [{ name, is }];
  });
  const off = standings.filter(({ is }) => is !== "within");
  if (off.length === 0) {
    const ranges = standings.length === 1 ? "its range" : `all ${standings.length} ranges`;
    return { topic, branch: 2, sentence: `Inside ${ranges}.`, next: "Ranges are conventions: taste decides." };
  }
  const isMixing = (name: ReportName): boolean => (mixing as readonly ReportName[]).includes(name);
  const findings = (which: (name: ReportName) => boolean): Words =>
    off.filter(({ name }) => which(name)).map(({ name }, index) => finding(name, given, limits, index === 0))
      .reduce<Words>((before, it) => (before === "" ? it : words`${before}; ${it}`), "");
  const [mixed, others] = [findings(isMixing), findings((name) => !isMixing(name))];
  const also: Words = others === "" ? "" : words`${others}.`;

  if (mixed === "") {
    const next = off.some(({ name }) => name === "chlorine") ? "A carbon filter takes chlorine out." : "Read it again on fresh water, then ask who made the filter.";
    return { topic, branch: 6, sentence: also, next };
  }
  const share = blendInside(given, limits);
  if (share !== null) {
    const treated = given.treatedHardness === undefined && given.treatedAlkalinity === undefined ? "water without minerals" : "treated water";
    const next = together("Check hardness, alkalinity and pH of the blend at the tap.", also);
    return { topic, branch: 3, sentence: words`${mixed}: blend ${rounded(amount("share", share), 1)} raw with ${treated}.`, next };
  }
  const next = together(words`Its salts go into pure water, by ${functionNamed("WATER.RECIPE")}; never dose a plumbed line.`, also);
  if (off.every(({ name, is }) => !isMixing(name) || is === "below")) return { topic, branch: 4, sentence: words`${mixed}: see the recipe.`, next };
  return { topic, branch: 5, sentence: words`${mixed}. No blend brings both inside: see the recipe.`, next };
}

/** The middle of the shares of raw water, whole %, that bring hardness and alkalinity inside; null where none does. */
function blendInside(given: Report, limits: Limits): number | null {
  const treated: Report = { hardness: given.treatedHardness ?? 0, alkalinity: given.treatedAlkalinity ?? 0 };
  const isInside = (share: number): boolean => mixing.every((name) => {
    const blended = treated[name]! + (share / 100) * (given[name]! - treated[name]!);
    const is = standing(blended, limits[name]);
    return is === undefined || is === "within";
  });
  const shares = Array.from({ length: 99 }, (_, index) => index + 1).filter(isInside);
  return shares.length === 0 ? null : Math.round((shares[0]! + shares[shares.length - 1]!) / 2);
}

/** pH readings without a temperature beside them are taken as corrected to this, °C. */
const usualTemperature = 25;

/** Where the equation of the precipitation potential ends, °C. */
const hottest = 90;

/**
 * The greatest precipitation potential between the tap and 90 °C, mg/L CaCO3, and where it is; or why there is none to tell. Without a calcium
 * hardness, all hardness counts as calcium.
 */
function greatestPotential(given: Report): { potential: number; at: number } | Problem {
  const { ph = NaN, alkalinity = NaN, hardness = NaN, calciumHardness = hardness, tds = 0, temperature = usualTemperature } = given;
  const places = [...new Set([temperature, 40, 60, hottest])];
  try {
    return places
      .map((at) => ({ at, potential: waterScale({ ph, temperature, calciumHardness, alkalinity, tds, at }).precipitation }))
      .reduce((most, it) => (it.potential > most.potential ? it : most));
  } catch (why) {
    if (why instanceof Problem) return why;
    throw why;
  }
}

function canScale({ hardness, calciumHardness = hardness, alkalinity, ph }: Report): "yes" | "never" | "unknown" {
  if (calciumHardness === undefined || alkalinity === undefined || ph === undefined) return "unknown";
  return calciumHardness > 0 && alkalinity > 0 ? "yes" : "never";
}

function scale(given: Report, litres: number | undefined): WaterAdvice {
  const topic = "scale";
  const scaling = canScale(given);
  if (scaling === "unknown") {
    return { topic, branch: 1, sentence: `Also needs ${missing(given, [given.hardness === undefined ? "calciumHardness" : "hardness", "alkalinity", "ph"])}.`, next: askSupplier };
  }
  const most = scaling === "never" ? null : greatestPotential(given);
  if (most instanceof Problem) return { topic, branch: 4, sentence: most.words, next: askSupplier };
  if (!most || most.potential <= 0) {
    return { topic, branch: 2, sentence: words`None up to ${rounded(amount("temperature", hottest), 1)}; hotter is not known.`, next: "Keep to the limits of the machine's maker all the same." };
  }
  const at = rounded(amount("temperature", most.at), 1);
  const grams = litres === undefined ? undefined : (most.potential * litres * 30) / 1000;
  const much = grams === undefined ? words`${rounded(amount("precipitation", most.potential), 1)} of scale` : words`${rounded(amount("scaleMass", grams), grams < 10 ? 0.1 : 1)} of scale a month`;
  const hotter = most.at === hottest ? "; hotter, more" : "";
  return {
    topic, branch: 3,
    sentence: together(words`Up to ${much} at ${at}${hotter}.`, filterSentence(given)),
    next: "Soften or blend ahead of the machine, inside its maker's limits.",
  };
}

function filterSentence({ hardness, filterCapacity: capacity, filterHardness: reference, filterBypass: bypass }: Report): Words {
  if (capacity === undefined || reference === undefined || hardness === undefined || !(hardness > 0)) return "";
  return words`The filter lasts ${rounded(amount("watervolume", waterFilterLife({ capacity, reference, hardness, bypass })), 10)}.`;
}

/** The lower of the two bands of Larson & Skold's index. */
const muchChlorideAndSulfate = 0.8;

function corrosion(given: Report, limits: Limits): WaterAdvice {
  const topic = "corrosion";
  const { chloride, sulfate, alkalinity } = given;
  if (chloride !== undefined && standing(chloride, limits.chloride) === "above") {
    const most = limits.chloride!.high as number;
    const said = (one: number): Amount => rounded(amount("chloride", one), stepOf("chloride", chloride, most));
    return { topic, branch: 2, sentence: words`Chloride ${said(chloride)} is over your limit of ${said(most)}: blend.`, next: "With water from reverse osmosis: softening leaves chloride in." };
  }
  const without = missing(given, ["chloride", "sulfate", "alkalinity", "ph", given.calciumHardness === undefined ? "hardness" : "calciumHardness"]);
  if (without) return { topic, branch: 1, sentence: `Also needs ${without}.`, next: askSupplier };
  if (!(alkalinity! > 0) || waterLarsonSkold({ chloride: chloride!, sulfate: sulfate!, alkalinity: alkalinity! }) > muchChlorideAndSulfate) {
    return { topic, branch: 3, sentence: "Much chloride and sulfate for the alkalinity: ask the machine's maker.", next: "Give the maker chloride, sulfate and alkalinity." };
  }
  const most = canScale(given) === "never" ? null : greatestPotential(given);
  if (most instanceof Problem) return { topic, branch: 6, sentence: most.words, next: askSupplier };
  if (!most || most.potential < 0) {
    return { topic, branch: 4, sentence: words`It dissolves scale, cold and at ${rounded(amount("temperature", hottest), 1)}: ask the machine's maker.`, next: "Give the maker hardness, alkalinity and pH." };
  }
  return { topic, branch: 5, sentence: "Nothing found; that is no proof of safety.", next: "The maker's limits and local codes come first." };
}
