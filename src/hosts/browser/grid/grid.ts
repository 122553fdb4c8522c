/** The spreadsheet grid of the page. This folder is the only place that knows which library it is. */
import {
  CommandType,
  ICommandService,
  LocaleType,
  LogLevel,
  mergeLocales,
  Univer,
  type ICommand,
  type ICommandInfo,
  type Injector,
  type IRange,
} from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { ALL_IMPLEMENTED_FUNCTIONS_SET, FormulaDataModel, SetFormulaCalculationResultMutation } from "@univerjs/engine-formula";
import { UniverSheetsCorePreset } from "@univerjs/preset-sheets-core";
import enUS from "@univerjs/preset-sheets-core/locales/en-US";
import { SetSelectionsOperation, SetWorksheetActiveOperation } from "@univerjs/sheets";
import { CalculationMode } from "@univerjs/sheets-formula";
import { UniverSheetsTablePlugin } from "@univerjs/sheets-table";
import { ILayoutService } from "@univerjs/ui";
import type { FWorkbook } from "@univerjs/sheets/facade";
import "@univerjs/sheets-table/facade";
import "@univerjs/preset-sheets-core/lib/index.css";
import "./argument-help.css";
import { isFunctionName, partsOf } from "../../../sheet/formula-text";
import { address, areaOf, tableColumnOf } from "../../../sheet/references";
import { wordsForError } from "../error-words";
import type { FunctionMetadata } from "../function-metadata";
import { worksheetFunction } from "../worksheet-functions";
import type { StructuralEdit } from "../../../xlsx/journal";
import { isErrorValue, type Area, type CellValue, type Workbook } from "../../../xlsx/workbook";
import { holds } from "./areas";
import { putWordsOnAlerts } from "./error-alerts";
import { completeFormulas } from "./completion";
import { DataTools } from "./data-tools";
import { checkEntries } from "./entries";
import { descriptionOf } from "./function-descriptions";
import { bringFunctionTexts } from "./function-texts";
import { growTables } from "./growing-tables";
import { WorkbookJournal } from "./journal";
import { showKeptValues } from "./kept-values";
import { keepLongTextsOutOfEditors } from "./long-texts";
import { printedArea, type PrintedArea } from "./printed";
import { valueFrom, workbookFrom, type Matrix } from "./read-back";
import { repairEngine, repairedFunctions, repairLibrary } from "./repaired-engine";
import { repairPage } from "./repaired-page";
import { executorOf } from "./repairs/added-functions";
import type { CalculationTurns } from "./repairs/calculation-turns";
import { makeRoom } from "./room";
import { snapshotOf, tableThemes, type CellExtras } from "./snapshot";
import { takeStep } from "./step";

export interface SelectedCell {
  readonly sheet: string;
  readonly address: string;
  /** How many rows and columns are selected. */
  readonly rows: number;
  readonly columns: number;
  /** The column of a table that the cell belongs to, not as its heading. */
  readonly column?: { readonly table: string; readonly heading: string };
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

export interface StepOptions {
  /** The sheet to be shown then. */
  readonly sheet?: string;
  /** What changes along with it outside the grid: `onOutside` is handed what it is to be, and when the step is taken back, what it was. */
  readonly outside?: { readonly was: unknown; readonly is: unknown };
}

/** The mutation that stands for what changes outside the grid. */
const outsideId = "pucksheet.mutation.outside";

export class Grid {
  private readonly univer: Univer;
  private readonly api: FUniver;
  /** What the toolbar does to data. */
  readonly data: DataTools;
  private readonly ourFunctions: ReadonlySet<string>;
  private turns: CalculationTurns | undefined;
  private book: FWorkbook | undefined;
  private structure: WorkbookJournal | undefined;
  private opened = 0;
  private toAnnounce: ReturnType<typeof setTimeout> | undefined;
  private readonly selectionListeners = new Set<() => void>();
  private readonly changeListeners = new Set<() => void>();
  private readonly wordsListeners = new Set<(words: string) => void>();
  private readonly outsideListeners = new Set<(state: unknown) => void>();

