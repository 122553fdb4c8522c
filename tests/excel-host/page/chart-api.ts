/** Charts of Excel's API, kept as they are described to Excel. The stand-in draws none. */
import { writeArea, type Area } from "./address.ts";
import type { Book, Settings, Sheet, SheetChart } from "./book.ts";
import { ApiCollection, ApiError, ApiObject } from "./rich-api.ts";

/** A range as charts see it. */
export interface Source {
  readonly sheet: Sheet;
  readonly area: Area;
}

export class Charts extends ApiCollection<Chart> {
  readonly apiName = "ChartCollection";

  constructor(
    private readonly book: Book,
    private readonly sheet: Sheet,
  ) {
    super();
  }

  get items(): readonly Chart[] {
    return this.sheet.charts.map((chart) => new Chart(this.sheet, chart));
  }

  getItem(key: unknown): Chart {
    const chart = this.sheet.charts.find(({ id, settings }) => id === key || settings.name === key);
    if (!chart) throw new ApiError("ItemNotFound", "The requested resource doesn't exist.");
    return new Chart(this.sheet, chart);
  }

  /** Excel guesses a series of the source. */
  add(type: string, source: Source, _by: string): Chart {
    const chart: SheetChart = { id: this.book.newId(), settings: { type }, series: [{ settings: {}, values: addressOf(source) }] };
    this.sheet.charts.push(chart);
    return new Chart(this.sheet, chart);
  }
}

class Chart extends ApiObject {
  readonly apiName = "Chart";
  readonly title: ChartTitle;
  readonly series: SeriesCollection;
  readonly axes: Axes;
  readonly legend: Legend;

  constructor(
    private readonly sheet: Sheet,
    private readonly chart: SheetChart,
  ) {
    super();
    this.title = new ChartTitle(chart.settings, "title");
    this.series = new SeriesCollection(chart);
    this.axes = new Axes(chart.settings);
    this.legend = new Legend(chart.settings);
  }

  override identity(): Record<string, unknown> {
    return { Id: this.chart.id };
  }

  get id(): string {
    return this.chart.id;
  }

  get name(): unknown {
    return this.chart.settings.name;
  }

  set name(value: unknown) {
    if (this.sheet.charts.some(({ settings }) => settings !== this.chart.settings && settings.name === value)) throw new ApiError("InvalidArgument", "Another chart has this name.");
    this.chart.settings.name = value;
  }

  get plotVisibleOnly(): unknown {
    return this.chart.settings.plotVisibleOnly ?? true;
  }

  set plotVisibleOnly(value: unknown) {
    this.chart.settings.plotVisibleOnly = value;
  }

  setPosition(from: unknown, to: unknown): void {
    Object.assign(this.chart.settings, { from, to });
  }
}

class ChartTitle extends ApiObject {
  readonly apiName: string = "ChartTitle";
  readonly format: TitleFormat;

  constructor(
    protected readonly settings: Settings,
    protected readonly part: string,
  ) {
    super();
    this.format = new TitleFormat(settings, part);
  }

  get text(): unknown {
    return this.settings[`${this.part}.text`];
  }

  set text(value: unknown) {
    this.settings[`${this.part}.text`] = value;
  }

  setFormula(formula: string): void {
    if (!/^=(?:'(?:[^']|'')+'|[A-Za-z_]+)!\$[A-Z]+\$\d+$/.test(formula)) throw new ApiError("InvalidArgument", `A title’s formula is one cell, not “${formula}”.`);
    this.settings[`${this.part}.formula`] = formula;
  }
}

class AxisTitle extends ChartTitle {
  override readonly apiName = "ChartAxisTitle";
}

class TitleFormat extends ApiObject {
  readonly apiName = "ChartTitleFormat";
  readonly font: ChartFont;

  constructor(settings: Settings, part: string) {
    super();
    this.font = new ChartFont(settings, part);
  }
}

class ChartFont extends ApiObject {
  readonly apiName = "ChartFont";

  constructor(
    private readonly settings: Settings,
    private readonly part: string,
  ) {
    super();
  }

  get size(): unknown {
    return this.settings[`${this.part}.size`];
  }

  set size(value: unknown) {
    this.settings[`${this.part}.size`] = value;
  }
}

class Axes extends ApiObject {
  readonly apiName = "ChartAxes";
  readonly categoryAxis: Axis;
  readonly valueAxis: Axis;

  constructor(settings: Settings) {
    super();
    this.categoryAxis = new Axis(settings, "x");
    this.valueAxis = new Axis(settings, "y");
  }
}

class Axis extends ApiObject {
  readonly apiName = "ChartAxis";
  readonly title: AxisTitle;
  readonly majorGridlines: Gridlines;

