/**
 * The objects of Excel's API over the stand-in's workbook. Members have the names of Excel's API and do what its reference says.
 * To model another object, write another class like these; what is not here answers an error that names it.
 */
import { cellKey, readArea, writeArea, type Area } from "./address.ts";
import { CellError, type Book, type CellValue, type DefinedName, type Sheet, type Table as BookTable } from "./book.ts";
import type { Calculator } from "./calculator.ts";
import { Charts } from "./chart-api.ts";
import { DataValidation, FreezePanes, PageLayout, RangeFormat } from "./format-api.ts";
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
  readonly tables: Tables;
  readonly names: NamedItems;

  constructor(host: Host) {
    super();
    this.worksheets = new Worksheets(host);
    this.properties = new DocumentProperties(host);
    this.application = new Application(host);
    this.tables = new Tables(host);
    this.names = new NamedItems(host);
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

  /** What office.js asks for when a listener to changed cells is added; a test's colleague then reports changes. */
  _RegisterDataChangedEvent(): void {
    this.host.book.reportsChanges = true;
  }

  get items(): readonly Worksheet[] {
    return this.host.book.sheets.map((sheet) => this.of(sheet));
  }

  getItem(key: unknown): Worksheet {
    const sheet = this.host.book.sheet(String(key));
    if (!sheet) throw notFound();
    return this.of(sheet);
  }

  getActiveWorksheet(): Worksheet {
    return this.of(this.host.book.active ?? this.host.book.sheets[0]!);
  }

  getItemOrNullObject(key: unknown): Worksheet | null {
    const sheet = this.host.book.sheet(String(key));
    return sheet ? this.of(sheet) : null;
  }

  add(name: string): Worksheet {
    if (this.host.book.sheet(name)) throw new ApiError("ItemAlreadyExists", "A resource with the same name or identifier already exists.");
    if (name.length > 31 || /[:\\/?*[\]]/.test(name)) throw new ApiError("InvalidArgument", `A sheet cannot be called “${name}”.`);
    return this.of(this.host.book.addSheet(name));
  }

  of(sheet: Sheet): Worksheet {
    const object = this.objects.get(sheet) ?? new Worksheet(this.host, sheet);
    this.objects.set(sheet, object);
    return object;
  }
}

class Worksheet extends ApiObject {
  readonly apiName = "Worksheet";
  readonly charts: Charts;
  readonly tables: Tables;
  readonly pageLayout: PageLayout;
  readonly freezePanes: FreezePanes;

  constructor(
    private readonly host: Host,
    private readonly sheet: Sheet,
  ) {
    super();
    this.charts = new Charts(host.book, sheet);
    this.tables = new Tables(host, sheet);
    this.pageLayout = new PageLayout(sheet.page);
    this.freezePanes = new FreezePanes(sheet);
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

  get showGridlines(): boolean {
    return this.sheet.showGridlines;
  }

  get visibility(): string {
    return this.sheet.visibility;
  }

  set visibility(visibility: string) {
    this.sheet.visibility = visibility;
  }

  set showGridlines(shown: boolean) {
    this.sheet.showGridlines = shown;
  }

  getRange(address: string): Range {
    return new Range(this.host, this.sheet, areaAt(address));
  }

  getRangeByIndexes(row: number, column: number, rows: number, columns: number): Range {
    return new Range(this.host, this.sheet, { row, column, rows, columns });
  }

  getRanges(addresses: string): RangeAreas {
    if (addresses.length > 8192) throw new ApiError("InvalidArgument", "Too many addresses.");
    return new RangeAreas(this.sheet, addresses.split(",").map(areaAt));
  }

  activate(): void {
    this.host.book.active = this.sheet;
  }

  delete(): void {
    if (this.host.book.sheets.length === 1) throw new ApiError("InvalidOperation", "A workbook keeps one sheet at least.");
    this.host.book.deleteSheet(this.sheet);
  }

  getUsedRangeOrNullObject(valuesOnly?: boolean): Range | null {
    if (valuesOnly !== true) throw new ApiError("InvalidArgument", "The stand-in has no formats, so it only knows the range of values.");
    const area = this.sheet.used();
    return area ? new Range(this.host, this.sheet, area) : null;
  }
}

function areaAt(address: string): Area {
  const area = readArea(address);
  if (!area) throw new ApiError("InvalidArgument", `The argument is invalid or missing or has an incorrect format: ${address}`);
  return area;
}

class RangeAreas extends ApiObject {
  readonly apiName = "RangeAreas";
  readonly format: RangeFormat;

