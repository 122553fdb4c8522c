/** The functions of the build, as the browser sheet gives them to the grid's engine. */
import { readFileSync } from "node:fs";
import { runInThisContext } from "node:vm";
import { installCustomFunctions } from "../../src/hosts/browser/custom-functions.ts";
import type { FunctionMetadata } from "../../src/hosts/browser/function-metadata.ts";
import type { Executor } from "../../src/hosts/browser/grid/engine-values.ts";
import { executorOf } from "../../src/hosts/browser/grid/repairs/added-functions.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";

export function ourFunctions(): Executor[] {
  installCustomFunctions();
  runInThisContext(readFileSync("dist/functions.js", "utf8"));
  globalThis.pucksheet!.useUnits(defaultUnits);
  const { functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as { functions: FunctionMetadata[] };
  return functions.map(executorOf);
}
