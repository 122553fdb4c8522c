/** The worksheet functions by their ids, as the grid calls them. */
import * as functions from "../../functions/index";
import { bringWords } from "../../help/catalogue";
import * as words from "../../help/words";
import { callingAs } from "../../sheet/recent-problems";

export type WorksheetFunction = (...cells: unknown[]) => unknown;

const declared = functions as unknown as Readonly<Record<string, WorksheetFunction>>;

bringWords(() => words);

/** Calls a function with its cells; undefined where there is no such function. */
export function worksheetFunction(id: string): WorksheetFunction | undefined {
  const calculate = declared[id.replaceAll(".", "_")];
  return calculate && ((...cells) => callingAs(id, () => calculate(...cells)));
}
