/** The grid's engine as the browser sheet runs it: repaired, with our functions. */
import { readFileSync } from "node:fs";
import type { FunctionMetadata } from "../../src/hosts/browser/function-metadata.ts";
import { repairedFunctions, repairEngine, repairLibrary } from "../../src/hosts/browser/grid/repaired-engine.ts";
import { executorOf } from "../../src/hosts/browser/grid/repairs/added-functions.ts";
import { worksheetFunction } from "../../src/hosts/browser/worksheet-functions.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { useUnits } from "../../src/sheet/workbook-units.ts";
import type { EngineOptions } from "../grid-repairs/engine.ts";

repairLibrary();
useUnits(defaultUnits);
const { functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as { functions: FunctionMetadata[] };
const ours = functions.map((metadata) => executorOf(metadata, worksheetFunction(metadata.id)));

export const repaired: EngineOptions = { functions: [...ours, ...repairedFunctions()], started: repairEngine };
