/**
 * What is wrong: cells with a formula filled down share the text of the first of them. Where that cell is emptied, the next one hands on its own
 * text; where Undo brings the first one back, two cells hand on a text each under one name, and any of the two may be taken for the other.
 * How it shows: after =A1*2 was filled down, its first two cells were emptied, and both was undone, the first cell holds =A3*2.
 * Here a cell that comes with a text joins no sharing that has one.
 */
import { ObjectMatrix, type ICellData, type Nullable } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";

export function shareOneTextOnly(): void {
  const model = FormulaDataModel.prototype;
  const update = model.updateFormulaData;
  model.updateFormulaData = function (unitId, sheetId, cellValue) {
    const coming = new ObjectMatrix<Nullable<ICellData>>(cellValue);
    const now = this.getSheetFormulaData(unitId, sheetId);
    let taken: Set<string> | undefined;
    coming.forValue((row, column, cell) => {
      if (!cell?.f || !cell.si || now?.[row]?.[column]?.si === cell.si) return;
      taken ??= new Set(sharedTexts(now as Formulas, (otherRow, otherColumn) => coming.getValue(otherRow, otherColumn) === undefined));
      if (taken.has(cell.si)) cell.si = null;
    });
    return update.call(this, unitId, sheetId, cellValue);
  };
}

type Formulas = Nullable<Record<string, Nullable<Record<string, Nullable<{ si?: string; x?: number; y?: number }>>>>>;

/** The names of sharings by the cells that hand on their text. */
function* sharedTexts(formulas: Formulas, counts: (row: number, column: number) => boolean): Generator<string> {
  for (const [row, line] of Object.entries(formulas ?? {})) {
    for (const [column, known] of Object.entries(line ?? {})) if (known?.si && !known.x && !known.y && counts(Number(row), Number(column))) yield known.si;
  }
}
