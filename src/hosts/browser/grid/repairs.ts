/** What the engine (version 0.25.1) gets wrong, put right. */
import { CELL_INVERTED_INDEX_CACHE, LexerTreeBuilder, functionLookup, functionMeta, type ArrayValueObject, type BaseFunction, type BaseValueObject } from "@univerjs/engine-formula";
import { arrayObject, type Executor } from "./executors";

type NodeValueType = ReturnType<BaseFunction["calculate"]>;
type FunctionClass = new (name: string) => BaseFunction & { calculate(...variants: BaseValueObject[]): NodeValueType };
type ArrayObject = BaseValueObject & Pick<ArrayValueObject, "getArrayValue" | "getRowCount" | "getColumnCount" | "get">;

export function repairedFunctions(): Executor[] {
  return [sortOfACopy(classNamed(functionLookup, "SORT")), comparisonThatKeepsErrors(classNamed(functionMeta, "COMPARE"))];
}

/**
 * A square bracket that is still open in a formula, as while a person types a reference to a table, stays open for every formula that is
 * read afterwards, and splits it in the wrong places.
 */
export function closeBracketsBeforeEachFormula(): void {
  const reader = LexerTreeBuilder.prototype as unknown as { _resetTemp(): void; _squareBracketState: number };
  const reset = reader._resetTemp;
  reader._resetTemp = function (this: typeof reader) {
    reset.call(this);
    this._squareBracketState = 0;
  };
}

type Rows = Set<number>;
type ColumnIndex = Map<unknown, Rows>;
interface ValueIndex {
  readonly _cache: Map<string, Map<string, Map<number, ColumnIndex>>>;
  set(unit: string, sheet: string, column: number, value: unknown, row: number, replace?: boolean): void;
  shouldContinueBuildingCache(unit: string, sheet: string, column: number, row: number): boolean;
}

/**
 * The engine keeps the rows of each value of a column. To replace a row it looks through all values, so that a column of results takes the
 * square of its length: seconds for 20,000 rows. Here each column also keeps where its rows stand.
 */
export function keepPlacesOfRows(): void {
  const index = CELL_INVERTED_INDEX_CACHE as unknown as ValueIndex;
  const set = index.set;
  /** The same index, but for taking any row without looking for it first. */
  const taking = Object.create(index, { shouldContinueBuildingCache: { value: () => true } }) as ValueIndex;
  const places = new WeakMap<ColumnIndex, Map<number, Rows>>();
  index.set = (unit, sheet, column, value, row, replace = false) => {
    if (!replace && !index.shouldContinueBuildingCache(unit, sheet, column, row)) return;
    const columnIndex = (): ColumnIndex | undefined => index._cache.get(unit)?.get(sheet)?.get(column);
    const before = columnIndex();
    if (replace && before) places.get(before)?.get(row)?.delete(row);
    set.call(taking, unit, sheet, column, value, row);
    const now = columnIndex()!;
    let rowsByPlace = places.get(now);
    if (!rowsByPlace) places.set(now, (rowsByPlace = new Map()));
    rowsByPlace.set(row, rowsHolding(now, value, row));
  };
}

/** The key under which the engine keeps blanks: a symbol that it does not export, seen at the first blank. */
let blankKey: unknown;

/** The rows of a value; its key is the value, in small letters, as a number, or the one for blanks. */
function rowsHolding(column: ColumnIndex, value: unknown, row: number): Rows {
  for (const key of [value, String(value).toLowerCase(), Number(value), blankKey]) {
    const rows = column.get(key);
    if (rows?.has(row)) return rows;
  }
  for (const [key, rows] of column) {
    if (!rows.has(row)) continue;
    if (typeof key === "symbol") blankKey = key;
    return rows;
  }
  throw new Error("The grid library's index of values has changed its form.");
}

function classNamed(list: readonly (readonly unknown[])[], name: string): FunctionClass {
  const found = list.find((entry) => entry[1] === name)?.[0];
  if (!found) throw new Error(`The grid library has no function ${name}.`);
  return found as FunctionClass;
}

/** SORT sorts the array of its range in place, which every other formula on the range then reads sorted. */
function sortOfACopy(Sort: FunctionClass): Executor {
  class SortOfACopy extends Sort {
    override calculate(array: BaseValueObject, ...rest: BaseValueObject[]): NodeValueType {
      return super.calculate(array.isArray() ? arrayObject((array as ArrayObject).getArrayValue().map((row) => row.slice())) : array, ...rest);
    }
  }
  return [SortOfACopy, "SORT"];
}

/** A comparison with a cell that holds an error gives TRUE or FALSE instead of the error. */
function comparisonThatKeepsErrors(Compare: FunctionClass): Executor {
  class ComparisonThatKeepsErrors extends Compare {
    override calculate(first: BaseValueObject, second: BaseValueObject): NodeValueType {
      if (first.isError()) return first;
      if (second.isError()) return second;
      const result = super.calculate(first, second) as BaseValueObject;
      if (!holdsError(first) && !holdsError(second)) return result;
      if (!result.isArray()) return errorAt(first, 0, 0) ?? errorAt(second, 0, 0) ?? result;
      const results = result as ArrayObject;
      const rows: BaseValueObject[][] = [];
      for (let row = 0; row < results.getRowCount(); row++) {
        const line: BaseValueObject[] = [];
        for (let column = 0; column < results.getColumnCount(); column++) {
          line.push(errorAt(first, row, column) ?? errorAt(second, row, column) ?? results.get(row, column)!);
        }
        rows.push(line);
      }
      return arrayObject(rows);
    }
  }
  return [ComparisonThatKeepsErrors, "COMPARE"];
}

function holdsError(value: BaseValueObject): boolean {
  if (!value.isArray()) return value.isError();
  return (value as ArrayObject).getArrayValue().some((row) => row?.some((cell) => cell?.isError?.()));
}

/** A value of one row or column stands beside every row or column. */
function errorAt(value: BaseValueObject, row: number, column: number): BaseValueObject | undefined {
  if (!value.isArray()) return value.isError() ? value : undefined;
  const array = value as ArrayObject;
  const cell = array.get(array.getRowCount() === 1 ? 0 : row, array.getColumnCount() === 1 ? 0 : column);
  return cell?.isError?.() ? cell : undefined;
}
