/** The pane in Excel: it reads and writes the units of the workbook through Microsoft's own office.js, in the stand-in for Excel. */
import axe from "axe-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { ExcelHost, type OpenOptions, type OpenWorkbook } from "../excel-host/open-excel.ts";

const property = "Pucksheet units";
const shot = [[18, 36, 10, "=ESPRESSO.EXTRACTION(A1,B1,C1)"]];

let excel: ExcelHost;
beforeAll(async () => {
  excel = await ExcelHost.launch();
});
afterAll(() => excel.close());

function choice(book: OpenWorkbook, group: string, label: string) {
  return book.pane.getByRole("group", { name: group }).getByRole("radio", { name: label, exact: true });
}

function status(book: OpenWorkbook) {
  return book.pane.getByRole("status");
}

async function says(book: OpenWorkbook, words: string): Promise<void> {
  await status(book).filter({ hasText: words }).waitFor();
}

function undo(book: OpenWorkbook) {
  return book.pane.getByRole("button", { name: "Undo" });
}

describe("units in the pane", () => {
  test("show what the workbook was saved with", async () => {
    const book = await excel.open({ properties: { [property]: "1 mass=oz pressure=kPa hardness=fH" } });
    expect(await choice(book, "Masses", "oz").isChecked()).toBe(true);
    expect(await choice(book, "Pressures", "kPa").isChecked()).toBe(true);
    expect(await choice(book, "Temperatures", "°C").isChecked()).toBe(true);
    expect(await book.pane.getByRole("combobox", { name: "Hardness" }).inputValue()).toBe("fH");
    await book.close();
  });

  test("are kept in the workbook, recalculate it and say so", async () => {
    const book = await excel.open();
    await book.type("A1", shot);
    await book.host("addSheet", "Second");
    await book.type("B2", [["=ESPRESSO.SOLIDS(36,10)", "=1+1", '="ESPRESSO.SOLIDS(36,10)"']], "Second");
    expect(await book.value("B2", "Second")).toBeCloseTo(3.6, 12);
    await choice(book, "Masses", "oz").check();
    await says(book, "Masses in this workbook are now read and shown in oz. 2 formulas recalculated. Numbers already typed are re-read, not converted.");
    await book.settled();
    expect(await book.properties()).toEqual({ [property]: "1 mass=oz" });
    // The same number of ounces: solids are 10 % of 36 oz, still 3.6 in the workbook's unit.
    expect(await book.value("B2", "Second")).toBeCloseTo(3.6, 12);
    await choice(book, "Percentages", "percent cells: 9.5 % is 0.095 in the cell").check();
    await says(book, "Percentages in this workbook are now read and shown as percent cells");
    await book.settled();
    expect(await book.value("D1")).toBe("#VALUE!");
    await book.type("C1", 0.1);
    expect(await book.value("D1")).toBeCloseTo(0.2, 12);
    await book.close();
  });

  test("can be undone step by step, with the focus left where it is", async () => {
    const book = await excel.open();
    await book.type("A1", shot);
    expect(await undo(book).getAttribute("aria-disabled")).toBe("true");
    await choice(book, "Masses", "oz").check();
    await says(book, "in oz");
    await book.pane.getByRole("combobox", { name: "Alkalinity" }).selectOption({ label: "°dH" });
    await says(book, "Alkalinity in this workbook is now read and shown in °dH.");
    await undo(book).focus();
    await book.page.keyboard.press("Enter");
    await says(book, "Undone. Alkalinity in this workbook is now read and shown in mg/L CaCO3.");
    await book.page.keyboard.press("Enter");
    await says(book, "Undone. Masses in this workbook are now read and shown in g. 1 formula recalculated.");
    expect(await book.properties()).toEqual({ [property]: "1" });
    expect(await choice(book, "Masses", "g").isChecked()).toBe(true);
    expect(await undo(book).getAttribute("aria-disabled")).toBe("true");
    expect(await undo(book).evaluate((button) => button === document.activeElement)).toBe(true);
    await book.close();
  });

  test("can be chosen with the keyboard alone", async () => {
    const book = await excel.open();
    await book.pane.locator("body").press("Tab");
    const focused = () => book.pane.evaluate(() => (document.activeElement as HTMLInputElement).name);
    for (let steps = 0; (await focused()) !== "pressure"; steps++) {
      expect(steps).toBeLessThan(20); // a stop for each ready sheet and each quantity before it
      await book.page.keyboard.press("Tab");
    }
    await book.page.keyboard.press("ArrowRight");
    await says(book, "Pressures in this workbook are now read and shown in psi. No formula in this workbook uses ESPRESSO functions yet.");
    await book.close();
  });

  test.each([
    ["1 mass=stone", "cannot be read"],
    ["rubbish", "cannot be read"],
    ["7 colour=brown", "newer version"],
    [42 as unknown as string, "newer version"],
  ])("survive settings that say %j", async (text, words) => {
    const book = await excel.open({ properties: { [property]: text } });
    await says(book, words);
    expect(await choice(book, "Masses", "g").isChecked()).toBe(true);
    await book.type("A1", shot);
    expect(await book.value("D1")).toBeCloseTo(20, 12);
    await choice(book, "Masses", "oz").check();
    await says(book, "in oz");
    expect(await book.properties()).toEqual({ [property]: "1 mass=oz" });
    await book.close();
  });

  test("stay as they are where the workbook cannot keep them", async () => {
    const book = await excel.open({ failing: { "CustomPropertyCollection.add": "AccessDenied" } });
    await book.type("A1", shot);
    await choice(book, "Percentages", "percent cells: 9.5 % is 0.095 in the cell").click();
    await says(book, "could not be kept in this workbook. The workbook does not allow changes");
    await says(book, "The units are unchanged.");
    await book.settled();
    expect(await choice(book, "Percentages", "numbers: 9.5 means 9.5 %").isChecked()).toBe(true);
    expect(await book.value("D1")).toBeCloseTo(20, 12);
    expect(await book.properties()).toEqual({});
    await book.close();
  });

  test("go back where the workbook cannot be recalculated", async () => {
    const book = await excel.open({ failing: { "Application.calculate": "GeneralException" } });
    await book.type("A1", shot);
    await choice(book, "Percentages", "percent cells: 9.5 % is 0.095 in the cell").click();
    await says(book, "could not be recalculated");
    await says(book, "The units are unchanged.");
    expect(await book.properties()).toEqual({ [property]: "1" });
    expect(await choice(book, "Percentages", "numbers: 9.5 means 9.5 %").isChecked()).toBe(true);
    await book.host("recover", "Application.calculate");
    await book.type("A1", 9);
    expect(await book.value("D1")).toBeCloseTo(40, 12);
    await book.close();
  });

  test("wait while a cell is being edited", async () => {
    const book = await excel.open();
    await book.host("edit", true);
    await choice(book, "Masses", "oz").check();
    await says(book, "If a cell is being edited, finish it first.");
    expect(await book.properties()).toEqual({});
    await book.host("edit", false);
    await says(book, "in oz");
    expect(await book.properties()).toEqual({ [property]: "1 mass=oz" });
    await book.close();
  });

  test("take several quick choices together", async () => {
    const book = await excel.open();
    await book.host("edit", true);
    await choice(book, "Masses", "oz").check();
    await choice(book, "Temperatures", "°F").check();
    await choice(book, "Pressures", "psi").check();
    await book.host("edit", false);
    await says(book, "Pressures in this workbook are now read and shown in psi.");
    expect(await book.properties()).toEqual({ [property]: "1 mass=oz temperature=F pressure=psi" });
    await book.close();
  });
});