  constructor(private readonly element: HTMLElement, private readonly functions: readonly FunctionMetadata[], dark: boolean) {
    const ours = functions.map((metadata) => executorOf(metadata, worksheetFunction(metadata.id)));
    this.ourFunctions = new Set(ours.map(([, name]) => name));
    repairLibrary();
    const locales = { [LocaleType.EN_US]: mergeLocales(enUS) };
    this.univer = new Univer({ locale: LocaleType.EN_US, locales, logLevel: LogLevel.ERROR, darkMode: dark });
    const executors = [...ours, ...repairedFunctions()] as never;
    const preset = UniverSheetsCorePreset({
      container: element,
      header: true,
      toolbar: false,
      // Protection would not be saved.
      menu: { "sheet.contextMenu.permission": { hidden: true } },
      footer: { sheetBar: true, statisticBar: true, menus: false, zoomSlider: false },
      formula: { function: executors, description: functions.map(descriptionOf), initialFormulaComputing: CalculationMode.FORCED },
      sheets: { disableForceStringAlert: true, disableForceStringMark: true },
    });
    this.univer.registerPlugins(preset.plugins.map((plugin) => (Array.isArray(plugin) ? plugin : [plugin])) as never);
    this.univer.registerPlugin(UniverSheetsTablePlugin, { userThemes: tableThemes });
    this.api = FUniver.newAPI(this.univer);
    this.data = new DataTools(this.univer, this.injector, () => this.current(), () => this.spillsInSight());
  }

  /** Shows the workbook; ready when it has been calculated. */
  async open(workbook: Workbook): Promise<void> {
    if (workbook.sheets.some(({ filter }) => filter)) await this.data.bringFilters();
    if (this.book) this.api.disposeUnit(this.book.getId());
    this.book = this.api.createWorkbook(snapshotOf(workbook, `workbook${++this.opened}`)) as FWorkbook;
    this.structure = new WorkbookJournal(new Map(this.book.getSheets().map((sheet) => [sheet.getSheetId(), sheet.getSheetName()])));
    // The library's services come to life with the first workbook.
    if (this.opened === 1) this.start();
    await this.settled();
    this.focus();
    this.announceSelection();
    if (this.opened === 1) void bringFunctionTexts(this.injector).catch(() => undefined);
  }

  /** Resolves when everything that has changed so far has been calculated. */
  settled(): Promise<void> {
    return this.turns?.settled() ?? Promise.resolve();
  }

  /** What was done to rows, columns and sheets since the workbook was opened. */
  journal(): readonly StructuralEdit[] {
    return this.structure?.edits ?? [];
  }

  /** The functions that formulas may call, by their full names in capitals. */
  functionNames(): string[] {
    return [...this.ourFunctions, ...[...ALL_IMPLEMENTED_FUNCTIONS_SET].map(String), "LET", "LAMBDA"];
  }

  /** The workbook as it stands, with the results of its formulas. */
  workbook(): Workbook {
    return workbookFrom(this.current().save(), this.formulas);
  }

  /** Calculates every formula anew. */
  async recalculate(): Promise<void> {
    await this.settled();
    this.api.getFormula().executeCalculation();
    await this.settled();
  }

  /** How many cells hold one of our functions. */
  countOurs(): number {
    let count = 0;
    for (const sheet of this.workbook().sheets) {
      for (const line of sheet.cells) for (const cell of line ?? []) if (cell?.formula && this.usesOurs(cell.formula)) count++;
    }
    return count;
  }

  /** Makes the open workbook into `next`, which has further sheets or other cells, as one step of Undo. */
  async become(next: Workbook, { sheet, outside }: StepOptions = {}): Promise<void> {
    const set = (state: unknown) => [{ id: outsideId, params: { state } }];
    takeStep(this.injector, this.current(), this.workbook(), next, outside && { redo: set(outside.is), undo: set(outside.was) });
    await this.settled();
    this.show(sheet);
    this.announceSelection();
  }

