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

export class Sheet {
  readonly cells = new Map<string, Cell>();

  constructor(
    readonly name: string,
    readonly id: string,
  ) {}

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

export class Book {
  readonly sheets: Sheet[] = [];
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

  sheet(nameOrId: string): Sheet | undefined {
    return this.sheets.find(({ name, id }) => name.toLowerCase() === nameOrId.toLowerCase() || id === nameOrId);
  }
}
