/**
 * Ready sheets as the built script writes them into a spreadsheet that only records: against their descriptions, and calculated by another
 * engine, as there is no Google Sheet here.
 */
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { readDeclarations } from "../../scripts/read-declarations.ts";
import { spelledForGoogle, starterOf } from "../../src/hosts/google/spelling.ts";
import { executorOf } from "../../src/hosts/browser/grid/repairs/added-functions.ts";
import { repairedFunctions, repairEngine, repairLibrary } from "../../src/hosts/browser/grid/repaired-engine.ts";
import { worksheetFunction } from "../../src/hosts/browser/worksheet-functions.ts";
import { describedReadySheet, readySheetIds, withCompanion } from "../../src/ready-sheets/index.ts";
import { isFunctionName, partsOf } from "../../src/sheet/formula-text.ts";
import { address, areaOf, columnIndex, moved, placeOf, sheetPrefix } from "../../src/sheet/references.ts";
import { useSpelling } from "../../src/sheet/spelling.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { useUnits } from "../../src/sheet/workbook-units.ts";
import { emptySheet, putCell, type Workbook } from "../../src/xlsx/workbook.ts";
import { Engine } from "../grid-repairs/engine.ts";
import { RecordedBook } from "./spreadsheet.ts";

const script = readFileSync("dist/google/Sheets.js", "utf8");

beforeAll(() => {
  useSpelling(spelledForGoogle);
  useUnits(defaultUnits);
});
afterAll(() => useSpelling((id) => `ESPRESSO.${id}`));

function started(id: (typeof readySheetIds)[number]): RecordedBook {
  const book = new RecordedBook();
  book.run(script)[starterOf(id)]!();
  return book;
}

/** In Google's list of functions (support.google.com/docs/table/25273). */
const known = new Set(
  `ABS AND ARRAYFORMULA AVERAGE CHOOSE COLUMNS COUNT COUNTA COUNTIF FILTER FIXED HLOOKUP HSTACK IF IFERROR INDEX INT ISBLANK ISERROR ISNUMBER LEFT LEN MATCH
  MAX MEDIAN MIN MOD N NA NOT OR ROUND ROUNDUP ROWS SEQUENCE STDEV SUBSTITUTE SUM SUMPRODUCT TEXTJOIN TRIM UNIQUE VLOOKUP VSTACK`.split(/\s+/),
);

