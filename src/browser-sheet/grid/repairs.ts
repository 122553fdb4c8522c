/** What the engine (version 0.25.1) gets wrong, put right. */
import { LexerTreeBuilder, functionLookup, functionMeta, type ArrayValueObject, type BaseFunction, type BaseValueObject } from "@univerjs/engine-formula";
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
