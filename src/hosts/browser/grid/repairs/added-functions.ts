/**
 * What is wrong: the library's own way of adding functions hands blanks over as 0, reads returned texts again as numbers, and stops the
 * whole calculation when a function throws; a wrong number of arguments gives an error without words, and a call without arguments comes
 * as one with a single empty one.
 * How it shows: a blank dose is taken for 0 g; the text "12%" arrives as 0.12; after one function has thrown, cells stay without a result.
 * So the functions of functions.json, the same file that Excel reads, are made of the engine's own kind.
 */
import type { Nullable } from "@univerjs/core";
import {
  BaseFunction,
  BooleanValueObject,
  ErrorType,
  ErrorValueObject,
  NumberValueObject,
  StringValueObject,
  type BaseValueObject,
} from "@univerjs/engine-formula";
import { CellError } from "../../../../sheet/cell-error";
import { argumentCountProblem, fullName, type FunctionMetadata } from "../../function-metadata";
import type { WorksheetFunction } from "../../worksheet-functions";
import { arrayObject, type ArrayObject, type Executor } from "../engine-values";

/** What a cell carries beside an error value: the words for it. */
export interface CellNote {
  readonly message: string;
}

/** The function of functions.json with what calculates it, which is undefined where the page has no such function. */
export function executorOf(metadata: FunctionMetadata, calculate: WorksheetFunction | undefined): Executor {
  const name = fullName(metadata);
  for (const parameter of metadata.parameters) {
    if (parameter.dimensionality !== "matrix") throw new Error(`${name}: the argument ${parameter.name} is not declared as rows of cells.`);
  }
  class SheetFunctionExecutor extends BaseFunction {
    // The engine would answer a wrong number of arguments with an error without words.
    override minParams = 0;
    override maxParams = 255;

    override calculate(...variants: BaseValueObject[]): BaseValueObject {
      if (!calculate) return errorObject("#NAME?", `${name} is listed, but is none of the functions of this page.`);
      // A call without arguments reaches the engine as one that is empty.
      const count = variants.length === 1 && variants[0]!.isNull() ? 0 : variants.length;
      const problem = argumentCountProblem(metadata, count);
      if (problem) return errorObject("#VALUE!", problem);
      const cells: unknown[] = metadata.parameters.map((_, index) => (index < count ? cellsFrom(variants[index]!) : null));
      try {
        return resultObject(calculate(...cells), name);
      } catch (thrown) {
        return errorObject("#VALUE!", `${name} failed: ${thrown instanceof Error ? thrown.message : String(thrown)}`);
      }
    }
  }
  return [SheetFunctionExecutor, name];
}

/** The argument as rows of cells; an argument left out between two commas is null. */
function cellsFrom(variant: BaseValueObject): unknown[][] | null {
  if (!variant.isArray()) return variant.isNull() ? null : [[cellFrom(variant)]];
  const array = variant as ArrayObject;
  const values = array.getArrayValue();
  const columns = array.getColumnCount();
  const rows: unknown[][] = new Array(array.getRowCount());
  for (let row = 0; row < rows.length; row++) {
    const line: unknown[] = new Array(columns);
    for (let column = 0; column < columns; column++) line[column] = cellFrom(values[row]?.[column]);
    rows[row] = line;
  }
  return rows;
}

/** Blank is null, and an error cell arrives as the error it holds. */
function cellFrom(value: Nullable<BaseValueObject>): unknown {
  if (!value || value.isNull()) return null;
  if (value.isError()) return new CellError((value as unknown as ErrorValueObject).getErrorType());
  return value.getValue();
}

function resultObject(result: unknown, name: string): BaseValueObject {
  if (result instanceof Promise) return errorObject("#N/A", `${name} still waits for the units of the workbook; recalculate the sheet.`);
  if (!Array.isArray(result)) return valueObject(result);
  return arrayObject(result.map((row: unknown[]) => row.map(valueObject)));
}

function valueObject(value: unknown): BaseValueObject {
  if (typeof value === "number") return Number.isFinite(value) ? NumberValueObject.create(value) : errorObject("#NUM!", "The result is not a finite number.");
  if (typeof value === "string") return StringValueObject.create(value);
  if (typeof value === "boolean") return BooleanValueObject.create(value);
  if (value instanceof CellError) return errorObject(value.code, value.message);
  return errorObject("#VALUE!", "The function gave something that no cell can hold.");
}

function errorObject(code: string, message: string): BaseValueObject {
  const known = (Object.values(ErrorType) as string[]).includes(code) ? (code as ErrorType) : ErrorType.VALUE;
  const error = ErrorValueObject.create(known, message);
  if (message !== "") error.withCustomData({ message } satisfies CellNote);
  return error;
}
