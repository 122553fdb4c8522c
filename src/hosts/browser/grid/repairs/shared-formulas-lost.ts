/**
 * What is wrong: cells with a formula filled down share the text of the first of them. Where that first cell gets the very same formula
 * again, the engine takes it out of the sharing without handing the text on.
 * How it shows: the formula typed once more into the first cell of a column empties the rest of the column.
 */
import { ObjectMatrix, type ICellData, type Nullable } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";

export function keepSharedFormulas(): void {
  const model = FormulaDataModel.prototype;
  const update = model.updateFormulaData;
  model.updateFormulaData = function (unitId, sheetId, cellValue) {
    const now = this.getSheetFormulaData(unitId, sheetId);
    new ObjectMatrix<Nullable<ICellData>>(cellValue).forValue((row, column, cell) => {
      const known = now?.[row]?.[column];
      const isFirst = known?.si && !known.x && !known.y;
      if (cell?.f && !cell.si && isFirst && known.f === cell.f) cell.si = known.si;
    });
    return update.call(this, unitId, sheetId, cellValue);
  };
}
