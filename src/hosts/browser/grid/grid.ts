/** The spreadsheet grid of the page. This folder is the only place that knows which library it is. */
import "../iterator-helpers";
import { CellValueType, CommandType, InterceptorEffectEnum, LocaleType, LogLevel, mergeLocales, Univer, type ICellData, type ICommandInfo, type IRange, type Nullable } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import {
  ALL_IMPLEMENTED_FUNCTIONS_SET,
  FormulaDataModel,
  SetFormulaCalculationResultMutation,
  type ISetFormulaCalculationResultMutation,
} from "@univerjs/engine-formula";
import { UniverSheetsCorePreset } from "@univerjs/preset-sheets-core";
import enUS from "@univerjs/preset-sheets-core/locales/en-US";
import {
  INTERCEPTOR_POINT,
  SetRangeValuesMutation,
  SetSelectionsOperation,
  SetWorksheetActiveOperation,
  SheetInterceptorService,
  type ISetRangeValuesMutationParams,
} from "@univerjs/sheets";
import { CalculationMode } from "@univerjs/sheets-formula";
import { SetSheetTableMutation, UniverSheetsTablePlugin, type ISetSheetTableMutationParams } from "@univerjs/sheets-table";
import { CellAlertManagerService, type ICellAlert } from "@univerjs/sheets-ui";
import { ILayoutService } from "@univerjs/ui";
import type { FWorkbook } from "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import "@univerjs/preset-sheets-core/lib/index.css";
import { address, isFunctionName, partsOf, placeOf } from "../../../sheet/formula-text";
import { wordsForError } from "../error-words";
import type { FunctionMetadata } from "../function-metadata";
import { isErrorValue, type Area, type CellValue, type Workbook } from "../../../xlsx/workbook";
import { nameParts } from "./accessible";
import { closeOutdatedLists } from "./completion";
import { descriptionOf, executorOf } from "./executors";
import { fittedNumber } from "./fitted-number";
import { valueFrom, workbookFrom, type Matrix } from "./read-back";
import { closeBracketsBeforeEachFormula, keepPlacesOfRows, repairedFunctions } from "./repairs";
import { bandedTable, snapshotOf, tableThemes, type CellExtras } from "./snapshot";
import { withRowReferences } from "./typed-formula";

export interface SelectedCell {
  readonly sheet: string;
  readonly address: string;
  /** How many rows and columns are selected. */
  readonly rows: number;
  readonly columns: number;
  /** Without "=". */
  readonly formula?: string;
  readonly value?: CellValue;
  /** The value as its number format shows it. */
  readonly shown?: string;
  /** Where the value is part of the result of a formula in another cell: the address of that cell. */
  readonly spilledFrom?: string;
  /** What the error value means. */
  readonly message?: string;
}

/** Longer than any calculation that a person would wait for. */
const longestCalculation = 600_000;

export class Grid {
  private readonly univer: Univer;
  private readonly api: FUniver;
  private readonly functionNames: ReadonlySet<string>;
  private book: FWorkbook | undefined;
  private opened = 0;
  private readonly selectionListeners = new Set<() => void>();
  private readonly changeListeners = new Set<() => void>();

  constructor(private readonly element: HTMLElement, functions: readonly FunctionMetadata[], dark: boolean) {
    const executors = [...functions.map(executorOf), ...repairedFunctions()];
    this.functionNames = new Set(executors.map(([, name]) => name));
    closeBracketsBeforeEachFormula();
    keepPlacesOfRows();
    this.univer = new Univer({ locale: LocaleType.EN_US, locales: { [LocaleType.EN_US]: mergeLocales(enUS) }, logLevel: LogLevel.ERROR, darkMode: dark });
    const preset = UniverSheetsCorePreset({
      container: element,
      header: true,
      toolbar: false,
      // Protection would not be saved.
      menu: { "sheet.contextMenu.permission": { hidden: true } },
      footer: { sheetBar: true, statisticBar: true, menus: false, zoomSlider: false },
      formula: { function: executors as never, description: functions.map(descriptionOf), initialFormulaComputing: CalculationMode.FORCED },
      sheets: { disableForceStringAlert: true, disableForceStringMark: true },
    });
    this.univer.registerPlugins(preset.plugins.map((plugin) => (Array.isArray(plugin) ? plugin : [plugin])) as never);
    // A table loses its style when it is loaded and takes the first of these; `bandTables` gives the others theirs.
    this.univer.registerPlugin(UniverSheetsTablePlugin, { userThemes: tableThemes, defaultThemeIndex: 0 });
    this.api = FUniver.newAPI(this.univer);
  }

