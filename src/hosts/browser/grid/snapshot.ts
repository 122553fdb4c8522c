/** A workbook as the grid holds it, made from ours. */
import {
  BooleanNumber,
  BorderStyleTypes,
  CellValueType,
  HorizontalAlign,
  LocaleType,
  VerticalAlign,
  WrapStrategy,
  type IBorderData,
  type ICellData,
  type IStyleData,
  type IWorkbookData,
  type IWorksheetData,
  type Nullable,
} from "@univerjs/core";
import type { ITableJson } from "@univerjs/sheets-table";
import { filled } from "../../../sheet/formula-text";
import { mostColumns, mostRows } from "../../../sheet/references";
import { cellsOf, isErrorValue, type BorderLine, type Cell, type CellStyle, type Filter, type Sheet, type Table, type Workbook } from "../../../xlsx/workbook";

/** What a cell of the grid carries of ours. */
export interface CellExtras {
  /** The words for an error value. */
  message?: string;
  /** Why the cell shows the value of its file instead of calculating its formula. */
  kept?: string;
  /** That formula; none where the formula stands in another cell. */
  keptFormula?: string;
}

export const defaultRowHeight = 20;
export const defaultColumnWidth = 72;
/** A character's width and a cell's margins in pixels, at the default font of a file. */
const characterWidth = 7;
const cellMargins = 5;

export function pixelsOfWidth(characters: number): number {
  return Math.round(characters * characterWidth + cellMargins);
}

export function widthOfPixels(pixels: number): number {
  return Math.round(((pixels - cellMargins) / characterWidth) * 100) / 100;
}

export const pixelsOfPoint = 96 / 72;

/** In place of the sheet on which alone a name is known. */
export const wholeWorkbook = "AllDefaultWorkbook";

export function snapshotOf(workbook: Workbook, id: string): IWorkbookData {
  const styles = new StyleTable();
  const sheets: IWorkbookData["sheets"] = {};
  const tables: Record<string, { tables: ITableJson[] }> = {};
  const filters: Record<string, FilterInGrid> = {};
  const sheetOrder: string[] = [];
  workbook.sheets.forEach((sheet, index) => {
    const sheetId = `sheet${index + 1}`;
    sheetOrder.push(sheetId);
    sheets[sheetId] = sheetSnapshot(sheet, sheetId, styles);
    if (sheet.filter) filters[sheetId] = filterSnapshot(sheet.filter, sheet.rows);
    if (sheet.tables.length > 0) tables[sheetId] = { tables: sheet.tables.map((table, position) => tableSnapshot(table, `${sheetId}table${position + 1}`)) };
  });
  const names = Object.fromEntries(
    workbook.names.map(({ name, refersTo, sheet }, index) => {
      const nameId = `name${index + 1}`;
      const isReference = /^(?:'(?:[^']|'')+'|[^'!()]+)![$A-Z0-9:]+$/i.test(refersTo);
      const localSheetId = sheetOrder[workbook.sheets.findIndex((it) => it.name === sheet)] ?? wholeWorkbook;
      return [nameId, { id: nameId, name, formulaOrRefString: isReference ? refersTo : `=${refersTo}`, localSheetId }];
    }),
  );
  return {
    id,
    name: "",
    appVersion: "",
    locale: LocaleType.EN_US,
    sheetOrder,
    sheets,
    styles: styles.byId,
    // Tables and names have to be there before the formulas that use them are first calculated.
    resources: [
      { name: "SHEET_DEFINED_NAME_PLUGIN", data: JSON.stringify(names) },
      { name: "SHEET_TABLE_PLUGIN", data: JSON.stringify(tables) },
      { name: "SHEET_FILTER_PLUGIN", data: JSON.stringify(filters) },
    ],
  };
}