describe("others who have the workbook open", () => {
  const counter = "Pucksheet units";
  const ownCounter = async (book: OpenWorkbook) => (await book.sheet(counter))?.cells.A1?.value;

  test("hear of a change of units by a counter on a sheet that nobody sees", async () => {
    const book = await excel.open();
    await choice(book, "Masses", "oz").check();
    await says(book, "in oz");
    expect(await ownCounter(book)).toBe(1);
    expect(await book.activeSheet()).not.toBe(counter);
    await undo(book).click();
    await says(book, "in g");
    expect(await ownCounter(book)).toBe(2);
    expect(await book.hidden(counter)).toBe("VeryHidden");
    await book.close();
  });

  test("are heard: their units are read again and every cell with them, and nothing is converted", async () => {
    const book = await excel.open();
    await book.type("A1", shot);
    expect(await book.value("D1")).toBeCloseTo(20, 12);
    // Cells elsewhere, and our own counting, are no word of theirs.
    await book.host("colleague", "Sheet1", "F1", 1, [property, "1 percent=cell"]);
    await book.host("colleague", counter, "A2", 1);
    await book.settled();
    expect(await book.value("D1")).toBeCloseTo(20, 12);
    await book.host("colleague", counter, "A1", 7);
    await says(book, "Somebody else who has this workbook open changed its units. Percentages in this workbook are now read and shown as percent cells, where 9.5 % is 0.095.");
    await book.settled();
    expect(await choice(book, "Percentages", "percent cells: 9.5 % is 0.095 in the cell").isChecked()).toBe(true);
    expect(await book.values("A1:D1")).toEqual([[18, 36, 10, "#VALUE!"]]);
    expect(await ownCounter(book)).toBe(7);
    expect(await book.properties()).toEqual({ [property]: "1 percent=cell" });
    expect(book.faults).toEqual([]);
    await book.close();
  });

  test("are heard where the property arrives after the counter", async () => {
    const book = await excel.open();
    await book.page.clock.install();
    await book.host("colleague", counter, "A1", 1);
    await book.page.clock.runFor(1_000);
    await book.host("colleague", "Sheet1", "F1", 1, [property, "1 mass=oz"]);
    await book.page.clock.runFor(2_000);
    await says(book, "Somebody else who has this workbook open changed its units. Masses in this workbook are now read and shown in oz.");
    await book.close();
  });

  test("go without where the workbook takes no further sheet, and the units are kept all the same", async () => {
    const book = await excel.open({ failing: { "WorksheetCollection.add": "AccessDenied" } });
    await choice(book, "Masses", "oz").check();
    await says(book, "Masses in this workbook are now read and shown in oz.");
    expect(await book.properties()).toEqual({ [property]: "1 mass=oz" });
    await book.close();
  });
});

