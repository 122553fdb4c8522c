/** What a described sheet has in an .xlsx file besides its cells: native charts, limits of its input cells, and the page set-up. */
import type * as excel from "@cj-tech-master/excelts";
import { absolute, areaOf, placeOf, referenceTo, sheetPrefix, splitReference, tableColumnOf, type Area } from "../sheet/references";
import { seriesStyles } from "../ready-sheets/looks";
import type { Allowed, DescribedChart, DescribedPrint, DescribedSeries, SheetDescription } from "../ready-sheets/sheet-description";
import type { Sheet, Table, Workbook } from "./workbook";

export async function addExtras(file: excel.Worksheet, sheet: Sheet, description: SheetDescription, names: Workbook["names"]): Promise<void> {
  const { cells, tables, charts = [], print } = description;
  for (const { name, allowed } of Object.values(cells)) {
    const refersTo = allowed && names.find((one) => one.name === name)?.refersTo;
    if (allowed && refersTo) allow(file, splitReference(refersTo).rest.replaceAll("$", ""), allowed);
  }
  for (const table of tables) {
    const actual = sheet.tables.find(({ name }) => name === table.name);
    for (const { heading, allowed } of table.columns) {
      const column = actual && columnArea(actual, heading);
      if (column && allowed) allow(file, referenceTo(column), allowed);
    }
  }
  if (charts.length > 0) {
    const { installChartSupport } = await import(/* webpackChunkName: "xlsx-charts" */ "@cj-tech-master/excelts/chart");
    installChartSupport();
  }
  for (const chart of charts) addChart(file, sheet, chart);
  if (print) setPage(file, print);
}

function allow(file: excel.Worksheet, at: string, { least, most, whole, choices, words }: Allowed): void {
  const alert = { allowBlank: true, showErrorMessage: true, errorStyle: "stop", errorTitle: "Please check", error: words } as const;
  if (choices) file.dataValidations.add(at, { type: "list", formulae: [`"${choices.join(",")}"`], ...alert });
  else file.dataValidations.add(at, { type: whole ? "whole" : "decimal", operator: "between", formulae: [least ?? -1e9, most ?? 1e9], ...alert });
}

function addChart(file: excel.Worksheet, sheet: Sheet, { title, from, to, xTitle, yTitle, yEnds, series }: DescribedChart): void {
  const text = (at: string) => {
    const { row, column } = placeOf(at)!;
    return String(sheet.cells[row]?.[column]?.value ?? "");
  };
  const segments = series.some(({ look }) => look === "segments");
  file.addScatterChart(
    {
      title,
      series: series.flatMap((one) => seriesOf(sheet, one)),
      scatterStyle: "lineMarker",
      // What charts read stands in columns out of sight.
      plotVisOnly: false,
      showLegend: series.length > 1 && !segments,
      legendPosition: "b",
      displayBlanksAs: "gap",
      categoryAxis: { title: text(xTitle), majorGridlines: false },
      valueAxis: { title: text(yTitle), majorGridlines: true, ...(yEnds && { min: yEnds[0], max: yEnds[1] }) },
    },
    `${from}:${to}`,
  );
}

type FileSeries = NonNullable<Parameters<excel.Worksheet["addScatterChart"]>[0]["series"]>[number];

function seriesOf(sheet: Sheet, { name, look, x, y }: DescribedSeries): FileSeries[] {
  const { color, line, dashed, marker, markerSize } = seriesStyles[look];
  const drawn = {
    name,
    smooth: false,
    // Excel draws a line from point to point unless it is told that there is none.
    ...(line === undefined ? { spPr: { line: { noFill: true } } } : { line: color, lineWidth: line, ...(dashed && { lineDash: "dash" as const }) }),
    marker: marker
      ? { symbol: marker === "diamond" ? ("diamond" as const) : ("circle" as const), size: markerSize, border: color, ...(marker !== "ring" && { fill: color }) }
      : { symbol: "none" as const },
  };
  const [xs, ys] = [rangeOf(sheet, x), rangeOf(sheet, y)];
  if (!xs || !ys) return [];
  const on = (area: Area) => `${sheetPrefix(sheet.name)}${absolute(referenceTo(area))}`;
  if (look !== "segments") return [{ ...drawn, xValues: on(xs), values: on(ys) }];
  return Array.from({ length: ys.bottom - ys.top + 1 }, (_, row) => {
    const [xRow, yRow] = [xs, ys].map((area) => ({ ...area, top: area.top + row, bottom: area.top + row }));
    return { ...drawn, xValues: on(xRow!), values: on(yRow!) };
  });
}

function rangeOf(sheet: Sheet, reference: string): Area | undefined {
  const wanted = tableColumnOf(reference);
  if (!wanted) return areaOf(reference);
  const table = sheet.tables.find(({ name }) => name === wanted.table);
  return table && columnArea(table, wanted.heading);
}

/** The cells of a table's column, without its heading. */
function columnArea({ area, columns }: Table, heading: string): Area | undefined {
  const index = columns.indexOf(heading);
  return index < 0 ? undefined : { top: area.top + 1, bottom: area.bottom, left: area.left + index, right: area.left + index };
}

function setPage(file: excel.Worksheet, { area, landscape, onePage, repeated }: DescribedPrint): void {
  Object.assign(file.pageSetup, {
    printArea: area,
    orientation: landscape ? "landscape" : "portrait",
    fitToPage: true,
    fitToWidth: 1,
    // 0 is as many pages as it takes.
    fitToHeight: onePage ? 1 : 0,
    horizontalCentered: true,
    ...(repeated && { printTitlesRow: repeated }),
  });
}