  constructor(sheet: Sheet, areas: readonly Area[]) {
    super();
    this.format = new RangeFormat({ sheet, areas });
  }
}

class Range extends ApiObject {
  readonly apiName = "Range";
  readonly format: RangeFormat;
  readonly dataValidation: DataValidation;

  constructor(
    private readonly host: Host,
    readonly sheet: Sheet,
    readonly area: Area,
  ) {
    super();
    this.format = new RangeFormat({ sheet, areas: [area] });
    this.dataValidation = new DataValidation({ sheet, areas: [area] });
  }

  get worksheet(): Worksheet {
    return new Worksheet(this.host, this.sheet);
  }

  get numberFormat(): unknown[][] {
    return this.read((key) => this.sheet.settings.get(key)?.numberFormat ?? "General");
  }

  /** A single value goes to all cells. */
  set numberFormat(format: unknown) {
    if (typeof format !== "string") throw new ApiError("InvalidArgument", "The stand-in takes one number format for a range.");
    this.sheet.set(this.area, "numberFormat", format);
  }

  select(): void {
    // The stand-in shows no selection.
  }

  /** The first cell takes the whole area; what stood in the others is gone. */
  merge(): void {
    for (let row = 0; row < this.area.rows; row++) {
      for (let column = 0; column < this.area.columns; column++) {
        if (row > 0 || column > 0) this.sheet.cells.delete(cellKey(this.area.row + row, this.area.column + column));
      }
    }
    this.sheet.merged.push(writeArea(this.area));
  }

  get columnHidden(): boolean {
    return this.sheet.hiddenColumns.has(this.area.column);
  }

  set columnHidden(hidden: boolean) {
    for (let index = 0; index < this.area.columns; index++) this.sheet.hiddenColumns[hidden ? "add" : "delete"](this.area.column + index);
  }

  get address(): string {
    return `${this.sheet.name}!${writeArea(this.area)}`;
  }

  get rowIndex(): number {
    return this.area.row;
  }

  get columnIndex(): number {
    return this.area.column;
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

  getRow(row: number): Range {
    return new Range(this.host, this.sheet, { ...this.area, row: this.area.row + row, rows: 1 });
  }

  getOffsetRange(rows: number, columns: number): Range {
    return new Range(this.host, this.sheet, { ...this.area, row: this.area.row + rows, column: this.area.column + columns });
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
    if (this.sheet.isProtected) throw new ApiError("AccessDenied", "You cannot perform the requested operation.");
    this.host.calculator.type(this.sheet, this.area, typed);
  }
}

function overlap(a: Area, b: Area): boolean {
  return a.row < b.row + b.rows && b.row < a.row + a.rows && a.column < b.column + b.columns && b.column < a.column + a.columns;
}

class Tables extends ApiCollection<Table> {
  readonly apiName = "TableCollection";

  constructor(
    private readonly host: Host,
    private readonly sheet?: Sheet,
  ) {
    super();
  }

  get items(): readonly Table[] {
    return this.host.book.tables.filter((table) => !this.sheet || table.sheet === this.sheet).map((table) => new Table(this.host, table));
  }

  getItem(key: unknown): Table {
    const table = this.host.book.table(String(key));
    if (!table) throw notFound();
    return new Table(this.host, table);
  }

  add(source: Range, hasHeaders: boolean): Table {
    const { sheet, area } = source;
    if (!hasHeaders || !this.sheet || sheet !== this.sheet) throw new ApiError("InvalidArgument", "The stand-in makes tables with headings, on their own sheet.");
    const headings = Array.from({ length: area.columns }, (_, index) => String(sheet.at(area.row, area.column + index)?.value ?? ""));
    if (new Set(headings).size < headings.length || headings.includes("")) throw new ApiError("InvalidArgument", "Headings of a table are all different.");
    const { tables } = this.host.book;
    if (tables.some((table) => table.sheet === sheet && overlap(table.area, area))) throw new ApiError("InvalidArgument", "A table can't overlap another table.");
    let number = tables.length + 1;
    while (this.host.book.table(`Table${number}`)) number++;
    const table: BookTable = { id: this.host.book.newId(), name: `Table${number}`, sheet, area, style: "TableStyleMedium2", showFilterButton: true, showBandedRows: true };
    tables.push(table);
    return new Table(this.host, table);
  }
}

class Table extends ApiObject {
  readonly apiName = "Table";
  readonly columns: TableColumns;

