/**
 * Calculates the formulas of the stand-in's workbook. Functions of the add-in go to the add-in's page; of Excel's own functions
 * there are those that the tests need. A formula waits until the formulas it refers to are done.
 */
import { readArea, cellKey, type Area } from "./address.ts";
import { busy, CellError, type Book, type Cell, type CellValue, type Sheet } from "./book.ts";
import type { Expression, Operator } from "./formula.ts";

/** A function of the add-in, as functions.json describes it. */
export interface FunctionMetadata {
  readonly id: string;
  readonly name: string;
  readonly parameters: readonly { readonly name: string; readonly type?: string; readonly dimensionality?: string; readonly repeating?: boolean }[];
}

export interface Metadata {
  readonly functions: readonly FunctionMetadata[];
  readonly allowErrorForDataTypeAny?: boolean;
}

export interface AddInFunctions {
  readonly namespace: string;
  readonly metadata: Metadata;
  /** What a blank cell is handed over as: that differs between builds of Excel. */
  readonly blank: null | 0 | "";
  call(id: string, given: unknown[], address: string, errorsAllowed: boolean): Promise<Matrix>;
}

/** Rows of cells; null is a blank one. */
export type Matrix = (CellValue | null)[][];

interface Place {
  readonly sheet: Sheet;
  readonly key: string;
}

interface Reference {
  readonly sheet: Sheet;
  readonly area: Area;
}

const builtIn: Readonly<Record<string, (given: readonly Matrix[]) => CellValue>> = {
  NA: () => new CellError("#N/A"),
  SUM: (given) => {
    const cells = given.flat(2);
    return cells.find((cell) => cell instanceof CellError) ?? cells.reduce<number>((sum, cell) => sum + (typeof cell === "number" ? cell : 0), 0);
  },
};

export class Calculator {
  private readonly waiting = new Map<string, Place>();
  private running: Promise<void> | undefined;

  constructor(
    private readonly book: Book,
    private readonly functions: AddInFunctions,
  ) {}

  /** Types into an area and recalculates what depends on it. */
  type(sheet: Sheet, area: Area, typed: readonly (readonly unknown[])[]): void {
    const changed: Place[] = [];
    for (let row = 0; row < area.rows; row++) {
      for (let column = 0; column < area.columns; column++) {
        const key = cellKey(area.row + row, area.column + column);
        const old = sheet.cells.get(key);
        if (old) changed.push(...this.clearSpill(sheet, old));
        sheet.type(key, typed[row]![column]);
        changed.push({ sheet, key });
        if (sheet.cells.get(key)?.formula !== undefined) this.wait({ sheet, key });
      }
    }
    this.waitForDependents(changed);
    this.start();
  }

  calculateAll(): void {
    for (const place of this.formulas()) this.wait(place);
    this.start();
  }

  /** Resolves when nothing is left to calculate. */
  async settled(): Promise<void> {
    while (this.running) await this.running;
  }

  private start(): void {
    this.running ??= this.run().finally(() => (this.running = undefined));
  }

  private async run(): Promise<void> {
    await Promise.resolve(); // so that what is typed in one go is calculated in one go
    while (this.waiting.size > 0) {
      const ready = [...this.waiting.values()].filter((place) => !this.waitsForAnother(place));
      // Formulas in a circle would wait for ever.
      const now = ready.length > 0 ? ready : [...this.waiting.values()];
      for (const { sheet, key } of now) this.waiting.delete(`${sheet.id}!${key}`);
      const changed = await Promise.all(now.map(async (place) => this.put(place, await this.result(place))));
      this.waitForDependents(changed.flat());
    }
  }

  private wait(place: Place): void {
    const cell = place.sheet.cells.get(place.key)!;
    cell.value = busy;
    this.waiting.set(`${place.sheet.id}!${place.key}`, place);
  }

  private formulas(): Place[] {
    return this.book.sheets.flatMap((sheet) => [...sheet.cells].filter(([, cell]) => cell.formula !== undefined).map(([key]) => ({ sheet, key })));
  }

  private waitsForAnother(place: Place): boolean {
    const references = this.references(place);
    return [...this.waiting.values()].some((other) => other !== place && references.some((reference) => this.covers(reference, other)));
  }