/** As the library's filters are saved; their columns are those of the sheet. */
export interface FilterInGrid {
  readonly ref: { readonly startRow: number; readonly startColumn: number; readonly endRow: number; readonly endColumn: number };
  readonly filterColumns?: readonly {
    readonly colId: number;
    readonly filters?: { readonly blank?: true; readonly filters?: readonly string[] };
    readonly customFilters?: { readonly and?: BooleanNumber; readonly customFilters: readonly { readonly operator?: string; readonly val: string | number }[] };
  }[];
  readonly cachedFilteredOut?: readonly number[];
}

function filterSnapshot({ area: { top, left, bottom, right }, columns }: Filter, rows: Sheet["rows"]): FilterInGrid {
  return {
    ref: { startRow: top, startColumn: left, endRow: bottom, endColumn: right },
    filterColumns: columns.map(({ column, values, blanks, conditions, all }) => ({
      colId: column,
      ...(values && { filters: { filters: values, ...(blanks && { blank: true }) } }),
      ...(conditions && {
        customFilters: { customFilters: conditions.map(({ operator, value }) => ({ operator, val: value })), ...(all && { and: BooleanNumber.TRUE }) },
      }),
    })),
    cachedFilteredOut: columns.length === 0 ? [] : rows.flatMap((row, index) => (row?.hidden && index > top && index <= bottom ? [index] : [])),
  };
}

/** Rows that a filter leaves out come back when it goes, so that they are not hidden ones. */
function isFilteredOut({ filter }: Sheet, row: number): boolean {
  return filter !== undefined && filter.columns.length > 0 && row > filter.area.top && row <= filter.area.bottom;
}

function sheetSnapshot(sheet: Sheet, id: string, styles: StyleTable): Partial<IWorksheetData> {
  const cellData: Record<number, Record<number, ICellData>> = {};
  const shared = new Map<string, string>();
  let lastColumn = 0;
  for (const { row, column, cell } of cellsOf(sheet)) {
    (cellData[row] ??= {})[column] = cellSnapshot(cell, row, column, styles, shared);
    if (column > lastColumn) lastColumn = column;
  }
  const columnData: IWorksheetData["columnData"] = {};
  sheet.columns.forEach((column, index) => {
    if (column) columnData[index] = { ...(column.width !== undefined && { w: pixelsOfWidth(column.width) }), hd: flag(column.hidden) };
  });
  const rowData: IWorksheetData["rowData"] = {};
  sheet.rows.forEach((row, index) => {
    const height = row?.height === undefined ? {} : { h: Math.round(row.height * pixelsOfPoint), ia: BooleanNumber.FALSE };
    if (row) rowData[index] = { ...height, hd: flag(row.hidden && !isFilteredOut(sheet, index)) };
  });
  const { rows: ySplit = 0, columns: xSplit = 0 } = sheet.frozen ?? {};
  const areas = [...sheet.merges, ...sheet.tables.map(({ area }) => area)];
  const lastRow = areas.reduce((last, { bottom }) => Math.max(last, bottom), Math.max(sheet.cells.length, sheet.rows.length));
  return {
    id,
    name: sheet.name,
    rowCount: Math.min(mostRows, Math.max(200, lastRow + 100)),
    columnCount: Math.min(mostColumns, Math.max(26, areas.reduce((last, { right }) => Math.max(last, right), Math.max(lastColumn, sheet.columns.length)) + 10)),
    defaultColumnWidth: sheet.defaultWidth === undefined ? defaultColumnWidth : pixelsOfWidth(sheet.defaultWidth),
    defaultRowHeight: sheet.defaultHeight === undefined ? defaultRowHeight : Math.round(sheet.defaultHeight * pixelsOfPoint),
    cellData,
    columnData,
    rowData,
    mergeData: sheet.merges.map(({ top, left, bottom, right }) => ({ startRow: top, startColumn: left, endRow: bottom, endColumn: right })),
    freeze: { xSplit, ySplit, startRow: ySplit || -1, startColumn: xSplit || -1 },
    hidden: flag(sheet.hidden),
    showGridlines: flag(sheet.gridlines !== false),
  };
}

function flag(value: boolean | undefined): BooleanNumber {
  return value ? BooleanNumber.TRUE : BooleanNumber.FALSE;
}

