/**
 * What the engine of the grid library (version 0.25.1) gets wrong, put right: a file in repairs/ for each fault. The tests in
 * tests/grid-repairs/ show each fault in the library as it comes, and fail once it is gone; then its file goes too.
 */
import "./repairs/iterator-helpers";
import type { FUniver } from "@univerjs/core/facade";
import type { Executor } from "./engine-values";
import { comparisonThatKeepsErrors } from "./repairs/comparison-with-errors";
import { closeBracketsBeforeEachFormula } from "./repairs/open-brackets";
import { spellRowReferences } from "./repairs/own-row-of-tables";
import { keepPlacesOfRows } from "./repairs/slow-value-index";
import { sortOfACopy } from "./repairs/sort-in-place";
import { dropStaleMessages } from "./repairs/stale-messages";
import { keepLooksOfTables } from "./repairs/table-looks-lost";

/** Functions to be given to the engine in place of its own. */
export function repairedFunctions(): Executor[] {
  return [sortOfACopy(), comparisonThatKeepsErrors()];
}

/** Changes the library for good; once, before its first instance. */
export function repairLibrary(): void {
  closeBracketsBeforeEachFormula();
  keepPlacesOfRows();
  keepLooksOfTables();
}

/** For each instance, once its services are there, which is with its first workbook. */
export function repairEngine(api: FUniver): void {
  spellRowReferences(api);
  dropStaleMessages(api);
}
