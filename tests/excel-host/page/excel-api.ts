/**
 * The objects of Excel's API over the stand-in's workbook. Members have the names of Excel's API and do what its reference says.
 * To model another object, write another class like these; what is not here answers an error that names it.
 */
import { cellKey, readArea, writeArea, type Area } from "./address.ts";
import { CellError, type Book, type CellValue, type Sheet } from "./book.ts";
import type { Calculator } from "./calculator.ts";
import { ApiCollection, ApiError, ApiObject } from "./rich-api.ts";

interface Host {
  readonly book: Book;
  readonly calculator: Calculator;
}

function notFound(): ApiError {
  return new ApiError("ItemNotFound", "The requested resource doesn't exist.");
}

export class Workbook extends ApiObject {
  readonly apiName = "Workbook";
  readonly worksheets: Worksheets;
  readonly properties: DocumentProperties;
  readonly application: Application;

  constructor(host: Host) {
    super();
    this.worksheets = new Worksheets(host);
    this.properties = new DocumentProperties(host);
    this.application = new Application(host);
  }
}

class Application extends ApiObject {
  readonly apiName = "Application";

  constructor(private readonly host: Host) {
    super();
  }

  calculate(type: string): void {
    // "Recalculate" and "FullRebuild" differ from it in what Excel keeps; only "Full" is modelled.
    if (type !== "Full") throw new ApiError("InvalidArgument", `The stand-in does not model the calculation “${type}”.`);
    this.host.calculator.calculateAll();
  }
}

class Worksheets extends ApiCollection<Worksheet> {
  readonly apiName = "WorksheetCollection";
  private readonly objects = new Map<Sheet, Worksheet>();

  constructor(private readonly host: Host) {
    super();
  }

  get items(): readonly Worksheet[] {
    return this.host.book.sheets.map((sheet) => this.of(sheet));
  }

  getItem(key: unknown): Worksheet {
    const sheet = this.host.book.sheet(String(key));
    if (!sheet) throw notFound();
    return this.of(sheet);
  }

  getItemOrNullObject(key: unknown): Worksheet | null {
    const sheet = this.host.book.sheet(String(key));
    return sheet ? this.of(sheet) : null;
  }

  private of(sheet: Sheet): Worksheet {
    const object = this.objects.get(sheet) ?? new Worksheet(this.host, sheet);
    this.objects.set(sheet, object);
    return object;
  }
}

class Worksheet extends ApiObject {
  readonly apiName = "Worksheet";

  constructor(
    private readonly host: Host,
    private readonly sheet: Sheet,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Id: this.sheet.id };
  }

  get id(): string {
    return this.sheet.id;
  }

  get name(): string {
    return this.sheet.name;
  }

  getRange(address: string): Range {
    const area = readArea(address);
    if (!area) throw new ApiError("InvalidArgument", `The argument is invalid or missing or has an incorrect format: ${address}`);
    return new Range(this.host, this.sheet, area);
  }

  getUsedRangeOrNullObject(valuesOnly?: boolean): Range | null {
    if (valuesOnly !== true) throw new ApiError("InvalidArgument", "The stand-in has no formats, so it only knows the range of values.");
    const area = this.sheet.used();
    return area ? new Range(this.host, this.sheet, area) : null;
  }
}

class Range extends ApiObject {
  readonly apiName = "Range";

  constructor(
    private readonly host: Host,
    private readonly sheet: Sheet,
    private readonly area: Area,
  ) {
    super();
  }

  get address(): string {
    return `${this.sheet.name}!${writeArea(this.area)}`;
  }

  get rowCount(): number {
    return this.area.rows;
  }

  get columnCount(): number {
    return this.area.columns;
  }

  get values(): unknown[][] {
    return this.read((key) => shown(this.sheet.cells.get(key)?.value));
  }

  set values(typed: unknown[][]) {
    this.write(typed);
  }

  get formulas(): unknown[][] {
    return this.read((key) => this.sheet.cells.get(key)?.formula ?? shown(this.sheet.cells.get(key)?.value));
  }

  set formulas(typed: unknown[][]) {
    this.write(typed);
  }

  getCell(row: number, column: number): Range {
    return new Range(this.host, this.sheet, { row: this.area.row + row, column: this.area.column + column, rows: 1, columns: 1 });
  }

  getResizedRange(deltaRows: number, deltaColumns: number): Range {
    return new Range(this.host, this.sheet, { ...this.area, rows: this.area.rows + deltaRows, columns: this.area.columns + deltaColumns });
  }

  private read(of: (key: string) => unknown): unknown[][] {
    const { row, column, rows, columns } = this.area;
    return Array.from({ length: rows }, (_, i) => Array.from({ length: columns }, (_, j) => of(cellKey(row + i, column + j))));
  }

  private write(typed: unknown[][]): void {
    if (typed.length !== this.area.rows || typed.some((row) => row.length !== this.area.columns)) {
      throw new ApiError("InvalidArgument", "The number of rows or columns in the input array doesn't match the size or dimensions of the range.");
    }
    this.host.calculator.type(this.sheet, this.area, typed);
  }
}

class DocumentProperties extends ApiObject {
  readonly apiName = "DocumentProperties";
  readonly custom: CustomProperties;

  constructor(host: Host) {
    super();
    this.custom = new CustomProperties(host);
  }
}

class CustomProperties extends ApiCollection<CustomProperty> {
  readonly apiName = "CustomPropertyCollection";

  constructor(private readonly host: Host) {
    super();
  }

  get items(): readonly CustomProperty[] {
    return [...this.host.book.properties.values()].map((property) => new CustomProperty(property));
  }

  getItem(key: unknown): CustomProperty {
    const item = this.getItemOrNullObject(key);
    if (!item) throw notFound();
    return item;
  }

  getItemOrNullObject(key: unknown): CustomProperty | null {
    const property = this.host.book.properties.get(String(key).toLowerCase());
    return property ? new CustomProperty(property) : null;
  }

  /** Excel outside the web cuts keys and values at 255 characters; refusing them shows it before a person's file does. */
  add(key: string, value: unknown): CustomProperty {
    if (key.length > 255 || String(value).length > 255) throw new ApiError("InvalidArgument", "A custom property holds at most 255 characters.");
    const property = { key, value };
    this.host.book.properties.set(key.toLowerCase(), property);
    return new CustomProperty(property);
  }
}

class CustomProperty extends ApiObject {
  readonly apiName = "CustomProperty";

  constructor(private readonly property: { readonly key: string; value: unknown }) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { Key: this.property.key };
  }

  get key(): string {
    return this.property.key;
  }

  get value(): unknown {
    return this.property.value;
  }
}

function shown(value: CellValue | undefined): unknown {
  return value instanceof CellError ? value.code : (value ?? "");
}