describe.each(readySheetIds)("%s", (id) => {
  it("is written as it is described", () => {
    const book = started(id);
    const descriptions = withCompanion(id).map((one) => describedReadySheet(one, { units: defaultUnits, figures: "example" }));
    expect(book.sheets.map(({ name }) => name)).toEqual(["Sheet1", ...descriptions.map(({ name }) => name)]);
    expect(book.active).toBe(descriptions[0]!.name);
    for (const { name, cells, tables, spills = {}, widths, merged = [], hidden, frozenRows, charts = [] } of descriptions) {
      const sheet = book.sheet(name);
      for (const [at, cell] of Object.entries(cells)) {
        const written = sheet.cells.get(at)!;
        const isFormula = cell.formula !== undefined;
        expect([at, written.value, written.formula !== undefined, written.format]).toEqual([at, isFormula ? undefined : cell.value, isFormula, cell.format]);
        if (cell.name) expect(book.names.get(cell.name)).toBe(at);
        if (cell.allowed) expect(written.validation).toMatchObject({ allowInvalid: [false], words: [cell.allowed.words] });
        if (cell.allowed?.choices) expect(written.validation).toMatchObject({ list: [[...cell.allowed.choices], true] });
      }
      for (const { at, rows, columns } of tables) {
        columns.forEach(({ heading, values, formula, format }, column) => {
          expect(sheet.cells.get(moved(at, 0, column))!.value).toBe(heading);
          for (let row = 0; row < rows; row++) {
            const written = sheet.cells.get(moved(at, row + 1, column));
            if (formula === undefined) expect(written?.value ?? "").toEqual(values?.[row] ?? "");
            else expect(written!.formula).toMatch(/^=/);
            expect(written?.format).toBe(format);
          }
        });
      }
      for (const [at, { formats, rows }] of Object.entries(spills)) {
        expect(sheet.cells.get(at)!.formula, at).toMatch(/^=/);
        formats.forEach((format, column) => format && expect(sheet.cells.get(moved(at, rows - 1, column))!.format).toBe(format));
      }
      widths.forEach((width, index) => expect(sheet.widths.get(index + 1)).toBe(width * 7 + 5));
      expect(sheet.merged).toEqual(merged);
      expect(sheet.frozenRows).toBe(frozenRows);
      const [from, to] = hidden?.split(":").map(columnIndex) ?? [];
      expect(sheet.hidden).toEqual(hidden === undefined ? undefined : [from! + 1, to! - from! + 1]);
      expect(sheet.charts.map(({ title, type }) => [title, type])).toEqual(charts.map(({ title }) => [title, "SCATTER"]));
      for (const { ranges } of sheet.charts) expect((ranges as string[]).length).toBeGreaterThan(1);
    }
  });

  it("has no formula in a form that Google Sheets does not know", () => {
    for (const { cells } of started(id).sheets) {
      for (const { formula } of cells.values()) {
        if (formula === undefined) continue;
        const parts = partsOf(formula.slice(1));
        expect(parts.filter(({ kind }) => kind === "structured"), formula).toEqual([]);
        const called = parts.filter((_, index) => isFunctionName(parts, index)).map(({ text }) => text);
        expect(called.filter((name) => !known.has(name) && !/^ESPRESSO_[A-Z0-9_]+$/.test(name)), formula).toEqual([]);
        expect(formula).not.toMatch(/CHOOSE\(\{/);
      }
    }
  });

  it("comes to the same as in the browser sheet, calculated by its engine", async () => {
    const there = await calculated(started(id), id);
    const descriptions = withCompanion(id).map((one) => describedReadySheet(one, { units: defaultUnits, figures: "example" }));
    const here = await calculatedHere(id);
    let compared = 0;
    descriptions.forEach(({ name, cells, spills = {} }, place) => {
      const filledBy = (at: string, rows: number, columns: number) =>
        Array.from({ length: rows * columns }, (_, cell) => moved(at, Math.floor(cell / columns), cell % columns));
      const spilled = Object.entries(spills).flatMap(([at, { rows, formats }]) => filledBy(at, rows, formats.length));
      for (const at of [...Object.keys(cells), ...spilled]) {
        const [wanted, found] = [here.value(at, place), there.value(at, place + 1)].map((value) => value ?? "");
        if (typeof wanted === "number" && typeof found === "number") expect(found, `${name}!${at}`).toBeCloseTo(wanted, 9);
        else expect(found, `${name}!${at}`).toBe(wanted);
        if (wanted !== "") compared++;
      }
    });
    expect(compared).toBeGreaterThan(10);
  });
});

repairLibrary();
const declarations = await readDeclarations();

function engineFunctions() {
  const functions = declarations.map(({ name, parameters }) =>
    executorOf({ id: name, name, parameters: parameters.map((parameter) => ({ ...parameter, dimensionality: "matrix" as const })) }, worksheetFunction(name)),
  );
  return { functions: [...functions, ...repairedFunctions()], started: repairEngine };
}

/** The recorded workbook in the grid's engine, which needs no ARRAYFORMULA around lists. */
async function calculated(book: RecordedBook, id: (typeof readySheetIds)[number]): Promise<Engine> {
  const workbook: Workbook = { sheets: [], names: [] };
  for (const { name, cells } of book.sheets) {
    const sheet = emptySheet(name);
    for (const [at, { value, formula, format }] of cells) {
      const { row, column } = placeOf(at)!;
      const text = formula?.replace(/^=ARRAYFORMULA\((.*)\)$/s, "=$1").slice(1);
      const held = value === "" ? undefined : (value as string | number | undefined);
      if (text !== undefined || held !== undefined) putCell(sheet, row, column, { value: held, formula: text, ...(format && { style: { format } }) });
    }
    workbook.sheets.push(sheet);
  }
  const sheetOfName = new Map(withCompanion(id).flatMap((one) => {
    const { name, cells } = describedReadySheet(one, { units: defaultUnits, figures: "example" });
    return Object.values(cells).flatMap((cell) => (cell.name ? [[cell.name, name] as const] : []));
  }));
  for (const [name, at] of book.names) {
    const { top, left } = areaOf(at)!;
    workbook.names.push({ name, refersTo: `${sheetPrefix(sheetOfName.get(name)!)}$${address(top, left).replace(/\d/, "$$$&")}` });
  }
  return Engine.open(workbook, engineFunctions());
}

async function calculatedHere(id: (typeof readySheetIds)[number]): Promise<Engine> {
  const { describedSheet, describedNames } = await import("../../src/xlsx/ready-sheet.ts");
  const descriptions = withCompanion(id).map((one) => describedReadySheet(one, { units: defaultUnits, figures: "example" }));
  return Engine.open({ sheets: descriptions.map(describedSheet), names: descriptions.flatMap(describedNames) }, engineFunctions());
}

describe("the menu", () => {
  it("offers every ready sheet, and each entry calls a function of the script", () => {
    const book = new RecordedBook();
    const functions = book.run(script);
    functions.onOpen!();
    const items = book.menus.flatMap((menu) => menu.items);
    expect(items.map(([label]) => label).sort()).toEqual([...readySheetIds.map((id) => describedReadySheet(id, { units: defaultUnits }).name), "Take up formulas of an opened file", "Units", "Help"].sort());
    for (const [, name] of items) expect(functions[name]).toBeTypeOf("function");
    functions.showPucksheetSidebar!();
    functions.showPucksheetHelp!();
    expect([book.sidebar, book.dialogs]).toEqual([true, ["Help"]]);
    expect(book.pages[0]).toMatch(/href="https:\/\/[^"]+\/functions\/index\.html".*ESPRESSO_FUNCTIONS/);
  });

  it("starts a second sheet of a kind beside the first, and leaves nothing of one that fails", () => {
    const book = new RecordedBook();
    const functions = book.run(script);
    functions[starterOf("Recipe")]!();
    functions[starterOf("Recipe")]!();
    expect(book.sheets.map(({ name }) => name)).toEqual(["Sheet1", "Recipe card", "Recipe card 2"]);
    expect(book.names.has("Recipe2_dose")).toBe(true);
    const full = new RecordedBook();
    const starting = full.run(script.replace("setHiddenGridlines", "setHiddenGridlinesNot"));
    expect(() => starting[starterOf("Recipe")]!()).toThrow(/Sheet has no member setHiddenGridlinesNot/);
    expect(full.sheets.map(({ name }) => name)).toEqual(["Sheet1"]);
  });

  it("takes up formulas of a file, whichever way they spell our functions, and no others", () => {
    const book = new RecordedBook();
    const sheet = book.sheet("Sheet1");
    const put = (at: string, formula: string) => sheet.cells.set(at, { formula, look: {} });
    put("A1", "=ESPRESSO.RATIO(B1,C1)*2");
    put("A2", "=_xldudf_ESPRESSO_EXTRACTION_UNCERTAINTY(18,36,9.5)");
    put("A3", "=ESPRESSO_RATIO(18,36)");
    put("A4", '=SUM(B1:B3)&"ESPRESSO.RATIO(1,2)"');
    book.run(script).takeUpPucksheetFormulas!();
    expect(["A1", "A2", "A3", "A4"].map((at) => sheet.cells.get(at)!.formula)).toEqual([
      "=ESPRESSO_RATIO(B1,C1)*2",
      "=ESPRESSO_EXTRACTION_UNCERTAINTY(18,36,9.5)",
      "=ESPRESSO_RATIO(18,36)",
      '=SUM(B1:B3)&"ESPRESSO.RATIO(1,2)"',
    ]);
    expect(book.toasts).toEqual(["2 formulas call functions of Pucksheet by their names here now."]);
  });
});

it("the log in sight comes along into an audit", () => {
  const book = new RecordedBook();
  const log = book.sheet("Sheet1");
  [["Dose", "Cup", "Time (s)"], [18, 36.2, 27], ["18,1 g", 36, "0:28"]].forEach((row, at) => row.forEach((value, column) => log.cells.set(address(2 + at, column), { value, look: {} })));
  const { startSheet } = book.run(script).pucksheetSheets as unknown as { startSheet(id: string, example: boolean): unknown };
  expect(startSheet("Audit", false)).toEqual({ sheet: "Log audit", logRows: 2 });
  const audit = book.sheet("Log audit");
  expect(["D9", "E9", "F9", "D10", "F10", "D11"].map((at) => audit.cells.get(at)?.value)).toEqual([18, 36.2, 27, "18,1 g", "0:28", undefined]);
});
