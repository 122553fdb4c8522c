/** The formulas of a workbook, read in pieces: Excel on the web refuses answers of more than 5 MB. */

/** Cells of a piece, about. */
const blockCells = 20_000;

/** A piece of a sheet's used cells. */
export interface FormulaBlock {
  readonly sheet: Excel.Worksheet;
  /** Of its first cell, counted from 0. */
  readonly row: number;
  readonly column: number;
  readonly formulas: readonly (readonly unknown[])[];
  /** What the cells show; empty where only formulas were asked for. */
  readonly values: readonly (readonly unknown[])[];
}

/** Every sheet from top to bottom; each piece is read when it is asked for. */
export async function* formulaBlocks(context: Excel.RequestContext, withValues = false): AsyncGenerator<FormulaBlock> {
  const sheets = context.workbook.worksheets;
  sheets.load({ name: true });
  await context.sync();
  const used = sheets.items.map((sheet) => ({ sheet, range: sheet.getUsedRangeOrNullObject(true) }));
  for (const { range } of used) range.load({ rowCount: true, columnCount: true });
  await context.sync();
  for (const { sheet, range } of used) {
    if (range.isNullObject) continue;
    const rows = Math.max(1, Math.floor(blockCells / range.columnCount));
    for (let row = 0; row < range.rowCount; row += rows) {
      const height = Math.min(rows, range.rowCount - row);
      const block = range.getCell(row, 0).getResizedRange(height - 1, range.columnCount - 1);
      block.load({ formulas: true, values: withValues, rowIndex: true, columnIndex: true });
      // One block at a time, on purpose: together they could exceed what Excel sends.
      await context.sync();
      yield { sheet, row: block.rowIndex, column: block.columnIndex, formulas: block.formulas, values: withValues ? block.values : [] };
    }
  }
}