  private waitForDependents(changed: readonly Place[]): void {
    if (changed.length === 0) return;
    for (const place of this.formulas()) {
      if (this.waiting.has(`${place.sheet.id}!${place.key}`)) continue;
      const references = this.references(place);
      if (changed.some((other) => references.some((reference) => this.covers(reference, other)))) this.wait(place);
    }
  }

  private covers(reference: Reference, place: Place): boolean {
    if (reference.sheet !== place.sheet) return false;
    const { row, column } = readArea(place.key)!;
    const { area } = reference;
    return row >= area.row && row < area.row + area.rows && column >= area.column && column < area.column + area.columns;
  }

  private references({ sheet, key }: Place): Reference[] {
    const found: Reference[] = [];
    const walk = (it: Expression | undefined): void => {
      if (!it) return;
      if (it.kind === "reference" || it.kind === "name" || it.kind === "structured") {
        const target = this.target(it, sheet);
        if (target) found.push(target);
      }
      else if (it.kind === "call") it.given.forEach(walk);
      else if (it.kind === "negate" || it.kind === "percent") walk(it.of);
      else if (it.kind === "operation") [it.left, it.right].forEach(walk);
    };
    walk(sheet.cells.get(key)?.expression);
    return found;
  }

  private target(reference: Extract<Expression, { kind: "reference" | "name" | "structured" }>, home: Sheet): Reference | undefined {
    if (reference.kind === "name") {
      const name = this.book.name(reference.name);
      return name && this.book.sheets.includes(name.sheet) ? name : undefined;
    }
    if (reference.kind === "structured") {
      const table = this.book.table(reference.table);
      const area = table && this.book.columnsOf(table, reference.columns);
      return area && { sheet: table.sheet, area };
    }
    const sheet = reference.sheet === undefined ? home : this.book.sheet(reference.sheet);
    const area = readArea(reference.address);
    if (!sheet || !area) throw new Error(`The workbook has no ${reference.sheet ?? ""}!${reference.address}.`);
    const spill = reference.spill ? sheet.at(area.row, area.column)?.spill : undefined;
    return { sheet, area: spill ?? area };
  }

  private async result(place: Place): Promise<Matrix> {
    const cell = place.sheet.cells.get(place.key)!;
    const result = await this.evaluate(cell.expression!, place);
    return result.map((row) => row.map((value) => value ?? 0)); // a formula that gives a blank cell shows 0
  }

  private async evaluate(it: Expression, place: Place): Promise<Matrix> {
    switch (it.kind) {
      case "value":
        return [[it.value]];
      case "error":
        return [[new CellError(it.code)]];
      case "array":
        return Promise.all(it.rows.map((row) => Promise.all(row.map(async (cell) => (await this.evaluate(cell, place))[0]![0]!))));
      case "reference":
      case "name":
      case "structured": {
        const target = this.target(it, place.sheet);
        if (!target) return [[new CellError(it.kind === "name" ? "#NAME?" : "#REF!")]];
        const { sheet, area } = target;
        return Array.from({ length: area.rows }, (_, row) =>
          Array.from({ length: area.columns }, (_, column) => sheet.at(area.row + row, area.column + column)?.value ?? null),
        );
      }
      case "negate":
        return (await this.evaluate(it.of, place)).map((row) => row.map((value) => operate("-", 0, value)));
      case "percent":
        return (await this.evaluate(it.of, place)).map((row) => row.map((value) => operate("/", value, 100)));
      case "operation": {
        const left = await this.evaluate(it.left, place);
        const right = await this.evaluate(it.right, place);
        const pick = (matrix: Matrix, row: number, column: number) => matrix[matrix.length === 1 ? 0 : row]?.[matrix[0]!.length === 1 ? 0 : column] ?? null;
        const columns = Math.max(left[0]!.length, right[0]!.length);
        return Array.from({ length: Math.max(left.length, right.length) }, (_, row) =>
          Array.from({ length: columns }, (_, column) => operate(it.operator, pick(left, row, column), pick(right, row, column))),
        );
      }
      case "call":
        return this.call(it.name, await Promise.all(it.given.map((given) => (given ? this.evaluate(given, place) : undefined))), place);
    }
  }