  constructor(settings: Settings, axis: string) {
    super();
    this.title = new AxisTitle(settings, axis);
    this.majorGridlines = new Gridlines(settings, axis);
  }
}

class Gridlines extends ApiObject {
  readonly apiName = "ChartGridlines";

  constructor(
    private readonly settings: Settings,
    private readonly axis: string,
  ) {
    super();
  }

  get visible(): unknown {
    return this.settings[`${this.axis}.gridlines`] ?? true;
  }

  set visible(value: unknown) {
    this.settings[`${this.axis}.gridlines`] = value;
  }
}

class Legend extends ApiObject {
  readonly apiName = "ChartLegend";

  constructor(private readonly settings: Settings) {
    super();
  }

  get visible(): unknown {
    return this.settings["legend.visible"] ?? true;
  }

  set visible(value: unknown) {
    this.settings["legend.visible"] = value;
  }

  get position(): unknown {
    return this.settings["legend.position"];
  }

  set position(value: unknown) {
    this.settings["legend.position"] = value;
  }
}

class SeriesCollection extends ApiCollection<Series> {
  readonly apiName = "ChartSeriesCollection";

  constructor(private readonly chart: SheetChart) {
    super();
  }

  get items(): readonly Series[] {
    return this.chart.series.map((series) => new Series(this.chart, series));
  }

  getItem(): Series {
    throw new ApiError("InvalidArgument", "Series have no key.");
  }

  getItemAt(index: number): Series {
    const series = this.chart.series[index];
    if (!series) throw new ApiError("ItemNotFound", "The requested resource doesn't exist.");
    return new Series(this.chart, series);
  }

  add(name: unknown): Series {
    const series = { settings: { name } as Settings };
    this.chart.series.push(series);
    return new Series(this.chart, series);
  }
}

const chartTypes = ["XYScatter", "XYScatterLines", "XYScatterLinesNoMarkers"];

class Series extends ApiObject {
  readonly apiName = "ChartSeries";
  readonly format: SeriesFormat;

  constructor(
    private readonly chart: SheetChart,
    private readonly series: SheetChart["series"][number],
  ) {
    super();
    this.format = new SeriesFormat(series.settings);
  }

  get name(): unknown {
    return this.series.settings.name ?? "Series1";
  }

  set name(value: unknown) {
    this.series.settings.name = value;
  }

  get chartType(): unknown {
    return this.series.settings.chartType ?? this.chart.settings.type;
  }

  set chartType(value: unknown) {
    if (!chartTypes.includes(String(value))) throw new ApiError("InvalidArgument", `The stand-in does not know charts of type “${String(value)}”.`);
    this.series.settings.chartType = value;
  }

  get markerStyle(): unknown {
    return this.series.settings.markerStyle;
  }

  set markerStyle(value: unknown) {
    this.series.settings.markerStyle = value;
  }

  get markerSize(): unknown {
    return this.series.settings.markerSize;
  }

  set markerSize(value: unknown) {
    if (!(Number(value) >= 2 && Number(value) <= 72)) throw new ApiError("InvalidArgument", "A marker is 2 to 72 points.");
    this.series.settings.markerSize = value;
  }

  get markerForegroundColor(): unknown {
    return this.series.settings.markerForegroundColor;
  }

  set markerForegroundColor(value: unknown) {
    this.series.settings.markerForegroundColor = value;
  }

  get markerBackgroundColor(): unknown {
    return this.series.settings.markerBackgroundColor;
  }

  set markerBackgroundColor(value: unknown) {
    this.series.settings.markerBackgroundColor = value;
  }

  setValues(source: Source): void {
    this.series.values = addressOf(source);
  }

  setXAxisValues(source: Source): void {
    this.series.xValues = addressOf(source);
  }

  delete(): void {
    this.chart.series.splice(this.chart.series.indexOf(this.series), 1);
  }
}

class SeriesFormat extends ApiObject {
  readonly apiName = "ChartSeriesFormat";
  readonly line: LineFormat;

  constructor(settings: Settings) {
    super();
    this.line = new LineFormat(settings);
  }
}

class LineFormat extends ApiObject {
  readonly apiName = "ChartLineFormat";

  constructor(private readonly settings: Settings) {
    super();
  }

  get color(): unknown {
    return this.settings["line.color"];
  }
  set color(value: unknown) {
    this.settings["line.color"] = value;
  }
  get weight(): unknown {
    return this.settings["line.weight"];
  }
  set weight(value: unknown) {
    this.settings["line.weight"] = value;
  }
  get lineStyle(): unknown {
    return this.settings["line.style"];
  }
  set lineStyle(value: unknown) {
    this.settings["line.style"] = value;
  }
}

function addressOf({ sheet, area }: Source): string {
  return `${sheet.name}!${writeArea(area)}`;
}
