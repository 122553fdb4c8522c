/** Reads and writes .xlsx files. Loaded only when a file is opened or saved. */
import * as excel from "@cj-tech-master/excelts";
import { areaOf } from "../sheet/references";
import { unitsFromText } from "../sheet/unit-choice";
import { formulaFromFile, formulaToFile, needsArrayMark, type FunctionNames } from "./formula-in-file";
import { FileProblem } from "./file-problem";
import { describedReadySheet } from "../ready-sheets/index";
import type { SheetDescription } from "../ready-sheets/sheet-description";
import { describedSheet } from "./ready-sheet";
import { addExtras, kept } from "./ready-sheet-extras";
import { readySheetOn } from "./ready-sheets";
import { isErrorValue, putCell, type Area, type Cell, type CellErrorValue, type CellValue, type Sheet, type Table, type Workbook } from "./workbook";
import { lostIn, finished, openParts, readUnits, withReadParts, type Parts } from "./parts";
import { styleFromFile, styleToFile, themeColors, type ThemeColors } from "./styles";

/** Beyond this the grid is too slow to work in. */
const mostCells = 600_000;

export interface OpenedWorkbook {
  readonly workbook: Workbook;
  /** What the file holds that a copy saved here will not. */
  readonly lost: readonly string[];
}

export async function readXlsx(bytes: Uint8Array, fileName: string, ours: FunctionNames): Promise<OpenedWorkbook> {
  const parts = await partsOfWorkbook(bytes, fileName);
  const file = new excel.Workbook();
  try {
    await file.xlsx.load(await withReadParts(bytes, parts));
  } catch (error) {
    throw new FileProblem(`${fileName} is damaged and could not be read: ${error instanceof Error ? error.message : String(error)}`);
  }
  if (file.worksheets.length === 0) throw new FileProblem(`${fileName} holds no worksheet.`);
  const cells = file.worksheets.reduce((sum, sheet) => sum + sheet.actualRowCount * sheet.actualColumnCount, 0);
  if (cells > mostCells) {
    throw new FileProblem(`${fileName} holds about ${cells.toLocaleString("en")} cells; this page takes up to ${mostCells.toLocaleString("en")}.`);
  }
  const theme = themeColors(await parts.read("xl/theme/theme1.xml"));
  const workbook: Workbook = {
    sheets: file.worksheets.map((sheet) => sheetFromFile(sheet, theme, ours)),
    names: namesFromFile(file, ours),
    units: await readUnits(parts),
  };
  const readySheets = workbook.sheets.flatMap((sheet) => readySheetOn(workbook.names, sheet.name) ?? []);
  return { workbook, lost: await lostIn(parts, kept(readySheets, unitsFromText(workbook.units).choice)) };
}

async function partsOfWorkbook(bytes: Uint8Array, fileName: string): Promise<Parts> {
  if (bytes.length === 0) throw new FileProblem(`${fileName} is empty.`);
  if (bytes[0] === 0xd0 && bytes[1] === 0xcf) {
    throw new FileProblem(`${fileName} is an Excel workbook with a password, or of the old .xls kind. Save it in Excel as .xlsx without a password, then open that.`);
  }
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) {
    throw new FileProblem(`${fileName} is named .xlsx but is no Excel workbook. If it is a text file with columns, rename it to .csv and open that.`);
  }
  let parts: Parts;
  try {
    parts = await openParts(bytes);
  } catch {
    throw new FileProblem(`${fileName} is damaged: it begins like an Excel workbook but its end is missing or broken.`);
  }
  if (!parts.names.includes("xl/workbook.xml")) {
    const binary = parts.names.includes("xl/workbook.bin");
    throw new FileProblem(binary ? `${fileName} is a binary workbook. Save it in Excel as .xlsx, then open that.` : `${fileName} is no Excel workbook, but another kind of packed file.`);
  }
  return parts;
}

