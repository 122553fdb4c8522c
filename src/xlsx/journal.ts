/**
 * What happened to the structure of an opened workbook since it was opened, in order: rows, columns and sheets. The contents of cells, widths,
 * merges, names and tables are not in it: those are found by comparing. A sheet goes by the name that it has at that moment; rows and columns
 * count from 0. Undone is journalled as its opposite, as in "insert rows" and then "delete rows" at the same place.
 */
export type StructuralEdit =
  /** The first new row or column will be number `at`. */
  | { readonly kind: "insert rows" | "insert columns"; readonly sheet: string; readonly at: number; readonly count: number }
  /** The first to go is number `at`. */
  | { readonly kind: "delete rows" | "delete columns"; readonly sheet: string; readonly at: number; readonly count: number }
  /** Rows or columns `at` and following, moved to stand before what was number `before` until then. */
  | { readonly kind: "move rows" | "move columns"; readonly sheet: string; readonly at: number; readonly count: number; readonly before: number }
  | { readonly kind: "rename sheet"; readonly sheet: string; readonly to: string }
  /** `restored`: it is the sheet of that name that was removed last, brought back by Undo. */
  | { readonly kind: "add sheet"; readonly sheet: string; readonly restored?: true }
  | { readonly kind: "remove sheet"; readonly sheet: string };

export type Journal = readonly StructuralEdit[];
