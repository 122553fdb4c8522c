/** The worksheet functions as a Google Sheet calls them. The build adds a stub for each, `function ESPRESSO_RATIO(dose, beverage)`, that comes here. */
import * as functions from "../../functions/index";
import { bringWords, type CatalogueColumns } from "../../help/catalogue";
import { callingAs } from "../../sheet/recent-problems";
import { useSpelling } from "../../sheet/spelling";
import { currentUnits } from "../../sheet/workbook-units";
import { argumentIn, resultsOut } from "./cells";
import { keepProblems } from "./kept-problems";
import { spelledForGoogle } from "./spelling";
import { useStoredUnits } from "./stored-units";

/** Of another file of the script project, so that this one stays small; which of them is read first does not matter. */
declare const pucksheetWords: CatalogueColumns | undefined;

type Declared = (...cells: unknown[]) => unknown[][];

const declared = functions as unknown as Readonly<Record<string, Declared>>;

useSpelling(spelledForGoogle);
bringWords(() => {
  if (typeof pucksheetWords === "undefined") throw new Error("The words about the functions are missing: paste the file Words.js into the script project, beside Code.js.");
  return { words: pucksheetWords };
});

/** Answers a call of the worksheet function with this id. */
export function call(id: string, given: readonly unknown[]): unknown {
  // A run of the script is one call, or a few: the units are read once.
  if (!currentUnits()) useStoredUnits();
  const calculate = declared[id.replaceAll(".", "_")]!;
  const results = callingAs(id, () => calculate(...given.map(argumentIn)));
  keepProblems();
  return resultsOut(results);
}
