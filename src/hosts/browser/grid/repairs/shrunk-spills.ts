/**
 * What is wrong: while it calculates, the engine may still read what stood in cells that a spilled result has left. A range as in B1:B9 is
 * made of its two ends and does not learn from them which areas were filled; and a result that no longer spills at all leaves its area
 * unnoticed.
 * How it shows: after =SEQUENCE(A1) in B1 has become shorter, =SUM(B1:B9) still counts the cells that it has left.
 */
import type { ICellData, IRange, Nullable, ObjectMatrix } from "@univerjs/core";
import { BaseReferenceObject } from "@univerjs/engine-formula";
import { holds } from "../areas";

interface End extends BaseReferenceObject {
  _createRange(area: unknown): BaseReferenceObject;
}

export function readNothingFromLeftCells(): void {
  const prototype = BaseReferenceObject.prototype;
  const read = prototype.getCellData;
  prototype.getCellData = function (row, column) {
    const cell = read.call(this, row, column);
    if (!cell || cell !== this.getCurrentActiveArrayFormulaCellData()?.getValue(row, column)) return cell;
    return isLeft(this, row, column) ? this.getCurrentActiveSheetData()?.cellData.getValue(row, column) : cell;
  };
  tellRangesOfAreas(prototype);
}

/** Whether the formula that filled the cell has been calculated again, and then not filled it: else its new result would have been read. */
function isLeft(reference: BaseReferenceObject, row: number, column: number): boolean {
  const results = reference.getCurrentRuntimeSheetData() as ObjectMatrix<Nullable<ICellData>> | undefined;
  const areas = (reference.getCurrentActiveArrayFormulaRange() ?? {}) as Record<string, Record<string, Nullable<IRange>>>;
  for (const line of Object.values(areas)) {
    for (const area of Object.values(line ?? {})) {
      if (area && holds(area, row, column) && results?.getValue(area.startRow, area.startColumn)) return true;
    }
  }
  return false;
}

/** The class of the ends is not exported; it is met with the first of them. */
function tellRangesOfAreas(prototype: BaseReferenceObject): void {
  const tell = prototype.setArrayFormulaRange;
  const repaired = new Set<object>();
  prototype.setArrayFormulaRange = function (areas) {
    const kind = Object.getPrototypeOf(this) as End;
    if (Object.hasOwn(kind, "_createRange") && !repaired.has(kind)) {
      repaired.add(kind);
      const create = kind._createRange;
      kind._createRange = function (area) {
        const range = create.call(this, area);
        tell.call(range, this.getArrayFormulaRange());
        return range;
      };
    }
    tell.call(this, areas);
  };
}
