/** What a person does to data from the toolbar: sort, filter, find, and the format of numbers. Each part of the library is loaded when it is first needed. */
import { ICommandService, type ICellData, type Injector, type Nullable, type Univer } from "@univerjs/core";
import type { FWorkbook, FWorksheet } from "@univerjs/sheets/facade";
import { address } from "../../../sheet/references";
import { isErrorValue, type CellValue } from "../../../xlsx/workbook";
import type { Cells } from "./areas";
import { Parts } from "./parts";
import { valueFrom } from "./read-back";
import { namedColumns, regionAround, type Region } from "./region";

export interface SortKey {
  readonly column: number;
  readonly descending: boolean;
}

/** What can be sorted around the selected cell. */
export interface Sortable {
  readonly headed: boolean;
  /** Whether the first row names the columns is certain. */
  readonly isTable: boolean;
  /** The column of the selected cell. */
  readonly column: number;
  columns(headed: boolean): readonly { readonly column: number; readonly name: string }[];
  /** Answers what to tell the person where it cannot be done. */
  sort(keys: readonly SortKey[], headed: boolean): Promise<string | undefined>;
}

export class DataTools {
  private readonly parts: Parts;
  private comparing = false;
  /** The cells that a sheet filters, with their headings. */
  filterOn: (unitId: string, sheetId: string) => Cells | undefined = () => undefined;

  /** `spills` answers the areas that formulas fill on the sheet in sight. */
  constructor(univer: Univer, private readonly injector: Injector, private readonly book: () => FWorkbook, private readonly spills: () => readonly Cells[]) {
    this.parts = new Parts(univer);
  }

  sortable(): Sortable | undefined {
    const found = this.around();
    if (!found) return undefined;
    const { sheet, region, selected } = found;
    return {
      headed: region.headed,
      isTable: region.isTable,
      column: selected.startColumn,
      columns: (headed) => namedColumns(sheet, { ...region, headed }),
      sort: (keys, headed) => this.sort(sheet, region, keys, headed),
    };
  }

  private async sort(sheet: FWorksheet, { area, isTable }: Region, keys: readonly SortKey[], headed: boolean): Promise<string | undefined> {
    const rows = { ...area, startRow: area.startRow + (headed ? 1 : 0) };
    if (rows.startRow >= rows.endRow) return "There is only one row here: nothing to sort.";
    const torn = this.spills().find((spill) => meets(spill, rows));
    if (torn && !isTable) {
      return `Sorting would tear apart what the formula in ${address(torn.startRow, torn.startColumn)} fills. Select only the columns that were typed, and sort those.`;
    }
    if (sheet.getSheet().getMergeData().some((merged) => meets(merged, rows))) return "There are merged cells among these rows. Take the cells apart first.";
    const { part, SheetsSortService, SortRangeCommand, SortType } = await import(/* webpackChunkName: "sort" */ "./parts/sort");
    await this.parts.add(part, SortRangeCommand.id);
    if (!this.comparing) this.injector.get(SheetsSortService).registerCompareFn((type, a, b) => compared(a, b, type === SortType.DESC));
    this.comparing = true;
    const orderRules = keys.map(({ column, descending }) => ({ colIndex: column, type: descending ? SortType.DESC : SortType.ASC }));
    await this.run(SortRangeCommand.id, { unitId: this.book().getId(), subUnitId: sheet.getSheetId(), range: rows, orderRules, hasTitle: false });
    return undefined;
  }

  /** Filters come with a workbook only where they can be shown and saved again. */
  async bringFilters(): Promise<void> {
    const { part, SetSheetFilterRangeCommand, SheetsFilterService } = await import(/* webpackChunkName: "filter" */ "./parts/filter");
    await this.parts.add(part, SetSheetFilterRangeCommand.id);
    this.filterOn = (unitId, sheetId) => this.injector.get(SheetsFilterService).getFilterModel(unitId, sheetId)?.getRange();
  }

