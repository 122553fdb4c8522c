/** Means beside each other with their 95 % intervals, as COMPARE and TASTE.SCORES give them. */
import { drawn } from "./formulas";
import type { SheetBuilder } from "./sheet-builder";
import type { DescribedChart } from "./sheet-description";

export interface MeansChart extends Pick<DescribedChart, "title" | "from" | "to" | "xTitle" | "yTitle" | "words"> {
  /** What stands over the places out of sight. */
  readonly heading: string;
  /** A formula for where on the axis each mean is drawn. */
  readonly place: string;
  readonly mean: string;
  readonly low: string;
  readonly high: string;
  readonly rows: number;
  readonly format?: string | undefined;
}

/** Draws it, and answers the means that are drawn. */
export function meansChart(sheet: SheetBuilder, { heading, place, mean, low, high, rows, format, ...chart }: MeansChart): string {
  const column = (name: string, formula: string, look?: string): string => sheet.workingColumn([name], formula, rows, [look])[0]!;
  // Each interval is a line of its own, from a low to a high end over the same place.
  const places = [column(heading, place), column("Again", place)] as const;
  const ends = [column("Low", drawn(low), format), column("High", drawn(high), format)] as const;
  const means = column("Mean", drawn(mean), format);
  sheet.chart({
    ...chart,
    series: [
      { name: "95 % interval", look: "segments", x: sideBySide(places), y: sideBySide(ends) },
      { name: "Mean", look: "points", x: places[0], y: means },
    ],
  });
  return means;
}

function sideBySide([left, right]: readonly [string, string]): string {
  return `${left.split(":")[0]}:${right.split(":")[1]}`;
}
