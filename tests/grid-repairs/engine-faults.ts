/**
 * Every fault of the grid library's engine that is repaired here, and how it shows. The engine keeps formulas that it has read from one
 * instance to the next, so the library as it comes and the repaired one are tried in a test file each.
 */
import { IUniverInstanceService } from "@univerjs/core";
import {
  CELL_INVERTED_INDEX_CACHE,
  FormulaExecuteStageType,
  SetFormulaCalculationNotificationMutation,
  type ISetFormulaCalculationNotificationMutation,
} from "@univerjs/engine-formula";
import { SetSheetTableMutation, TableManager } from "@univerjs/sheets-table";
import { CellError } from "../../src/sheet/cell-error.ts";
import { executorOf } from "../../src/hosts/browser/grid/repairs/added-functions.ts";
import { Engine, workbookOf, type Contents, type EngineOptions } from "./engine.ts";

export interface Fault {
  /** Its file in src/hosts/browser/grid/repairs/. */
  readonly file: string;
  readonly shows: (options: EngineOptions) => Promise<unknown>;
  readonly wrong: unknown;
  readonly right: unknown;
}

const own = [
  executorOf({ id: "NOTE", name: "NOTE", parameters: [] }, () => [[new CellError("#N/A", "words of the function")]]),
  executorOf({ id: "KIND", name: "KIND", parameters: [{ name: "cell", dimensionality: "matrix" }] }, (cells) => [[String((cells as unknown[][])[0]![0])]]),
  executorOf({ id: "SHARE", name: "SHARE", parameters: [] }, () => [["12%"]]),
];

const shots = { name: "Shots", columns: ["dose"], rows: 2 };

const valuesOf = async (contents: Contents, places: readonly string[], options: EngineOptions) => {
  const engine = await Engine.openSheet(contents, options);
  return places.map((at) => engine.value(at));
};

