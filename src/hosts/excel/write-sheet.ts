/** Writes a described sheet into Excel: native tables, names, validation, charts and a page set-up. */
import { filled } from "../../sheet/formula-text";
import { absolute, columnName, moved } from "../../sheet/references";
import { headingHeight, lineColors, looks, type Look } from "../../ready-sheets/looks";
import type { Allowed, CellRole, DescribedColumn, DescribedPrint, DescribedTable, SheetDescription } from "../../ready-sheets/sheet-description";
import { addChart } from "./write-chart";

/** Excel takes lists of addresses up to 8,192 characters long. */
const mostAddresses = 8000;

/** Fills a new, empty sheet. The caller synchronises, and removes the sheet where that fails. */
export async function writeDescribedSheet(context: Excel.RequestContext, sheet: Excel.Worksheet, description: SheetDescription): Promise<void> {
  description.widths.forEach((width, index) => {
    sheet.getRange(`${columnName(index)}:${columnName(index)}`).format.columnWidth = pointsOfWidth(width);
  });
  sheet.showGridlines = false;
  for (const table of description.tables) writeTable(sheet, table);
  for (const [at, { name }] of Object.entries(description.cells)) if (name) context.workbook.names.add(name, sheet.getRange(at));
  // Formulas come after the tables and names that they refer to.
  for (const [at, { value, formula }] of Object.entries(description.cells)) {
    if (formula !== undefined) sheet.getRange(at).formulas = [[`=${formula}`]];
    else if (value !== undefined) sheet.getRange(at).values = [[value]];
  }
  for (const [at, { formula }] of Object.entries(description.spills ?? {})) sheet.getRange(at).formulas = [[`=${formula}`]];
  format(sheet, description);
  for (const area of description.merged ?? []) sheet.getRange(area).merge();
  if (description.hidden) sheet.getRange(description.hidden).columnHidden = true;
  if (description.frozenRows) sheet.freezePanes.freezeRows(description.frozenRows);
  if (description.print) setPage(sheet, description.print);
  await context.sync();
  for (const chart of description.charts ?? []) await addChart(context, sheet, chart);
}

function writeTable(sheet: Excel.Worksheet, { name, at, rows, columns }: DescribedTable): void {
  const heading = sheet.getRange(at).getResizedRange(0, columns.length - 1);
  heading.values = [columns.map((column) => column.heading)];
  const area = sheet.getRange(at).getResizedRange(rows, columns.length - 1);
  const table = sheet.tables.add(area, true);
  table.name = name;
  table.style = "TableStyleLight1";
  table.showFilterButton = false;
  table.showBandedRows = false;
  columns.forEach((column, index) => {
    const body = sheet.getRange(moved(at, 0, index)).getOffsetRange(1, 0).getResizedRange(rows - 1, 0);
    const { formula, values = [] } = column;
    if (formula !== undefined) body.formulas = Array.from({ length: rows }, (_, row) => [`=${filled(formula, row, 0)}`]);
    else if (values.length > 0) body.getCell(0, 0).getResizedRange(values.length - 1, 0).values = values.map((value) => [value ?? ""]);
    formatColumn(body, column);
  });
}

/** Number format and limits of a column of a table. */
export function formatColumn(body: Excel.Range, { format, allowed }: Pick<DescribedColumn, "format" | "allowed">): void {
  if (format) setFormat(body, format);
  if (allowed) allow(body, allowed);
}

/** One format for the whole range: Excel takes a single value for all of its cells. */
export function setFormat(range: Excel.Range, format: string): void {
  range.numberFormat = format as unknown as string[][];
}

export function allow(range: Excel.Range, { least, most, whole, choices, words }: Allowed): void {
  const limits = { formula1: least ?? -1e9, formula2: most ?? 1e9, operator: "Between" as const };
  if (choices) range.dataValidation.rule = { list: { inCellDropDown: true, source: choices.join(",") } };
  else range.dataValidation.rule = whole ? { wholeNumber: limits } : { decimal: limits };
  range.dataValidation.errorAlert = { title: "Please check", message: words, showAlert: true, style: "Stop" };
}

function format(sheet: Excel.Worksheet, description: SheetDescription): void {
  for (const [role, addresses] of addressesByRole(description)) {
    for (const list of listsOf(addresses)) wear(sheet.getRanges(list).format, looks[role]);
  }
  for (const [at, { format, allowed }] of Object.entries(description.cells)) {
    if (format) setFormat(sheet.getRange(at), format);
    if (allowed) allow(sheet.getRange(at), allowed);
  }
  for (const [at, { rows, formats }] of Object.entries(description.spills ?? {})) {
    formats.forEach((code, index) => code && setFormat(spillColumn(sheet, at, rows, index), code));
  }
  for (const [at, { role }] of Object.entries(description.cells)) {
    const { height } = looks[role];
    if (height !== undefined) sheet.getRange(at).format.rowHeight = height;
  }
  for (const table of description.tables) sheet.getRange(table.at).format.rowHeight = headingHeight;
}

/** A column of what a formula fills, as many rows as are described. */
export function spillColumn(sheet: Excel.Worksheet, at: string, rows: number, index: number): Excel.Range {
  return sheet.getRange(moved(at, 0, index)).getResizedRange(rows - 1, 0);
}

/** Addresses and ranges that share a look. */
function addressesByRole({ cells, tables, spills = {} }: SheetDescription): Map<CellRole, string[]> {
  const found = new Map<CellRole, string[]>();
  const add = (role: CellRole, address: string) => found.set(role, [...(found.get(role) ?? []), address]);
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

function listsOf(addresses: readonly string[]): string[] {
  const lists: string[] = [];
  for (const address of addresses) {
    const last = lists.at(-1);
    if (last !== undefined && last.length + address.length < mostAddresses) lists[lists.length - 1] = `${last},${address}`;
    else lists.push(address);
  }
  return lists;
}

function wear(format: Excel.RangeFormat, { bold, italic, size, color, fill, border, wrap, height, horizontal }: Look): void {
  if (bold) format.font.bold = true;
  if (italic) format.font.italic = true;
  if (size) format.font.size = size;
  if (color) format.font.color = color;
  if (fill) format.fill.color = fill;
  if (wrap) format.wrapText = true;
  if (height !== undefined) format.verticalAlignment = "Center";
  if (horizontal) format.horizontalAlignment = horizontal === "left" ? "Left" : "Right";
  if (!border) return;
  const sides = border === "all" ? (["EdgeTop", "EdgeRight", "EdgeBottom", "EdgeLeft", "InsideHorizontal"] as const) : (["EdgeBottom"] as const);
  for (const side of sides) {
    const line = format.borders.getItem(side);
    line.style = "Continuous";
    line.color = lineColors[border];
  }
}

function setPage(sheet: Excel.Worksheet, { area, landscape, onePage, repeated }: DescribedPrint): void {
  const page = sheet.pageLayout;
  page.setPrintArea(area);
  page.orientation = landscape ? "Landscape" : "Portrait";
  page.zoom = onePage ? { horizontalFitToPages: 1, verticalFitToPages: 1 } : { horizontalFitToPages: 1 };
  page.centerHorizontally = true;
  if (repeated) page.setPrintTitleRows(absolute(repeated));
}

/** A column's width in points, from characters of the default font: 7 pixels each, 5 for the margins, 4 pixels to 3 points. */
function pointsOfWidth(characters: number): number {
  return (characters * 7 + 5) * 0.75;
}
