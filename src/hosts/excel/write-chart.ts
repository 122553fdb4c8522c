/** Makes a native Excel chart of a described one. */
import { seriesStyles } from "../../ready-sheets/looks";
import type { DescribedChart, DescribedSeries, SeriesLook } from "../../ready-sheets/sheet-description";
import { absolute, areaOf, sheetPrefix, tableColumnOf } from "../../sheet/references";

export async function addChart(context: Excel.RequestContext, sheet: Excel.Worksheet, described: DescribedChart): Promise<void> {
  const { title, from, to, xTitle, yTitle, series } = described;
  sheet.load({ name: true });
  const chart = sheet.charts.add("XYScatter", rangeOf(sheet, series[0]!.y), "Columns");
  chart.name = title;
  chart.setPosition(from, to);
  chart.title.text = title;
  // What charts read stands in columns out of sight.
  chart.plotVisibleOnly = false;
  chart.title.format.font.size = 12;
  chart.series.load({ name: true });
  await context.sync();
  // Excel has guessed series of its own.
  for (const guessed of chart.series.items) guessed.delete();
  for (const one of series) addSeries(sheet, chart, one);
  // Titles are the text of cells, so that they follow the workbook's units.
  const place = sheetPrefix(sheet.name);
  chart.axes.categoryAxis.title.setFormula(`=${place}${absolute(xTitle)}`);
  chart.axes.valueAxis.title.setFormula(`=${place}${absolute(yTitle)}`);
  chart.axes.categoryAxis.majorGridlines.visible = false;
  chart.legend.visible = series.length > 1 && !series.some(({ look }) => look === "segments");
  chart.legend.position = "Bottom";
  await context.sync();
}

function addSeries(sheet: Excel.Worksheet, chart: Excel.Chart, { name, look, x, y }: DescribedSeries): void {
  if (look !== "segments") return addOne(chart, name, look, rangeOf(sheet, x), rangeOf(sheet, y));
  const { top, bottom } = areaOf(y)!;
  for (let row = 0; row <= bottom - top; row++) {
    addOne(chart, name, look, rangeOf(sheet, x).getRow(row), rangeOf(sheet, y).getRow(row));
  }
}

function addOne(chart: Excel.Chart, name: string, look: SeriesLook, x: Excel.Range, y: Excel.Range): void {
  const { color, line, dashed, marker, markerSize } = seriesStyles[look];
  const series = chart.series.add(name);
  series.setValues(y);
  series.setXAxisValues(x);
  series.chartType = line === undefined ? "XYScatter" : marker ? "XYScatterLines" : "XYScatterLinesNoMarkers";
  if (line !== undefined) {
    series.format.line.color = color;
    series.format.line.weight = line;
    series.format.line.lineStyle = dashed ? "Dash" : "Continuous";
  }
  if (!marker) return;
  series.markerStyle = marker === "diamond" ? "Diamond" : "Circle";
  series.markerForegroundColor = color;
  if (marker !== "ring") series.markerBackgroundColor = color;
  if (markerSize) series.markerSize = markerSize;
}

/** A range of the sheet, or a column of one of its tables, which grows with the table. */
function rangeOf(sheet: Excel.Worksheet, reference: string): Excel.Range {
  const column = tableColumnOf(reference);
  return column ? sheet.tables.getItem(column.table).columns.getItem(column.heading).getDataBodyRange() : sheet.getRange(reference);
}