  /** Shows the workbook, and of it the sheet of this name; ready when it has been calculated. */
  async open(workbook: Workbook, sheet?: string): Promise<void> {
    if (this.book) this.api.disposeUnit(this.book.getId());
    this.book = this.api.createWorkbook(snapshotOf(workbook, `workbook${++this.opened}`, (formula) => this.canCalculate(formula))) as FWorkbook;
    // The library's services come to life with the first workbook.
    if (this.opened === 1) this.start();
    this.bandTables(workbook);
    await this.calculated();
    const shown = sheet === undefined ? null : this.book.getSheetByName(sheet);
    if (shown) this.book.setActiveSheet(shown);
    this.focus();
    this.announceSelection();
  }

  /** The workbook as it stands, with the results of its formulas. */
  workbook(): Workbook {
    return workbookFrom(this.current().save(), this.formulas);
  }

  /** Calculates every formula anew; answers how many cells hold one of our functions. */
  async recalculate(): Promise<number> {
    const calculated = this.calculated();
    this.api.getFormula().executeCalculation();
    await calculated;
    let count = 0;
    for (const sheet of this.workbook().sheets) {
      for (const line of sheet.cells) for (const cell of line ?? []) if (cell?.formula && this.usesOurs(cell.formula)) count++;
    }
    return count;
  }

  undo(): void {
    void this.api.undo();
  }

  redo(): void {
    void this.api.redo();
  }

  setDark(dark: boolean): void {
    this.api.toggleDarkMode(dark);
  }

  selected(): SelectedCell | undefined {
    const sheet = this.book?.getActiveSheet();
    const range = sheet?.getActiveRange();
    if (!this.book || !sheet || !range) return undefined;
    const row = range.getRow();
    const column = range.getColumn();
    const { startRow, endRow, startColumn, endColumn } = range.getRange();
    const merge = sheet.getSheet().getMergedCell(row, column);
    const isMerge = merge?.endRow === endRow && merge.endColumn === endColumn;
    const cell = this.cellAt(sheet.getSheetId(), row, column);
    const size = isMerge ? { rows: 1, columns: 1 } : { rows: endRow - startRow + 1, columns: endColumn - startColumn + 1 };
    const place = { sheet: sheet.getSheetName(), address: address(row, column), ...size };
    if (!cell) return place;
    const shown = typeof cell.value === "number" ? { shown: sheet.getRange(row, column).getDisplayValue() } : {};
    return { ...place, ...cell, ...shown };
  }

  sheetInSight(): string | undefined {
    return this.book?.getActiveSheet()?.getSheetName();
  }

  /** Names for cells, with what they refer to as a formula without "=". */
  names(): Workbook["names"] {
    return this.current().getDefinedNames().map((name) => ({ name: name.getName(), refersTo: name.getFormulaOrRefString().replace(/^=/, "") }));
  }

  /** The values of an address, a range or a column of a table, as in "B4", "B4:C9" and "Shots[Dose]". */
  valuesAt(sheetName: string, reference: string): (CellValue | undefined)[][] {
    const area = this.areaOf(reference);
    const sheet = this.current().getSheetByName(sheetName);
    if (!area || !sheet) return [];
    const rows = Math.min(area.bottom, sheet.getMaxRows() - 1) - area.top + 1;
    return Array.from({ length: Math.max(0, rows) }, (_, row) =>
      Array.from({ length: area.right - area.left + 1 }, (_, column) => this.cellAt(sheet.getSheetId(), area.top + row, area.left + column)?.value),
    );
  }

  /** The number format of a cell. */
  formatAt(sheetName: string, row: number, column: number): string | undefined {
    const style = this.current().getSheetByName(sheetName)?.getSheet().getCellRaw(row, column)?.s;
    const data = typeof style === "string" ? this.current().getWorkbook().getStyles().get(style) : style;
    return data?.n?.pattern;
  }

  private areaOf(reference: string): Area | undefined {
    const [, tableName, heading] = /^(\w+)\[(.+)\]$/.exec(reference) ?? [];
    if (tableName !== undefined && heading !== undefined) {
      const table = this.current().getTableInfoByName(tableName);
      const index = table?.columns.findIndex((column) => column.displayName === heading) ?? -1;
      if (!table || index < 0) return undefined;
      const { startRow, endRow, startColumn } = table.range;
      return { top: startRow + 1, bottom: endRow, left: startColumn + index, right: startColumn + index };
    }
    const [first = "", last = first] = reference.split(":");
    const from = placeOf(first);
    const to = placeOf(last);
    return from && to && { top: from.row, left: from.column, bottom: to.row, right: to.column };
  }

