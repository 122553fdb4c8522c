import { IUniverInstanceService } from "@univerjs/core";
import fc from "fast-check";
import { expect, it } from "vitest";
import { repairedFunctions, repairEngine, repairLibrary } from "../../src/hosts/browser/grid/repaired-engine.ts";
import { address } from "../../src/sheet/formula-text.ts";
import { cellsOf, type Workbook } from "../../src/xlsx/workbook.ts";
import { Engine, workbookOf } from "../grid-repairs/engine.ts";

repairLibrary();
const repaired = { functions: repairedFunctions(), started: repairEngine };
const runs = Number(process.env.RUNS ?? 10);
const rows = 8;

/** A table with columns filled down, results that spill beside it, and cells that follow from those. */
export function sheet(): Workbook {
  const contents: Record<string, string | number> = { A1: "dose", B1: "beverage", C1: "ratio", D1: "sum", K1: 20, K2: "=SUM(G1:G9)", K3: "=COUNT(H1:H12)", K4: "=SUM(Shots[ratio])+dose" };
  for (let row = 2; row <= rows; row++) Object.assign(contents, { [`A${row}`]: 16 + row, [`B${row}`]: 40 - row, [`C${row}`]: `=B${row}-A${row}`, [`D${row}`]: `=SUM(A$2:A${row})` });
  Object.assign(contents, { G1: "=FILTER(Shots[ratio],Shots[dose]>K1,0)", H1: "=SORT(G1:G9,,-1)", I1: "=LET(a,SUM(Shots[dose]),b,MAX(D2:D8),a-b)", M1: "=H1:H3*{1,2}", M9: "=M2+N3" });
  const workbook = workbookOf(contents, { name: "Shots", columns: ["dose", "beverage", "ratio", "sum"], rows: rows - 1 });
  return { ...workbook, names: [{ name: "dose", refersTo: "Sheet1!$A$3" }] };
}

type Edit = { kind: "type"; row: number; column: number; value: number | string } | { kind: "clear" | "paste" | "insertRow" | "deleteRow" | "insertColumn" | "deleteColumn" | "fill" | "undo" | "redo"; row: number; column: number };
const place = { row: fc.integer({ min: 0, max: 10 }), column: fc.integer({ min: 0, max: 13 }) };
const edit: fc.Arbitrary<Edit> = fc.oneof(
  { weight: 5, arbitrary: fc.record({ kind: fc.constant("type" as const), ...place, value: fc.oneof(fc.integer({ min: 0, max: 40 }), fc.constantFrom("x", "=2*3")) }) },
  // Right of everything, where nothing reads them: a formula that reads itself has no value to compare.
  { weight: 2, arbitrary: fc.record({ kind: fc.constant("type" as const), row: place.row, column: fc.constantFrom(15, 16), value: fc.constantFrom("=A2*2", "=SUM(G1:G5)", "=C2:C4", "=B2-A2", "=SUM(A$2:A2)") }) },
  { weight: 8, arbitrary: fc.record({ kind: fc.constantFrom("clear" as const, "paste" as const, "insertRow" as const, "deleteRow" as const, "insertColumn" as const, "deleteColumn" as const, "fill" as const, "undo" as const, "redo" as const, "undo" as const, "undo" as const), ...place }) },
);

export async function perform(engine: Engine, change: Edit): Promise<void> {
  const book = engine.workbook.getSheets()[0]!;
  const { row, column } = change;
  switch (change.kind) {
    case "type": book.getRange(row, column).setValue(change.value); break;
    case "clear": book.getRange(row, column, 2, 2).clearContent(); break;
    case "paste": book.getRange(row, column, 2, 2).setValues([[1, 2], [3, 4]]); break;
    case "insertRow": book.insertRowsBefore(row, 1); break;
    case "deleteRow": book.deleteRows(row, 1); break;
    case "insertColumn": book.insertColumnsBefore(column, 1); break;
    case "deleteColumn": book.deleteColumns(column, 1); break;
    case "fill": await book.getRange(row, column, 1, 1).autoFill(book.getRange(row, column, 4, 1)); break;
    case "undo": await engine.api.undo(); break;
    case "redo": await engine.api.redo(); break;
  }
  await engine.calculated();
}

function cellsIn(workbook: Workbook): Record<string, unknown> {
  const found: Record<string, unknown> = {};
  for (const one of workbook.sheets) {
    for (const { row, column, cell } of cellsOf(one)) if (cell.value !== undefined || cell.formula) found[`${one.name}!${address(row, column)}`] = [cell.formula, cell.value];
  }
  return found;
}

it("a sheet is after every edit as when newly opened, and taking everything back gives it as it was", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 5, maxLength: 10 }), async (changes) => {
      const engine = await Engine.open(sheet(), repaired);
      engine.injector.get(IUniverInstanceService).focusUnit(engine.workbook.getId());
      const first = cellsIn(engine.saved());
      for (const change of changes) {
        await perform(engine, change);
        const saved = engine.saved();
        const fresh = await Engine.open(saved, repaired);
        expect(cellsIn(saved), JSON.stringify(change)).toEqual(cellsIn(fresh.saved()));
      }
      while (await engine.api.undo()) await engine.calculated();
      expect(cellsIn(engine.saved()), "all taken back").toEqual(first);
    }),
    { numRuns: runs },
  );
}, 600_000);
