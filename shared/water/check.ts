/** A water report held against the ranges of one revision of one standard, or against own limits. It says nothing of health. */
import { limitsOf, reportItems, standing, type LimitRow, type ReportName } from "./report";

const checked = ["hardness", "alkalinity", "ph", "tds", "sodium", "chlorine", "chloride"] as const satisfies readonly ReportName[];

export interface CheckedItem {
  readonly item: string;
  readonly amount: number;
  readonly low: number | "";
  readonly high: number | "";
  readonly verdict: string;
  readonly source: string;
}

export function waterCheck({ limits: own, ...given }: {
  hardness: number; alkalinity: number; ph: number; tds: number; sodium?: number; chlorine?: number; chloride?: number; limits?: readonly LimitRow[];
}): CheckedItem[] {
  const limits = limitsOf(own);
  return checked.flatMap((name) => {
    const amount: number | undefined = given[name];
    if (amount === undefined) return [];
    const { low = "", high = "", source = "" } = limits[name] ?? {};
    const { name: item, unit } = reportItems[name];
    return [{ item: `Brewing water: ${item}${unit && `, ${unit}`}`, amount, low, high, verdict: standing(amount, limits[name]) ?? "no range", source }];
  });
}
