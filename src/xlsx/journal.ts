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

/** The journal without what was undone: an edit right after its opposite cancels it, so that what the edit took along comes back too. */
export function withoutUndone(journal: Journal): StructuralEdit[] {
  const left: StructuralEdit[] = [];
  for (const edit of journal) {
    const last = left.at(-1);
    if (last && isUndoneBy(last, edit)) left.pop();
    else left.push(edit);
  }
  return left;
}

function isUndoneBy(edit: StructuralEdit, next: StructuralEdit): boolean {
  switch (edit.kind) {
    case "insert rows":
    case "insert columns":
    case "delete rows":
    case "delete columns": {
      return next.kind === opposite[edit.kind] && "at" in next && next.sheet === edit.sheet && next.at === edit.at && next.count === edit.count;
    }
    case "move rows":
    case "move columns": {
      if (next.kind !== edit.kind || next.sheet !== edit.sheet || next.count !== edit.count) return false;
      const landed = edit.before <= edit.at ? edit.before : edit.before - edit.count;
      return next.at === landed && next.before === (landed < edit.at ? edit.at + edit.count : edit.at);
    }
    case "rename sheet":
      return next.kind === "rename sheet" && next.sheet === edit.to && next.to === edit.sheet;
    case "add sheet":
      return next.kind === "remove sheet" && next.sheet === edit.sheet;
    case "remove sheet":
      return next.kind === "add sheet" && next.sheet === edit.sheet && next.restored === true;
  }
}

const opposite = {
  "insert rows": "delete rows",
  "delete rows": "insert rows",
  "insert columns": "delete columns",
  "delete columns": "insert columns",
} as const;
