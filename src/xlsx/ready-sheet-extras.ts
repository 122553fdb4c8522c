/** What a ready sheet has in an .xlsx file besides its cells: native charts, limits of its input cells, and the page set-up. */
import type * as excel from "@cj-tech-master/excelts";
import { address, placeOf } from "../sheet/formula-text";
import type { UnitChoice } from "../sheet/unit-choice";
import { describedReadySheet } from "../ready-sheets/index";
import { seriesStyles } from "../ready-sheets/looks";
import type { FoundReadySheet } from "../ready-sheets/recognise";
import type { Allowed, DescribedChart, DescribedPrint, DescribedSeries } from "../ready-sheets/sheet-description";
import type { Sheet, Workbook } from "./workbook";
import type { KeptParts } from "./parts";

export async function addExtras(
  file: excel.Worksheet,
  sheet: Sheet,
  { id, copy }: FoundReadySheet,
  names: Workbook["names"],
  units: UnitChoice,
): Promise<void> {
  const { cells, tables, charts = [], print } = describedReadySheet(id, { units, copy });
  for (const { name, allowed } of Object.values(cells)) {
    const refersTo = allowed && names.find((one) => one.name === name)?.refersTo;
    if (allowed && refersTo) allow(file, refersTo.slice(refersTo.lastIndexOf("!") + 1).replaceAll("$", ""), allowed);
  }
  for (const table of tables) {
    const actual = sheet.tables.find(({ name }) => name === table.name);
    for (const { heading, allowed } of table.columns) {
      const index = actual?.columns.indexOf(heading) ?? -1;
      if (!actual || index < 0 || !allowed) continue;
      const column = actual.area.left + index;
      allow(file, `${address(actual.area.top + 1, column)}:${address(actual.area.bottom, column)}`, allowed);
    }
  }
  if (charts.length > 0) {
    const { installChartSupport } = await import(/* webpackChunkName: "xlsx-charts" */ "@cj-tech-master/excelts/chart");
    installChartSupport();
  }
  for (const chart of charts) addChart(file, sheet, chart);
  if (print) setPage(file, print);
}

/** What the ready sheets among the sheets bring into every copy. */
export function kept(readySheets: readonly FoundReadySheet[], units: UnitChoice): KeptParts {
  const charts = readySheets.map(({ id, copy }) => describedReadySheet(id, { units, copy }).charts?.length ?? 0);
  return { charts: charts.reduce((sum, count) => sum + count, 0), limitedSheets: readySheets.length };
}

function allow(file: excel.Worksheet, at: string, { least, most, whole, choices, words }: Allowed): void {
  const alert = { allowBlank: true, showErrorMessage: true, errorStyle: "stop", errorTitle: "Please check", error: words } as const;
  if (choices) file.dataValidations.add(at, { type: "list", formulae: [`"${choices.join(",")}"`], ...alert });
  else file.dataValidations.add(at, { type: whole ? "whole" : "decimal", operator: "between", formulae: [least ?? -1e9, most ?? 1e9], ...alert });
}

function addChart(file: excel.Worksheet, sheet: Sheet, { title, from, to, xTitle, yTitle, series }: DescribedChart): void {
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
      showLegend: series.length > 1 && !segments,
      legendPosition: "b",
      displayBlanksAs: "gap",
      categoryAxis: { title: text(xTitle), majorGridlines: false },
      valueAxis: { title: text(yTitle), majorGridlines: true },
    },
    `${from}:${to}`,
  );
}

type FileSeries = NonNullable<Parameters<excel.Worksheet["addScatterChart"]>[0]["series"]>[number];

function seriesOf(sheet: Sheet, { name, look, x, y }: DescribedSeries): FileSeries[] {
  const { color, line, dashed, marker, markerSize } = seriesStyles[look];
  const place = `'${sheet.name.replaceAll("'", "''")}'!`;
  const drawn = {
    name,
    smooth: false,
    ...(line !== undefined && { line: color, lineWidth: line, ...(dashed && { lineDash: "dash" as const }) }),
    marker: marker
      ? { symbol: marker === "diamond" ? ("diamond" as const) : ("circle" as const), size: markerSize, border: color, ...(marker !== "ring" && { fill: color }) }
      : { symbol: "none" as const },
  };
  const [xs, ys] = [rangeOf(sheet, x), rangeOf(sheet, y)];
  if (!xs || !ys) return [];
  if (look !== "segments") return [{ ...drawn, xValues: `${place}${absolute(xs)}`, values: `${place}${absolute(ys)}` }];
  return Array.from({ length: ys.bottom - ys.top + 1 }, (_, row) => {
    const [xRow, yRow] = [xs, ys].map((area) => ({ ...area, top: area.top + row, bottom: area.top + row }));
    return { ...drawn, xValues: `${place}${absolute(xRow!)}`, values: `${place}${absolute(yRow!)}` };
  });
}

type Area = Sheet["tables"][number]["area"];

function rangeOf(sheet: Sheet, reference: string): Area | undefined {
  const [, tableName, heading] = /^(\w+)\[(.+)\]$/.exec(reference) ?? [];
  if (tableName !== undefined && heading !== undefined) {
    const table = sheet.tables.find(({ name }) => name === tableName);
    const index = table?.columns.indexOf(heading) ?? -1;
    if (!table || index < 0) return undefined;
    const column = table.area.left + index;
    return { top: table.area.top + 1, bottom: table.area.bottom, left: column, right: column };
  }
  const [first = "", last = first] = reference.split(":");
  const [from, to] = [placeOf(first), placeOf(last)];
  return from && to && { top: from.row, left: from.column, bottom: to.row, right: to.column };
}

function absolute({ top, left, bottom, right }: Area): string {
  return [address(top, left), address(bottom, right)].map((at) => at.replace(/^([A-Z]+)(\d+)$/, "$$$1$$$2")).join(":");
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
