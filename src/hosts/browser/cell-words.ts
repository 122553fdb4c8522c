/** The selected cell in words. The cells are drawn, so a screen reader hears all of it; the eye needs only what the cell and its formula do not show. */
import type { SelectedCell } from "./grid/grid";
import { isErrorValue, type CellValue } from "../../xlsx/workbook";

/** All there is to say but the unit. */
export function cellInWords(cell: SelectedCell | undefined): string {
  if (!cell) return "No cell is selected.";
  const parts = [cell.address];
  if (cell.rows > 1 || cell.columns > 1) parts.push(`(first of ${cell.rows} × ${cell.columns} cells)`);
  if (cell.formula) parts.push(`=${cell.formula}`);
  if (cell.value !== undefined) parts.push(valueText(cell.value, cell.shown));
  else if (!cell.formula) parts.push("empty");
  if (cell.spilledFrom) parts.push(`(filled by the formula in ${cell.spilledFrom})`);
  if (cell.message) parts.push(cell.message);
  return parts.join(" ");
}

/** What the cell itself does not show: the words of an error, what fills it, the unit. */
export function addedInWords(cell: SelectedCell | undefined, unit: string | undefined): string {
  const parts: string[] = [];
  if (cell?.message) parts.push(cell.message);
  if (cell?.spilledFrom) parts.push(`Filled by the formula in ${cell.spilledFrom}: change it there.`);
  if (unit !== undefined) parts.push(`Typed in ${unit}.`);
  return parts.join(" ");
}

/** A number with all its digits, unless its format makes something else of it, such as a date or a percentage. */
function valueText(value: CellValue, shown: string | undefined): string {
  if (isErrorValue(value)) return value.error;
  if (typeof value === "boolean") return value ? "TRUE" : "FALSE";
  if (typeof value === "string") return value;
  return shown && Number.isNaN(Number(shown)) ? shown : String(Number(value.toPrecision(12)));
}
