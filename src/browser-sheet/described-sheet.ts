/** A described sheet as this page shows it. */
import { filled, placeOf } from "../sheet/formula-text";
import type { CellRole, DescribedTable, SheetDescription } from "../starters/sheet-description";
import { emptySheet, putCell, type CellStyle, type Sheet } from "./workbook";

const line = { line: "thin", color: "#c9c2b6" } as const;

const looks: { readonly [R in CellRole]: CellStyle } = {
  title: { bold: true, size: 16, vertical: "middle" },
  note: { color: "#5f5a52", vertical: "middle" },
  group: { bold: true, size: 10, color: "#5f5a52", horizontal: "left", vertical: "middle" },
  heading: { bold: true, size: 10, color: "#26221d", fill: "#ece7de", wrap: true, vertical: "middle", horizontal: "right", borders: { bottom: { line: "medium", color: "#7a5c3e" } } },
  label: { bold: true, vertical: "middle" },
  input: { fill: "#fffbea", vertical: "middle", borders: { top: line, right: line, bottom: line, left: line } },
  result: { vertical: "middle" },
};

/** Points. */
const titleHeight = 27;
const headingHeight = 33;

export function describedSheet(description: SheetDescription): Sheet {
  const sheet = emptySheet(description.name);
  sheet.columns = description.widths.map((width) => ({ width }));
  sheet.gridlines = false;
  if (description.frozenRows) sheet.frozen = { rows: description.frozenRows, columns: 0 };
  for (const table of description.tables) addTable(sheet, table);
  for (const [at, { role, value, formula, format }] of Object.entries(description.cells)) {
    const place = placeOf(at);
    if (!place) throw new Error(`“${at}” in the sheet ${description.name} is no address of a cell.`);
    const { row, column } = place;
    const style: CellStyle = format ? { ...looks[role], format } : looks[role];
    putCell(sheet, row, column, { value, formula, style });
    if (role === "title" && row === 0) sheet.rows[row] = { height: titleHeight };
    if (role === "heading" && String(value ?? "").length > (description.widths[column] ?? 0) - 1) sheet.rows[row] = { height: headingHeight };
  }
  return sheet;
}

function addTable(sheet: Sheet, table: DescribedTable): void {
  const { row: top, column: left } = placeOf(table.at)!;
  sheet.rows[top] = { height: headingHeight };
  table.columns.forEach(({ heading, role, format, values, formula }, index) => {
    const column = left + index;
    putCell(sheet, top, column, { value: heading, style: looks.heading });
    const style: CellStyle = format ? { ...looks[role], format } : looks[role];
    for (let row = 0; row < table.rows; row++) {
      const value = values?.[row];
      putCell(sheet, top + 1 + row, column, { value, formula: formula && filled(formula, row, 0), style });
    }
  });
  sheet.tables.push({
    name: table.name,
    area: { top, left, bottom: top + table.rows, right: left + table.columns.length - 1 },
    columns: table.columns.map((column) => column.heading),
    plain: true,
  });
}
