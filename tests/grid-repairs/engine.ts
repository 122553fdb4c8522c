/** The grid library's engine in Node, without a page: as it comes, or with repairs. */
import { LocaleType, LogLevel, Univer, type Injector, type IWorkbookData, type Plugin, type PluginCtor } from "@univerjs/core";
import { FUniver } from "@univerjs/core/facade";
import { FormulaDataModel, UniverFormulaEnginePlugin } from "@univerjs/engine-formula";
import { UniverSheetsPlugin } from "@univerjs/sheets";
import type { FWorkbook } from "@univerjs/sheets/facade";
import { CalculationMode, UniverSheetsFormulaPlugin } from "@univerjs/sheets-formula";
import { UniverSheetsTablePlugin } from "@univerjs/sheets-table";
import "@univerjs/engine-formula/facade";
import "@univerjs/sheets/facade";
import "@univerjs/sheets-formula/facade";
import "@univerjs/sheets-table/facade";
import type { Executor } from "../../src/hosts/browser/grid/engine-values.ts";
import type { CalculationTurns } from "../../src/hosts/browser/grid/repairs/calculation-turns.ts";
import { workbookFrom } from "../../src/hosts/browser/grid/read-back.ts";
import { snapshotOf } from "../../src/hosts/browser/grid/snapshot.ts";
import { emptySheet, putCell, type Workbook } from "../../src/xlsx/workbook.ts";
import { placeOf } from "../../src/sheet/references.ts";

export type Contents = Readonly<Record<string, string | number>>;

export interface EngineOptions {
  readonly functions?: readonly Executor[];
  /** Further parts of the library. */
  readonly plugins?: readonly PluginCtor<Plugin>[];
  /** Called once the services of the library are there. */
  readonly started?: (api: FUniver, injector: Injector) => CalculationTurns;
}

/** The engine keeps what it has read by the name of the workbook, so that each gets one of its own. */
let opened = 0;

export class Engine {
  readonly api: FUniver;
  readonly injector: Injector;
  private readonly book: FWorkbook;
  private readonly turns: CalculationTurns | undefined;
  /** How many have been executed. */
  private commands = 0;

  private constructor(snapshot: IWorkbookData, { functions = [], plugins = [], started }: EngineOptions) {
    const univer = new Univer({ locale: LocaleType.EN_US, locales: {}, logLevel: LogLevel.SILENT });
    const formulas = { description: [], initialFormulaComputing: CalculationMode.FORCED };
    univer.registerPlugin(UniverFormulaEnginePlugin, { function: [...functions] as never });
    univer.registerPlugin(UniverSheetsPlugin);
    univer.registerPlugin(UniverSheetsFormulaPlugin, formulas);
    univer.registerPlugin(UniverSheetsTablePlugin);
    for (const plugin of plugins) univer.registerPlugin(plugin);
    this.api = FUniver.newAPI(univer);
    this.injector = univer.__getInjector();
    this.book = this.api.createWorkbook(snapshot) as FWorkbook;
    this.api.onCommandExecuted(() => void this.commands++);
    this.turns = started?.(this.api, this.injector);
  }

  /** A workbook that has been calculated once. */
  static async open(workbook: Workbook, options: EngineOptions = {}): Promise<Engine> {
    const engine = new Engine(snapshotOf(workbook, `book${++opened}`), options);
    await engine.calculated();
    return engine;
  }

  static openSheet(contents: Contents, options?: EngineOptions): Promise<Engine> {
    return Engine.open(workbookOf(contents), options);
  }

  /** Puts texts, numbers and formulas into cells of the first sheet, one after the other, and waits for what follows from each. */
  async type(contents: Contents): Promise<void> {
    for (const [at, content] of Object.entries(contents)) {
      this.cell(at).setValue(content);
      await this.calculated();
    }
  }

  /** What a cell of the first sheet, or another, holds, or shows of a result that was spilled into it. */
  value(at: string, place = 0): unknown {
    const { row, column } = placeOf(at)!;
    const sheet = this.book.getSheets()[place]!;
    const own = sheet.getSheet().getCellRaw(row, column)?.v;
    return own ?? this.injector.get(FormulaDataModel).getArrayFormulaCellData()[this.book.getId()]?.[sheet.getSheetId()]?.[row]?.[column]?.v;
  }

  cell(at: string) {
    return this.book.getSheets()[0]!.getRange(at);
  }

  /** What would be saved. */
  saved(): Workbook {
    return workbookFrom(this.book.save(), this.injector.get(FormulaDataModel));
  }

  get workbook(): FWorkbook {
    return this.book;
  }

  /** Resolves when what has changed so far has been calculated. */
  calculated(): Promise<void> {
    return this.turns?.settled() ?? this.quiet();
  }

  /** The engine as it comes has no end of its work that can be relied on: it is taken to rest after three times its own waiting of 100 ms. */
  private async quiet(): Promise<void> {
    for (let last = -1; last !== this.commands; ) {
      last = this.commands;
      await new Promise((later) => setTimeout(later, 300));
    }
  }
}

export function workbookOf(contents: Contents, table?: { name: string; columns: string[]; rows: number }): Workbook {
  const sheet = emptySheet("Sheet1");
  for (const [at, content] of Object.entries(contents)) {
    const { row, column } = placeOf(at)!;
    const isFormula = typeof content === "string" && content.startsWith("=");
    putCell(sheet, row, column, isFormula ? { formula: content.slice(1) } : { value: content });
  }
  if (table) sheet.tables.push({ ...table, plain: true, area: { top: 0, left: 0, bottom: table.rows, right: table.columns.length - 1 } });
  return { sheets: [sheet], names: [] };
}
