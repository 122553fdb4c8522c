/** Writes .xlsx files of workbooks that did not come from one. Loaded only when one is saved. */
import * as excel from "@cj-tech-master/excelts";
import { unitsFromText } from "../sheet/unit-choice";
import { formulaToFile, needsArrayMark, type FunctionNames } from "./formula-in-file";
import { describedReadySheet } from "../ready-sheets/index";
import type { SheetDescription } from "../ready-sheets/sheet-description";
import { describedSheet } from "./ready-sheet";
import { addExtras } from "./ready-sheet-extras";
import { readySheetOn } from "./ready-sheets";
import { isErrorValue, type Cell, type CellErrorValue, type CellValue, type Sheet, type Table, type Workbook } from "./workbook";
import { Package } from "./package";
import { finished } from "./parts";
import { patchFilter } from "./patch-filters";
import { styleToFile } from "./styles";
import { readWorkbookPart, worksheetPart } from "./workbook-part";

/** Excel’s lightest look, for a table whose cells have their own. Without a theme the library would write its default. */
const plainTheme = "TableStyleLight1";

/** What cannot be kept is added to `warnings`, as sentences. */
export async function writeXlsx(workbook: Workbook, ours: FunctionNames, warnings: string[] = []): Promise<Uint8Array> {
  const file = new excel.Workbook();
  file.creator = "Pucksheet";
  file.lastModifiedBy = "Pucksheet";
  const { choice } = unitsFromText(workbook.units);
  for (const sheet of workbook.sheets) {
    const to = file.addWorksheet(sheet.name);
    sheetToFile(to, sheet, ours);
    const readySheet = readySheetOn(workbook.names, sheet.name);
    if (readySheet) await addExtras(to, sheet, describedReadySheet(readySheet.id, { units: choice, copy: readySheet.copy }), workbook.names);
  }
  for (const { name, refersTo } of workbook.names) {
    if (/^[^(,]*![$A-Z0-9:]+$/i.test(refersTo)) file.definedNames.add(refersTo, name);
    else file.definedNames.addFormula(name, formulaToFile(refersTo, ours));
  }
  return withFilters(await finished(new Uint8Array(await file.xlsx.writeBuffer()), workbook.units), workbook, warnings);
}

/** The library knows no rules of filters. */
function withFilters(bytes: Uint8Array, { sheets }: Workbook, warnings: string[]): Uint8Array {
  if (!sheets.some(({ filter }) => filter)) return bytes;
  const file = new Package(bytes, "The new file");
  readWorkbookPart(file).sheets.forEach((entry, index) => warnings.push(...patchFilter(file, worksheetPart(file, entry)!, undefined, sheets[index]!)));
  return file.written();
}

/** A workbook of described sheets that hold values, and no formulas of ours. */
export async function writeDescribedSheets(descriptions: readonly SheetDescription[]): Promise<Uint8Array> {
  const file = new excel.Workbook();
  file.creator = "Pucksheet";
  file.lastModifiedBy = "Pucksheet";
  for (const description of descriptions) {
    const sheet = describedSheet(description);
    const to = file.addWorksheet(sheet.name);
    sheetToFile(to, sheet, new Set());
    await addExtras(to, sheet, description, []);
  }
  return new Uint8Array(await file.xlsx.writeBuffer());
}

function sheetToFile(file: excel.Worksheet, sheet: Sheet, ours: FunctionNames): void {
  for (const table of sheet.tables) tableToFile(file, sheet, table);
  for (const [rowIndex, line] of sheet.cells.entries()) {
    line?.forEach((cell, columnIndex) => {
      if (!cell) return;
      const to = file.getCell(rowIndex + 1, columnIndex + 1);
      const { value, formula, spill, style } = cell;
      if (formula !== undefined) to.value = formulaCell(formula, value, spill, to, ours);
      else if (value !== undefined) to.value = isErrorValue(value) ? errorToFile(value) : value;
      if (style) Object.assign(to, styleToFile(style));
    });
  }
  sheet.columns.forEach((column, index) => {
    if (!column) return;
    if (column.width !== undefined) file.getColumn(index + 1).width = column.width;
    if (column.hidden) file.getColumn(index + 1).hidden = true;
  });
  sheet.rows.forEach((row, index) => {
    if (!row) return;
    if (row.height !== undefined) file.getRow(index + 1).height = row.height;
    if (row.hidden) file.getRow(index + 1).hidden = true;
  });
  for (const { top, left, bottom, right } of sheet.merges) file.mergeCells(top + 1, left + 1, bottom + 1, right + 1);
  const view: Partial<excel.WorksheetView> = sheet.frozen ? { state: "frozen", ySplit: sheet.frozen.rows, xSplit: sheet.frozen.columns } : {};
  if (sheet.gridlines === false) view.showGridLines = false;
  file.views = [view];
  if (sheet.hidden) file.state = "hidden";
}

function formulaCell(formula: string, value: CellValue | undefined, spill: Cell["spill"], to: excel.Cell, ours: FunctionNames): excel.CellValue {
  const text = formulaToFile(formula, ours);
  const result = isErrorValue(value) ? errorToFile(value) : value;
  if (!spill && !needsArrayMark(formula, ours)) return { formula: text, result };
  const end = to.worksheet.getCell(Number(to.row) + (spill?.rows ?? 1) - 1, Number(to.col) + (spill?.columns ?? 1) - 1);
  return { formula: text, result, shareType: "array", ref: spill ? `${to.address}:${end.address}` : to.address, isDynamicArray: true };
}

function errorToFile({ error }: CellErrorValue): excel.CellErrorValue {
  return { error: error as excel.CellErrorValue["error"] };
}

function tableToFile(file: excel.Worksheet, sheet: Sheet, { name, area, columns, plain }: Table): void {
  // Its cells are written afterwards, like all others; the headings must be the very texts of those cells.
  const headings = columns.map((column, index) => {
    const text = sheet.cells[area.top]?.[area.left + index]?.value;
    return { name: typeof text === "string" && text !== "" ? text : column };
  });
  const rows = Array.from({ length: area.bottom - area.top }, () => columns.map(() => null));
  const style = plain ? { theme: plainTheme, showRowStripes: false } : { theme: "TableStyleMedium2", showRowStripes: true };
  file.addTable({ name, ref: file.getCell(area.top + 1, area.left + 1).address, headerRow: true, columns: headings, rows, style });
}
