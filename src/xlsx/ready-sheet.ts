/** A described sheet as this page shows it. */
import { filled } from "../sheet/formula-text";
import { absolute, areaOf, placeOf, sheetPrefix } from "../sheet/references";
import { headingHeight, lineColors, looks, type Look } from "../ready-sheets/looks";
import type { CellRole, DescribedTable, SheetDescription } from "../ready-sheets/sheet-description";
import { emptySheet, putCell, type CellStyle, type Sheet, type Workbook } from "./workbook";

export function describedSheet(description: SheetDescription): Sheet {
  const sheet = emptySheet(description.name);
  sheet.columns = description.widths.map((width) => ({ width }));
  sheet.gridlines = false;
  sheet.merges = (description.merged ?? []).map((area) => areaOf(area)!);
  const hidden = description.hidden === undefined ? undefined : areaOf(description.hidden)!;
  for (let column = hidden?.left ?? 0; hidden && column <= hidden.right; column++) sheet.columns[column] = { ...sheet.columns[column], hidden: true };
  if (description.frozenRows) sheet.frozen = { rows: description.frozenRows, columns: 0 };
  for (const table of description.tables) addTable(sheet, table);
  for (const [at, { role, value, formula, format }] of Object.entries(description.cells)) {
    const { row, column } = placeIn(description, at);
    putCell(sheet, row, column, { value, formula, style: styleOf(role, format) });
    const { height } = looks[role];
    if (height !== undefined) sheet.rows[row] = { height };
    if (role === "heading" && String(value ?? "").length > (description.widths[column] ?? 0) - 1) sheet.rows[row] = { height: headingHeight };
  }
  for (const [at, { role, formula, rows, formats, headings }] of Object.entries(description.spills ?? {})) {
    const { row: top, column: left } = placeIn(description, at);
    for (let row = 0; row < rows; row++) {
      formats.forEach((format, index) => putCell(sheet, top + row, left + index, { style: styleOf(headings && row === 0 ? "heading" : role, format) }));
    }
    putCell(sheet, top, left, { formula, style: styleOf(headings ? "heading" : role, formats[0]) });
  }
  return sheet;
}

/** The names that the description gives to cells of its sheet. */
export function describedNames({ name: sheet, cells }: SheetDescription): Workbook["names"] {
  return Object.entries(cells).flatMap(([at, { name }]) => (name ? [{ name, refersTo: `${sheetPrefix(sheet)}${absolute(at)}` }] : []));
}

function placeIn(description: SheetDescription, at: string): { row: number; column: number } {
  const place = placeOf(at);
  if (!place) throw new Error(`“${at}” in the sheet ${description.name} is no address of a cell.`);
  return place;
}

function addTable(sheet: Sheet, table: DescribedTable): void {
  const { row: top, column: left } = placeOf(table.at)!;
  sheet.rows[top] = { height: headingHeight };
  table.columns.forEach(({ heading, role, words, format, values, formula }, index) => {
    const column = left + index;
    putCell(sheet, top, column, { value: heading, style: styleOf(words ? "text heading" : "heading") });
    const style = styleOf(role, format);
    for (let row = 0; row < table.rows; row++) {
      const value = values?.[row];
      putCell(sheet, top + 1 + row, column, { value: value === "" ? undefined : value, formula: formula && filled(formula, row, 0), style });
    }
  });
  sheet.tables.push({
    name: table.name,
    area: { top, left, bottom: top + table.rows, right: left + table.columns.length - 1 },
    columns: table.columns.map((column) => column.heading),
    plain: true,
  });
}

function styleOf(role: CellRole, format?: string): CellStyle {
  const { bold, italic, size, color, fill, border, wrap, horizontal }: Look = looks[role];
  const line = { line: "thin", color: lineColors.all } as const;
  return {
    vertical: "middle",
    ...(bold && { bold }),
    ...(italic && { italic }),
    ...(size && { size }),
    ...(color && { color }),
    ...(fill && { fill }),
    ...(wrap && { wrap }),
    ...(horizontal && { horizontal }),
    ...(border === "all" && { borders: { top: line, right: line, bottom: line, left: line } }),
    ...(border === "bottom" && { borders: { bottom: { line: "medium", color: lineColors.bottom } as const } }),
    ...(format && { format }),
  };
}