  onSelection(listener: () => void): void {
    this.selectionListeners.add(listener);
  }

  /** Calls back after the person has changed something. */
  onChange(listener: () => void): void {
    this.changeListeners.add(listener);
  }

  /** Moves the keyboard into the cells. */
  focus(): void {
    this.univer.__getInjector().get(ILayoutService).focus();
  }

  private start(): void {
    nameParts(this.element, () => this.focus());
    closeOutdatedLists(this.api, this.univer.__getInjector());
    this.fitNumbersToWidths();
    this.putWordsOnAlerts();
    this.watch();
  }

  private bandTables(workbook: Workbook): void {
    for (const table of workbook.sheets.flatMap((sheet) => sheet.tables)) {
      const found = table.plain ? undefined : this.current().getTableInfoByName(table.name);
      if (!found) continue;
      const { id: tableId, subUnitId } = found;
      const params: ISetSheetTableMutationParams = { unitId: this.current().getId(), subUnitId, tableId, config: { theme: bandedTable } };
      this.api.syncExecuteCommand(SetSheetTableMutation.id, params, { onlyLocal: true });
    }
  }

  /** Whether the engine knows every function of the formula; a name that LET defines may be called like one. */
  private canCalculate(formula: string): boolean {
    const parts = partsOf(formula);
    const names = new Set(parts.filter((part, index) => part.kind === "name" && !isFunctionName(parts, index)).map((part) => part.text.toUpperCase()));
    const implemented = (name: string) => this.functionNames.has(name) || ALL_IMPLEMENTED_FUNCTIONS_SET.has(name);
    const isKnown = (name: string) => implemented(name) || ["LET", "LAMBDA"].includes(name) || names.has(name);
    return parts.every((part, index) => !isFunctionName(parts, index) || isKnown(part.text.toUpperCase()));
  }

  private get formulas(): FormulaDataModel {
    return this.univer.__getInjector().get(FormulaDataModel);
  }

  private current(): FWorkbook {
    if (!this.book) throw new Error("No workbook is open.");
    return this.book;
  }

  private calculated(): Promise<void> {
    return this.api.getFormula().onCalculationResultApplied(longestCalculation);
  }

  private usesOurs(formula: string): boolean {
    const parts = partsOf(formula);
    return parts.some((part, index) => isFunctionName(parts, index) && this.functionNames.has(part.text.toUpperCase()) && part.text.includes("."));
  }

  /** What a cell shows: its own content, or its share of a result spilled from another cell. */
  private cellAt(sheetId: string, row: number, column: number): Pick<SelectedCell, "formula" | "value" | "spilledFrom" | "message"> | undefined {
    const id = this.current().getId();
    const own = this.current().getSheetBySheetId(sheetId)?.getSheet().getCellRaw(row, column);
    const extras = own?.custom as CellExtras | undefined;
    const formula = this.formulas.getFormulaStringByCell(row, column, sheetId, id)?.replace(/^=/, "") ?? extras?.keptFormula;
    const spilled = own?.v == null ? this.formulas.getArrayFormulaCellData()[id]?.[sheetId]?.[row]?.[column] : undefined;
    const cell = spilled ?? own;
    if (!cell) return undefined;
    const value = valueFrom(cell);
    const found: { formula?: string; value?: CellValue; spilledFrom?: string; message?: string } = {};
    if (formula) found.formula = formula;
    if (value !== undefined) found.value = value;
    if (spilled && !formula) found.spilledFrom = this.anchorOf(sheetId, row, column);
    if (isErrorValue(value)) found.message = (cell.custom as CellExtras | undefined)?.message ?? wordsForError(value.error);
    else if (extras?.keptFormula) found.message = extras.message;
    return found;
  }

  private anchorOf(sheetId: string, row: number, column: number): string | undefined {
    const rows = (this.formulas.getArrayFormulaRange()[this.current().getId()]?.[sheetId] ?? {}) as Matrix<IRange>;
    for (const line of Object.values(rows)) {
      for (const area of Object.values(line ?? {})) {
        if (area && holds(area, row, column)) return address(area.startRow, area.startColumn);
      }
    }
    return undefined;
  }