function cellSnapshot(cell: Cell, row: number, column: number, styles: StyleTable, shared: Map<string, string>): ICellData {
  const data: ICellData = {};
  const { formula, style, kept } = cell;
  // What a formula in another cell fills is that formula's to fill again; as a value of its own it would be in the way.
  const value = cell.spilled ? undefined : cell.value;
  if (kept !== undefined) {
    data.custom = { kept, ...(formula !== undefined && { keptFormula: formula }) } satisfies CellExtras;
  } else if (formula !== undefined) {
    // Formulas that are filled down share one entry: the engine is several times faster with them.
    const key = relative(formula, row, column);
    const known = shared.get(key);
    if (known) data.si = known;
    else {
      data.si = `f${shared.size + 1}`;
      data.f = `=${formula}`;
      shared.set(key, data.si);
    }
  }
  if (value !== undefined && (formula === undefined || kept !== undefined)) {
    if (isErrorValue(value)) Object.assign(data, { v: value.error, t: CellValueType.STRING });
    else if (typeof value === "number") Object.assign(data, { v: value, t: CellValueType.NUMBER });
    else if (typeof value === "boolean") Object.assign(data, { v: value ? 1 : 0, t: CellValueType.BOOLEAN });
    else Object.assign(data, { v: value, t: readsOtherwise(value) ? CellValueType.FORCE_STRING : CellValueType.STRING });
  }
  if (style) data.s = styles.idOf(style);
  return data;
}

/** Whether a text would become something else if it were typed: it must stay the text that it is when the cell is edited. */
export function readsOtherwise(text: string): boolean {
  return /^[=+\-@]/.test(text) || /^\s*[\d.,]/.test(text) || /^(true|false)$/i.test(text);
}

/** The formula as it would read in one and the same cell, far from the edges so that its references stay on the sheet. */
function relative(formula: string, row: number, column: number): string {
  const moved = filled(formula, 500_000 - row, 8_000 - column);
  return moved.includes("#REF!") ? `${formula} in row ${row}, column ${column}` : moved;
}

export const plainTable = "plain";
const bandedTable = "banded";

/** The looks of tables; the first is that of a table whose cells have a look of their own. */
export const tableThemes = [
  { name: plainTable, style: {} },
  { name: bandedTable, style: { headerRowStyle: { bg: { rgb: "#6b4f37" }, cl: { rgb: "#ffffff" } }, secondRowStyle: { bg: { rgb: "#f6f2ec" } } } },
];

function tableSnapshot(table: Table, id: string): ITableJson {
  const { top, left, bottom, right } = table.area;
  return {
    id,
    name: table.name,
    range: { startRow: top, startColumn: left, endRow: bottom, endColumn: right },
    options: { showHeader: !table.headless, showFooter: false, tableStyleId: table.plain ? plainTable : bandedTable },
    filters: { tableColumnFilterList: [] },
    columns: table.columns.map((displayName, index) => ({
      id: `${id}column${index + 1}`,
      displayName,
      dataType: "string",
      formula: "",
      meta: {},
      style: {},
    })) as unknown as ITableJson["columns"],
    meta: {},
  };
}

/** Styles by what they say, so that cells that look alike share one. */
class StyleTable {
  readonly byId: Record<string, IStyleData> = {};
  private readonly ids = new Map<string, string>();

  idOf(style: CellStyle): string {
    const data = styleSnapshot(style);
    const key = JSON.stringify(data);
    let id = this.ids.get(key);
    if (!id) {
      id = `s${this.ids.size + 1}`;
      this.ids.set(key, id);
      this.byId[id] = data;
    }
    return id;
  }
}

