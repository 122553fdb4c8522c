/**
 * Tables take in what is typed, pasted or filled directly below or beside them, as in other spreadsheets, so that no row is left out of the
 * results. Columns of formulas and the looks of the last row go on in the new rows. A heading that is typed over keeps its formulas. What is
 * entered near a table and is left out of it is told. All of it belongs to the entry: one undo takes both back.
 */
import {
  IUndoRedoService,
  RedoCommand,
  UndoCommand,
  type ICellData,
  type IMutationInfo,
  type Injector,
  type IStyleData,
  type Nullable,
} from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { FormulaDataModel } from "@univerjs/engine-formula";
import { SetRangeValuesMutation, type ISetRangeValuesMutationParams } from "@univerjs/sheets";
import { SetSheetTableMutation, TableManager } from "@univerjs/sheets-table";
import { filled } from "../../../sheet/formula-text";
import { holds, type Cells } from "./areas";
import { CellChanges, type Step } from "./cell-changes";
import { LeftOut } from "./left-out";
import { allowRenaming, renamedHeadings } from "./renamed-headings";

type Table = NonNullable<ReturnType<TableManager["getTableById"]>>;

interface Entry {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly cells: Set<string>;
  readonly emptied: Set<string>;
  readonly before: unknown;
}

type FilterOn = (unitId: string, sheetId: string) => Cells | undefined;

/** The library's filters are loaded late, and so is the name of this. */
const setFilterRange = "sheet.mutation.set-filter-range";

/** `tell` gets a sentence for the person; `filterOn` answers the cells that a sheet filters. */
export function growTables(api: FUniver, injector: Injector, tell: (words: string) => void, filterOn: FilterOn = () => undefined): void {
  allowRenaming(injector);
  const grower = new Grower(api, injector, tell, filterOn);
  let replaying = false;
  const isReplay = ({ id }: { readonly id: string }) => id === UndoCommand.id || id === RedoCommand.id;
  api.onBeforeCommandExecute((command) => {
    if (isReplay(command)) replaying = true;
  });
  api.onCommandExecuted((command, options) => {
    if (isReplay(command)) replaying = false;
    if (command.id !== SetRangeValuesMutation.id || replaying || options?.onlyLocal || options?.applyFormulaCalculationResult) return;
    grower.entered(command.params as ISetRangeValuesMutationParams);
  });
}

class Grower {
  private readonly tables: TableManager;
  private readonly undoRedo: IUndoRedoService;
  private readonly formulas: FormulaDataModel;
  /** The cells that one command has filled and emptied so far on each sheet, with the undo that was the last one before. */
  private readonly entries = new Map<string, Entry>();

  private growing = false;

  constructor(
    private readonly api: FUniver,
    private readonly injector: Injector,
    private readonly tell: (words: string) => void,
    private readonly filterOn: FilterOn,
  ) {
    this.tables = injector.get(TableManager);
    this.undoRedo = injector.get(IUndoRedoService);
    this.formulas = injector.get(FormulaDataModel);
  }

  entered({ unitId, subUnitId, cellValue }: ISetRangeValuesMutationParams): void {
    if (this.growing) return;
    const cells = [...entriesOf(cellValue)];
    if (cells.length === 0) return;
    const sheet = `${unitId} ${subUnitId}`;
    let entry = this.entries.get(sheet);
    if (!entry) {
      const begun: Entry = { unitId, subUnitId, cells: new Set(), emptied: new Set(), before: this.undoRedo.pitchTopUndoElement() };
      entry = begun;
      this.entries.set(sheet, begun);
      // The command that this belongs to pushes its undo when all of it is done.
      setTimeout(() => {
        this.entries.delete(sheet);
        this.grow(begun);
      });
    }
    for (const { row, column, isFilled } of cells) (isFilled ? entry.cells : entry.emptied).add(`${row} ${column}`);
  }

