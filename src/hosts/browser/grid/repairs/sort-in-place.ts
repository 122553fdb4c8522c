/**
 * What is wrong: SORT sorts the array of its range in place, and the engine shares that array with every other formula on the range.
 * How it shows: with =SORT(A1:A3) anywhere, =CORREL(A1:A3,…) reads A1:A3 sorted.
 */
import { functionLookup, type BaseValueObject } from "@univerjs/engine-formula";
import { arrayObject, classNamed, type ArrayObject, type CalculatedValue, type Executor } from "../engine-values";

export function sortOfACopy(): Executor {
  class SortOfACopy extends classNamed(functionLookup, "SORT") {
    override calculate(array: BaseValueObject, ...rest: BaseValueObject[]): CalculatedValue {
      return super.calculate(array.isArray() ? arrayObject((array as ArrayObject).getArrayValue().map((row) => row.slice())) : array, ...rest);
    }
  }
  return [SortOfACopy, "SORT"];
}