  private async call(name: string, given: (Matrix | undefined)[], place: Place): Promise<Matrix> {
    const prefix = `${this.functions.namespace}.`;
    const upper = name.toUpperCase();
    if (!upper.startsWith(prefix)) {
      const known = builtIn[upper];
      return [[known ? known(given.map((matrix) => matrix ?? [[null]])) : new CellError("#NAME?")]];
    }
    const metadata = this.functions.metadata.functions.find((it) => it.name.toUpperCase() === upper.slice(prefix.length));
    if (!metadata) return [[new CellError("#NAME?")]];
    const errorsAllowed = this.functions.metadata.allowErrorForDataTypeAny === true;
    const stopped = errorsAllowed ? undefined : given.flat(2).find((value) => value instanceof CellError);
    if (stopped) return [[stopped]];
    const values = metadata.parameters.map((parameter, index) => {
      if (parameter.type !== undefined && parameter.type !== "any") throw new Error(`The stand-in does not convert to ${parameter.type}.`);
      const hand = (matrix: Matrix) => {
        const cells = matrix.map((row) => row.map((value) => this.handOver(value)));
        return parameter.dimensionality === "matrix" ? cells : cells[0]![0];
      };
      if (parameter.repeating) return given.slice(index).map((matrix) => hand(matrix ?? [[null]]));
      const matrix = given[index];
      return matrix ? hand(matrix) : null; // what is left out arrives as null
    });
    return this.functions.call(metadata.id, values, `${place.sheet.name}!${place.key}`, errorsAllowed);
  }

  private handOver(value: CellValue | null): unknown {
    if (value === null) return this.functions.blank;
    return value instanceof CellError ? { type: "CustomFunctionError", code: value.code } : value;
  }

  /** Puts a result into its cell and lets it spill; answers the cells that changed. */
  private put({ sheet, key }: Place, result: Matrix): Place[] {
    const cell = sheet.cells.get(key);
    if (!cell?.expression) return []; // typed over while it was calculated
    const { row, column } = readArea(key)!;
    const changed: Place[] = [{ sheet, key }, ...this.clearSpill(sheet, cell)];
    const area = { row, column, rows: result.length, columns: result[0]!.length };
    const others = result.flatMap((cells, i) => cells.map((value, j) => ({ key: cellKey(row + i, column + j), value: value! }))).slice(1);
    if (others.some((other) => sheet.cells.has(other.key))) {
      cell.value = new CellError("#SPILL!");
      return changed;
    }
    cell.value = result[0]![0]!;
    if (others.length > 0) cell.spill = area;
    for (const other of others) {
      sheet.cells.set(other.key, { value: other.value, spilledFrom: key });
      changed.push({ sheet, key: other.key });
    }
    return changed;
  }

  private clearSpill(sheet: Sheet, cell: Cell): Place[] {
    const { spill } = cell;
    if (!spill) return [];
    delete cell.spill;
    const origin = cellKey(spill.row, spill.column);
    const cleared = [...sheet.cells].filter(([, other]) => other.spilledFrom === origin).map(([key]) => ({ sheet, key }));
    for (const { key } of cleared) sheet.cells.delete(key);
    return cleared;
  }
}

function operate(operator: Operator, left: CellValue | null, right: CellValue | null): CellValue {
  if (left instanceof CellError) return left;
  if (right instanceof CellError) return right;
  if (operator === "&") return `${left ?? ""}${right ?? ""}`;
  if (operator === "=") return (left ?? 0) === (right ?? 0);
  if (operator === "<>") return (left ?? 0) !== (right ?? 0);
  const a = Number(left ?? 0);
  const b = Number(right ?? 0);
  if (Number.isNaN(a) || Number.isNaN(b)) return new CellError("#VALUE!");
  switch (operator) {
    case "+":
      return a + b;
    case "-":
      return a - b;
    case "*":
      return a * b;
    case "/":
      return b === 0 ? new CellError("#DIV/0!") : a / b;
    case "^":
      return a ** b;
    case "<":
      return a < b;
    case ">":
      return a > b;
    case "<=":
      return a <= b;
    case ">=":
      return a >= b;
    case ":":
      return new CellError("#REF!");
  }
}
