/** A ready sheet calculated by the grid's own engine and our functions, without a page. */
import { executorOf } from "../src/hosts/browser/grid/repairs/added-functions.ts";
import { repairedFunctions, repairEngine, repairLibrary } from "../src/hosts/browser/grid/repaired-engine.ts";
import { worksheetFunction } from "../src/hosts/browser/worksheet-functions.ts";
import { describedReadySheet, withCompanion, type ReadySheetId, type StartOptions } from "../src/ready-sheets/index.ts";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { useUnits } from "../src/sheet/workbook-units.ts";
import { describedNames, describedSheet } from "../src/xlsx/ready-sheet.ts";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { Engine } from "./grid-repairs/engine.ts";

repairLibrary();

const functions = (await readDeclarations()).map(({ name, parameters }) =>
  executorOf({ id: name, name, parameters: parameters.map((parameter) => ({ ...parameter, dimensionality: "matrix" })) }, worksheetFunction(name)),
);

/** The sheet with these figures, calculated, and what comes along with it beside it. Cells are read and typed by their addresses. */
export async function calculatedSheet(id: ReadySheetId, { units = defaultUnits, figures = "example" }: Partial<StartOptions> = {}): Promise<Engine> {
  useUnits(units);
  const descriptions = withCompanion(id).map((one) => describedReadySheet(one, { units, figures }));
  const workbook = { sheets: descriptions.map(describedSheet), names: descriptions.flatMap(describedNames) };
  return Engine.open(workbook, { functions: [...functions, ...repairedFunctions()], started: repairEngine });
}