export const engineFaults: readonly Fault[] = [
  {
    file: "sort-in-place",
    // −0.5 by hand: the covariance of (3, 1, 2) with (1, 2, 3) is −1/2 and both variances are 1.
    shows: (options) => valuesOf({ A1: 3, A2: 1, A3: 2, B1: "=SORT(A1:A3)", C1: "=CORREL(A1:A3,{1;2;3})" }, ["B1", "B2", "B3", "C1"], options),
    wrong: [1, 2, 3, 1],
    right: [1, 2, 3, -0.5],
  },
  {
    file: "comparison-with-errors",
    shows: (options) => valuesOf({ A1: "=NA()", A2: 4, B1: "=IF(A1>1,1,2)", C1: "=A1:A2>1" }, ["B1", "C1", "C2"], options),
    wrong: [1, 1, 1],
    right: ["#N/A", "#N/A", 1],
  },
  {
    file: "open-brackets",
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 1 }, options);
      await engine.type({ B1: "=Shots[", B2: "=SUM(1,2)" });
      return engine.value("B2");
    },
    wrong: "#NAME?",
    right: 3,
  },
  {
    file: "slow-value-index",
    shows: () => Promise.resolve(looksToReplaceARow(2000) > 1000),
    wrong: true,
    right: false,
  },
  {
    file: "own-row-of-tables",
    shows: async (options) => {
      const engine = await Engine.open(workbookOf({ A1: "dose", B1: "twice", A2: 18, A3: 20 }, { name: "Shots", columns: ["dose", "twice"], rows: 2 }), options);
      await engine.type({ B3: "=[@dose]*2", D2: "=Shots[@dose]*3" });
      return [engine.value("B3"), engine.value("D2")];
    },
    wrong: ["#NAME?", "#NAME?"],
    right: [40, 54],
  },
  {
    file: "circles",
    shows: async (options) => {
      // C1 follows from the circle, D1 does not; E1:E3 is none, though its second cell stands between what it reads; F2 asks for a place only.
      const contents = { A1: "=B1+1", B1: "=A1*2", C1: "=B1+0.5", D1: "=2*3", E1: 1, E2: "=E1+1", E3: "=SUM(E1:E2)", F2: "=ROW(F2)", G1: "=SUM(G1:G3)" };
      const engine = await Engine.openSheet(contents, options);
      const before = Object.keys(contents).map((at) => engine.value(at));
      await engine.type({ B1: 5 });
      return [before, engine.value("A1"), engine.value("C1")];
    },
    wrong: [[1, 0, 0.5, 6, 1, 2, 3, 2, 0], 6, 5.5],
    right: [["#CYCLE!", "#CYCLE!", "#CYCLE!", 6, 1, 2, 3, 2, "#CYCLE!"], 6, 5.5],
  },
  {
    file: "headings-as-spelled",
    shows: async (options) => {
      const headings = ["Dose (g)", "mass [g]", "it's", "a, b"];
      const cells = Object.fromEntries(headings.flatMap((heading, column) => [["ABCD"[column]! + "1", heading], ["ABCD"[column]! + "2", 10 ** column]]));
      const formulas = {
        F1: "=SUM(Shots[Dose (g)])",
        F2: "=SUM(Shots[[#This Row],[a, b]])",
        F3: "=SUM(Shots[mass '[g']])",
        F4: "=SUM(Shots[[#Data],[mass '[g']]:[it''s]])",
        F5: "=SUM(shots[dose (G)])",
        F6: "=SUM(Shots[nothing])",
        F7: "=SUM(Shots[Dose (g)])+factor",
      };
      const workbook = workbookOf({ ...cells, ...formulas }, { name: "Shots", columns: headings, rows: 1 });
      const engine = await Engine.open({ ...workbook, names: [{ name: "factor", refersTo: "SUM(Shots[mass '[g']])" }] }, options);
      return Object.keys(formulas).map((at) => engine.value(at));
    },
    wrong: ["#VALUE!", 1000, "#NAME?", "#NAME?", "#VALUE!", "#NAME?", "#VALUE!"],
    right: [1, 1000, 10, 110, 1, "#NAME?", 11],
  },
  {
    file: "iterator-helpers",
    shows: async (options) => {
      const helpers = options.started ? {} : takenIteratorHelpers();
      try {
        const engine = await Engine.open(workbookOf({ A1: "dose", A2: 18 }, { name: "Shots", columns: ["dose"], rows: 1 }), options);
        engine.workbook.insertDefinedName("dose", "Sheet1!$A$2");
        return engine.workbook.getDefinedNames().map((name) => name.getName());
      } catch (error) {
        return (error as Error).name;
      } finally {
        for (const [name, helper] of Object.entries(helpers)) Object.defineProperty(iterators, name, helper);
      }
    },
    wrong: "TypeError",
    right: ["dose"],
  },
  {
    file: "stale-messages",
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 1, B1: "=IF(A1=1,ESPRESSO.NOTE(),1/0)" }, { ...options, functions: [...(options.functions ?? []), ...own] });
      await engine.type({ A1: 2 });
      return [engine.value("B1"), engine.cell("B1").getCellData()?.custom];
    },
    wrong: ["#DIV/0!", { message: "words of the function" }],
    right: ["#DIV/0!", undefined],
  },
  {
    file: "table-looks-lost",
    shows: async (options) => {
      const engine = await Engine.open(workbookOf({ A1: "dose", A2: 18 }, { name: "Shots", columns: ["dose"], rows: 1 }), options);
      return engine.injector.get(TableManager).getTable(engine.workbook.getId(), "sheet1table1")!.getTableStyleId();
    },
    wrong: "table-default-0",
    right: "plain",
  },
  {
    file: "added-functions",
    shows: async (options) => {
      if (options.functions) return valuesOf({ B1: "=ESPRESSO.KIND(A1)", B2: "=ESPRESSO.SHARE()" }, ["B1", "B2"], { ...options, functions: own });
      const engine = await Engine.openSheet({ A2: 1 }, options);
      engine.api.getFormula().registerFunction("KIND", (cell: unknown) => String(cell));
      engine.api.getFormula().registerFunction("SHARE", () => "12%");
      await engine.type({ B1: "=KIND(A1)", B2: "=SHARE()" });
      return [engine.value("B1"), engine.value("B2")];
    },
    wrong: [0, 0.12],
    right: ["null", "12%"],
  },
  {
    file: "spill-order",
    // B1 reads a cell that E1 fills, and the first cell of another result that spills.
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 1, A2: 2, B1: "=D1+E2", D1: "=SEQUENCE(2)+A2", E1: "=A1:A2*2" }, options);
      await engine.type({ A2: 5 });
      return ["B1", "D1", "E2"].map((at) => engine.value(at));
    },
    wrong: [10, 6, 10],
    right: [16, 6, 10],
  },
  {
    file: "shrunk-spills",
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 5, B1: "=SEQUENCE(A1)", C1: "=SUM(B1:B9)" }, options);
      await engine.type({ A1: 2 });
      return engine.value("C1");
    },
    wrong: 15,
    right: 3,
  },
  {
    file: "kept-readings",
    shows: async (options) => {
      const contents = { A1: "dose", A2: 18, A3: 20, C1: "=LET(x,SUM(Shots[dose]),x+1)" };
      return (await Engine.open(workbookOf(contents, shots), options)).value("C1");
    },
    wrong: 1,
    right: 39,
  },
  {
    file: "kept-tables",
    shows: async (options) => {
      const engine = await Engine.open(workbookOf({ A1: "dose", A2: 18, A3: 20, A4: 100, C1: '=SUM(Shots[dose])+LEN("")*LEN("a formula longer than those that are kept as they are")' }, shots), options);
      const target = { unitId: engine.workbook.getId(), subUnitId: "sheet1", tableId: "sheet1table1" };
      await engine.type({ A2: 17 });
      const newRange = { startRow: 0, endRow: 3, startColumn: 0, endColumn: 0 };
      engine.api.syncExecuteCommand(SetSheetTableMutation.id, { ...target, config: { updateRange: { newRange } } });
      await engine.calculated();
      await engine.type({ A2: 19 });
      return engine.value("C1");
    },
    wrong: 39,
    right: 139,
  },
  {
    file: "shared-formulas-lost",
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 1, A2: 2, C1: "=A1+1", C2: "=A2+1" }, options);
      await engine.type({ C1: "=A1+1" });
      return engine.saved().sheets[0]!.cells[1]![2]!.formula;
    },
    wrong: undefined,
    right: "A2+1",
  },
  {
    file: "calculation-turns",
    // Typed over a formula in the midst of its calculation.
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 1, B1: "=A1*2" }, options);
      const listening = engine.api.onCommandExecuted(({ id, params }) => {
        if (id !== SetFormulaCalculationNotificationMutation.id) return;
        const { stageInfo } = params as ISetFormulaCalculationNotificationMutation;
        if (stageInfo?.stage !== FormulaExecuteStageType.CURRENTLY_CALCULATING) return;
        listening.dispose();
        engine.cell("B1").setValue(7);
      });
      await engine.type({ A1: 3 });
      return engine.value("B1");
    },
    wrong: 6,
    right: 7,
  },
  {
    file: "moved-tables",
    shows: async (options) => {
      const engine = await Engine.open(workbookOf({ A1: "dose", B1: "time", A2: 18, B2: 25 }, { ...shots, columns: ["dose", "time"], rows: 1 }), options);
      engine.workbook.getSheets()[0]!.insertColumnsBefore(0, 1);
      return engine.saved().sheets[0]!.tables[0]!.columns.includes("time");
    },
    wrong: false,
    right: true,
  },
  {
    file: "redone-looks",
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 18, B1: "=A1*2" }, options);
      engine.injector.get(IUniverInstanceService).focusUnit(engine.workbook.getId());
      engine.cell("B1").setBackgroundColor("#ffffaa");
      await engine.api.undo();
      await engine.api.redo();
      await engine.type({ A1: 20 });
      return engine.value("B1");
    },
    wrong: 36,
    right: 40,
  },
  {
    file: "short-history",
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 0 }, options);
      engine.injector.get(IUniverInstanceService).focusUnit(engine.workbook.getId());
      for (let entry = 1; entry <= 23; entry++) await engine.type({ A1: entry });
      for (let step = 0; step < 23; step++) await engine.api.undo();
      return engine.value("A1");
    },
    wrong: 3,
    right: 0,
  },
  {
    file: "columns-at-the-end",
    shows: async (options) => {
      const contents = { A1: "dose", B1: "time", A2: 18, B2: 25, C1: "grind", C2: 2.5 };
      const engine = await Engine.open(workbookOf(contents, { ...shots, columns: ["dose", "time"], rows: 1 }), options);
      const tables = engine.injector.get(TableManager);
      const [table] = tables.getTableList(engine.workbook.getId());
      tables.updateTableRange(table!.unitId, table!.id, { newRange: { startRow: 0, endRow: 1, startColumn: 0, endColumn: 2 } });
      return tables.getTableById(table!.unitId, table!.id)!.getColumnNameByIndex(2);
    },
    wrong: "time",
    right: "grind",
  },
  {
    file: "overlapping-spills",
    shows: async (options) => {
      const engine = await Engine.openSheet({ H1: 1, H2: 2, H3: 3, H4: 4, H5: 5, H6: 6, M1: "=H1:H3*2" }, options);
      engine.injector.get(IUniverInstanceService).focusUnit(engine.workbook.getId());
      const [sheet] = engine.workbook.getSheets();
      await sheet!.getRange("M1").autoFill(sheet!.getRange("M1:M4"));
      await engine.calculated();
      await engine.api.undo();
      await engine.calculated();
      return [engine.value("M3"), engine.value("M4")];
    },
    wrong: [6, 8],
    right: [6, undefined],
  },
  {
    file: "two-shared-texts",
    shows: async (options) => {
      const engine = await Engine.openSheet({ A1: 1, A2: 2, A3: 3, B1: "=A1*2" }, options);
      engine.injector.get(IUniverInstanceService).focusUnit(engine.workbook.getId());
      const sheet = engine.workbook.getSheets()[0]!;
      await sheet.getRange("B1").autoFill(sheet.getRange("B1:B3"));
      await engine.calculated();
      sheet.getRange("B1:B2").clearContent();
      await engine.calculated();
      const formulas: string[] = [];
      while (await engine.api.undo()) {
        await engine.calculated();
        formulas.push(["B1", "B2", "B3"].map((at) => engine.cell(at).getFormula()).join(" "));
      }
      return formulas;
    },
    wrong: ["=A1*2 =A2*2 =A3*2", "=A3*2  "],
    right: ["=A1*2 =A2*2 =A3*2", "=A1*2  "],
  },
  {
    file: "order-of-columns",
    shows: async (options) => {
      const engine = await Engine.open(workbookOf({ A1: "dose", B1: "time", A2: 18, B2: 25 }, { ...shots, columns: ["dose", "time"], rows: 1 }), options);
      engine.injector.get(IUniverInstanceService).focusUnit(engine.workbook.getId());
      const [sheet] = engine.workbook.getSheets();
      const place = () => engine.saved().sheets[0]!.tables[0]!.columns.indexOf("time");
      sheet!.insertColumnsBefore(1, 1);
      const inserted = place();
      sheet!.deleteColumns(0, 1);
      await engine.api.undo();
      return [inserted, place()];
    },
    wrong: [1, 1],
    right: [2, 2],
  },
  {
    file: "removed-table-columns",
    shows: async (options) => {
      const engine = await Engine.open(workbookOf({ A1: "dose", B1: "time", C1: "rest", B2: 25, C2: "=B2*2" }, { ...shots, columns: ["dose", "time", "rest"], rows: 1 }), options);
      engine.workbook.getSheets()[0]!.deleteColumns(0, 1);
      return engine.saved().sheets[0]!.cells[1]![1]!.formula;
    },
    wrong: "B2*2",
    right: "A2*2",
  },
  {
    file: "confused-values",
    shows: (options) => {
      const contents = { A1: 0, A2: 5, B1: '=IF(A1:A2="",1,2)', C1: '=IF(A1:A2="",1,2)', E1: "18", E2: 5, F1: "=IF(E1:E2=18,1,2)", G1: "=IF(E1:E2=18,1,2)" };
      return valuesOf(contents, ["B1", "C1", "F1", "G1"], options);
    },
    wrong: [1, 1, 1, 1],
    right: [2, 2, 2, 2],
  },
  {
    file: "tables-in-shared-formulas",
    shows: async (options) => {
      const contents = { A1: "dose", A2: 17, A3: 18, A4: 19, C2: "=SUM(Shots[dose])" };
      const engine = await Engine.open(workbookOf(contents, { ...shots, rows: 3 }), options);
      const [sheet] = engine.workbook.getSheets();
      await sheet!.getRange("C2").autoFill(sheet!.getRange("C2:C4"));
      await engine.calculated();
      await engine.type({ A2: 27 });
      return engine.value("C4");
    },
    wrong: 54,
    right: 64,
  },
];

