/** The ready sheets in the real page, with the grid's own engine: as this page writes them, and as Excel was given them. */
import { readFileSync } from "node:fs";
import { Workbook as ExcelFile, type Worksheet } from "@cj-tech-master/excelts";
import { unzip } from "@cj-tech-master/excelts/archive";
import { installChartSupport } from "@cj-tech-master/excelts/chart";
import Papa from "papaparse";
import { describe, expect, it } from "vitest";
import { fullName, type FunctionMetadata } from "../../src/hosts/browser/function-metadata.ts";
import { withReadySheet } from "../../src/xlsx/ready-sheets.ts";
import { emptySheet, putCell, type Workbook } from "../../src/xlsx/workbook.ts";
import { writeXlsx } from "../../src/xlsx/xlsx.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { address, moved, placeOf } from "../../src/sheet/references.ts";
import { shotLog } from "../../src/ready-sheets/shot-log.ts";
import { allReadySheetIds, describedReadySheet, readySheetIds, type ReadySheetId } from "../../src/ready-sheets/index.ts";
import { ExcelHost } from "../excel-host/open-excel.ts";
import { call } from "../worksheet.ts";
import { openSheet, useBrowser, type SheetPage } from "./open-sheet.ts";

useBrowser();
installChartSupport();

const example = (id: ReadySheetId) => describedReadySheet(id, { units: defaultUnits, figures: "example" });