describe("formulas that Excel has not taken up from a file", () => {
  const spelledInFile = [
    ["=_xldudf_ESPRESSO_SOLIDS(36,10)", "=1+_xldudf_ESPRESSO_EXTRACTION_FROMPUCK(18,14)", "=NOTHING(1)", '="_xldudf_ESPRESSO_SOLIDS(1,2)"'],
    ["=ESPRESSO_RATIO(18,36)", "=ESPRESSO.RATIO(18,36)", 7, "=SUM(C2)"],
  ];
  const formulasOf = async (book: OpenWorkbook, sheet: string) => (await book.sheet(sheet))!.cells;

  /** A workbook whose file spells our functions as a file does, and the pane opened once more beside it. */
  async function opened(): Promise<OpenWorkbook> {
    const book = await excel.open();
    await book.type("A1", spelledInFile);
    await book.host("addSheet", "Second");
    await book.type("C3", [["=_xldudf_ESPRESSO_SOLIDS(36,9)"], ["=_xldudf_ESPRESSO_SOLIDS(36,8)"]], "Second");
    expect(await book.value("A1")).toBe("#NAME?");
    await book.pane.evaluate(() => location.reload());
    await book.pane.waitForSelector("fieldset:not([disabled])");
    return book;
  }

  const offer = (book: OpenWorkbook) => book.pane.getByRole("button", { name: "Enter 5 formulas anew" });

  test("are entered anew, others left alone, and put back as they were", async () => {
    const book = await opened();
    await says(book, "5 formulas of Pucksheet show #NAME?: Excel has not taken them up from the file.");
    const [first, second] = [await formulasOf(book, "Sheet1"), await formulasOf(book, "Second")];
    await offer(book).click();
    await says(book, "5 formulas on 2 sheets entered anew. Where #NAME? stays, this edition lacks the function.");
    await book.settled();
    // 36 g of 10, 9 and 8 %; 18 g of which 14 g stay in the puck, dry: 4 of 18 dissolved.
    expect(await book.value("A1")).toBeCloseTo(3.6, 12);
    expect(await book.value("B1")).toBeCloseTo(1 + 400 / 18, 9);
    expect(await book.value("C1")).toBe("#NAME?");
    expect(await book.value("A2")).toBe(2);
    expect(await book.values("C3:C4", "Second")).toEqual([[3.24], [2.88]]);
    const now = await formulasOf(book, "Sheet1");
    expect(now["B1"]!.formula).toBe("=1+ESPRESSO.EXTRACTION.FROMPUCK(18,14)");
    for (const untouched of ["C1", "D1", "B2", "C2", "D2"]) expect(now[untouched]!.formula).toBe(first[untouched]!.formula);
    await book.type("C4", 5, "Second");
    await undo(book).click();
    await says(book, "Undone. 4 formulas put back as before. 1 other was changed since and stays.");
    await book.settled();
    expect(await formulasOf(book, "Sheet1")).toEqual(first);
    expect(await formulasOf(book, "Second")).toEqual({ ...second, C4: { value: 5 } });
    await book.close();
  });

  test("stay as they are, all of them, where one sheet is protected", async () => {
    const book = await opened();
    const before = await formulasOf(book, "Sheet1");
    await book.host("protect", "Second");
    await offer(book).click();
    await says(book, "The formulas could not be entered anew, and none was changed. The workbook does not allow changes");
    await book.settled();
    expect(await formulasOf(book, "Sheet1")).toEqual(before);
    expect(await undo(book).getAttribute("aria-disabled")).toBe("true");
    await book.close();
  });

  test("are not mentioned where there are none", async () => {
    const book = await excel.open();
    await book.type("A1", shot);
    await book.pane.evaluate(() => location.reload());
    await book.pane.waitForSelector("fieldset:not([disabled])");
    await says(book, "Nothing changed so far.");
    expect(await book.used()).toContain("Worksheet.getUsedRangeOrNullObject");
    expect(await book.pane.getByRole("button", { name: /anew/ }).count()).toBe(0);
    await book.close();
  });
});

