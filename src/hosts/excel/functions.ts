/**
 * The bundle that Excel loads, functions.js: every worksheet function associated with its id. It reads nothing of Excel but the global
 * `CustomFunctions`, and offers the page its units and recent problems as `globalThis.pucksheet`.
 */
import * as functions from "../../functions/index";
import { bringWords } from "../../help/catalogue";
import { offerToPage } from "../../sheet/bundle-interface";
import { CellError, withoutStackTraces } from "../../sheet/cell-error";
import { callingAs } from "../../sheet/recent-problems";

type Declared = (...cells: unknown[]) => unknown[][] | Promise<unknown[][]>;

// Every workbook waits for this bundle, so the words stand in a file beside it.
bringWords(async () => import(/* webpackChunkName: "words" */ "../../help/words"));

for (const [name, declared] of Object.entries(functions as unknown as Record<string, Declared>)) {
  const id = name.replaceAll("_", ".");
  CustomFunctions.associate(id, (...cells: unknown[]) => {
    const results = callingAs(id, () => declared(...cells));
    return results instanceof Promise ? results.then(withExcelErrors) : withExcelErrors(results);
  });
}

offerToPage();

const mostShared = 1000;

/** Errors as Excel shows them with their words; equal ones stay one, as a column of the same slip is common. */
function withExcelErrors(results: unknown[][]): unknown[][] {
  const made = new Map<CellError, CustomFunctions.Error>();
  for (const row of results) {
    for (let column = 0; column < row.length; column++) {
      const cell = row[column];
      if (!(cell instanceof CellError)) continue;
      let error = made.get(cell);
      if (!error) {
        // Where a column has ever new ones there is little to share.
        if (made.size >= mostShared) made.clear();
        made.set(cell, (error = excelError(cell)));
      }
      row[column] = error;
    }
  }
  return results;
}

function excelError({ code, message }: CellError): CustomFunctions.Error {
  const { invalidValue, notAvailable } = CustomFunctions.ErrorCode;
  return withoutStackTraces(() => new CustomFunctions.Error(code === "#N/A" ? notAvailable : invalidValue, message));
}
