/** Our workbook, made from what the grid holds. */
import { BooleanNumber, CellValueType, type ICellData, type IRange, type IWorkbookData, type IWorksheetData, type Nullable } from "@univerjs/core";
import type { FormulaDataModel } from "@univerjs/engine-formula";
import type { ITableJson } from "@univerjs/sheets-table";
import { filled } from "../../../sheet/formula-text";
import { isErrorCode } from "../error-words";
import { isErrorValue, putCell, type Area, type Cell, type CellValue, type Filter, type Sheet, type Workbook } from "../../../xlsx/workbook";
import { pixelsOfPoint, plainTable, styleFromSnapshot, widthOfPixels, type CellExtras, type FilterInGrid } from "./snapshot";

/** Rows by index, and cells by column. */
export type Matrix<T> = Record<string, Record<string, T | null | undefined> | undefined>;

export function workbookFrom(data: IWorkbookData, formulas: FormulaDataModel): Workbook {
  const resource = <T>(name: string): T | undefined => {
    const text = data.resources?.find((entry) => entry.name === name)?.data;
    return text ? (JSON.parse(text) as T) : undefined;
  };
  const tables = resource<Record<string, { tables: ITableJson[] }>>("SHEET_TABLE_PLUGIN") ?? {};
  const names = resource<Record<string, NameInGrid>>("SHEET_DEFINED_NAME_PLUGIN") ?? {};
  const filters = resource<Record<string, FilterInGrid | undefined>>("SHEET_FILTER_PLUGIN") ?? {};
  return {
    sheets: data.sheetOrder.map((id) => {
      const sheet = sheetFrom(data, id, tables[id]?.tables ?? [], formulas);
      const filter = filters[id];
      if (filter) sheet.filter = filterFrom(filter);
      // What a filter leaves out is a hidden row to everything else.
      for (const row of filter?.cachedFilteredOut ?? []) sheet.rows[row] = { ...sheet.rows[row], hidden: true };
      return sheet;
    }),
    names: Object.values(names).map(({ name, formulaOrRefString, localSheetId }) => {
      const sheet = localSheetId === undefined ? undefined : data.sheets[localSheetId]?.name;
      return { name, refersTo: formulaOrRefString.replace(/^=/, ""), ...(sheet !== undefined && { sheet }) };
    }),
  };
}

function filterFrom({ ref, filterColumns = [] }: FilterInGrid): Filter {
  return {
    area: areaOf(ref),
    columns: filterColumns.map(({ colId, filters, customFilters }) => ({
      column: colId,
      ...(filters && { values: (filters.filters ?? []).map(String), ...(filters.blank && { blanks: true as const }) }),
      ...(customFilters && {
        conditions: customFilters.customFilters.map(({ operator, val }) => ({ ...(operator !== undefined && { operator }), value: String(val) })),
        ...(customFilters.and === BooleanNumber.TRUE && { all: true as const }),
      }),
    })),
  };
}

interface NameInGrid {
  readonly name: string;
  readonly formulaOrRefString: string;
  readonly localSheetId?: string;
}