function functionNames(): ReadonlySet<string> {
  const { functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as { functions: FunctionMetadata[] };
  return new Set(functions.map(fullName));
}

async function start(sheet: SheetPage, id: ReadySheetId, figures: "none" | "example" = "none"): Promise<void> {
  await sheet.start(example(id).name, figures);
}

async function startAll(): Promise<SheetPage> {
  const sheet = await openSheet();
  await sheet.page.getByRole("button", { name: "New", exact: true }).click();
  await sheet.opened("New sheet");
  for (const id of readySheetIds) await start(sheet, id, "example");
  return sheet;
}

/** The workbook that the Office.js path writes, read back from the stand-in for Excel. */
async function asExcelWasGiven(): Promise<Workbook> {
  const excel = await ExcelHost.launch();
  try {
    const book = await excel.open();
    await book.pane.getByRole("tab", { name: "Ready sheets" }).click();
    await book.pane.getByLabel("With example figures").check();
    for (const id of readySheetIds) {
      await book.pane.getByRole("button", { name: example(id).name, exact: true }).click();
      await book.pane.getByRole("status").filter({ hasText: `The sheet “${example(id).name}” is ready` }).waitFor();
    }
    const workbook: Workbook = { sheets: [], names: [] };
    for (const id of allReadySheetIds) {
      const { name } = example(id);
      const written = (await book.sheet(name))!;
      const sheet = emptySheet(name);
      for (const [at, { value, formula }] of Object.entries(written.cells)) {
        const { row, column } = placeOf(at)!;
        putCell(sheet, row, column, { value, formula: formula?.slice(1) });
      }
      for (const table of written.tables) {
        const [from, to] = table.area.split(":").map((at) => placeOf(at)!);
        const columns = Array.from({ length: to!.column - from!.column + 1 }, (_, index) => String(sheet.cells[from!.row]![from!.column + index]!.value));
        sheet.tables.push({ name: table.name, area: { top: from!.row, left: from!.column, bottom: to!.row, right: to!.column }, columns });
      }
      workbook.sheets.push(sheet);
      for (const { name: own, area } of written.names) workbook.names.push({ name: own, refersTo: `'${name}'!${area.replace(/^([A-Z]+)(\d+)$/, "$$$1$$$2")}` });
    }
    return workbook;
  } finally {
    await excel.close();
  }
}

async function savedSheets(sheet: SheetPage): Promise<Map<string, Worksheet>> {
  const { bytes } = await sheet.saved("Save copy (.xlsx)");
  const file = new ExcelFile();
  await file.xlsx.load(new Uint8Array(bytes));
  return new Map(file.worksheets.map((worksheet) => [worksheet.name, worksheet]));
}

/** Every value that a sheet shows by its address: what was typed, what a formula gives, and what it fills. */
async function shownValues(sheet: SheetPage, name: string): Promise<Record<string, string>> {
  await sheet.page.getByRole("tab", { name, exact: true }).click();
  const { bytes } = await sheet.saved("Save as .csv");
  const rows = Papa.parse<string[]>(bytes.toString("utf8"), { delimiter: "," }).data;
  return Object.fromEntries(rows.flatMap((row, index) => row.flatMap((text, column) => (text === "" ? [] : [[address(index, column), text]]))));
}

/** Where a person types and what tells them: the cells for typing, the first row of every table, and the decision. */
function typedFirst(id: ReadySheetId): string[] {
  const { cells, tables } = example(id);
  const alone = Object.entries(cells).filter(([, { role }]) => role === "input" || role === "decision" || role === "large").map(([at]) => at);
  return [...alone, ...tables.flatMap(({ at, columns }) => columns.flatMap(({ role }, index) => (role === "input" ? [moved(at, 1, index)] : [])))];
}

/** The last row and the last column of the open sheet that are wholly in sight, by clicks at the edges of the grid. */
async function lastInSight({ page }: SheetPage): Promise<{ row: number; column: number }> {
  const box = (await page.locator("#grid canvas").last().boundingBox())!;
  const name = page.getByLabel("Address of the cell");
  const at = async (x: number, y: number) => {
    await page.mouse.click(x, y);
    return placeOf((await name.inputValue()).split(":")[0]!)!;
  };
  // A cell at the edge may be cut: the one before it is not.
  const { column } = await at(box.x + box.width - 24, box.y + 40);
  const { row } = await at(box.x + 60, box.y + box.height - 24);
  return { row: row - 1, column: column - 1 };
}

/** Taps a cell as a finger finds it: nearer and nearer, by the address that the page shows. */
async function tapCell({ page }: SheetPage, wanted: string): Promise<void> {
  const box = (await page.locator("#grid canvas").last().boundingBox())!;
  const goal = placeOf(wanted)!;
  let [x, y] = [box.x + 80, box.y + 40];
  for (let tries = 0; tries < 40; tries++) {
    await page.touchscreen.tap(x, y);
    await page.waitForTimeout(100);
    const at = placeOf(/^[A-Z]+\d+/.exec((await page.locator("#cell-line").textContent())!)?.[0] ?? "A1")!;
    if (at.row === goal.row && at.column === goal.column) return;
    x += 40 * Math.sign(goal.column - at.column);
    y += (Math.abs(goal.row - at.row) > 3 ? 40 : 16) * Math.sign(goal.row - at.row);
  }
  throw new Error(`No tap found ${wanted}.`);
}

describe("the ready sheets", () => {
  it("are saved with native charts, limits of their inputs and the page set-up, and open again without a loss", async () => {
    const sheet = await openSheet();
    const { page } = sheet;
    await page.getByRole("button", { name: "New", exact: true }).click();
    await sheet.opened("New sheet");
    await start(sheet, "DialIn", "example");
    await start(sheet, "Trial", "example");
    const { name, bytes } = await sheet.saved("Save copy (.xlsx)");
    const saved = new ExcelFile();
    await saved.xlsx.load(new Uint8Array(bytes));
    // A blank input cell keeps its border.
    expect(saved.getWorksheet("Dial-in")!.getCell("A24").border?.top?.style).toBe("thin");
    const file = unzip(new Uint8Array(bytes));
    const part = async (path: string) => new TextDecoder().decode((await file.bytes(path)) ?? new Uint8Array());
    const chart = await part("xl/charts/chart1.xml");
    expect(chart).toContain("<c:scatterChart>");
    expect(chart).toMatch(/(?:'|&apos;)Dial-in(?:'|&apos;)!\$R\$8:\$R\$127/);
    expect(chart).toContain("Shot time, s");
    // Every series draws numbers, and the charts of the trial are there too.
    expect(chart.match(/<c:yVal>/g)).toHaveLength(5);
    expect(await part("xl/charts/chart4.xml")).toContain("Taste against extraction");
    const worksheet = await part("xl/worksheets/sheet2.xml");
    expect(worksheet).toMatch(/<dataValidation [^>]*sqref="B8:B27"/);
    expect(worksheet).toMatch(/<pageSetup [^>]*orientation="landscape"/);
    expect(await part("xl/workbook.xml")).toMatch(/_xlnm\.Print_Area[^>]*>(?:'|&apos;)Dial-in(?:'|&apos;)!\$A\$1:\$J\$38/);
    await sheet.openFile(name, new Uint8Array(bytes));
    await sheet.opened(name);
    expect(await page.locator("#notice").isHidden()).toBe(true);
    await page.getByRole("tab", { name: "Dial-in", exact: true }).waitFor();
    expect(sheet.faults).toEqual([]);
  });

  it("come to the same in every cell, written by this page and as Excel was given them", async () => {
    const bytes = await writeXlsx(await asExcelWasGiven(), functionNames());
    const here = await startAll();
    const there = await openSheet();
    await there.openFile("excel.xlsx", bytes);
    await there.opened("excel.xlsx");
    let compared = 0;
    // A small laptop, with everything closed.
    await here.page.setViewportSize({ width: 1366, height: 768 });
    await here.page.locator("#notice").getByRole("button", { name: "Close" }).click();
    const charts = here.page.getByRole("button", { name: "Charts" });
    for (const id of allReadySheetIds) {
      const { name, spills = {}, cells } = example(id);
      const values = await shownValues(here, name);
      if ((await charts.isVisible()) && (await charts.getAttribute("aria-expanded")) === "true") await charts.click();
      const { row, column } = await lastInSight(here);
      const beyond = typedFirst(id).filter((at) => placeOf(at)!.row > row || placeOf(at)!.column > column);
      expect(beyond, `typed into ${name} without scrolling, as far as row ${row + 1} and column ${column + 1}`).toEqual([]);
      expect(await shownValues(there, name), name).toEqual(values);
      // Every formula has come to something, except those that say nothing on purpose.
      const results = [...Object.keys(spills), ...Object.keys(cells).filter((at) => cells[at]!.formula !== undefined)];
      compared += results.filter((at) => values[at] !== undefined).length;
      const errors = results.filter((at) => /^#(NAME|REF|SPILL|CALC|NUM|DIV)/.test(values[at] ?? ""));
      expect(errors, name).toEqual([]);
    }
    expect(compared).toBeGreaterThan(150);
    expect([...here.faults, ...there.faults]).toEqual([]);
  });

  it("hold ten thousand shots, looks and chart included, also through a file", async () => {
    const rows = 10_000;
    const long = Object.entries(shotLog.example.columns![""]!).map(([heading, values]) => [heading, Array.from({ length: rows }, (_, row) => values[row % values.length]!)]);
    const figures = { columns: { "": Object.fromEntries(long) as Record<string, number[]> } };
    const { workbook } = withReadySheet({ sheets: [], names: [] }, "ShotLog", { units: defaultUnits, figures });
    const sheet = await openSheet();
    await sheet.openFile("long.xlsx", await writeXlsx(workbook, functionNames()));
    await sheet.opened("long.xlsx");
    const [dose, beverage] = ["Dose", "Beverage"].map((heading) => (long.find(([name]) => name === heading)![1] as number[]).at(-1)!);
    const ratio = call("RATIO", dose, beverage) as number;
    await sheet.tells(`J${rows + 7}`, new RegExp(` ${String(ratio).slice(0, 8)}`));
    await sheet.page.getByText(/of the last 30 on target/).first().waitFor();
    const again = await savedSheets(sheet);
    expect(again.get("Shot log")!.getCell(`J${rows + 7}`).numFmt).toBe("0.00");
    expect(sheet.faults).toEqual([]);
  });

  it("give the morning's next setting by touch alone, on a tablet", async () => {
    const sheet = await openSheet({ viewport: { width: 1024, height: 768 }, hasTouch: true, isMobile: true });
    const { page } = sheet;
    await page.getByRole("button", { name: "Ready sheets" }).tap();
    await page.getByLabel("With example figures").tap();
    await page.getByRole("group", { name: "Ready sheets" }).getByRole("button", { name: "Morning", exact: true }).tap();
    await page.getByRole("status").filter({ hasText: "The sheet “Morning” is ready" }).waitFor();
    await page.locator("#notice").getByRole("button", { name: "Close" }).tap();
    await tapCell(sheet, "A9");
    await page.keyboard.type("2.45");
    await tapCell(sheet, "B9");
    await page.keyboard.type("28.5");
    // The finger goes on to another cell, as there is no Enter to press.
    await tapCell(sheet, "A10");
    const { tables } = example("Morning");
    const earlier = ["Setting", "Time", "Day"].map((heading) => tables[1]!.columns.find((column) => column.heading === heading)!.values);
    const [, words] = call("GRIND.ADVICE", [2.3, 2.45], [31, 28.5], 27, 2, ...earlier) as [number, string];
    expect(words).toMatch(/^On target/);
    await tapCell(sheet, "A3");
    await expect.poll(() => page.locator("#cell-line").textContent()).toContain(words);
    expect(sheet.faults).toEqual([]);
  });

  it("follow an edit, and so do their charts", async () => {
    const sheet = await openSheet();
    const { page } = sheet;
    await start(sheet, "DialIn", "example");
    const chart = page.getByRole("region", { name: "Charts of the sheet" }).getByRole("img", { name: "Shot time over grind setting" });
    await chart.waitFor();
    const target = chart.locator("g.chart-target path");
    const place = async () => (await target.getAttribute("transform"))!;
    const before = await place();
    const { columns } = example("DialIn").tables[0]!;
    const [settings, times] = ["Setting", "Time"].map((heading) => columns.find((column) => column.heading === heading)!.values as number[]);
    await sheet.goTo("G6");
    await sheet.enter("23");
    const [setting] = call("GRIND.FORTIME", settings, times, 23) as number[];
    await sheet.tells("G11", new RegExp(` ${String(setting).slice(0, 8)}`));
    await page.waitForFunction(([path, old]) => document.querySelector(path)?.getAttribute("transform") !== old, ["g.chart-target path", before] as const);
    await sheet.tells("A2", new RegExp(`Set ${setting!.toFixed(2)} \\(`));
    expect(sheet.faults).toEqual([]);
  });

  it("are added beside what is there, a second time too, and taken away again by the Undo of the page, with what was typed before", async () => {
    const sheet = await openSheet();
    const { page } = sheet;
    const pane = await sheet.pane();
    const tabs = async () => [...(await savedSheets(sheet)).keys()];
    await sheet.goTo("D8");
    await sheet.enter("17.5");
    await start(sheet, "ShotLog");
    await expect.poll(sheet.notice).toContain("“Shot log 2” is ready");
    await start(sheet, "Water");
    expect(await tabs()).toEqual(["Shot log", "Setting trial", "Shot log 2", "Water"]);
    expect(await pane.getByRole("button", { name: "Undo" }).isVisible()).toBe(false);
    await sheet.press("Undo");
    await sheet.press("Undo");
    await expect.poll(tabs).toEqual(["Shot log", "Setting trial"]);
    await page.getByRole("tab", { name: "Shot log", exact: true }).click();
    await sheet.tells("D8", / 17\.5$/);
    await sheet.press("Undo");
    await sheet.tells("D8", / 18$/);
    for (let times = 0; times < 3; times++) await sheet.press("Redo");
    await expect.poll(tabs).toEqual(["Shot log", "Setting trial", "Shot log 2", "Water"]);
    expect(sheet.faults).toEqual([]);
  });

  it("take up other units, results and typed numbers at once, and go back in one step", async () => {
    const sheet = await openSheet();
    const { page } = sheet;
    const pane = await sheet.pane();
    await page.getByRole("button", { name: "New", exact: true }).click();
    await sheet.opened("New sheet");
    await start(sheet, "Recipe");
    await pane.getByRole("group", { name: "Masses" }).getByLabel("oz").check();
    // Dose and beverage with their give-or-take.
    await pane.getByRole("status").filter({ hasText: "4 numbers typed into 1 ready sheet were converted" }).waitFor();
    await sheet.tells("F7", / oz/);
    // One ounce is 28.349523125 g.
    await sheet.tells("B7", / 0\.634931/);
    await sheet.press("Undo");
    await sheet.tells("B7", / 18$/);
    await sheet.tells("F7", / g/);
    expect(await pane.getByRole("group", { name: "Masses" }).getByLabel("oz").isChecked()).toBe(false);
    expect(sheet.faults).toEqual([]);
  });
});
