/**
 * What is wrong: where formulas whose results overlap are taken away together, the engine keeps what they had put where they overlapped, as
 * belonging to the other of them.
 * How it shows: a formula that spills, filled down over cells that it needs itself, and undone, leaves values that nothing can clear.
 */
import { ObjectMatrix, type IRange, type Nullable } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import { holds } from "../areas";

type Rows<T> = Record<string, Record<string, Nullable<T>> | null | undefined>;

export function clearOverlaps(): void {
  const model = FormulaDataModel.prototype;
  const forget = model.updateArrayFormulaRange;
  model.updateArrayFormulaRange = function (unitId, sheetId, cellValue) {
    const areas = () => (this.getArrayFormulaRange()[unitId]?.[sheetId] ?? {}) as Rows<IRange>;
    const gone: IRange[] = [];
    new ObjectMatrix(cellValue).forValue((row, column) => {
      const area = areas()[row]?.[column];
      if (area) gone.push(area);
    });
    const changed = forget.call(this, unitId, sheetId, cellValue);
    if (gone.length < 2) return changed;
    const left = Object.values(areas()).flatMap((line) => Object.values(line ?? {}).flatMap((area) => area ?? []));
    const results = this.getArrayFormulaCellData()[unitId]?.[sheetId] as Rows<unknown> | undefined;
    for (const { startRow, endRow, startColumn, endColumn } of gone) {
      for (let row = startRow; row <= endRow; row++) {
        const line = results?.[row];
        for (let column = startColumn; line && column <= endColumn; column++) {
          if (!left.some((area) => holds(area, row, column))) Reflect.deleteProperty(line, column);
        }
      }
    }
    return changed;
  };
}
