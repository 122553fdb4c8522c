/** The charts of the sheet in sight, beside its cells, redrawn when the cells change. */
import { placeOf } from "../../sheet/references";
import type { DescribedChart } from "../../ready-sheets/sheet-description";
import type { ChartCells } from "./chart";
import type { Grid } from "./grid/grid";
import { chartsOn } from "../../xlsx/ready-sheets";

/** Pixels; the drawing shrinks with the panel. */
const drawnWidth = 388;
/** Redrawing waits this long, ms, for the rest of a burst of changes. */
const pause = 80;

export class ChartPanel {
  private drawn = "";
  private timer: ReturnType<typeof setTimeout> | undefined;

  /** `onCharts` hears whether the sheet in sight has charts. */
  constructor(
    private readonly grid: Grid,
    private readonly element: HTMLElement,
    private readonly onCharts: (has: boolean) => void,
  ) {}

  refresh(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.draw(), pause);
  }

  private async draw(): Promise<void> {
    const sheet = this.grid.sheetInSight();
    const charts = sheet === undefined ? [] : (chartsOn(this.grid.names(), sheet) ?? []);
    this.onCharts(charts.length > 0);
    if (sheet === undefined || charts.length === 0 || this.element.hidden) return this.clear();
    const cells = chartCells(this.grid, sheet);
    // The same numbers make the same picture; drawing it again would only take the focus of a screen reader.
    const state = JSON.stringify([sheet, charts.map((chart) => content(chart, cells))]);
    if (state === this.drawn) return;
    this.drawn = state;
    const { drawnChart } = await import(/* webpackChunkName: "chart" */ "./chart");
    if (state !== this.drawn) return;
    this.element.replaceChildren(...charts.map((chart) => drawnChart(chart, cells, drawnWidth)));
  }

  private clear(): void {
    this.drawn = "";
    this.element.replaceChildren();
  }
}

function content(chart: DescribedChart, cells: ChartCells): unknown {
  const texts = [chart.xTitle, chart.yTitle, chart.words].map((at) => cells.text(at));
  return [chart.title, texts, chart.series.map(({ x, y }) => [cells.numbers(x), cells.numbers(y)])];
}

export function chartCells(grid: Grid, sheet: string): ChartCells {
  return {
    numbers: (reference) => grid.valuesAt(sheet, reference).map((row) => row.map((value) => (typeof value === "number" ? value : undefined))),
    text: (at) => String(grid.valuesAt(sheet, at)[0]?.[0] ?? ""),
    tick: (value, at) => {
      const place = placeOf(at);
      const format = place ? grid.formatAt(sheet, place.row, place.column) : undefined;
      if (format?.endsWith("%")) return `${Number((value * 100).toPrecision(6))} %`;
      if (format === "h:mm:ss") return clockOf(value);
      return String(Number(value.toPrecision(5)));
    },
  };
}

function clockOf(days: number): string {
  const seconds = Math.round(days * 86_400);
  return `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
}
