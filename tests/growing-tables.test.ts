/** Tables that take in what is typed or pasted beside them, in the grid's engine. */
import { IUniverInstanceService } from "@univerjs/core";
import { SetSheetsFilterRangeMutation, SheetsFilterService, UniverSheetsFilterPlugin } from "@univerjs/sheets-filter";
import { expect, it } from "vitest";
import { growTables } from "../src/hosts/browser/grid/growing-tables.ts";
import { repairEngine } from "../src/hosts/browser/grid/repaired-engine.ts";
import { cellsOf } from "../src/xlsx/workbook.ts";
import { address } from "../src/sheet/references.ts";
import { Engine, workbookOf, type Contents } from "./grid-repairs/engine.ts";
import { repaired } from "./recalculation/repaired-engine.ts";

const shots: Contents = {
  A1: "dose",
  B1: "beverage",
  C1: "ratio",
  A2: 18,
  B2: 36,
  C2: "=B2/A2",
  A3: 18,
  B3: 38,
  C3: "=B3/A3",
  F1: "=SUM(Shots[dose])",
  F2: "=SUM(Shots[ratio])",
};

async function opened(more: Contents = {}) {
  const told: string[] = [];
  const engine = await Engine.open(workbookOf({ ...shots, ...more }, { name: "Shots", columns: ["dose", "beverage", "ratio"], rows: 2 }), {
    ...repaired,
    plugins: [UniverSheetsFilterPlugin],
    started: (api, injector) => {
      const turns = repairEngine(api, injector);
      const filters = injector.get(SheetsFilterService);
      growTables(api, injector, (words) => told.push(words), (unitId, sheetId) => filters.getFilterModel(unitId, sheetId)?.getRange());
      return turns;
    },
  });
  // Undo belongs to the workbook that has the focus.
  engine.injector.get(IUniverInstanceService).focusUnit(engine.workbook.getId());
  const sheet = engine.workbook.getSheets()[0]!;
  const everything = () => {
    const saved = engine.saved().sheets[0]!;
    return { cells: [...cellsOf(saved)].map(({ row, column, cell }) => [address(row, column), cell]), tables: saved.tables };
  };
  const table = () => engine.saved().sheets[0]!.tables[0]!;
  return { engine, sheet, told, everything, table };
}

it("is filtered with its new rows", async () => {
  const { engine, sheet } = await opened();
  const ids = { unitId: engine.workbook.getId(), subUnitId: sheet.getSheetId() };
  const filtered = () => engine.saved().sheets[0]!.filter!.area;
  const all = { startRow: 0, startColumn: 0, endRow: 2, endColumn: 3 };
  engine.api.syncExecuteCommand(SetSheetsFilterRangeMutation.id, { ...ids, range: all });
  await engine.type({ A4: 20 });
  // The column beside the table was filtered too, and still is.
  expect(filtered()).toEqual({ top: 0, left: 0, bottom: 3, right: 3 });
  await engine.api.undo();
  expect(filtered()).toEqual({ top: 0, left: 0, bottom: 2, right: 3 });
});

it("takes in a row typed below, with its formula, and gives it back in one undo", async () => {
  const { engine, told, everything, table } = await opened();
  const first = everything();
  await engine.type({ A4: 20 });
  expect(table().area).toEqual({ top: 0, left: 0, bottom: 3, right: 2 });
  expect(engine.value("F1")).toBe(56);
  await engine.type({ B4: 50 });
  expect(engine.value("C4")).toBe(2.5);
  expect(engine.value("F2")).toBeCloseTo(2 + 38 / 18 + 2.5, 12);
  const then = everything();
  await engine.api.undo();
  await engine.calculated();
  await engine.api.undo();
  await engine.calculated();
  expect(everything()).toEqual(first);
  for (let times = 0; times < 2; times++) {
    await engine.api.redo();
    await engine.calculated();
  }
  expect(everything()).toEqual(then);
  expect(told).toEqual([]);
});

it("takes in a formula that is typed below, as it stands", async () => {
  const { engine, table } = await opened();
  engine.cell("A3").setBackgroundColor("#ffffaa");
  await engine.type({ A4: "=10*2" });
  expect(table().area.bottom).toBe(3);
  await engine.type({ F3: 1 });
  expect(engine.saved().sheets[0]!.cells[3]![0]).toMatchObject({ formula: "10*2", value: 20, style: { fill: "#ffffaa" } });
});

it("takes in all rows that are pasted below, also those pasted across its end", async () => {
  const { engine, sheet, table } = await opened();
  sheet.getRange("A3:B6").setValues([[17, 34], [18, 36], [19, 38], [20, 40]]);
  await engine.calculated();
  expect(table().area.bottom).toBe(5);
  expect([engine.value("F1"), engine.value("F2"), engine.value("C6")]).toEqual([18 + 17 + 18 + 19 + 20, 10, 2]);
});

it("counts its new rows when it is opened again", async () => {
  const { engine } = await opened();
  await engine.type({ A4: 20, A5: 21 });
  const again = await Engine.open(engine.saved(), repaired);
  expect(again.value("F1")).toBe(18 + 18 + 20 + 21);
});

it("leaves what stands below, and says so", async () => {
  const { engine, told, table } = await opened({ B4: "a note" });
  await engine.type({ A4: 20 });
  expect(table().area.bottom).toBe(2);
  expect(engine.value("B4")).toBe("a note");
  expect(told).toEqual(["The table Shots did not take in the row below it, because something else stands there: insert a row into the table, or move that away."]);
});

