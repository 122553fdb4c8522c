/** Starting ready sheets in Excel: what arrives through Microsoft's own office.js, in the stand-in for Excel. */
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { describedReadySheet, readySheetIds, type ReadySheetId } from "../../src/ready-sheets/index.ts";
import { areaOf, sheetPrefix } from "../../src/sheet/references.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { ExcelHost, type OpenWorkbook } from "../excel-host/open-excel.ts";

let excel: ExcelHost;
beforeAll(async () => {
  excel = await ExcelHost.launch();
});
afterAll(() => excel.close());

const described = (id: ReadySheetId, options = {}) => describedReadySheet(id, { units: defaultUnits, ...options });

async function says(book: OpenWorkbook, words: string): Promise<void> {
  await book.pane.getByRole("status").filter({ hasText: words }).waitFor();
}

async function showPage(book: OpenWorkbook, name: "Units" | "Ready sheets"): Promise<void> {
  await book.pane.getByRole("tab", { name }).click();
}

async function start(book: OpenWorkbook, id: ReadySheetId, sheet = described(id).name): Promise<void> {
  await showPage(book, "Ready sheets");
  await book.pane.getByRole("button", { name: described(id).name, exact: true }).click();
  await says(book, `The sheet “${sheet}” is ready`);
}

describe.each(readySheetIds)("%s in Excel", (id) => {
  test("arrives as described: cells, tables, names, charts, formats, limits and page", async () => {
    const book = await excel.open();
    await showPage(book, "Ready sheets");
    await book.pane.getByLabel("With example figures").check();
    await start(book, id);
    const wanted = described(id, { figures: "example" });
    const written = (await book.sheet(wanted.name))!;
    expect(await book.activeSheet()).toBe(wanted.name);

    for (const [at, cell] of Object.entries(wanted.cells)) {
      const arrived = written.cells[at];
      if (cell.formula !== undefined) expect(arrived, at).toEqual({ formula: `=${cell.formula}` });
      else expect(arrived?.value, at).toEqual(cell.value);
      if (cell.format) expect(written.settings[at]?.numberFormat, at).toBe(cell.format);
      // An input is told by its border too.
      if (cell.role === "input") expect(written.settings[at]?.["borders.EdgeBottom.style"], at).toBe("Continuous");
      if (cell.allowed) expect(written.settings[at]?.["validation.errorAlert"], at).toMatchObject({ message: cell.allowed.words });
    }
    for (const [at, { formula }] of Object.entries(wanted.spills ?? {})) expect(written.cells[at], at).toEqual({ formula: `=${formula}` });
    expect(written.tables.map(({ name }) => name)).toEqual(wanted.tables.map(({ name }) => name));
    const named = Object.entries(wanted.cells).flatMap(([area, { name }]) => (name ? [{ name, area }] : []));
    expect([...written.names].sort(byName)).toEqual(named.sort(byName));
    expect(written.page).toMatchObject({ printArea: wanted.print!.area, orientation: wanted.print!.landscape ? "Landscape" : "Portrait" });
    expect(written.frozenRows).toBe(wanted.frozenRows ?? 0);
    expect(written.merged).toEqual(wanted.merged ?? []);
    const hidden = wanted.hidden ? areaOf(wanted.hidden)! : undefined;
    expect(written.hiddenColumns).toEqual(hidden ? Array.from({ length: hidden.right - hidden.left + 1 }, (_, index) => hidden.left + index) : []);

    const charts = wanted.charts ?? [];
    expect(written.charts.map(({ settings }) => settings["title.text"])).toEqual(charts.map(({ title }) => title));
    charts.forEach((chart, index) => {
      const { settings, series } = written.charts[index]!;
      expect(settings["x.formula"]).toBe(`=${sheetPrefix(wanted.name)}${chart.xTitle.replace(/^([A-Z]+)(\d+)$/, "$$$1$$$2")}`);
      expect(new Set(series.map((one) => one.settings.name))).toEqual(new Set(chart.series.map(({ name }) => name)));
      expect(series.every((one) => one.values && one.xValues)).toBe(true);
      // Excel's guess at the series is gone.
      expect(series.filter((one) => one.settings.chartType === undefined)).toEqual([]);
    });
    expect(book.faults).toEqual([]);
    await book.close();
  });
});

function byName(a: { name: string }, b: { name: string }): number {
  return a.name.localeCompare(b.name);
}

