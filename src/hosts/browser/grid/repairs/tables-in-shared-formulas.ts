/**
 * What is wrong: where cells share a formula filled down, the engine takes the areas that each reads from the first of them, moved by the
 * distance between the two. It moves the areas of tables as well, though Table[column] is the same column in every cell.
 * How it shows: with =SUM(Shots[dose]) filled down, a new value in the first row of Shots does not reach the last of the sums; and results
 * that follow from one another are taken for a circle and calculated in the wrong order.
 */
import { AbsoluteRefType } from "@univerjs/core";
import { BaseReferenceObject } from "@univerjs/engine-formula";

export function keepTablesInPlace(): void {
  const prototype = BaseReferenceObject.prototype;
  const areaOf = prototype.toUnitRange;
  prototype.toUnitRange = function () {
    const area = areaOf.call(this);
    if (!this.isTable() || this.isCurrentRowForRange()) return area;
    return { ...area, range: { ...area.range, startAbsoluteRefType: AbsoluteRefType.ALL, endAbsoluteRefType: AbsoluteRefType.ALL } };
  };
}
