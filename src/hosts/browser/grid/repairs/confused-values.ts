/**
 * What is wrong: to compare a column with one value, the engine looks the value up in an index of the column once it has one. The index takes
 * 0, "" and a blank cell for the same, and the text "18" for the number.
 * How it shows: =A1:A9="" is TRUE where a 0 stands, once the column has been compared before.
 * Here the rows are compared one by one where the index could confuse them.
 */
import { ArrayValueObject, CELL_INVERTED_INDEX_CACHE, type BaseValueObject } from "@univerjs/engine-formula";

interface ValueIndex {
  readonly _cache: Map<string, Map<string, Map<number, object>>>;
  set(unit: string, sheet: string, column: number, value: unknown, row: number, replace?: boolean): void;
}
interface Comparing {
  readonly _rowCount: number;
  getUnitId(): string;
  getSheetId(): string;
  getCurrentRow(): number;
  getCurrentColumn(): number;
  _batchOperatorValue(value: BaseValueObject, column: number, result: unknown, operation: number, operator?: string, cased?: boolean): void;
  __batchOperatorRowValue(
    value: BaseValueObject,
    column: number,
    result: unknown,
    operation: number,
    row: number,
    unit: string,
    sheet: string,
    firstRow: number,
    firstColumn: number,
    operator?: string,
    cased?: boolean,
  ): void;
}

/** The engine's number for a comparison. */
const comparison = 5;

export function tellValuesApart(): void {
  const index = CELL_INVERTED_INDEX_CACHE as unknown as ValueIndex;
  const confusing = new WeakSet<object>();
  const columnIndex = (unit: string, sheet: string, column: number) => index._cache.get(unit)?.get(sheet)?.get(column);
  const set = index.set.bind(index);
  index.set = (unit, sheet, column, value, row, replace) => {
    set(unit, sheet, column, value, row, replace);
    const kept = columnIndex(unit, sheet, column);
    if (kept && typeof value === "string" && !Number.isNaN(Number(value))) confusing.add(kept);
  };
  const arrays = ArrayValueObject.prototype as unknown as Comparing;
  const compare = arrays._batchOperatorValue;
  arrays._batchOperatorValue = function (value, column, result, operation, operator, cased) {
    const [unit, sheet, firstRow, firstColumn] = [this.getUnitId(), this.getSheetId(), this.getCurrentRow(), this.getCurrentColumn()];
    const kept = columnIndex(unit, sheet, column + firstColumn);
    const isConfusing = (value.isString() && value.getValue() === "") || (kept && confusing.has(kept));
    if (operation !== comparison || !isConfusing) return compare.call(this, value, column, result, operation, operator, cased);
    for (let row = 0; row < this._rowCount; row++) {
      this.__batchOperatorRowValue(value, column, result, operation, row, unit, sheet, firstRow, firstColumn, operator, cased);
    }
  };
}
