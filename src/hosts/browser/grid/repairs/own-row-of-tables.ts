/**
 * What is wrong: the engine does not know [@column] and Table[@column], the cell of that column in the formula's own row.
 * How it shows: =[@dose]*2, typed into a table, is #NAME?.
 * Here such a formula is spelled Table[[#This Row],[column]] before it reaches the engine.
 */
import type { ICellData, Nullable } from "@univerjs/core";
import type { FUniver } from "@univerjs/core/facade";
import { SetRangeValuesMutation, type ISetRangeValuesMutationParams } from "@univerjs/sheets";
import type {} from "@univerjs/sheets-table/facade";
import { joined, partsOf } from "../../../../sheet/formula-text";
import { holds } from "../areas";

export function spellRowReferences(api: FUniver): void {
  api.onBeforeCommandExecute((command) => {
    if (command.id !== SetRangeValuesMutation.id) return;
    const { unitId, subUnitId, cellValue } = command.params as ISetRangeValuesMutationParams;
    for (const [row, line] of Object.entries(cellValue ?? {})) {
      for (const [column, cell] of Object.entries(line as Record<string, Nullable<ICellData>>)) {
        if (!cell?.f?.includes("@")) continue;
        const tables = api.getWorkbook(unitId)?.getTableList() ?? [];
        const table = tables.find(({ subUnitId: sheet, range }) => sheet === subUnitId && holds(range, Number(row), Number(column)));
        cell.f = withRowReferences(cell.f, table?.name);
      }
    }
  });
}

/** `table` is the name of the table that the formula stands in. */
export function withRowReferences(formula: string, table: string | undefined): string {
  const parts = partsOf(formula);
  return joined(
    parts.map((part, index) => {
      if (part.kind !== "structured" || !part.text.startsWith("[@")) return part;
      const inside = part.text.slice(2, -1);
      const column = inside.startsWith("[") ? inside : `[${inside}]`;
      const named = parts[index - 1]?.kind === "name";
      if (!named && table === undefined) return part;
      return { ...part, text: `${named ? "" : table}[[#This Row],${column}]` };
    }),
  );
}