describe("recent problems in the pane", () => {
  test("list function, message and count, the latest first", async () => {
    const book = await excel.open();
    await book.pane.getByText("No function has refused anything").waitFor();
    await book.type("A1", [
      [18, 36, "strong"],
      [18, 36, "strong"],
    ]);
    await book.type("D1", [["=ESPRESSO.EXTRACTION(A1,B1,C1)"], ["=ESPRESSO.EXTRACTION(A2,B2,C2)"]]);
    await book.type("E1", '=ESPRESSO.RATIO("none",36)');
    const rows = book.pane.getByRole("row");
    await rows.nth(2).waitFor();
    expect(await rows.nth(0).allInnerTexts()).toEqual([expect.stringMatching(/Function\s+Message\s+Count/)]);
    expect(await rows.nth(1).innerText()).toMatch(/RATIO\s.*none.*\s1$/s);
    expect(await rows.nth(2).innerText()).toMatch(/EXTRACTION\s.*strong.*\s2$/s);
    await book.close();
  });
});

describe("the pane page", () => {
  test("names the version and leads to help that the build wrote", async () => {
    const book = await excel.open();
    await book.pane.getByText(/^Pucksheet \d+\.\d+\.\d+ ·/).waitFor();
    const help = await book.pane.getByRole("link", { name: /^Help/ }).evaluate((link: HTMLAnchorElement) => link.href);
    expect(await book.pane.evaluate(async (address) => (await fetch(address)).status, help)).toBe(200);
    await book.close();
  });

  test("says what is wrong where Microsoft's library cannot be loaded", async () => {
    const book = await excel.open({ withoutOffice: true, early: true });
    await book.pane.getByRole("alert").filter({ hasText: "needs the network to start" }).waitFor();
    await book.close();
  });

  test("says where it belongs when it is opened outside Excel", async () => {
    const book = await excel.open();
    const address = book.pane.url().replace(/[?#].*$/, "");
    // Another tab: office.js remembers in this one that it has seen a host.
    const tab = await book.page.context().newPage();
    await tab.goto(address);
    await tab.getByRole("alert").filter({ hasText: "works inside Excel" }).waitFor();
    await book.close();
  });

  test("has a language, a heading, a main part, and a name and a hint for every control", async () => {
    const book = await excel.open();
    expect(await book.pane.evaluate(() => document.documentElement.lang)).toBe("en");
    expect(await book.pane.getByRole("main").getByRole("heading", { level: 1 }).innerText()).toBe("Pucksheet");
    const unhinted = await book.pane.evaluate(() =>
      [...document.querySelectorAll("input, select")]
        .filter((control) => {
          const described = control.closest("[aria-describedby]")?.getAttribute("aria-describedby");
          return !described || !document.getElementById(described)?.textContent;
        })
        .map((control) => control.outerHTML),
    );
    expect(unhinted).toEqual([]);
    await book.close();
  });

  // 160 px is the narrowest pane at 200 % zoom.
  test.each([320, 160])("needs no sideways scroll at %i px", async (width) => {
    const book = await withProblems({ width });
    expect(await book.pane.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth)).toBe(true);
    await book.close();
  });

  const looks: [string, OpenOptions][] = [
    ["light", { width: 320 }],
    ["dark", { width: 320, context: { colorScheme: "dark" } }],
    ["forced colours", { width: 320, context: { forcedColors: "active" } }],
  ];
  test.each(looks)("has nothing for axe to find: %s", async (_look, options) => {
    const book = await withProblems(options);
    // Playwright's own way in, because the page's scripts come from files only.
    await book.pane.evaluate(axe.source);
    const found = await book.pane.evaluate(async () => {
      const { violations } = await (window as unknown as { axe: typeof axe }).axe.run();
      return violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html)]);
    });
    expect(found).toEqual([]);
    await book.close();
  });
});

/** A pane that shows everything it can show: a change and problems with long names and words. */
async function withProblems(options: OpenOptions): Promise<OpenWorkbook> {
  const book = await excel.open(options);
  await book.type("A1", [['=ESPRESSO.EXTRACTION("a very long entry without much sense",36,10)', '=ESPRESSO.RATIO("none",36)']]);
  await choice(book, "Percentages", "percent cells: 9.5 % is 0.095 in the cell").check();
  await says(book, "2 formulas recalculated");
  await book.pane.getByRole("row").nth(2).waitFor();
  return book;
}
