/** What a person does to the rows, columns and sheets of the open workbook, in the order in which it happens. Undo comes as the opposite. */
import type { ICommandInfo, IRange } from "@univerjs/core";
import {
  InsertColMutation,
  InsertRowMutation,
  InsertSheetMutation,
  MoveColsMutation,
  MoveRowsMutation,
  RemoveColMutation,
  RemoveRowMutation,
  RemoveSheetMutation,
  SetWorksheetNameMutation,
  type IInsertColMutationParams,
  type IInsertRowMutationParams,
  type IInsertSheetMutationParams,
  type IMoveColumnsMutationParams,
  type IMoveRowsMutationParams,
  type IRemoveColMutationParams,
  type IRemoveRowsMutationParams,
  type IRemoveSheetMutationParams,
  type ISetWorksheetNameMutationParams,
} from "@univerjs/sheets";
import type { StructuralEdit } from "../../../xlsx/journal";

export class WorkbookJournal {
  private readonly noted: StructuralEdit[] = [];
  /** The names that the sheets have by now, by their ids in the grid. */
  private readonly names: Map<string, string>;
  private readonly first: ReadonlySet<string>;

  /** `sheets` are the names of the workbook's sheets by their ids, as it was opened. */
  constructor(sheets: ReadonlyMap<string, string>) {
    this.names = new Map(sheets);
    this.first = new Set(sheets.keys());
  }

  get edits(): readonly StructuralEdit[] {
    return this.noted;
  }

  /** To be told of every mutation of the workbook. */
  note({ id, params }: Readonly<ICommandInfo>): void {
    switch (id) {
      case InsertRowMutation.id:
        return this.noteLines("insert rows", params as IInsertRowMutationParams);
      case RemoveRowMutation.id:
        return this.noteLines("delete rows", params as IRemoveRowsMutationParams);
      case InsertColMutation.id:
        return this.noteLines("insert columns", params as IInsertColMutationParams);
      case RemoveColMutation.id:
        return this.noteLines("delete columns", params as IRemoveColMutationParams);
      case MoveRowsMutation.id:
        return this.noteMove("move rows", params as IMoveRowsMutationParams);
      case MoveColsMutation.id:
        return this.noteMove("move columns", params as IMoveColumnsMutationParams);
      case SetWorksheetNameMutation.id:
        return this.noteName(params as ISetWorksheetNameMutationParams);
      case InsertSheetMutation.id:
        return this.noteSheet(params as IInsertSheetMutationParams);
      case RemoveSheetMutation.id:
        return this.noteRemoval(params as IRemoveSheetMutationParams);
    }
  }

  private noteLines(kind: "insert rows" | "delete rows" | "insert columns" | "delete columns", { subUnitId, range }: { subUnitId: string; range: IRange }): void {
    this.noted.push({ kind, sheet: this.nameOf(subUnitId), ...linesOf(kind, range) });
  }

  private noteMove(kind: "move rows" | "move columns", { subUnitId, sourceRange, targetRange }: IMoveRowsMutationParams): void {
    this.noted.push({ kind, sheet: this.nameOf(subUnitId), ...linesOf(kind, sourceRange), before: linesOf(kind, targetRange).at });
  }

  private noteName({ subUnitId, name }: ISetWorksheetNameMutationParams): void {
    this.noted.push({ kind: "rename sheet", sheet: this.nameOf(subUnitId), to: name });
    this.names.set(subUnitId, name);
  }

  private noteSheet({ sheet: { id, name } }: IInsertSheetMutationParams): void {
    this.names.set(id, name);
    this.noted.push({ kind: "add sheet", sheet: name, ...(this.first.has(id) && { restored: true }) });
  }

  private noteRemoval({ subUnitId }: IRemoveSheetMutationParams): void {
    this.noted.push({ kind: "remove sheet", sheet: this.nameOf(subUnitId) });
  }

  private nameOf(id: string): string {
    const name = this.names.get(id);
    if (name === undefined) throw new Error(`The grid has no sheet ${id}.`);
    return name;
  }
}

function linesOf(kind: string, { startRow, endRow, startColumn, endColumn }: IRange): { at: number; count: number } {
  return kind.endsWith("rows") ? { at: startRow, count: endRow - startRow + 1 } : { at: startColumn, count: endColumn - startColumn + 1 };
}
