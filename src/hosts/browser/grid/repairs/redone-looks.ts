/**
 * What is wrong: a cell that only gets another look is taken for one whose formula was replaced, unless the command says that it is about looks;
 * redo does not say so.
 * How it shows: a formula cell that is coloured, undone and coloured again by redo has lost its formula, and what it spilled.
 */
import { ObjectMatrix, type ICellData, type IObjectMatrixPrimitiveType, type Nullable } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";

type Cells = IObjectMatrixPrimitiveType<Nullable<ICellData>>;

export function keepFormulasUnderNewLooks(): void {
  const model = FormulaDataModel.prototype;
  const { updateFormulaData, updateArrayFormulaCellData, updateArrayFormulaRange } = model;
  model.updateFormulaData = function (unitId, sheetId, cells) {
    return updateFormulaData.call(this, unitId, sheetId, withContents(cells));
  };
  model.updateArrayFormulaCellData = function (unitId, sheetId, cells) {
    return updateArrayFormulaCellData.call(this, unitId, sheetId, withContents(cells));
  };
  model.updateArrayFormulaRange = function (unitId, sheetId, cells) {
    return updateArrayFormulaRange.call(this, unitId, sheetId, withContents(cells));
  };
}

/** Without the cells of which only the look is said. */
function withContents(cells: Cells): Cells {
  const kept: Cells = {};
  new ObjectMatrix(cells).forValue((row, column, cell) => {
    const isLook = cell && cell.v === undefined && cell.f === undefined && cell.si === undefined && cell.p === undefined;
    if (!isLook) (kept[row] ??= {})[column] = cell;
  });
  return kept;
}