  /** Brings a sheet into sight, unless it is hidden or gone. */
  show(name: string | undefined): void {
    const sheet = name === undefined ? null : this.current().getSheetByName(name);
    if (sheet && !sheet.isSheetHidden()) this.current().setActiveSheet(sheet);
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
    const inColumn = this.tableColumnAt(sheet.getSheetId(), row, column);
    const place = { sheet: sheet.getSheetName(), address: address(row, column), ...size, ...(inColumn && { column: inColumn }) };
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

  /** Cells as they look, for paper. */
  printedArea(sheetName: string, area: Area): PrintedArea {
    return printedArea(this.current().getSheetByName(sheetName)!, area);
  }

  private areaOf(reference: string): Area | undefined {
    const wanted = tableColumnOf(reference);
    if (!wanted) return areaOf(reference);
    const table = this.current().getTableInfoByName(wanted.table);
    const index = table?.columns.findIndex((column) => column.displayName === wanted.heading) ?? -1;
    if (!table || index < 0) return undefined;
    const { startRow, endRow, startColumn } = table.range;
    return { top: startRow + 1, bottom: endRow, left: startColumn + index, right: startColumn + index };
  }

  onSelection(listener: () => void): void {
    this.selectionListeners.add(listener);
  }

  /** Calls back with sentences about what the person has typed, pasted or tried to edit. */
  onWords(listener: (words: string) => void): void {
    this.wordsListeners.add(listener);
  }

  /** Calls back with what a step says of the world outside the grid, when it is taken, taken back or taken again. */
  onOutside(listener: (state: unknown) => void): void {
    this.outsideListeners.add(listener);
  }

  /** Calls back after the person has changed something. */
  onChange(listener: () => void): void {
    this.changeListeners.add(listener);
  }

  /** Moves the keyboard into the cells. */
  focus(): void {
    this.injector.get(ILayoutService).focus();
  }

  private start(): void {
    this.turns = repairEngine(this.api, this.injector);
    const handler = (_: unknown, { state }: { state: unknown }) => {
      for (const listener of this.outsideListeners) listener(state);
      return true;
    };
    this.injector.get(ICommandService).registerCommand({ id: outsideId, type: CommandType.MUTATION, handler } as ICommand);
    // Before what is repaired of it, which knows names by their beginning only.
    completeFormulas(this.api, this.injector, this.functions);
    repairPage(this.element, this.api, this.injector, () => this.focus());
    putWordsOnAlerts(this.injector, (sheetId, row, column) => {
      const { value, message } = this.cellAt(sheetId, row, column) ?? {};
      return isErrorValue(value) && message ? { error: value.error, message } : undefined;
    });
    showKeptValues(this.api, this.injector);
    const tell = (words: string) => {
      for (const listener of this.wordsListeners) listener(words);
    };
    keepLongTextsOutOfEditors(this.api, this.injector, tell);
    checkEntries(this.api, this.injector, tell, navigator.language);
    growTables(this.api, this.injector, tell, (unitId, sheetId) => this.data.filterOn(unitId, sheetId));
    makeRoom(this.api);
    this.watch();
  }

  private get injector(): Injector {
    return this.univer.__getInjector();
  }

  private get formulas(): FormulaDataModel {
    return this.injector.get(FormulaDataModel);
  }

  private current(): FWorkbook {
    if (!this.book) throw new Error("No workbook is open.");
    return this.book;
  }

  private usesOurs(formula: string): boolean {
    const parts = partsOf(formula);
    return parts.some((part, index) => isFunctionName(parts, index) && this.ourFunctions.has(part.text.toUpperCase()));
  }

  private tableColumnAt(sheetId: string, row: number, column: number): SelectedCell["column"] {
    const table = this.current().getTableList().find(({ subUnitId, range }) => subUnitId === sheetId && holds(range, row, column) && row > range.startRow);
    const heading = table?.columns[column - table.range.startColumn]?.displayName;
    return table && heading !== undefined ? { table: table.name, heading } : undefined;
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
    if (extras?.kept) found.message = extras.kept;
    return found;
  }

  private anchorOf(sheetId: string, row: number, column: number): string | undefined {
    const found = this.spillsOn(sheetId).find((area) => holds(area, row, column));
    return found && address(found.startRow, found.startColumn);
  }

  private spillsInSight(): IRange[] {
    return this.spillsOn(this.current().getActiveSheet().getSheetId());
  }

  /** The areas that formulas fill. */
  private spillsOn(sheetId: string): IRange[] {
    const rows = (this.formulas.getArrayFormulaRange()[this.current().getId()]?.[sheetId] ?? {}) as Matrix<IRange>;
    return Object.values(rows).flatMap((line) => Object.values(line ?? {}).filter((area) => area != null));
  }

  private watch(): void {
    const announce = () => this.announceSelection();
    this.api.onCommandExecuted((command: Readonly<ICommandInfo>, options) => {
      if (command.id === SetFormulaCalculationResultMutation.id) {
        setTimeout(announce);
      } else if (command.id === SetSelectionsOperation.id || command.id === SetWorksheetActiveOperation.id) {
        announce();
      } else if (command.type === CommandType.MUTATION && command.id.startsWith("sheet.") && !options?.onlyLocal && !options?.applyFormulaCalculationResult) {
        if ((command.params as { unitId?: string }).unitId === this.book?.getId()) this.structure?.note(command);
        for (const listener of this.changeListeners) listener();
        // Once for all that one command changes, such as the format of the selected cell.
        this.toAnnounce ??= setTimeout(() => {
          this.toAnnounce = undefined;
          this.announceSelection();
        });
      }
    });
  }

  private announceSelection(): void {
    for (const listener of this.selectionListeners) listener();
  }
}
