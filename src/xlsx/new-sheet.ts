/** Adds a sheet that was made in this page to an opened file. */
import { lineChanges, type CellChange } from "./compare";
import type { FunctionNames } from "./formula-in-file";
import type { Package } from "./package";
import { cellsXml, type CellTools } from "./patch-cells";
import { patchColumns, patchMerges, patchView } from "./patch-sheet";
import { patchTables } from "./patch-tables";
import { pairTables } from "./table-changes";
import { cellsOf, type Sheet, type Workbook } from "./workbook";

const contentType = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

/** Answers the id of the workbook's relation to it. */
export async function addSheet(file: Package, sheet: Sheet, workbook: Workbook, tools: CellTools, ours: FunctionNames): Promise<string> {
  const part = file.freeName(`${file.folder}worksheets/sheet`, ".xml");
  const changes = [...cellsOf(sheet)].map(({ row, column, cell }): CellChange => {
    const content = cell.formula !== undefined ? "formula" : cell.spilled ? "result" : "value";
    return { row, column, now: cell, content, ...(cell.style && { styleBefore: "none" }) };
  });
  const rows = lineChanges([], sheet.rows, "height");
  const columns = lineChanges([], sheet.columns, "width");
  const bare =
    `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n` +
    `<worksheet xmlns="${file.mainNamespace}"><sheetData>${cellsXml(changes, rows, tools)}</sheetData></worksheet>`;
  const withMerges = patchMerges(patchColumns(bare, columns), sheet.merges, []);
  file.setText(part, sheet.frozen || sheet.gridlines === false ? patchView(withMerges, sheet) : withMerges);
  file.addContentType(part, contentType);
  const relation = file.addRelation(file.main, "worksheet", part);
  patchTables(file, part, undefined, pairTables(undefined, sheet));
  void workbook;
  void ours;
  return relation;
}
