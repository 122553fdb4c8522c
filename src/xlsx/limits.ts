/** What a cell and a file can hold in Excel ("Excel specifications and limits", Microsoft Support). The rows and columns of a sheet are in sheet/references.ts. */

/** Characters of a formula as typed. */
export const longestFormula = 8_192;
/** Functions within functions. */
export const deepestFormula = 64;
/** Characters in a cell. */
export const longestText = 32_767;

/** All texts of a workbook together: a file can point to one long text from every cell. */
export const mostTextInAll = 200_000_000;
/** Cells of a workbook, where the caller sets no smaller number. */
export const mostCellsInAll = 5_000_000;

export function inWords(count: number): string {
  return count.toLocaleString("en");
}