  private grow({ unitId, subUnitId, cells, emptied, before }: Entry): void {
    const isTouched = (row: number, column: number) => cells.has(`${row} ${column}`) || emptied.has(`${row} ${column}`);
    for (const table of this.tables.getTablesBySubunitId(unitId, subUnitId)) {
      this.take(renamedHeadings(this.injector, this.book.getWorkbook(), table, isTouched), before);
      const was = table.getRange();
      const range = this.grown(table, cells);
      if (!range) continue;
      const resize = (newRange: Cells): IMutationInfo => {
        const config = { updateRange: { newRange } };
        return { id: SetSheetTableMutation.id, params: { unitId, subUnitId, tableId: table.getId(), config } };
      };
      const continuing = this.continued(table, range).steps(this.injector, unitId, subUnitId);
      this.take([...continuing, { redo: [resize(range)], undo: [resize(was)] }, ...this.filterGrown(table, range)], before);
    }
    // Of what is pasted the first row says it for all.
    const first = [...new Map([...cells].reverse().map((place) => [place.split(" ")[1], placeFrom(place)])).values()];
    const words = new LeftOut(this.book.getWorkbook(), subUnitId, this.formulas).words(this.tables.getTablesBySubunitId(unitId, subUnitId), first);
    if (words !== undefined) this.tell(words);
  }

  /** Does the steps and joins them to the undo of the entry, or makes them one where the entry has none. */
  private take(steps: readonly Step[], before: unknown): void {
    if (steps.length === 0) return;
    const redo = steps.flatMap((step) => step.redo);
    const undo = [...steps].reverse().flatMap((step) => step.undo);
    this.growing = true;
    for (const { id, params } of redo) this.api.syncExecuteCommand(id, params);
    this.growing = false;
    const top = this.undoRedo.pitchTopUndoElement();
    if (top && top !== before) {
      top.redoMutations.push(...redo);
      top.undoMutations.unshift(...undo);
    } else this.undoRedo.pushUndoRedo({ unitID: this.unitId, redoMutations: redo, undoMutations: undo });
  }

  /** How far the table reaches with what was entered; undefined where it stays as it is. */
  private grown(table: Table, entered: ReadonlySet<string>): Cells | undefined {
    const range = table.getRange();
    let { endRow, endColumn } = range;
    const rowOf = (row: number, last: number) => columns(range.startColumn, last).map((column) => `${row} ${column}`);
    const columnOf = (column: number) => columns(range.startRow, endRow).map((row) => `${row} ${column}`);
    const touches = (places: readonly string[]) => places.some((place) => entered.has(place));
    while (touches(rowOf(endRow + 1, endColumn))) endRow++;
    const rowsFree = columns(range.endRow + 1, endRow).every((row) => this.isFree(table, rowOf(row, endColumn), entered));
    if (!rowsFree) {
      const words = "did not take in the row below it, because something else stands there: insert a row into the table, or move that away.";
      this.tell(`The table ${table.getDisplayName()} ${words}`);
      return undefined;
    }
    // Beside a table, results often stand close; only what has the whole side to itself becomes a column.
    while (touches(columnOf(endColumn + 1)) && this.isFree(table, columnOf(endColumn + 1), entered)) endColumn++;
    return endRow === range.endRow && endColumn === range.endColumn ? undefined : { ...range, endRow, endColumn };
  }

  /** What filters the rows of the table takes in its new ones, and its new columns where none was filtered beside it. */
  private filterGrown(table: Table, { startRow, startColumn, endRow, endColumn }: Cells): Step[] {
    const ids = { unitId: this.unitId, subUnitId: table.getSubunitId() };
    const filter = this.filterOn(ids.unitId, ids.subUnitId);
    if (!filter || filter.startRow !== startRow || filter.startColumn !== startColumn) return [];
    // A row right below the library takes in by itself, for good.
    const to = (range: Cells): IMutationInfo[] => [{ id: setFilterRange, params: { ...ids, range } }];
    const undo = to({ ...filter, endRow: table.getRange().endRow });
    return [{ redo: to({ ...filter, endRow, endColumn: Math.max(filter.endColumn, endColumn) }), undo }];
  }

  private isFree(table: Table, places: readonly string[], entered: ReadonlySet<string>): boolean {
    return places.every((place) => {
      const { row, column } = placeFrom(place);
      const others = this.tables.getTablesBySubunitId(this.unitId, table.getSubunitId());
      if (others.some((other) => other !== table && holds(other.getRange(), row, column))) return false;
      return entered.has(place) || !this.isHeld(table.getSubunitId(), row, column);
    });
  }

