/**
 * What is wrong: a comparison with a cell that holds an error gives TRUE or FALSE instead of the error.
 * How it shows: where D1 is #N/A, =IF(D1>1,1,2) is 2.
 */
import { functionMeta, type BaseValueObject } from "@univerjs/engine-formula";
import { arrayObject, classNamed, type ArrayObject, type CalculatedValue, type Executor } from "../engine-values";

export function comparisonThatKeepsErrors(): Executor {
  class ComparisonThatKeepsErrors extends classNamed(functionMeta, "COMPARE") {
    override calculate(first: BaseValueObject, second: BaseValueObject): CalculatedValue {
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