function sheetFromFile(file: excel.Worksheet, theme: ThemeColors, ours: FunctionNames): Sheet {
  const sheet: Sheet = { name: file.name, cells: [], columns: [], rows: [], merges: [], tables: [] };
  const spills: Area[] = [];
  // Cells that only have a look count too: they are what a person is to fill in.
  file.eachRow({ includeEmpty: true }, (row, rowNumber) => {
    if (row.height || row.hidden) sheet.rows[rowNumber - 1] = { height: row.height, hidden: row.hidden || undefined };
    row.eachCell({ includeEmpty: true }, (from, columnNumber) => {
      if (from.isMerged && from.master !== from) return;
      const cell = cellFromFile(from, ours);
      const style = styleFromFile(from.style as Partial<excel.Style>, theme);
      if (style) cell.style = style;
      if (Object.keys(cell).length === 0) return;
      putCell(sheet, rowNumber - 1, columnNumber - 1, cell);
      if (cell.spill) spills.push(areaOf((from.value as excel.CellArrayFormulaValue).ref)!);
    });
  });
  for (const spill of spills) clearResults(sheet, spill);
  file.columns?.forEach((column, index) => {
    if (column.width || column.hidden) sheet.columns[index] = { width: column.width, hidden: column.hidden || undefined };
  });
  sheet.merges = file.mergedRegions.map((region) => ({ top: region.top - 1, left: region.left - 1, bottom: region.bottom - 1, right: region.right - 1 }));
  sheet.tables = file.getTables().map((table) => tableFromFile(table.model as TableModel));
  const view = file.views[0];
  if (view?.state === "frozen") sheet.frozen = { rows: view.ySplit ?? 0, columns: view.xSplit ?? 0 };
  if (view?.showGridLines === false) sheet.gridlines = false;
  if (file.state !== "visible") sheet.hidden = true;
  return sheet;
}

/** The cells that a spilled formula fills carry its last results in the file; here the formula fills them again. */
function clearResults(sheet: Sheet, area: Area): void {
  for (let row = area.top; row <= area.bottom; row++) {
    for (let column = area.left; column <= area.right; column++) {
      const cell = sheet.cells[row]?.[column];
      if (cell && !(row === area.top && column === area.left)) delete cell.value;
    }
  }
}

function cellFromFile(from: excel.Cell, ours: FunctionNames): Cell {
  const value = from.value;
  if (value !== null && typeof value === "object" && ("formula" in value || "sharedFormula" in value)) {
    const formula = from.formula;
    const result = valueFromFile((value as excel.CellFormulaValue).result ?? null);
    const cell: Cell = {};
    if (formula) cell.formula = formulaFromFile(formula, ours);
    if (result !== undefined) cell.value = result;
    const { ref } = value as excel.CellArrayFormulaValue;
    if (ref?.includes(":")) {
      const area = areaOf(ref)!;
      cell.spill = { rows: area.bottom - area.top + 1, columns: area.right - area.left + 1 };
    }
    return cell;
  }
  const found = valueFromFile(value);
  return found === undefined ? {} : { value: found };
}

function valueFromFile(value: excel.CellValue): CellValue | undefined {
  if (value === null || value === undefined) return undefined;
  if (typeof value === "number" || typeof value === "boolean" || typeof value === "string") return value;
  if (value instanceof Date) return serialOf(value);
  if ("error" in value) return { error: value.error };
  if ("richText" in value && value.richText) return value.richText.map((piece) => piece.text).join("");
  if ("text" in value) return String(value.text ?? "");
  if ("checkbox" in value) return value.checkbox;
  return undefined;
}

/** Days since the end of 1899, which is how cells hold dates. */
function serialOf(date: Date): number {
  return (date.getTime() - Date.UTC(1899, 11, 30)) / 86_400_000;
}

interface TableModel {
  name: string;
  displayName?: string;
  tableRef?: string;
  ref: string;
  totalsRow?: boolean;
  columns: { name: string }[];
  style?: { theme?: string; showRowStripes?: boolean };
}

/** Excel’s lightest look, for a table whose cells have their own. Without a theme the library would write its default. */
const plainTheme = "TableStyleLight1";

function tableFromFile(model: TableModel): Table {
  const area = areaOf(model.tableRef ?? model.ref)!;
  if (model.totalsRow) area.bottom--;
  const table: Table = { name: model.displayName ?? model.name, area, columns: model.columns.map((column) => column.name) };
  const plain = !model.style?.theme || (model.style.theme === plainTheme && !model.style.showRowStripes);
  return plain ? { ...table, plain: true } : table;
}

function namesFromFile(file: excel.Workbook, ours: FunctionNames): Workbook["names"] {
  const names: Workbook["names"] = [];
  for (const { name, ranges, formulaExpression, hidden } of file.definedNames.model) {
    if (hidden || name.startsWith("_xlnm.")) continue;
    if (ranges.length > 0) names.push({ name, refersTo: ranges.join(",") });
    else if (formulaExpression) names.push({ name, refersTo: formulaFromFile(formulaExpression, ours) });
  }
  return names;
}

export async function writeXlsx(workbook: Workbook, ours: FunctionNames): Promise<Uint8Array> {
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
  return finished(new Uint8Array(await file.xlsx.writeBuffer()), workbook.units);
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