describe("starting a sheet in Excel", () => {
  test("twice adds a second one and leaves everything else alone", async () => {
    const book = await excel.open();
    await book.type("A1", [["mine", 18]]);
    await book.host("addSheet", "Shot log 2");
    await start(book, "ShotLog");
    await start(book, "ShotLog", "Shot log 3");
    expect(await book.sheets()).toEqual(["Sheet1", "Shot log 2", "Shot log", "Shot log 3"]);
    expect(await book.values("A1:B1")).toEqual([["mine", 18]]);
    expect((await book.sheet("Shot log 3"))!.tables[0]!.name).toBe("ShotLog2");
    expect((await book.sheet("Shot log 3"))!.cells.J8!.formula).toContain("ShotLog2[Dose]");
    await book.close();
  });

  test.each(["TableCollection.add", "ChartCollection.add", "NamedItemCollection.add", "ChartAxisTitle.setFormula", "Worksheet.activate"])("leaves no half sheet where %s fails", async (member) => {
    const book = await excel.open({ failing: { [member]: "GeneralException" } });
    await showPage(book, "Ready sheets");
    await book.pane.getByRole("button", { name: "Dial-in", exact: true }).click();
    await says(book, "The sheet could not be added.");
    expect(await book.sheets()).toEqual(["Sheet1"]);
    expect(await book.names()).toEqual([]);
    await book.host("recover", member);
    await start(book, "DialIn");
    await book.close();
  });

  test("can be undone, names and all", async () => {
    const book = await excel.open();
    await start(book, "Recipe");
    await book.pane.getByRole("button", { name: "Undo" }).click();
    await says(book, "Undone. The sheet “Recipe card” is gone.");
    expect(await book.sheets()).toEqual(["Sheet1"]);
    expect(await book.names()).toEqual([]);
    await book.close();
  });

  test("takes the log that is in sight over into an audit", async () => {
    const book = await excel.open();
    await book.type("B2", [["Dose", "Cup", "Time (s)"], [18, 36.2, 27], ["18,1 g", 36, "0:28"]]);
    await start(book, "Audit");
    await says(book, "with 2 rows of the log that was in sight");
    expect(await book.values("D9:F11", "Log audit")).toEqual([[18, 36.2, 27], ["18,1 g", 36, "0:28"], ["", "", ""]]);
    await book.close();
  });

  test("calculates what needs nothing but our functions", async () => {
    const book = await excel.open();
    await start(book, "ShotLog");
    await book.type("D8", [[18, 36, 27, 10]], "Shot log");
    expect(await book.value("J8", "Shot log")).toBe(2);
    await book.close();
  });
});

describe("a change of units", () => {
  async function shotLogInOunces(): Promise<OpenWorkbook> {
    const book = await excel.open();
    await start(book, "ShotLog");
    await book.type("D8", [[18, 36, 27, 10]], "Shot log");
    await showPage(book, "Units");
    await book.pane.getByRole("group", { name: "Masses" }).getByRole("radio", { name: "oz" }).check();
    // Two typed masses of the shot, and dose and beverage of the target with their give-or-take.
    await says(book, "6 numbers typed into 1 ready sheet were converted");
    return book;
  }

  test("converts the typed numbers of ready sheets, and takes it back with the units", async () => {
    const book = await shotLogInOunces();
    // One ounce is 28.349523125 g.
    expect((await book.values("D8:E8", "Shot log"))[0]).toEqual([18 / 28.349523125, 36 / 28.349523125].map((value) => expect.closeTo(value, 12)));
    expect(await book.value("O8", "Shot log")).toBeCloseTo(18 / 28.349523125, 12);
    expect((await book.sheet("Shot log"))!.settings.D8!.numberFormat).toBe("0.000");
    expect((await book.values("F8:G8", "Shot log"))[0]).toEqual([27, 10]);
    await book.pane.getByRole("button", { name: "Undo" }).click();
    await says(book, "Undone. Masses in this workbook are now read and shown in g.");
    expect((await book.values("D8:E8", "Shot log"))[0]).toEqual([18, 36]);
    expect((await book.values("O8:P8", "Shot log"))[0]).toEqual([18, 36]);
    expect((await book.values("O3:P3", "Shot log"))[0]).toEqual([0.3, 2]);
    await book.close();
  });

  test("converts the numbers of all ready sheets or of none, where a later one is protected", async () => {
    const book = await excel.open();
    await start(book, "ShotLog");
    await book.type("D8", [[18, 36, 27, 10]], "Shot log");
    await start(book, "Recipe");
    await showPage(book, "Units");
    const looks = async (): Promise<unknown> => {
      const sheets = [await book.sheet("Shot log"), await book.sheet("Recipe card")];
      const settings = (sheet: (typeof sheets)[0]) =>
        Object.entries(sheet!.settings).map(([at, { numberFormat, dataValidation }]) => [at, numberFormat, dataValidation]);
      return sheets.map((sheet) => [sheet!.cells, settings(sheet)]);
    };
    const before = await looks();
    await book.host("protect", "Recipe card");
    await book.pane.getByRole("group", { name: "Masses" }).getByRole("radio", { name: "oz" }).click();
    await says(book, "The numbers of the ready sheets could not be converted, and none was changed. The workbook does not allow changes");
    await says(book, "The units are unchanged.");
    await book.settled();
    expect(await looks()).toEqual(before);
    await book.close();
  });

  test("shows results in the new units without touching formulas that a person has changed", async () => {
    const book = await excel.open();
    await start(book, "Recipe");
    await book.type("D13", "=1+1", "Recipe card");
    await showPage(book, "Units");
    await book.pane.getByRole("group", { name: "Percentages" }).getByRole("radio", { name: "percent cells" }).check();
    await says(book, "percent cells");
    const written = (await book.sheet("Recipe card"))!;
    expect(written.settings.E13!.numberFormat).toBe("0.00%");
    expect(written.settings.D13!.numberFormat).toBe("0.00");
    await book.close();
  });
});