  constructor(
    private readonly host: Host,
    private readonly table: BookTable,
  ) {
    super();
    this.columns = new TableColumns(host, table);
  }

  override identity(): Record<string, unknown> {
    return { Id: this.table.id };
  }

  get id(): string {
    return this.table.id;
  }

  get name(): string {
    return this.table.name;
  }

  set name(name: string) {
    const { book } = this.host;
    const taken = book.table(name);
    if ((taken && taken !== this.table) || book.name(name)) throw new ApiError("InvalidArgument", "This name is already in use.");
    if (!/^[A-Za-z_]\w*$/.test(name)) throw new ApiError("InvalidArgument", `“${name}” is no name for a table.`);
    this.table.name = name;
  }

  get style(): string {
    return this.table.style;
  }

  set style(style: string) {
    this.table.style = style;
  }

  get showBandedRows(): boolean {
    return this.table.showBandedRows;
  }

  set showBandedRows(shown: boolean) {
    this.table.showBandedRows = shown;
  }

  get showFilterButton(): boolean {
    return this.table.showFilterButton;
  }

  set showFilterButton(shown: boolean) {
    this.table.showFilterButton = shown;
  }
}

class TableColumns extends ApiCollection<TableColumn> {
  readonly apiName = "TableColumnCollection";

  constructor(
    private readonly host: Host,
    private readonly table: BookTable,
  ) {
    super();
  }

  get items(): readonly TableColumn[] {
    const { sheet, area } = this.table;
    return Array.from({ length: area.columns }, (_, index) => new TableColumn(this.host, this.table, String(sheet.at(area.row, area.column + index)?.value ?? "")));
  }

  getItem(key: unknown): TableColumn {
    const column = this.items.find(({ name }) => name.toLowerCase() === String(key).toLowerCase());
    if (!column) throw notFound();
    return column;
  }
}

class TableColumn extends ApiObject {
  readonly apiName = "TableColumn";

  constructor(
    private readonly host: Host,
    private readonly table: BookTable,
    readonly name: string,
  ) {
    super();
  }

  getDataBodyRange(): Range {
    return new Range(this.host, this.table.sheet, this.host.book.columnsOf(this.table, [this.name])!);
  }
}

class NamedItems extends ApiCollection<NamedItem> {
  readonly apiName = "NamedItemCollection";

  constructor(private readonly host: Host) {
    super();
  }

  get items(): readonly NamedItem[] {
    return this.host.book.names.map((name) => new NamedItem(this.host, name));
  }

  getItem(key: unknown): NamedItem {
    const item = this.getItemOrNullObject(key);
    if (!item) throw notFound();
    return item;
  }

  getItemOrNullObject(key: unknown): NamedItem | null {
    const name = this.host.book.name(String(key));
    return name ? new NamedItem(this.host, name) : null;
  }

  add(name: string, reference: Range): NamedItem {
    if (this.host.book.name(name) || this.host.book.table(name)) throw new ApiError("ItemAlreadyExists", "A resource with the same name or identifier already exists.");
    if (!/^[A-Za-z_][\w.]*$/.test(name) || /^[A-Z]{1,3}\d+$/i.test(name)) throw new ApiError("InvalidArgument", `“${name}” cannot be a name.`);
    const item: DefinedName = { name, sheet: reference.sheet, area: reference.area };
    this.host.book.names.push(item);
    return new NamedItem(this.host, item);
  }
}

class NamedItem extends ApiObject {
  readonly apiName = "NamedItem";

  constructor(
    private readonly host: Host,
    private readonly item: DefinedName,
  ) {
    super();
  }

  override identity(): Record<string, unknown> {
    return { _Id: this.item.name };
  }

  get name(): string {
    return this.item.name;
  }

  getRangeOrNullObject(): Range | null {
    return this.host.book.sheets.includes(this.item.sheet) ? new Range(this.host, this.item.sheet, this.item.area) : null;
  }

  delete(): void {
    const { names } = this.host.book;
    names.splice(names.indexOf(this.item), 1);
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
