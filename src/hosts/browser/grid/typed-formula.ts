/** Spells a typed formula as the engine understands it. */
import { joined, partsOf } from "../../../sheet/formula-text";

/**
 * [@column], [@[a column]] and Table[@column] mean the cell of that column in the formula's own row, which the engine knows only as
 * Table[[#This Row],[column]]. `table` is the table that the formula stands in.
 */
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
