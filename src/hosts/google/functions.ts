/** The script that a Google Sheet runs. The build adds a stub for each worksheet function, `function ESPRESSO_RATIO(dose, beverage)`, that comes here. */
import "./spelling";
import * as functions from "../../functions/index";
import { callingAs } from "../../sheet/recent-problems";
import { currentUnits } from "../../sheet/workbook-units";
import { argumentIn, resultsOut } from "./cells";
import { useStoredUnits } from "./stored-units";

type Declared = (...cells: unknown[]) => unknown[][];

const declared = functions as unknown as Readonly<Record<string, Declared>>;

/** Answers a call of the worksheet function with this id. */
export function call(id: string, given: readonly unknown[]): unknown {
  // A run of the script is one call, or a few: the units are read once.
  if (!currentUnits()) useStoredUnits();
  const calculate = declared[id.replaceAll(".", "_")]!;
  return resultsOut(callingAs(id, () => calculate(...given.map(argumentIn))));
}
