/** A workbook as a grid would give it after edits of its structure: cells at their new places, formulas following. */
import type { Journal } from "../../src/xlsx/journal.ts";
import { relocatedWorkbook } from "../../src/xlsx/relocated-workbook.ts";
import { Relocation } from "../../src/xlsx/relocation.ts";
import { tableChanges } from "../../src/xlsx/table-changes.ts";
import { freeHeading } from "../../src/xlsx/table-columns.ts";
import { putCell, type Sheet, type Workbook } from "../../src/xlsx/workbook.ts";

export function after(workbook: Workbook, journal: Journal): Workbook {
  const moves = new Relocation(journal);
  const relocated = relocatedWorkbook(workbook, moves);
  const placed = { ...workbook, names: [...relocated.names], sheets: relocated.sheets.map(({ sheet }) => withHeadings(sheet)) };
  const relocation = new Relocation(journal, tableChanges(relocated, placed));
  return {
    ...placed,
    names: relocatedWorkbook(workbook, relocation).names.slice(),
    sheets: placed.sheets.map((sheet, index) => withFormulas(sheet, (formula) => relocation.formula(formula, relocated.sheets[index]!.openedAs))),
  };
}

function withFormulas(sheet: Sheet, change: (formula: string) => string): Sheet {
  const cells = sheet.cells.map((line) => line?.map((cell) => (cell?.formula === undefined ? cell : { ...cell, formula: change(cell.formula) })));
  return { ...sheet, cells: cells as Sheet["cells"] };
}

/** New columns of a table are called Column1 and so on. */
function withHeadings(from: Sheet): Sheet {
  const sheet = { ...from, cells: from.cells.map((line) => line?.slice()) as Sheet["cells"] };
  for (const { area, columns } of sheet.tables) {
    const taken = new Set(columns.map((heading) => heading.toLowerCase()));
    columns.forEach((heading, index) => {
      if (heading !== "") return;
      columns[index] = freeHeading(taken);
      putCell(sheet, area.top, area.left + index, { value: columns[index]! });
    });
  }
  return sheet;
}

/** Whether the cell is the heading of a column of a table. */
export function isHeading(sheet: Sheet, row: number, column: number): boolean {
  return sheet.tables.some(({ area }) => row === area.top && column >= area.left && column <= area.right);
}
