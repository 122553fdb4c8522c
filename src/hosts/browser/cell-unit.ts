/** The unit of a cell that is typed into on a ready sheet, found by the name of the cell or by the heading of its column, wherever they have moved. */
import { describedReadySheet } from "../../ready-sheets/index";
import { absolute, sheetPrefix } from "../../sheet/references";
import { unitBeside, type UnitChoice } from "../../sheet/unit-choice";
import { readySheetOn } from "../../xlsx/ready-sheets";
import type { Workbook } from "../../xlsx/workbook";
import type { SelectedCell } from "./grid/grid";

export function unitOfCell(names: Workbook["names"], { sheet, address, column }: SelectedCell, units: UnitChoice): string | undefined {
  const found = readySheetOn(names, sheet);
  if (!found) return undefined;
  const { cells, tables } = describedReadySheet(found.id, { units, copy: found.copy });
  const reference = `${sheetPrefix(sheet)}${absolute(address)}`;
  const name = names.find(({ refersTo }) => refersTo === reference)?.name.toLowerCase();
  const described = column
    ? tables.find((table) => table.name.toLowerCase() === column.table.toLowerCase())?.columns.find(({ heading }) => heading === column.heading)
    : Object.values(cells).find((cell) => cell.role === "input" && cell.name !== undefined && cell.name.toLowerCase() === name);
  if (!described || described.role !== "input") return undefined;
  return described.measure ? unitBeside(units, described.measure) : described.unit;
}
