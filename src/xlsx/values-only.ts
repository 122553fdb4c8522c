/** The form of a copy for programs without our functions: values stand where they stood. */
import { isFunctionName, partsOf } from "../sheet/formula-text";
import type { FunctionNames } from "./formula-in-file";
import type { Cell, Sheet, Workbook } from "./workbook";

/** `warnings` gets what still calls our functions, as full sentences. */
export function withValues(workbook: Workbook, ours: FunctionNames, warnings: string[] = []): Workbook {
  for (const { name, refersTo } of workbook.names) {
    if (callsOurs(refersTo, ours)) warnings.push(`The name “${name}” stands for a formula with a function of Pucksheet, which other programs do not have; it keeps it.`);
  }
  return { ...workbook, sheets: workbook.sheets.map((sheet) => sheetWithValues(sheet, ours)) };
}

export function callsOurs(formula: string, ours: FunctionNames): boolean {
  const parts = partsOf(formula);
  return parts.some(({ kind, text }, index) => kind === "name" && ours.has(text.toUpperCase()) && isFunctionName(parts, index));
}

function sheetWithValues(sheet: Sheet, ours: FunctionNames): Sheet {
  const cells = sheet.cells.map((line) => line?.slice()) as Sheet["cells"];
  const put = (row: number, column: number, { value, style }: Cell) => {
    (cells[row] ??= [])[column] = { ...(value !== undefined && { value }), ...(style && { style }) };
  };
  sheet.cells.forEach((line, row) =>
    line?.forEach((cell, column) => {
      if (cell?.formula === undefined || !callsOurs(cell.formula, ours)) return;
      const { rows = 1, columns = 1 } = cell.spill ?? {};
      for (let down = 0; down < rows; down++) {
        for (let across = 0; across < columns; across++) {
          const filled = sheet.cells[row + down]?.[column + across];
          if (filled === cell || filled?.spilled) put(row + down, column + across, filled);
        }
      }
    }),
  );
  return { ...sheet, cells };
}