  /** Puts a filter on the rows around the selected cell, or takes the one of the sheet away. Answers what to tell the person. */
  async toggleFilter(): Promise<string> {
    const { RemoveSheetFilterCommand, SetSheetFilterRangeCommand } = await import(/* webpackChunkName: "filter" */ "./parts/filter");
    await this.bringFilters();
    const book = this.book();
    const ids = { unitId: book.getId(), subUnitId: book.getActiveSheet().getSheetId() };
    if (this.filterOn(ids.unitId, ids.subUnitId)) {
      await this.run(RemoveSheetFilterCommand.id, ids);
      return "The filter is gone; every row is in sight again.";
    }
    const found = this.around();
    if (!found || found.region.area.endRow <= found.region.area.startRow) return "Select a cell of the rows that you want to filter, then choose Filter again.";
    const { sheet, region } = found;
    await this.run(SetSheetFilterRangeCommand.id, { ...ids, range: withResultsBeside(sheet, region) });
    return "Choose the arrow beside a heading to say which rows stay in sight. Choose Filter again to see all rows.";
  }

  async find(replace = false): Promise<void> {
    const { part, lastCommand, OpenFindDialogOperation, OpenReplaceDialogOperation } = await import(/* webpackChunkName: "find" */ "./parts/find");
    await this.parts.add(part, lastCommand);
    await this.run((replace ? OpenReplaceDialogOperation : OpenFindDialogOperation).id);
  }

  /** Gives the selected cells a number format code. */
  setFormat(code: string): void {
    this.book().getActiveSheet().getSelection()?.getActiveRangeList().forEach((range) => range.setNumberFormat(code));
  }

  changeDecimals(by: 1 | -1): void {
    void this.run(by > 0 ? "sheet.command.numfmt.add.decimal.command" : "sheet.command.numfmt.subtract.decimal.command");
  }

  private around(): { sheet: FWorksheet; region: Region; selected: Cells } | undefined {
    const book = this.book();
    const sheet = book.getActiveSheet();
    const selected = sheet.getActiveRange()?.getRange();
    return selected && { sheet, selected, region: regionAround(book, sheet, selected) };
  }

  private run(id: string, params?: object): Promise<boolean> {
    return this.injector.get(ICommandService).executeCommand(id, params);
  }
}

/** The columns to the right whose headings stand in line with those of the region: results that a table is filtered by. */
function withResultsBeside(sheet: FWorksheet, { area, headed }: Region): Cells {
  const hasHeading = (column: number) => sheet.getRange(area.startRow, column).getDisplayValue() !== "";
  let { endColumn } = area;
  while (headed && endColumn + 1 < sheet.getMaxColumns() && hasHeading(endColumn + 1)) endColumn++;
  return { ...area, endColumn };
}

function meets(a: Cells, b: Cells): boolean {
  return a.startRow <= b.endRow && a.endRow >= b.startRow && a.startColumn <= b.endColumn && a.endColumn >= b.startColumn;
}

const collator = new Intl.Collator(undefined, { numeric: true, sensitivity: "base" });

/** Numbers, then texts, then TRUE and FALSE, then errors, as in Excel; blanks come last either way. The library reads a text such as "9a" as a number. */
function compared(a: Nullable<ICellData>, b: Nullable<ICellData>, descending: boolean): number {
  const [one, other] = [a ? valueFrom(a) : undefined, b ? valueFrom(b) : undefined];
  if (one === undefined || other === undefined) return Number(one === undefined) - Number(other === undefined);
  const order = rank(one) - rank(other) || withinRank(one, other);
  return descending ? -order : order;
}

function rank(value: CellValue): number {
  return isErrorValue(value) ? 3 : { number: 0, string: 1, boolean: 2 }[typeof value as "number" | "string" | "boolean"];
}

function withinRank(one: CellValue, other: CellValue): number {
  if (isErrorValue(one) || isErrorValue(other)) return 0;
  return typeof one === "string" ? collator.compare(one, String(other)) : Number(one) - Number(other);
}
