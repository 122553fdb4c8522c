/**
 * A heading of a table that is typed over goes on naming its column, as in other spreadsheets: formulas and names that mean the column are
 * spelled with the new heading. The grid library leaves the old one in force. A heading is a text of its own: one that is emptied, or that
 * another column has, is given a free one.
 */
import { CellValueType, CommandType, ICommandService, type IAccessor, type IMutation, type IMutationInfo, type Injector, type Workbook } from "@univerjs/core";
import { FormulaDataModel, IDefinedNamesService, SetDefinedNameMutation } from "@univerjs/engine-formula";
import { TableManager } from "@univerjs/sheets-table";
import { Relocation } from "../../../xlsx/relocation";
import { unusedHeading } from "../../../xlsx/table-changes";
import { CellChanges, type Step } from "./cell-changes";
import { valueFrom } from "./read-back";

type Table = NonNullable<ReturnType<TableManager["getTableById"]>>;

interface RenameParams {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly tableId: string;
  /** Headings by the places of their columns in the table. */
  readonly headings: Readonly<Record<number, string>>;
}

/** The library has none for the columns of a table. */
const RenameColumnsMutation: IMutation<RenameParams> = {
  id: "sheet.mutation.rename-table-columns",
  type: CommandType.MUTATION,
  handler: (accessor: IAccessor, { unitId, tableId, headings }) => {
    const tables = accessor.get(TableManager);
    const table = tables.getTableById(unitId, tableId);
    if (!table) return false;
    for (const [place, heading] of Object.entries(headings)) table.getTableColumnByIndex(Number(place))!.displayName = heading;
    // With the same range: that is how the formula engine learns of the headings.
    tables.updateTableRange(unitId, tableId, { newRange: table.getRange() });
    return true;
  },
};

/** Once for each instance of the library. */
export function allowRenaming(injector: Injector): void {
  injector.get(ICommandService).registerCommand(RenameColumnsMutation);
}

/** What follows from headings that were put in or emptied; `isTouched` tells which. None where they are as they were. */
export function renamedHeadings(injector: Injector, book: Workbook, table: Table, isTouched: (row: number, column: number) => boolean): Step[] {
  const { startRow, startColumn, endColumn } = table.getRange();
  if (!table.isShowHeader()) return [];
  const sheetId = table.getSubunitId();
  const sheet = book.getSheetBySheetId(sheetId)!;
  const had = Array.from({ length: endColumn - startColumn + 1 }, (_, place) => table.getColumnNameByIndex(place));
  const headings = had.slice();
  const settled = new CellChanges();
  had.forEach((_, place) => {
    const column = startColumn + place;
    if (!isTouched(startRow, column)) return;
    const cell = sheet.getCellRaw(startRow, column);
    const value = cell ? valueFrom(cell) : undefined;
    const typed = value === undefined || typeof value === "object" ? "" : String(value);
    const taken = new Set(headings.flatMap((heading, other) => (other === place ? [] : [heading.toLowerCase()])));
    headings[place] = unusedHeading(typed, taken);
    if (headings[place] !== typed) settled.putContents(startRow, column, { v: headings[place], t: CellValueType.STRING, f: null, si: null, p: null });
  });
  const unitId = book.getUnitId();
  const settling = settled.steps(injector, unitId, sheetId);
  const renamed = had.flatMap((old, place) => (old === headings[place] ? [] : [[place, old] as const]));
  if (renamed.length === 0) return settling;
  const rename = (to: readonly string[]): IMutationInfo<RenameParams> => ({
    id: RenameColumnsMutation.id,
    params: { unitId, subUnitId: sheetId, tableId: table.getId(), headings: Object.fromEntries(renamed.map(([place]) => [place, to[place]!])) },
  });
  const byOld = new Map(renamed.map(([place, old]) => [old.toLowerCase(), headings[place]]));
  const relocation = new Relocation([], new Map([[table.getDisplayName().toUpperCase(), { name: table.getDisplayName(), headings: byOld }]]));
  const following = [...followingFormulas(injector, book, relocation), ...followingNames(injector, unitId, relocation)];
  return [...settling, { redo: [rename(headings)], undo: [rename(had)] }, ...following];
}

function followingFormulas(injector: Injector, book: Workbook, relocation: Relocation): Step[] {
  const unitId = book.getUnitId();
  const formulas = injector.get(FormulaDataModel);
  return book.getSheets().flatMap((sheet) => {
    const changes = new CellChanges();
    const sheetId = sheet.getSheetId();
    sheet.getCellMatrix().forValue((row, column, cell) => {
      if (!cell?.f && !cell?.si) return;
      const formula = formulas.getFormulaStringByCell(row, column, sheetId, unitId) ?? "";
      const text = relocation.formula(formula, sheet.getName());
      if (text !== formula) changes.putContents(row, column, { f: text, si: null });
    });
    return changes.steps(injector, unitId, sheetId);
  });
}

function followingNames(injector: Injector, unitId: string, relocation: Relocation): Step[] {
  const names = Object.values(injector.get(IDefinedNamesService).getDefinedNameMap(unitId) ?? {});
  return names.flatMap((name) => {
    const text = relocation.formula(name.formulaOrRefString, "");
    if (text === name.formulaOrRefString) return [];
    const step = (formulaOrRefString: string) => [{ id: SetDefinedNameMutation.id, params: { ...name, unitId, formulaOrRefString } }];
    return [{ redo: step(text), undo: step(name.formulaOrRefString) }];
  });
}
