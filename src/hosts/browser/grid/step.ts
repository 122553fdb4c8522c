/**
 * What the page changes in the open workbook, rather than a hand in its cells: sheets that come, with their tables and names, and cells that are
 * converted. It is one step of Undo, and nothing is opened anew.
 */
import {
  CellValueType,
  ICommandService,
  IUndoRedoService,
  mergeWorksheetSnapshotWithDefault,
  type ICellData,
  type IMutationInfo,
  type Injector,
  type IWorksheetData,
} from "@univerjs/core";
import { RemoveDefinedNameMutation, SetDefinedNameMutation, type ISetDefinedNameMutationParam } from "@univerjs/engine-formula";
import { InsertSheetMutation, RemoveSheetMutation } from "@univerjs/sheets";
import { AddSheetTableMutation, DeleteSheetTableMutation, SetSheetTableMutation, type ITableJson } from "@univerjs/sheets-table";
import type { FWorkbook } from "@univerjs/sheets/facade";
import { splitReference } from "../../../sheet/references";
import type { Cell, DefinedName, Sheet, Workbook } from "../../../xlsx/workbook";
import { CellChanges, type Step } from "./cell-changes";
import { snapshotOf, styleSnapshot } from "./snapshot";

/** Makes the open workbook, which is `now`, into `next`; `also` is done and taken back along with it. */
export function takeStep(injector: Injector, book: FWorkbook, now: Workbook, next: Workbook, also?: Step): void {
  const steps: Step[] = [];
  next.sheets.forEach((sheet, index) => {
    const known = now.sheets.find(({ name }) => name === sheet.name);
    if (!known) steps.push(addedSheet(book.getId(), sheet, index, newNamesOn(sheet, now, next)));
    else if (known !== sheet) steps.push(...changedCells(injector, book, known, sheet));
  });
  if (also) steps.push(also);
  const redoMutations = steps.flatMap(({ redo }) => redo);
  if (redoMutations.length === 0) return;
  const undoMutations = steps.flatMap(({ undo }) => undo);
  const commands = injector.get(ICommandService);
  for (const { id, params } of redoMutations) commands.syncExecuteCommand(id, params as object);
  injector.get(IUndoRedoService).pushUndoRedo({ unitID: book.getId(), redoMutations, undoMutations });
}

function newNamesOn(sheet: Sheet, now: Workbook, next: Workbook): DefinedName[] {
  const known = new Set(now.names.map(({ name }) => name.toLowerCase()));
  return next.names.filter(({ name, refersTo }) => splitReference(refersTo).sheet === sheet.name && !known.has(name.toLowerCase()));
}

function addedSheet(unitId: string, sheet: Sheet, index: number, names: DefinedName[]): Step {
  const { sheets, styles, resources } = snapshotOf({ sheets: [sheet], names }, unitId);
  const subUnitId = `added-${crypto.randomUUID()}`;
  const data = mergeWorksheetSnapshotWithDefault({ ...Object.values(sheets)[0], id: subUnitId }) as IWorksheetData;
  // The ids of styles are those of the snapshot.
  for (const line of Object.values(data.cellData)) {
    for (const cell of Object.values(line as Record<string, ICellData>)) if (typeof cell.s === "string") cell.s = styles![cell.s];
  }
  const resource = <T>(name: string): T => JSON.parse(resources!.find((one) => one.name === name)!.data) as T;
  const tables = Object.values(resource<Record<string, { tables: ITableJson[] }>>("SHEET_TABLE_PLUGIN")).flatMap((one) => one.tables);
  const redo: IMutationInfo[] = [{ id: InsertSheetMutation.id, params: { unitId, index, sheet: data } }];
  const undo: IMutationInfo[] = [{ id: RemoveSheetMutation.id, params: { unitId, subUnitId, subUnitName: sheet.name } }];
  tables.forEach(({ name, range, columns, options }, position) => {
    const tableId = `${subUnitId}-table${position + 1}`;
    const header = columns.map(({ displayName }) => displayName);
    redo.push({ id: AddSheetTableMutation.id, params: { unitId, subUnitId, tableId, name, range, header, options } });
    redo.push({ id: SetSheetTableMutation.id, params: { unitId, subUnitId, tableId, config: { theme: options.tableStyleId } } });
    undo.unshift({ id: DeleteSheetTableMutation.id, params: { unitId, subUnitId, tableId } });
  });
  for (const name of Object.values(resource<Record<string, ISetDefinedNameMutationParam>>("SHEET_DEFINED_NAME_PLUGIN"))) {
    const params = { ...name, id: `${subUnitId}-${name.id}`, unitId };
    redo.push({ id: SetDefinedNameMutation.id, params });
    undo.unshift({ id: RemoveDefinedNameMutation.id, params });
  }
  return { redo, undo };
}

function changedCells(injector: Injector, book: FWorkbook, now: Sheet, next: Sheet): Step[] {
  const changes = new CellChanges();
  next.cells.forEach((line, row) => {
    line?.forEach((cell, column) => {
      const known = now.cells[row]?.[column];
      if (known === cell) return;
      if (cell?.style && JSON.stringify(cell.style) !== JSON.stringify(known?.style)) changes.putLook(row, column, styleSnapshot(cell.style));
      const contents = changeOfContents(known, cell);
      if (contents) changes.putContents(row, column, contents);
    });
  });
  return changes.steps(injector, book.getId(), book.getSheetByName(next.name)!.getSheetId());
}

function changeOfContents(now: Cell = {}, next: Cell = {}): ICellData | undefined {
  if (next.formula !== undefined) return next.formula === now.formula ? undefined : { f: `=${next.formula}`, si: null, v: null, p: null };
  if (next.spilled || next.value === now.value) return undefined;
  const type = typeof next.value === "number" ? CellValueType.NUMBER : typeof next.value === "boolean" ? CellValueType.BOOLEAN : CellValueType.STRING;
  return { v: (next.value ?? null) as ICellData["v"], t: next.value === undefined ? null : type, f: null, si: null, p: null };
}