const horizontals = { left: HorizontalAlign.LEFT, center: HorizontalAlign.CENTER, right: HorizontalAlign.RIGHT } as const;
const verticals = { top: VerticalAlign.TOP, middle: VerticalAlign.MIDDLE, bottom: VerticalAlign.BOTTOM } as const;
const lines: Record<BorderLine, BorderStyleTypes> = {
  thin: BorderStyleTypes.THIN,
  hair: BorderStyleTypes.HAIR,
  dotted: BorderStyleTypes.DOTTED,
  dashed: BorderStyleTypes.DASHED,
  double: BorderStyleTypes.DOUBLE,
  medium: BorderStyleTypes.MEDIUM,
  thick: BorderStyleTypes.THICK,
};
const sides = { top: "t", right: "r", bottom: "b", left: "l" } as const;

export function styleSnapshot(style: CellStyle): IStyleData {
  const data: IStyleData = {};
  if (style.bold) data.bl = BooleanNumber.TRUE;
  if (style.italic) data.it = BooleanNumber.TRUE;
  if (style.underline) data.ul = { s: BooleanNumber.TRUE };
  if (style.strike) data.st = { s: BooleanNumber.TRUE };
  if (style.font) data.ff = style.font;
  if (style.size) data.fs = style.size;
  if (style.color) data.cl = { rgb: style.color };
  if (style.fill) data.bg = { rgb: style.fill };
  if (style.format) data.n = { pattern: style.format };
  if (style.horizontal) data.ht = horizontals[style.horizontal];
  if (style.vertical) data.vt = verticals[style.vertical];
  if (style.wrap) data.tb = WrapStrategy.WRAP;
  if (style.borders) {
    const borders: IBorderData = {};
    for (const [side, edge] of Object.entries(style.borders)) {
      borders[sides[side as keyof typeof sides]] = { s: lines[edge.line], cl: { rgb: edge.color ?? "#000000" } };
    }
    data.bd = borders;
  }
  return data;
}

/** The style of a cell of the grid as ours. */
export function styleFromSnapshot(data: Nullable<IStyleData>): CellStyle | undefined {
  if (!data) return undefined;
  const style: CellStyle = {};
  if (data.bl) style.bold = true;
  if (data.it) style.italic = true;
  if (data.ul?.s) style.underline = true;
  if (data.st?.s) style.strike = true;
  if (data.ff) style.font = data.ff;
  if (data.fs) style.size = data.fs;
  const color = hexColor(data.cl?.rgb);
  if (color) style.color = color;
  const fill = hexColor(data.bg?.rgb);
  if (fill) style.fill = fill;
  if (data.n?.pattern && data.n.pattern !== "General") style.format = data.n.pattern;
  const keyOf = <K extends string>(choices: Record<K, number>, value: Nullable<number>) => (Object.keys(choices) as K[]).find((key) => choices[key] === value);
  const horizontal = keyOf(horizontals, data.ht);
  if (horizontal) style.horizontal = horizontal;
  const vertical = keyOf(verticals, data.vt);
  if (vertical) style.vertical = vertical;
  if (data.tb === WrapStrategy.WRAP) style.wrap = true;
  for (const [side, short] of Object.entries(sides) as [keyof typeof sides, "t" | "r" | "b" | "l"][]) {
    const edge = data.bd?.[short];
    if (edge && edge.s !== BorderStyleTypes.NONE) (style.borders ??= {})[side] = { line: keyOf(lines, edge.s) ?? "dashed", color: hexColor(edge.cl?.rgb) };
  }
  return Object.keys(style).length > 0 ? style : undefined;
}

/** Colours of the grid are "#rgb", "#rrggbb" or "rgb(…)". */
function hexColor(color: Nullable<string>): string | undefined {
  if (!color) return undefined;
  const long = /^#([0-9a-f]{6})/i.exec(color);
  if (long) return `#${long[1]!.toLowerCase()}`;
  const short = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/i.exec(color);
  if (short) return `#${[1, 2, 3].map((at) => short[at]!.repeat(2)).join("").toLowerCase()}`;
  const numbers = /^rgba?\(\s*(\d+)[\s,]+(\d+)[\s,]+(\d+)/.exec(color);
  if (numbers) return `#${[1, 2, 3].map((at) => Number(numbers[at]).toString(16).padStart(2, "0")).join("")}`;
  return undefined;
}
