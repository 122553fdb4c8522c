/** The workbook of the stand-in: sheets of cells, and the document properties that are saved with it. */
import { cellKey, readArea, type Area } from "./address.ts";
import { readFormula, type Expression } from "./formula.ts";

/** An error in a cell, with the words that Excel shows beside it. */
export class CellError {
  constructor(
    readonly code: string,
    readonly message?: string,
  ) {}
}

export type CellValue = number | string | boolean | CellError;

export const busy = new CellError("#BUSY!");

export interface Cell {
  value: CellValue;
  readonly formula?: string;
  readonly expression?: Expression;
  /** The cells that its result fills besides itself. */
  spill?: Area;
  /** The cell whose result spilled into this one. */
  readonly spilledFrom?: string;
}

export interface Table {
  readonly id: string;
  name: string;
  readonly sheet: Sheet;
  /** Headings and rows. */
  readonly area: Area;
  style: string;
  showFilterButton: boolean;
  showBandedRows: boolean;
}

/** What is set on cells, by the name of the property in Excel's API: "font.bold", "numberFormat", "dataValidation". */
export type Settings = Record<string, unknown>;

export class Sheet {
  readonly cells = new Map<string, Cell>();
  readonly settings = new Map<string, Settings>();
  readonly columnWidths = new Map<number, number>();
  readonly rowHeights = new Map<number, number>();
  readonly page: Settings = {};
  readonly charts: SheetChart[] = [];
  readonly merged: string[] = [];
  readonly hiddenColumns = new Set<number>();
  frozenRows = 0;
  showGridlines = true;
  visibility = "Visible";
  /** Nothing can be typed into a protected sheet. */
  isProtected = false;

  constructor(
    public name: string,
    readonly id: string,
  ) {}

  set(area: Area, property: string, value: unknown): void {
    for (let row = 0; row < area.rows; row++) {
      for (let column = 0; column < area.columns; column++) {
        const key = cellKey(area.row + row, area.column + column);
        const settings = this.settings.get(key) ?? {};
        settings[property] = value;
        this.settings.set(key, settings);
      }
    }
  }

  at(row: number, column: number): Cell | undefined {
    return this.cells.get(cellKey(row, column));
  }

  /** Types into a cell: a formula, a value, or nothing. */
  type(key: string, typed: unknown): void {
    if (typed === "" || typed === null || typed === undefined) this.cells.delete(key);
    else if (typeof typed === "string" && typed.startsWith("=")) this.cells.set(key, { value: busy, formula: typed, expression: readFormula(typed) });
    else this.cells.set(key, { value: typed as CellValue });
  }

  /** The smallest area with every cell that is not empty. */
  used(): Area | undefined {
    const areas = [...this.cells.keys()].map((key) => readArea(key)!);
    if (areas.length === 0) return undefined;
    const row = Math.min(...areas.map((area) => area.row));
    const column = Math.min(...areas.map((area) => area.column));
    const rows = Math.max(...areas.map((area) => area.row)) - row + 1;
    return { row, column, rows, columns: Math.max(...areas.map((area) => area.column)) - column + 1 };
  }
}

/** A chart as it is described to Excel. */
export interface SheetChart {
  readonly id: string;
  readonly settings: Settings;
  readonly series: { readonly settings: Settings; values?: string; xValues?: string }[];
}

export interface DefinedName {
  readonly name: string;
  readonly sheet: Sheet;
  readonly area: Area;
}

export class Book {
  readonly sheets: Sheet[] = [];
  readonly tables: Table[] = [];
  readonly names: DefinedName[] = [];
  active: Sheet | undefined;
  /** Somebody listens to changed cells. */
  reportsChanges = false;
  /** Custom document properties by their key in lower case, as Excel looks them up. */
  readonly properties = new Map<string, { readonly key: string; value: unknown }>();
  private nextId = 1;

  constructor() {
    this.addSheet("Sheet1");
  }

  addSheet(name: string): Sheet {
    const sheet = new Sheet(name, `{00000000-0000-0001-0000-${String(this.nextId++).padStart(12, "0")}}`);
    this.sheets.push(sheet);
    return sheet;
  }

  /** Its tables go with it; the names that refer to it stay and refer to nothing. */
  deleteSheet(sheet: Sheet): void {
    this.sheets.splice(this.sheets.indexOf(sheet), 1);
    for (const table of this.tables.filter((it) => it.sheet === sheet)) this.tables.splice(this.tables.indexOf(table), 1);
  }

  newId(): string {
    return `{00000000-0000-0002-0000-${String(this.nextId++).padStart(12, "0")}}`;
  }

  table(nameOrId: string): Table | undefined {
    return this.tables.find(({ name, id }) => name.toLowerCase() === nameOrId.toLowerCase() || id === nameOrId);
  }

  name(name: string): DefinedName | undefined {
    return this.names.find((it) => it.name.toLowerCase() === name.toLowerCase());
  }

  /** The cells of a table's columns from the first to the last, without the headings. */
  columnsOf(table: Table, columns: readonly string[]): Area | undefined {
    const headings = Array.from({ length: table.area.columns }, (_, index) => String(table.sheet.at(table.area.row, table.area.column + index)?.value ?? ""));
    const places = columns.map((column) => headings.findIndex((heading) => heading.toLowerCase() === column.toLowerCase()));
    if (places.some((place) => place < 0)) return undefined;
    const first = Math.min(...places);
    return { row: table.area.row + 1, column: table.area.column + first, rows: table.area.rows - 1, columns: Math.max(...places) - first + 1 };
  }

  sheet(nameOrId: string): Sheet | undefined {
    return this.sheets.find(({ name, id }) => name.toLowerCase() === nameOrId.toLowerCase() || id === nameOrId);
  }
}
