/** What a water report can hold, by the names that people give it, and the ranges that brewing water is held against. */
import { badInput } from "../problem";
import type { QuantityName } from "../quantities";
import { brewingWater } from "../standards";

interface ReportItem {
  /** As it is written in a list of items; STANDARD writes "Brewing water: " before it. */
  readonly name: string;
  readonly alsoCalled?: readonly string[];
  /** The unit that STANDARD prints: amounts of a report are in it, whatever the workbook uses. */
  readonly unit: string;
  /** What says such an amount in the units of the workbook. */
  readonly quantity: QuantityName;
}

/** Items of a report, and of what stands between the tap and the machine. */
export const reportItems = {
  hardness: { name: "total hardness", alsoCalled: ["hardness"], unit: "mg/L CaCO3", quantity: "hardness" },
  calciumHardness: { name: "calcium hardness", unit: "mg/L CaCO3", quantity: "calciumHardness" },
  alkalinity: { name: "alkalinity", alsoCalled: ["total alkalinity"], unit: "mg/L CaCO3", quantity: "alkalinity" },
  ph: { name: "pH", unit: "", quantity: "ph" },
  tds: { name: "dissolved solids", alsoCalled: ["total dissolved solids", "tds"], unit: "mg/L", quantity: "tds" },
  sodium: { name: "sodium", unit: "mg/L", quantity: "sodium" },
  chlorine: { name: "total chlorine", alsoCalled: ["chlorine"], unit: "mg/L", quantity: "chlorine" },
  chloride: { name: "chloride", unit: "mg/L", quantity: "chloride" },
  sulfate: { name: "sulfate", alsoCalled: ["sulphate"], unit: "mg/L", quantity: "sulfate" },
  temperature: { name: "temperature", unit: "°C", quantity: "temperature" },
  treatedHardness: { name: "treated hardness", unit: "mg/L CaCO3", quantity: "hardness" },
  treatedAlkalinity: { name: "treated alkalinity", unit: "mg/L CaCO3", quantity: "alkalinity" },
  filterCapacity: { name: "filter capacity", unit: "L", quantity: "watervolume" },
  filterHardness: { name: "filter hardness", unit: "mg/L CaCO3", quantity: "hardness" },
  filterBypass: { name: "filter bypass", unit: "%", quantity: "share" },
} as const satisfies Record<string, ReportItem>;

export type ReportName = keyof typeof reportItems;
export type Report = Partial<Record<ReportName, number>>;

const reportNames = Object.keys(reportItems) as ReportName[];

/** The item that a cell names, whatever its case, with or without "Brewing water: " before it and its unit after it. */
function itemNamed(text: string, where: string): ReportName {
  const plain = text.trim().toLowerCase().replace(/^brewing water: */, "").replace(/,.*$/, "").replace(/\s+/g, " ");
  const found = reportNames.find((it) => {
    const { name, alsoCalled = [] }: ReportItem = reportItems[it];
    return [name.toLowerCase(), ...alsoCalled].includes(plain);
  });
  return found ?? badInput(`${where} “${text}” is none of the items known here: ${reportNames.map((it) => reportItems[it].name).join(", ")}.`);
}

/** Items with amounts; the same item twice would hide one of them. */
export function readReport(items: readonly string[], amounts: readonly number[]): Report {
  const report: Report = {};
  items.forEach((text, index) => {
    const where = `items, entry ${index + 1},`;
    const name = itemNamed(text, where);
    if (report[name] !== undefined) badInput(`${where} “${text}” stands there twice. Give each item once.`);
    report[name] = amounts[index]!;
  });
  return report;
}

/** A range of own limits or of a standard; "" where it has no end on that side. */
export interface Limit {
  readonly low: number | "";
  readonly high: number | "";
  readonly source: string;
}

/** One row of own limits as it stands in cells: null where nothing is typed. */
export interface LimitRow {
  readonly reportItems: string | null;
  readonly wantedLow: number | null;
  readonly wantedHigh: number | null;
}

export type Limits = Partial<Record<ReportName, Limit>>;

/** The ranges of the standard, with own limits in their place where there are any. */
export function limitsOf(own: readonly LimitRow[] = []): Limits {
  const limits: Limits = { ...brewingWater };
  own.forEach(({ reportItems: item, wantedLow: low, wantedHigh: high }, index) => {
    const where = `limits, row ${index + 1},`;
    if (item === null) badInput(`${where} has no item: name what the limit is for.`);
    const name = itemNamed(item, where);
    if (low !== null && high !== null && low > high) badInput(`${where} “${item}” has a low end above its high end.`);
    limits[name] = { low: low ?? "", high: high ?? "", source: "Your own limit" };
  });
  return limits;
}

/** How an amount stands to its limit; undefined where there is none. */
export function standing(amount: number, limit: Limit | undefined): "below" | "above" | "within" | undefined {
  if (!limit || (limit.low === "" && limit.high === "")) return undefined;
  if (limit.low !== "" && amount < limit.low) return "below";
  return limit.high !== "" && amount > limit.high ? "above" : "within";
}
