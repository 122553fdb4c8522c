/** Changes of cells as the grid library does them and takes them back. */
import type { ICellData, IMutationInfo, Injector, IStyleData } from "@univerjs/core";
import { SetRangeValuesMutation, SetRangeValuesUndoMutationFactory, type ISetRangeValuesMutationParams } from "@univerjs/sheets";

/** Mutations in the order in which they are done, and in the order in which they are taken back. */
export interface Step {
  readonly redo: readonly IMutationInfo[];
  readonly undo: readonly IMutationInfo[];
}

export class CellChanges {
  private readonly cells: Record<number, Record<number, ICellData>> = {};

  putContents(row: number, column: number, cell: ICellData): void {
    this.put(row, column, cell);
  }

  putLook(row: number, column: number, look: IStyleData): void {
    this.put(row, column, { s: look });
  }

  /** None where nothing is to change. To be asked before anything is done. */
  steps(injector: Injector, unitId: string, subUnitId: string): Step[] {
    if (Object.keys(this.cells).length === 0) return [];
    const params: ISetRangeValuesMutationParams = { unitId, subUnitId, cellValue: this.cells };
    const undo = SetRangeValuesUndoMutationFactory(injector, params);
    return [{ redo: [{ id: SetRangeValuesMutation.id, params }], undo: [{ id: SetRangeValuesMutation.id, params: undo }] }];
  }

  private put(row: number, column: number, change: ICellData): void {
    const line = (this.cells[row] ??= {});
    line[column] = { ...line[column], ...change };
  }
}