  private watch(): void {
    const announce = () => this.announceSelection();
    this.api.onBeforeCommandExecute((command) => {
      if (command.id === SetRangeValuesMutation.id) this.completeFormulas(command.params as ISetRangeValuesMutationParams);
    });
    this.api.onCommandExecuted((command: Readonly<ICommandInfo>, options) => {
      if (command.id === SetFormulaCalculationResultMutation.id) {
        this.dropStaleMessages(command.params as ISetFormulaCalculationResultMutation);
        setTimeout(announce);
      } else if (command.id === SetSelectionsOperation.id || command.id === SetWorksheetActiveOperation.id) {
        announce();
      } else if (command.type === CommandType.MUTATION && command.id.startsWith("sheet.") && !options?.onlyLocal && !options?.applyFormulaCalculationResult) {
        for (const listener of this.changeListeners) listener();
      }
    });
  }

  private announceSelection(): void {
    for (const listener of this.selectionListeners) listener();
  }

  /** Spells what the engine lacks in a way that it has: the column of a table in the formula's own row. */
  private completeFormulas({ unitId, subUnitId, cellValue }: ISetRangeValuesMutationParams): void {
    if (!this.book || unitId !== this.book.getId() || !cellValue) return;
    for (const [row, line] of Object.entries(cellValue)) {
      for (const [column, cell] of Object.entries(line as Record<string, Nullable<ICellData>>)) {
        if (!cell?.f?.includes("@")) continue;
        const table = this.book.getTableList().find(({ subUnitId: sheet, range }) => sheet === subUnitId && holds(range, Number(row), Number(column)));
        cell.f = withRowReferences(cell.f, table?.name);
      }
    }
  }

  /** The engine leaves the words of an earlier error on a cell when it later holds another error without words. */
  private dropStaleMessages({ unitData }: ISetFormulaCalculationResultMutation): void {
    const id = this.book?.getId();
    for (const [sheetId, rows] of Object.entries((id && unitData[id]) || {})) {
      const sheet = this.book?.getSheetBySheetId(sheetId)?.getSheet();
      for (const [row, line] of Object.entries(rows as Record<string, Record<string, Nullable<ICellData>>>)) {
        for (const [column, result] of Object.entries(line ?? {})) {
          const cell = sheet?.getCellRaw(Number(row), Number(column));
          if (cell?.custom && !result?.custom && !(cell.custom as CellExtras).keptFormula) delete cell.custom;
        }
      }
    }
  }

  /** Numbers without a format are cut at the cell's edge by the grid; here they are rounded to what the width has room for. */
  private fitNumbersToWidths(): void {
    this.univer.__getInjector().get(SheetInterceptorService).intercept(INTERCEPTOR_POINT.CELL_CONTENT, {
      id: "fit-numbers",
      // Before the number formats, which then see a text and leave it alone.
      priority: 9,
      effect: InterceptorEffectEnum.Value,
      handler: (cell, location, next) => {
        if (typeof cell?.v !== "number" || cell.t === CellValueType.BOOLEAN || Number.isInteger(cell.v)) return next(cell);
        const style = cell.s ? location.workbook.getStyles().get(cell.s) : undefined;
        if (style?.n?.pattern && style.n.pattern !== "General") return next(cell);
        const text = fittedNumber(cell.v, location.worksheet.getColumnWidth(location.col), style?.fs ?? 11);
        return next({ ...(cell === location.rawData ? { ...location.rawData } : cell), v: Number(text) });
      },
    });
  }

  /** The hover of an error cell says what the function said, or what the error means. */
  private putWordsOnAlerts(): void {
    const alerts = this.univer.__getInjector().get(CellAlertManagerService);
    const show = alerts.showAlert.bind(alerts);
    alerts.showAlert = (alert: ICellAlert) => {
      const { subUnitId, row, col } = alert.location;
      const cell = this.cellAt(subUnitId, row, col);
      if (!isErrorValue(cell?.value) || !cell.message) return show(alert);
      const lines = Math.ceil(cell.message.length / 40);
      show({ ...alert, title: cell.value.error, message: cell.message, width: 300, height: 44 + lines * 18 });
    };
  }
}

function holds(area: Pick<IRange, "startRow" | "endRow" | "startColumn" | "endColumn">, row: number, column: number): boolean {
  return row >= area.startRow && row <= area.endRow && column >= area.startColumn && column <= area.endColumn;
}
