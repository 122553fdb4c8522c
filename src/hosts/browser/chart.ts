/** Draws a described chart beside the cells. Loaded only where a sheet has charts. */
import { areaY, dot, gridY, lineY, link, plot, type Markish } from "@observablehq/plot";
import { seriesStyles } from "../../ready-sheets/looks";
import type { DescribedChart, DescribedSeries } from "../../ready-sheets/sheet-description";

/** What a chart reads from its sheet. */
export interface ChartCells {
  /** The numbers of a range or of a table's column, row by row; undefined where a cell holds no number. */
  numbers(reference: string): readonly (readonly (number | undefined)[])[];
  text(at: string): string;
  /** How a number of this axis is shown. */
  tick(value: number, at: string): string;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

/** The chart with its words under it. The words are also what a screen reader gets. */
export function drawnChart(chart: DescribedChart, cells: ChartCells, width: number): HTMLElement {
  const figure = document.createElement("figure");
  figure.className = "chart";
  const heading = document.createElement("h2");
  heading.textContent = chart.title;
  const words = document.createElement("figcaption");
  words.textContent = cells.text(chart.words);
  const marks = chart.series.flatMap((series) => marksOf(series, cells));
  figure.append(heading);
  if (marks.length > 0) {
    const drawing = plot({
      width,
      height: Math.round(width * 0.56),
      marginLeft: 56,
      marginBottom: 42,
      inset: 8,
      className: "chart-drawing",
      ariaLabel: chart.title,
      ariaDescription: words.textContent ?? "",
      x: { label: cells.text(chart.xTitle), labelArrow: "none", labelAnchor: "center", nice: true, ticks: 6, tickFormat: (value: number) => cells.tick(value, firstOf(chart.series[0]!.x)) },
      y: { label: cells.text(chart.yTitle), labelArrow: "none", nice: true, ticks: 6, tickFormat: (value: number) => cells.tick(value, firstOf(chart.series[0]!.y)) },
      marks: [gridY({ className: "chart-grid" }), ...marks],
    });
    drawing.setAttribute("role", "img");
    // One picture with one name: the marks inside it have none of their own.
    for (const mark of drawing.querySelectorAll("[aria-label]")) mark.removeAttribute("aria-label");
    figure.append(drawing, legend(chart.series));
  }
  figure.append(words);
  return figure;
}

function firstOf(reference: string): string {
  return reference.split(":")[0]!;
}

function marksOf(series: DescribedSeries, cells: ChartCells): Markish[] {
  const style = seriesStyles[series.look];
  const xs = cells.numbers(series.x);
  const ys = cells.numbers(series.y);
  const className = `chart-${series.look.replace(" ", "-")}`;
  if (series.look === "segments") {
    const segments = xs.flatMap((row, index) => {
      const [x1, x2] = row;
      const [y1, y2] = ys[index] ?? [];
      return x1 === undefined || x2 === undefined || y1 === undefined || y2 === undefined ? [] : [{ x1, x2, y1, y2 }];
    });
    return segments.length === 0 ? [] : [link(segments, { x1: "x1", x2: "x2", y1: "y1", y2: "y2", className, strokeWidth: style.line })];
  }
  const points = xs.flatMap((row, index): Point[] => {
    const x = row[0];
    const y = ys[index]?.[0];
    return x === undefined || y === undefined ? [] : [{ x, y }];
  });
  if (points.length === 0) return [];
  if (series.look === "band") {
    const edges = points.flatMap((point, index) => {
      const other = points[index + 1];
      return index % 2 === 0 && other ? [{ x: point.x, low: Math.min(point.y, other.y), high: Math.max(point.y, other.y) }] : [];
    });
    return [areaY(edges, { x: "x", y1: "low", y2: "high", className })];
  }
  const marks: Markish[] = [];
  if (style.line !== undefined) marks.push(lineY(points, { x: "x", y: "y", className, strokeWidth: style.line, ...(style.dashed && { strokeDasharray: "6 4" }) }));
  if (style.marker) {
    const symbol = style.marker === "diamond" ? "diamond" : "circle";
    marks.push(dot(points, { x: "x", y: "y", symbol, r: (style.markerSize ?? 6) / 2, className: `${className} chart-${style.marker}` }));
  }
  return marks;
}

/** Each series with the shape that it is drawn in; not colour alone. */
function legend(series: readonly DescribedSeries[]): HTMLElement {
  const list = document.createElement("ul");
  list.className = "chart-legend";
  for (const { name, look } of series) {
    const item = document.createElement("li");
    const sample = document.createElement("span");
    sample.className = `chart-sample chart-${look.replace(" ", "-")}`;
    sample.setAttribute("aria-hidden", "true");
    sample.textContent = { band: "▬", line: "—", dashed: "- -", segments: "┃", points: "●", "marked line": "●—", target: "◆", alarm: "◯" }[look];
    item.append(sample, ` ${name}`);
    list.append(item);
  }
  return list;
}
