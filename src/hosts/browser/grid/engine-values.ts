/** What the engine calculates with: its values, and the classes that make one from others. */
import type { Nullable } from "@univerjs/core";
import { ArrayValueObject, type BaseFunction, type BaseValueObject } from "@univerjs/engine-formula";

/** A function of the engine, and the name that calls it. */
export type Executor = [new (name: string) => BaseFunction, string];

export type CalculatedValue = ReturnType<BaseFunction["calculate"]>;
export type ArrayObject = BaseValueObject & Pick<ArrayValueObject, "getArrayValue" | "getRowCount" | "getColumnCount" | "get">;

type FunctionClass = new (name: string) => BaseFunction & { calculate(...values: BaseValueObject[]): CalculatedValue };

export function arrayObject(rows: Nullable<BaseValueObject>[][]): BaseValueObject {
  return ArrayValueObject.create({
    calculateValueList: rows,
    rowCount: rows.length,
    columnCount: rows[0]?.length ?? 0,
    unitId: "",
    sheetId: "",
    row: -1,
    column: -1,
  }) as unknown as BaseValueObject;
}

/** A class of the engine from one of its lists. */
export function classNamed(list: readonly (readonly unknown[])[], name: string): FunctionClass {
  const found = list.find((entry) => entry[1] === name)?.[0];
  if (!found) throw new Error(`The grid library has no function ${name}.`);
  return found as FunctionClass;
}