/** How many lists of rows are looked at to replace one row in a column of different values. */
function looksToReplaceARow(rows: number): number {
  CELL_INVERTED_INDEX_CACHE.clear();
  for (let row = 0; row < rows; row++) CELL_INVERTED_INDEX_CACHE.set("unit", "sheet", 0, row + 0.5, row);
  const has = Set.prototype.has;
  let looks = 0;
  Set.prototype.has = function (value) {
    looks++;
    return has.call(this, value);
  };
  try {
    CELL_INVERTED_INDEX_CACHE.set("unit", "sheet", 0, 0.25, rows - 1, true);
  } finally {
    Set.prototype.has = has;
  }
  return looks;
}

const iterators = Object.getPrototypeOf(Object.getPrototypeOf([][Symbol.iterator]())) as object;

/** Takes the iterator helpers away, as in a browser that lacks them. */
function takenIteratorHelpers(): Record<string, PropertyDescriptor> {
  const taken: Record<string, PropertyDescriptor> = {};
  for (const name of ["map", "filter", "toArray", "some", "every", "find", "forEach", "reduce"]) {
    const helper = Object.getOwnPropertyDescriptor(iterators, name);
    if (!helper) continue;
    taken[name] = helper;
    Reflect.deleteProperty(iterators, name);
  }
  return taken;
}
