/**
 * The bundle that Excel loads, functions.js: every worksheet function associated with its id. It reads nothing of Excel but the global
 * `CustomFunctions`, and offers the page its units and recent problems as `globalThis.pucksheet`.
 */
import * as functions from "../../functions/index";
import { bringWords } from "../../help/catalogue";
import { offerToPage } from "../../sheet/bundle-interface";
import { CellError, withoutStackTraces } from "../../sheet/cell-error";
import { callingAs, noteProblem } from "../../sheet/recent-problems";
import { currentUnits, giveUpWaiting } from "../../sheet/workbook-units";

type Declared = (...cells: unknown[]) => unknown[][] | Promise<unknown[][]>;

// Every workbook waits for this bundle, so the words stand in a file beside it.
bringWords(async () => import(/* webpackChunkName: "words" */ "../../help/words"));

for (const [name, declared] of Object.entries(functions as unknown as Record<string, Declared>)) {
  const id = name.replaceAll("_", ".");
  CustomFunctions.associate(id, (...cells: unknown[]) => {
    const waits = currentUnits() === undefined;
    const results = callingAs(id, () => declared(...cells));
    if (!(results instanceof Promise)) return withExcelErrors(results);
    return (waits ? Promise.race([results, waitedInVain(id)]) : results).then(withExcelErrors);
  });
}

offerToPage();

/** So long a cell is busy before it says what it waits for, ms. */
const patience = 10_000;
const words =
  "The units of this workbook are not known yet, so this was not calculated. If a cell is being edited, finish it; else check the connection, and close and open the workbook.";
let inVain: Promise<void> | undefined;

/** Of cells that begin to wait together one clock does. */
async function waitedInVain(id: string): Promise<unknown[][]> {
  inVain ??= new Promise((resolve) => setTimeout(resolve, patience));
  await inVain;
  if (currentUnits() === undefined) {
    giveUpWaiting();
    noteProblem(id, words, 1);
  }
  return [[new CellError("#N/A", words)]];
}

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
        error = excelError(cell);
        // Where a column has ever new ones there is little to share.
        if (made.size < mostShared) made.set(cell, error);
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