function sheetFrom(data: IWorkbookData, id: string, tables: readonly ITableJson[], formulas: FormulaDataModel): Sheet {
  const from = data.sheets[id] as IWorksheetData;
  const sheet: Sheet = { name: from.name, cells: [], columns: [], rows: [], merges: [], tables: [] };
  const spills = (formulas.getArrayFormulaRange()[data.id]?.[id] ?? {}) as Matrix<IRange>;
  const results = (formulas.getArrayFormulaCellData()[data.id]?.[id] ?? {}) as Matrix<ICellData>;
  const cellData = from.cellData as Matrix<ICellData>;
  const shared = sharedFormulas(cellData);
  for (const [row, line] of Object.entries(cellData)) {
    for (const [column, own] of Object.entries(line ?? {})) {
      if (!own) continue;
      const cell = cellFrom(own, formulaIn(own, Number(row), Number(column), shared));
      const style = styleFromSnapshot(typeof own.s === "string" ? data.styles[own.s] : own.s);
      if (style) cell.style = style;
      // A result that found no room fills nothing.
      const area = cell.formula === undefined || (isErrorValue(cell.value) && cell.value.error === "#SPILL!") ? undefined : spills[row]?.[column];
      if (area && (area.endRow > area.startRow || area.endColumn > area.startColumn)) {
        cell.spill = { rows: area.endRow - area.startRow + 1, columns: area.endColumn - area.startColumn + 1 };
      }
      if (Object.keys(cell).length > 0) putCell(sheet, Number(row), Number(column), cell);
    }
  }
  addSpilledValues(sheet, results);
  for (const [index, column] of Object.entries(from.columnData ?? {})) {
    const width = column?.w === undefined ? undefined : widthOfPixels(column.w);
    sheet.columns[Number(index)] = { width, hidden: column?.hd === BooleanNumber.TRUE || undefined };
  }
  for (const [index, row] of Object.entries(from.rowData ?? {})) {
    const height = row?.h === undefined || row.ia === BooleanNumber.TRUE ? undefined : Math.round((row.h / pixelsOfPoint) * 100) / 100;
    if (height !== undefined || row?.hd === BooleanNumber.TRUE) sheet.rows[Number(index)] = { height, hidden: row?.hd === BooleanNumber.TRUE || undefined };
  }
  sheet.merges = (from.mergeData ?? []).map(areaOf);
  sheet.tables = tables.map(({ name, range, columns, options }) => ({
    name,
    area: areaOf(range),
    columns: columns.map((column) => column.displayName),
    ...(options.tableStyleId === plainTable && { plain: true }),
  }));
  if (from.freeze && (from.freeze.xSplit > 0 || from.freeze.ySplit > 0)) sheet.frozen = { rows: from.freeze.ySplit, columns: from.freeze.xSplit };
  if (from.showGridlines === BooleanNumber.FALSE) sheet.gridlines = false;
  if (from.hidden === BooleanNumber.TRUE) sheet.hidden = true;
  return sheet;
}

function areaOf({ startRow, startColumn, endRow, endColumn }: Pick<IRange, "startRow" | "startColumn" | "endRow" | "endColumn">): Area {
  return { top: startRow, left: startColumn, bottom: endRow, right: endColumn };
}

interface SharedFormula {
  readonly text: string;
  readonly row: number;
  readonly column: number;
}

/** Formulas that cells share, by their ids. The library's own way to look one up goes through the whole sheet for each cell. */
function sharedFormulas(cellData: Matrix<ICellData>): Map<string, SharedFormula> {
  const shared = new Map<string, SharedFormula>();
  for (const [row, line] of Object.entries(cellData)) {
    for (const [column, cell] of Object.entries(line ?? {})) {
      if (cell?.si && cell.f && !shared.has(cell.si)) shared.set(cell.si, { text: cell.f, row: Number(row), column: Number(column) });
    }
  }
  return shared;
}

function formulaIn({ f, si }: ICellData, row: number, column: number, shared: ReadonlyMap<string, SharedFormula>): string | undefined {
  if (f) return f;
  const found = si ? shared.get(si) : undefined;
  return found && filled(found.text, row - found.row, column - found.column);
}

function cellFrom(own: ICellData, formula: Nullable<string>): Cell {
  const cell: Cell = {};
  const { kept, keptFormula } = (own.custom ?? {}) as CellExtras;
  if (formula) cell.formula = formula.replace(/^=/, "");
  else if (keptFormula !== undefined) cell.formula = keptFormula;
  if (kept !== undefined) cell.kept = kept;
  const value = valueFrom(own);
  if (value !== undefined) cell.value = value;
  return cell;
}

export function valueFrom(cell: ICellData): CellValue | undefined {
  const { v, t } = cell;
  if (v === null || v === undefined || v === "") return cell.p?.body?.dataStream?.replace(/\r\n$/, "") || undefined;
  if (t === CellValueType.BOOLEAN) return v === 1 || v === true || v === "1";
  if (isErrorCode(v)) return { error: v };
  if (t === CellValueType.NUMBER) return Number(v);
  return v;
}

/** The results that a formula puts into other cells stand apart from the cells in the grid. */
function addSpilledValues(sheet: Sheet, results: Matrix<ICellData>): void {
  for (const [row, line] of Object.entries(results)) {
    for (const [column, result] of Object.entries(line ?? {})) {
      const value = result ? valueFrom(result) : undefined;
      if (value === undefined) continue;
      const existing = sheet.cells[Number(row)]?.[Number(column)];
      if (existing?.value !== undefined) continue;
      putCell(sheet, Number(row), Number(column), { ...existing, value, spilled: true });
    }
  }
}
