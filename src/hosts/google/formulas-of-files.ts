/** Formulas of a file from another program, in which our functions have dots or a prefix: spelled as they are called here. */
import { respelled } from "../../sheet/respelled";

/** How many formulas were spelled anew. */
export function formulasOfFiles(book: GoogleAppsScript.Spreadsheet.Spreadsheet): number {
  let changed = 0;
  for (const sheet of book.getSheets()) {
    const range = sheet.getDataRange();
    range.getFormulas().forEach((line, row) =>
      line.forEach((formula, column) => {
        const anew = formula === "" ? undefined : respelled(formula);
        if (anew === undefined || anew === formula) return;
        range.getCell(row + 1, column + 1).setFormula(anew);
        changed++;
      }),
    );
  }
  return changed;
}
