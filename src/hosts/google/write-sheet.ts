/** Writes a described sheet into a Google Sheet. What it has no match for: tables (headings and rows of cells stand instead) and the page set-up. */
import { filled } from "../../sheet/formula-text";
import { columnIndex, moved, placeOf } from "../../sheet/references";
import { headingHeight, lineColors, looks, seriesStyles } from "../../ready-sheets/looks";
import type { Allowed, CellRole, DescribedChart, DescribedTable, SheetDescription } from "../../ready-sheets/sheet-description";
import { formulaForGoogle, type Tables } from "./formulas";

type Sheet = GoogleAppsScript.Spreadsheet.Sheet;
type Range = GoogleAppsScript.Spreadsheet.Range;

/** A point is 4/3 of a pixel. */
const pixelsOfPoint = 4 / 3;

/** Fills a new, empty sheet. `tables` are those of all sheets that are started together. */
export function writeDescribedSheet(book: GoogleAppsScript.Spreadsheet.Spreadsheet, sheet: Sheet, description: SheetDescription, tables: Tables): void {
  makeRoom(sheet, description);
  description.widths.forEach((width, index) => sheet.setColumnWidth(index + 1, width * 7 + 5));
  sheet.setHiddenGridlines(true);
  const setFormula = (at: string, formula: string): void => {
    sheet.getRange(at).setFormula(formulaForGoogle(formula, tables, { sheet: description.name, row: placeOf(at)!.row }));
  };
  for (const [at, { name }] of Object.entries(description.cells)) if (name) book.setNamedRange(name, sheet.getRange(at));
  for (const table of description.tables) writeTable(sheet, table, setFormula);
  for (const [at, { value, formula }] of Object.entries(description.cells)) {
    if (formula !== undefined) setFormula(at, formula);
    else if (value !== undefined) sheet.getRange(at).setValue(value);
  }
  for (const [at, { formula }] of Object.entries(description.spills ?? {})) setFormula(at, formula);
  wear(sheet, description);
  for (const area of description.merged ?? []) sheet.getRange(area).merge();
  if (description.hidden) {
    const [from, to] = description.hidden.split(":").map(columnIndex) as [number, number];
    sheet.hideColumns(from + 1, to - from + 1);
  }
  if (description.frozenRows) sheet.setFrozenRows(description.frozenRows);
  for (const chart of description.charts ?? []) addChart(sheet, chart);
}

/** A new sheet has 1,000 rows and 26 columns. */
function makeRoom(sheet: Sheet, { cells, tables, spills = {}, hidden }: SheetDescription): void {
  const ends = [
    ...Object.keys(cells).map((at) => placeOf(at)!),
    ...tables.map(({ at, rows, columns }) => placeOf(moved(at, rows, columns.length))!),
    ...Object.entries(spills).map(([at, { rows, formats }]) => placeOf(moved(at, rows, formats.length))!),
  ];
  const rows = Math.max(...ends.map(({ row }) => row)) + 1;
  const columns = Math.max(...ends.map(({ column }) => column), hidden ? columnIndex(hidden.split(":")[1]!) : 0) + 1;
  if (rows > sheet.getMaxRows()) sheet.insertRowsAfter(sheet.getMaxRows(), rows - sheet.getMaxRows());
  if (columns > sheet.getMaxColumns()) sheet.insertColumnsAfter(sheet.getMaxColumns(), columns - sheet.getMaxColumns());
}

function writeTable(sheet: Sheet, { at, rows, columns }: DescribedTable, setFormula: (at: string, formula: string) => void): void {
  columns.forEach(({ heading, formula, values = [], format, allowed }, index) => {
    const head = moved(at, 0, index);
    sheet.getRange(head).setValue(heading);
    const [first, last] = [moved(head, 1, 0), moved(head, rows, 0)];
    if (formula !== undefined) for (let row = 0; row < rows; row++) setFormula(moved(first, row, 0), filled(formula, row, 0));
    else if (values.length > 0) sheet.getRange(`${first}:${moved(first, values.length - 1, 0)}`).setValues(values.map((value) => [value ?? ""]));
    const body = sheet.getRange(`${first}:${last}`);
    if (format) body.setNumberFormat(format);
    if (allowed) body.setDataValidation(rule(allowed, first));
  });
}

/** What a cell takes; `first` is the address of the first of those that share the rule. */
export function rule({ least, most, whole, choices, words }: Allowed, first: string): GoogleAppsScript.Spreadsheet.DataValidation {
  const builder = SpreadsheetApp.newDataValidation().setAllowInvalid(false).setHelpText(words);
  if (choices) return builder.requireValueInList([...choices], true).build();
  const [low, high] = [least ?? -1e9, most ?? 1e9];
  if (!whole) return builder.requireNumberBetween(low, high).build();
  return builder.requireFormulaSatisfied(`=AND(ISNUMBER(${first}),${first}=INT(${first}),${first}>=${low},${first}<=${high})`).build();
}