it("takes in a column under its heading, and one that has none yet", async () => {
  const { engine, table } = await opened({ F4: "=SUM(Shots[time])", F5: "=SUM(Shots[ratio])" });
  await engine.type({ D1: "time" });
  await engine.type({ D2: 25, D3: 27 });
  expect(table().columns).toEqual(["dose", "beverage", "ratio", "time"]);
  expect(engine.value("F4")).toBe(52);
  expect(engine.value("F5")).toBeCloseTo(2 + 38 / 18, 12);
  await engine.type({ E3: 7 });
  expect(table().columns).toEqual(["dose", "beverage", "ratio", "time", "Column5"]);
  expect(engine.value("E1")).toBe("Column5");
});

it("keeps away from what stands beside it, also from results that are spilled there", async () => {
  const { engine, table, told } = await opened({ D1: "=Shots[dose]*2" });
  await engine.type({ D3: 5 });
  expect(table().columns).toEqual(["dose", "beverage", "ratio"]);
  expect(told).toEqual([]);
});

it.each([
  ["emptied", (cell: ReturnType<Engine["cell"]>) => cell.clearContent()],
  ["coloured", (cell: ReturnType<Engine["cell"]>) => cell.setBackgroundColor("#ffffaa")],
])("stays as it is where a cell below is only %s", async (_, change) => {
  const { engine, table } = await opened();
  change(engine.cell("A4"));
  await engine.calculated();
  expect(table().area.bottom).toBe(2);
});

it("keeps the formulas of a column whose heading is typed over, and gives all back in one undo", async () => {
  const { engine, told, everything, table } = await opened({ F3: '=COUNTIF(Shots[[#All],[dose]],"dose")', F4: "=SUM(Shots[[dose]:[beverage]])" });
  const first = everything();
  await engine.type({ A1: "mass in [g]" });
  expect(table().columns).toEqual(["mass in [g]", "beverage", "ratio"]);
  const cells = engine.saved().sheets[0]!.cells;
  expect(cells[0]![5]).toMatchObject({ formula: "SUM(Shots[[mass in '[g']]])", value: 36 });
  expect(cells[3]![5]).toMatchObject({ formula: "SUM(Shots[[mass in '[g']]:[beverage]])", value: 110 });
  await engine.type({ A2: 20 });
  expect(engine.value("F1")).toBe(38);
  const again = await Engine.open(engine.saved(), repaired);
  expect([again.value("F1"), again.value("F4")]).toEqual([38, 112]);
  for (let times = 0; times < 2; times++) {
    await engine.api.undo();
    await engine.calculated();
  }
  expect(everything()).toEqual(first);
  await engine.api.redo();
  await engine.calculated();
  expect(engine.saved().sheets[0]!.cells[0]![5]!.formula).toBe("SUM(Shots[[mass in '[g']]])");
  expect(told).toEqual([]);
});

it("gives a heading that is emptied, or that another column has, a text of its own", async () => {
  const { engine, table } = await opened();
  await engine.type({ A1: "Beverage" });
  expect(table().columns).toEqual(["Beverage2", "beverage", "ratio"]);
  expect([engine.value("A1"), engine.value("F1")]).toEqual(["Beverage2", 36]);
  engine.cell("A1").clearContent();
  await engine.calculated();
  expect(table().columns).toEqual(["Column1", "beverage", "ratio"]);
  expect([engine.value("A1"), engine.value("F1")]).toEqual(["Column1", 36]);
});

it.each<[string, Contents, Contents, RegExp | undefined]>([
  ["a number with a free row between", {}, { A5: 20 }, /^A5 stands apart from the table Shots, which ends in row 3, and is not counted with it\. Put it into row 4/],
  ["a number far below", {}, { A40: 20 }, undefined],
  ["a note below numbers", {}, { A5: "a note" }, undefined],
  ["a number beside a word below numbers", { A5: "Target" }, { B5: 36 }, undefined],
  ["a number below something else that stands under the table", { A5: "Other", A6: 1 }, { A7: 2 }, undefined],
  ["a number right below the cells that a formula reads", { H1: "=AVERAGE(K1:K3)", K1: 1, K2: 2, K3: 3 }, { K4: 4 }, /^The formula in H1 reads K1:K3 and leaves out K4: write the new end into it\./],
  ["the second number below them", { H1: "=AVERAGE($K$1:$K$3)", K1: 1, K2: 2, K3: 3, K4: 4 }, { K5: 5 }, /^The formula in H1 reads \$K\$1:\$K\$3 and leaves out K5/],
  ["a number below sums that are carried down", { K1: 1, K2: 2, K3: 3, L1: "=SUM(K$1:K1)", L2: "=SUM(K$1:K2)", L3: "=SUM(K$1:K3)" }, { K4: 4 }, undefined],
  ["a number below a free cell", { H1: "=AVERAGE(K1:K3)", K1: 1, K2: 2, K3: 3 }, { K5: 5 }, undefined],
  ["a number that the formula reads as a whole column", { H1: "=AVERAGE(K:K)", K1: 1, K2: 2, K3: 3 }, { K4: 4 }, undefined],
])("says of %s whether it is left out", async (_, more, typed, words) => {
  const { engine, told } = await opened(more);
  await engine.type(typed);
  if (words) expect(told).toEqual([expect.stringMatching(words)]);
  else expect(told).toEqual([]);
});
