/** A host for tests that has nothing of Excel: it calls worksheet functions as a host does, every argument a grid, null where left out. */
import * as declared from "../src/functions/index.ts";
import { bringWords } from "../src/help/catalogue.ts";
import * as words from "../src/help/words.ts";
import { CellError } from "../src/sheet/cell-error.ts";
import { callingAs } from "../src/sheet/recent-problems.ts";
import { defaultUnits, type UnitChoice } from "../src/sheet/unit-choice.ts";
import { useUnits as setUnits } from "../src/sheet/workbook-units.ts";

const functions = declared as unknown as Readonly<Record<string, (...cells: unknown[]) => unknown[][]>>;

export { CellError };
export { parseExample } from "../scripts/parse-example.ts";

bringWords(() => words);

/** Sets the units of the workbook; without an argument, the defaults. */
export function useUnits(changed: Partial<UnitChoice> = {}): void {
  setUnits({ ...defaultUnits, ...changed });
}
useUnits();

/** The result as the grid that a host would spill. */
export function grid(id: string, ...cells: unknown[]): unknown[][] {
  const calculate = functions[id.replaceAll(".", "_")];
  if (!calculate) throw new Error(`${id} is not declared in src/functions.`);
  const given = Array.from({ length: calculate.length }, (_, index) => asGrid(cells[index]));
  return callingAs(id, () => calculate(...given));
}

/** The result as one value, one row or a grid, whichever it is. A flat list among the arguments is a column. */
export function call(id: string, ...cells: unknown[]): unknown {
  const result = grid(id, ...cells);
  if (result.length === 1 && result[0]!.length === 1) return result[0]![0];
  return result.length === 1 ? result[0] : result;
}

/** A value as one cell, a flat list as a column, a grid as it is, null where an argument is left out. */
function asGrid(it: unknown): unknown {
  if (it === null || it === undefined) return null;
  if (!Array.isArray(it)) return [[it]];
  return Array.isArray(it[0]) ? it : it.map((one: unknown) => [one]);
}