  private isHeld(sheetId: string, row: number, column: number): boolean {
    const spilled = this.formulas.getArrayFormulaCellData()[this.unitId]?.[sheetId]?.[row]?.[column];
    return hasContents(this.sheet(sheetId).getCellRaw(row, column)) || spilled != null;
  }

  private get book() {
    return this.api.getActiveWorkbook()!;
  }

  private get unitId(): string {
    return this.book.getId();
  }

  private sheet(sheetId: string) {
    return this.book.getSheetBySheetId(sheetId)!.getSheet();
  }

  /** What the new rows take from the last one: formulas that fill their column, and looks, also of the cells beside the table. */
  private continued(table: Table, range: Cells): CellChanges {
    const sheetId = table.getSubunitId();
    const { startRow, startColumn, endRow: last, endColumn } = table.getRange();
    const sheet = this.sheet(sheetId);
    const changes = new CellChanges();
    for (let column = startColumn; column <= range.endColumn || sheet.getCellRaw(last, column)?.s != null; column++) {
      const look = this.lookOf(sheet.getCellRaw(last, column));
      const formula = column <= endColumn && last > startRow ? this.columnFormula(sheetId, last, column, last === startRow + 1) : undefined;
      for (let row = last + 1; row <= range.endRow; row++) {
        const cell = sheet.getCellRaw(row, column);
        // A date that is typed brings a number format and nothing else.
        if (look && Object.keys(this.lookOf(cell) ?? {}).every((part) => part === "n")) changes.putLook(row, column, look);
        if (formula === undefined || this.isHeld(sheetId, row, column)) continue;
        changes.putContents(row, column, { f: `=${filled(formula, row - last, 0)}`, v: null, p: null });
      }
    }
    // A column without a heading cannot be named.
    for (let column = endColumn + 1; column <= range.endColumn; column++) {
      if (!table.isShowHeader() || hasContents(sheet.getCellRaw(startRow, column))) continue;
      changes.putContents(startRow, column, { v: this.freeHeading(table, column - startColumn + 1) });
    }
    return changes;
  }

  private lookOf(cell: Nullable<ICellData>): IStyleData | undefined {
    return this.book.getWorkbook().getStyles().getStyleByCell(cell) ?? undefined;
  }

  /** The formula that a column has in its last row, where the row before has it too. */
  private columnFormula(sheetId: string, row: number, column: number, isOnlyRow: boolean): string | undefined {
    const formulaAt = (at: number) => this.formulas.getFormulaStringByCell(at, column, sheetId, this.unitId)?.replace(/^=/, "");
    const formula = formulaAt(row);
    if (formula === undefined) return undefined;
    return isOnlyRow || filled(formulaAt(row - 1) ?? "", 1, 0) === formula ? formula : undefined;
  }

  private freeHeading(table: Table, number: number): string {
    const taken = new Set(columns(0, table.getColumnsCount() - 1).map((index) => table.getColumnNameByIndex(index).toLowerCase()));
    let heading = `Column${number}`;
    for (let next = number + 1; taken.has(heading.toLowerCase()); next++) heading = `Column${next}`;
    return heading;
  }
}

/** The cells that something is put into, and those that are emptied; not those that only change their look. */
function* entriesOf(cellValue: ISetRangeValuesMutationParams["cellValue"]): Generator<{ row: number; column: number; isFilled: boolean }> {
  for (const [row, line] of Object.entries(cellValue ?? {})) {
    for (const [column, cell] of Object.entries(line as Record<string, Nullable<ICellData>>)) {
      const isFilled = hasContents(cell);
      if (isFilled || cell == null || "v" in cell) yield { row: Number(row), column: Number(column), isFilled };
    }
  }
}

function placeFrom(text: string): { row: number; column: number } {
  const [row, column] = text.split(" ").map(Number) as [number, number];
  return { row, column };
}

function hasContents(cell: Nullable<ICellData>): boolean {
  return cell != null && ((cell.v != null && cell.v !== "") || !!cell.f || !!cell.si || !!cell.p);
}

function columns(first: number, last: number): number[] {
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
}