function wear(sheet: Sheet, description: SheetDescription): void {
  for (const [role, areas] of areasByRole(description)) for (const area of areas) dress(sheet.getRange(area), role);
  for (const [at, { role, format, allowed }] of Object.entries(description.cells)) {
    const range = sheet.getRange(at);
    if (format) range.setNumberFormat(format);
    if (allowed) range.setDataValidation(rule(allowed, at));
    const { height } = looks[role];
    if (height !== undefined) sheet.setRowHeight(placeOf(at)!.row + 1, Math.round(height * pixelsOfPoint));
  }
  for (const { at } of description.tables) sheet.setRowHeight(placeOf(at)!.row + 1, Math.round(headingHeight * pixelsOfPoint));
  for (const [at, { rows, formats }] of Object.entries(description.spills ?? {})) {
    formats.forEach((format, index) => {
      if (format) sheet.getRange(`${moved(at, 0, index)}:${moved(at, rows - 1, index)}`).setNumberFormat(format);
    });
  }
}

function areasByRole({ cells, tables, spills = {} }: SheetDescription): Map<CellRole, string[]> {
  const found = new Map<CellRole, string[]>();
  const add = (role: CellRole, area: string) => found.set(role, [...(found.get(role) ?? []), area]);
  for (const [at, { role }] of Object.entries(cells)) add(role, at);
  for (const { at, rows, columns } of tables) {
    columns.forEach(({ words }, index) => add(words ? "text heading" : "heading", moved(at, 0, index)));
    columns.forEach(({ role }, index) => add(role, `${moved(at, 1, index)}:${moved(at, rows, index)}`));
  }
  for (const [at, { role, rows, formats, headings }] of Object.entries(spills)) {
    if (role !== "result") add(role, `${at}:${moved(at, rows - 1, formats.length - 1)}`);
    if (headings) add("heading", `${at}:${moved(at, 0, formats.length - 1)}`);
  }
  return found;
}

function dress(range: Range, role: CellRole): void {
  const { bold, italic, size, color, fill, border, wrap, height, horizontal } = looks[role];
  if (bold) range.setFontWeight("bold");
  if (italic) range.setFontStyle("italic");
  if (size) range.setFontSize(size);
  if (color) range.setFontColor(color);
  if (fill) range.setBackground(fill);
  if (wrap) range.setWrap(true);
  if (height !== undefined) range.setVerticalAlignment("middle");
  if (horizontal) range.setHorizontalAlignment(horizontal);
  const solid = SpreadsheetApp.BorderStyle.SOLID;
  if (border === "all") range.setBorder(true, true, true, true, true, true, lineColors.all, solid);
  else if (border === "bottom") range.setBorder(null, null, true, null, null, null, lineColors.bottom, SpreadsheetApp.BorderStyle.SOLID_MEDIUM);
}

/** A scatter chart there has one column of x, so only the series over the x of its points are drawn; the words beside it say the rest. */
function addChart(sheet: Sheet, { title, from, to, xTitle, yTitle, series }: DescribedChart): void {
  const x = (series.find(({ look }) => look === "points" || look === "marked line") ?? series[0])!.x;
  const drawn = series.filter((one) => one.x === x);
  const [start, end] = [placeOf(from)!, placeOf(to)!];
  let width = 0;
  for (let column = start.column; column <= end.column; column++) width += sheet.getColumnWidth(column + 1);
  const said = (at: string): string => String(sheet.getRange(at).getDisplayValue());
  const builder = sheet.newChart().setChartType(Charts.ChartType.SCATTER).addRange(sheet.getRange(x));
  for (const { y } of drawn) builder.addRange(sheet.getRange(y));
  const looksOf = Object.fromEntries(
    drawn.map(({ name, look }, index) => {
      const { color, line = 0, markerSize = 0 } = seriesStyles[look];
      return [index, { labelInLegend: name, color, lineWidth: line, pointSize: markerSize }];
    }),
  );
  const chart = builder
    .setPosition(start.row + 1, start.column + 1, 0, 0)
    .setOption("title", title)
    .setOption("hAxis.title", said(xTitle))
    .setOption("vAxis.title", said(yTitle))
    .setOption("series", looksOf)
    .setOption("width", width)
    .setOption("height", (end.row - start.row + 1) * 21)
    .build();
  sheet.insertChart(chart);
}

/** The tables of descriptions, for their formulas. */
export function tablesOf(descriptions: readonly SheetDescription[]): Tables {
  return new Map(descriptions.flatMap(({ name, tables }) => tables.map((table) => [table.name.toLowerCase(), { sheet: name, table }] as const)));
}
