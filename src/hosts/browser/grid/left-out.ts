/**
 * Words for what is entered where no result reaches it: apart from the table that it seems to belong to, or right below the cells that a
 * formula reads. Other spreadsheets leave such a row out in silence.
 */
import type { ICellData, Nullable, Workbook } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import type { TableManager } from "@univerjs/sheets-table";
import { filled, partsOf } from "../../../sheet/formula-text";
import { address, areaOf, columnName, sheetOfPrefix } from "../../../sheet/references";
import { holds } from "./areas";
import { valueFrom } from "./read-back";

type Table = NonNullable<ReturnType<TableManager["getTableById"]>>;

interface Entered {
  readonly row: number;
  readonly column: number;
}

/** A row farther from the table than this is not taken for one of it. */
const farthest = 20;

export class LeftOut {
  constructor(
    private readonly book: Workbook,
    private readonly sheetId: string,
    private readonly formulas: FormulaDataModel,
  ) {}

  /** A sentence for the first cell of those entered that is left out; undefined where all are reached. */
  words(tables: readonly Table[], entered: readonly Entered[]): string | undefined {
    for (const cell of entered) {
      const { row, column } = cell;
      if (this.kindOf(row, column) === undefined || tables.some((table) => holds(table.getRange(), row, column))) continue;
      const words = this.apartFromTable(tables, cell) ?? this.belowFormula(cell);
      if (words !== undefined) return words;
    }
    return undefined;
  }

  private apartFromTable(tables: readonly Table[], { row, column }: Entered): string | undefined {
    const table = tables.find((one) => {
      const { startRow, endRow, startColumn, endColumn } = one.getRange();
      if (column < startColumn || column > endColumn || row <= endRow + 1 || row > endRow + farthest || endRow === startRow) return false;
      const columns = Array.from({ length: endColumn - startColumn + 1 }, (_, place) => startColumn + place);
      for (let between = endRow + 1; between < row; between++) {
        if (columns.some((place) => this.kindOf(between, place) !== undefined)) return false;
      }
      // What is of another kind than the table's cells is a note or a heading of something else.
      return columns.every((place) => {
        const kind = this.kindOf(row, place);
        return kind === undefined || this.kindsIn(one, place).has(kind);
      });
    });
    if (!table) return undefined;
    const { endRow } = table.getRange();
    return `${address(row, column)} stands apart from the table ${table.getDisplayName()}, which ends in row ${endRow + 1}, and is not counted with it. Put it into row ${endRow + 2} to have it taken in.`;
  }

  private kindsIn(table: Table, column: number): Set<string> {
    const { startRow, endRow } = table.getRange();
    const kinds = new Set<string>();
    for (let row = startRow + 1; row <= endRow; row++) {
      const kind = this.kindOf(row, column);
      if (kind !== undefined) kinds.add(kind);
    }
    return kinds;
  }

  private belowFormula({ row, column }: Entered): string | undefined {
    if (this.kindOf(row, column) !== "number" || this.kindOf(row - 1, column) !== "number") return undefined;
    // The last row that a range can end with and still be followed by nothing but numbers down to this one.
    let first = row - 1;
    while (this.kindOf(first - 1, column) === "number") first--;
    const letters = columnName(column)!;
    for (const sheet of this.book.getSheets()) {
      const cells = this.formulas.getFormulaData()[this.book.getUnitId()]?.[sheet.getSheetId()] ?? {};
      for (const [ownRow, line] of Object.entries(cells)) {
        for (const ownColumn of Object.keys(line ?? {})) {
          const own = { row: Number(ownRow), column: Number(ownColumn) };
          const range = this.rangeEndingAbove(sheet.getSheetId(), sheet.getName(), own, { letters, column, first, row });
          if (range === undefined) continue;
          const name = sheet.getSheetId() === this.sheetId ? "" : ` on “${sheet.getName()}”`;
          return `The formula in ${address(own.row, own.column)}${name} reads ${range} and leaves out ${address(row, column)}: write the new end into it.`;
        }
      }
    }
    return undefined;
  }

  private rangeEndingAbove(
    ownSheet: string,
    ownName: string,
    own: Entered,
    { letters, column, first, row }: { readonly letters: string; readonly column: number; readonly first: number; readonly row: number },
  ): string | undefined {
    const formula = this.formulaAt(ownSheet, own.row, own.column);
    if (!formula?.includes(letters)) return undefined;
    const parts = partsOf(formula);
    for (const [index, part] of parts.entries()) {
      if (part.kind !== "reference" || parts[index + 1]?.text !== ":" || parts[index + 2]?.kind !== "reference") continue;
      const before = parts[index - 1];
      const sheet = before?.kind === "sheet" ? sheetOfPrefix(before.text) : ownName;
      const range = `${part.text}:${parts[index + 2]!.text}`;
      const area = areaOf(range);
      if (!area || sheet !== this.sheetName || column < area.left || column > area.right || !/\d/.test(part.text)) continue;
      const endsAbove = area.bottom >= first && area.bottom < row && area.bottom > area.top;
      // A sum or a mean that is carried down beside its cells reads more in every row.
      if (endsAbove && !this.isFilledDown(ownSheet, own, formula)) return range;
    }
    return undefined;
  }

  private isFilledDown(sheetId: string, { row, column }: Entered, formula: string): boolean {
    const above = row > 0 ? this.formulaAt(sheetId, row - 1, column) : undefined;
    const below = this.formulaAt(sheetId, row + 1, column);
    return (above !== undefined && filled(above, 1, 0) === formula) || (below !== undefined && filled(formula, 1, 0) === below);
  }

  private formulaAt(sheetId: string, row: number, column: number): string | undefined {
    return this.formulas.getFormulaStringByCell(row, column, sheetId, this.book.getUnitId()) ?? undefined;
  }

  private get sheetName(): string {
    return this.book.getSheetBySheetId(this.sheetId)!.getName();
  }

  /** "number" or "text"; "other" for what is neither, undefined for a blank cell. */
  private kindOf(row: number, column: number): string | undefined {
    if (row < 0) return undefined;
    const cell: Nullable<ICellData> = this.book.getSheetBySheetId(this.sheetId)!.getCellRaw(row, column);
    const value = cell ? valueFrom(cell) : undefined;
    if (value === undefined) return cell?.f || cell?.si ? "other" : undefined;
    return typeof value === "number" ? "number" : typeof value === "string" ? "text" : "other";
  }
}
