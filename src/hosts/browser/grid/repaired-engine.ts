/**
 * What the engine of the grid library (version 0.25.1) gets wrong, put right: a file in repairs/ for each fault. The tests in
 * tests/grid-repairs/ show each fault in the library as it comes, and fail once it is gone; then its file goes too.
 */
import "./repairs/iterator-helpers";
import type { Injector } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import type { Executor } from "./engine-values";
import { takeTurns, type CalculationTurns } from "./repairs/calculation-turns";
import { tellCircles } from "./repairs/circles";
import { comparisonThatKeepsErrors } from "./repairs/comparison-with-errors";
import { changeColumnsAtTheEnd } from "./repairs/columns-at-the-end";
import { tellValuesApart } from "./repairs/confused-values";
import { readHeadingsAsSpelled } from "./repairs/headings-as-spelled";
import { readEachFormulaAnew } from "./repairs/kept-readings";
import { forgetFormulasOfChangedTables } from "./repairs/kept-tables";
import { keepColumnsOfMovedTables } from "./repairs/moved-tables";
import { closeBracketsBeforeEachFormula } from "./repairs/open-brackets";
import { saveColumnsInOrder } from "./repairs/order-of-columns";
import { spellRowReferences } from "./repairs/own-row-of-tables";
import { keepFormulasUnderNewLooks } from "./repairs/redone-looks";
import { moveReferencesOnce } from "./repairs/removed-table-columns";
import { keepSharedFormulas } from "./repairs/shared-formulas-lost";
import { keepALongHistory } from "./repairs/short-history";
import { readNothingFromLeftCells } from "./repairs/shrunk-spills";
import { keepPlacesOfRows } from "./repairs/slow-value-index";
import { clearOverlaps } from "./repairs/overlapping-spills";
import { sortOfACopy } from "./repairs/sort-in-place";
import { followSpills } from "./repairs/spill-order";
import { dropStaleMessages } from "./repairs/stale-messages";
import { keepLooksOfTables } from "./repairs/table-looks-lost";
import { keepTablesInPlace } from "./repairs/tables-in-shared-formulas";
import { shareOneTextOnly } from "./repairs/two-shared-texts";
import { endOnlyTheFormulaThatThrows } from "./repairs/thrown-errors";

/** Functions to be given to the engine in place of its own. */
export function repairedFunctions(): Executor[] {
  return [sortOfACopy(), comparisonThatKeepsErrors()];
}

let repaired = false;

/** Changes the library for good, before its first instance. */
export function repairLibrary(): void {
  if (repaired) return;
  repaired = true;
  closeBracketsBeforeEachFormula();
  endOnlyTheFormulaThatThrows();
  readEachFormulaAnew();
  readHeadingsAsSpelled();
  readNothingFromLeftCells();
  keepFormulasUnderNewLooks();
  keepSharedFormulas();
  shareOneTextOnly();
  keepTablesInPlace();
  keepPlacesOfRows();
  tellValuesApart();
  keepLooksOfTables();
  keepColumnsOfMovedTables();
  changeColumnsAtTheEnd();
  saveColumnsInOrder();
  moveReferencesOnce();
  clearOverlaps();
  keepALongHistory();
}

/** For each instance, once its services are there, which is with its first workbook. */
export function repairEngine(api: FUniver, injector: Injector): CalculationTurns {
  followSpills(injector);
  tellCircles(injector);
  forgetFormulasOfChangedTables(injector);
  spellRowReferences(api);
  dropStaleMessages(api);
  return takeTurns(injector);
}
