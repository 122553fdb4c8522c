/** The toolbar: sorting, filtering, finding, formats of numbers and ready sheets, worked by mouse and keyboard. */
import { unzip } from "@cj-tech-master/excelts/archive";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { choose } from "../../scripts/toolbar-button.ts";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();

/** Which of the parts that are loaded late are there. */
const loaded = (page: Page) =>
  page.evaluate(() => performance.getEntriesByType("resource").flatMap(({ name }) => /\/sheet-(sort|filter|find)\.js$/.exec(name)?.[1] ?? []));

async function log() {
  const sheet = await openSheet();
  const rows = ["shot,dose,,ratio", "b,18,z,=B2/2", "A10,17.5,x,=B3/2", "A9,,y,=B4/2", "c,20,w,=B5/2"];
  await sheet.openFile("log.csv", rows.join("\n"));
  await sheet.opened("log.csv");
  return sheet;
}

describe("sorting", () => {
  it("goes by the column of the cell, keeps blanks last and headings first, and is one step of Undo", async () => {
    const sheet = await log();
    const { page, goTo, tells } = sheet;
    expect(await loaded(page)).toEqual([]);
    await goTo("B3");
    await choose(page, "Largest or Z first");
    await tells("B2", / 20$/);
    await tells("A2", / c$/);
    await tells("A5", / A9$/);
    await tells("B1", / dose$/);
    expect(await loaded(page)).toEqual(["sort"]);
    await sheet.press("Undo");
    await tells("A2", / b$/);
    await goTo("A2");
    await choose(page, "Smallest or A first");
    // A number within a text counts as one: A9 before A10.
    await tells("A2", / A9$/);
    await tells("A3", / A10$/);
    expect(sheet.faults).toEqual([]);
  });

  it("takes formulas along with their rows", async () => {
    const sheet = await openSheet();
    await sheet.page.getByRole("button", { name: "New" }).click();
    await sheet.opened("New sheet");
    for (const [at, text] of [["A1", "dose"], ["B1", "half"], ["A2", "18"], ["B2", "=A2/2"], ["A3", "16"], ["B3", "=A3/2"], ["A4", "20"], ["B4", "=A4/2+1"]] as const) {
      await sheet.goTo(at);
      await sheet.enter(text);
    }
    await sheet.goTo("A2");
    await choose(sheet.page, "Smallest or A first");
    await sheet.tells("B2", /=A2\/2 8$/);
    await sheet.tells("B3", /=A3\/2 9$/);
    await sheet.tells("B4", /=A4\/2\+1 11$/);
    await sheet.press("Undo");
    await sheet.tells("B2", /=A2\/2 9$/);
    await sheet.tells("B4", /=A4\/2\+1 11$/);
    expect(sheet.faults).toEqual([]);
  });

  it("by several columns offers every column, with or without a heading", async () => {
    const { page, goTo, tells, faults } = await log();
    await goTo("A3");
    await choose(page, "By several columns…");
    const dialog = page.getByRole("dialog", { name: "Sort rows" });
    expect(await dialog.getByLabel("Sort by").locator("option").allTextContents()).toEqual(["shot", "dose", "Column C", "ratio"]);
    await dialog.getByLabel("Sort by").selectOption("Column C");
    await dialog.getByRole("button", { name: "Then by another column" }).click();
    expect(await dialog.getByLabel("Then by", { exact: true }).count()).toBe(1);
    await dialog.getByRole("button", { name: "Sort", exact: true }).click();
    await tells("C2", / w$/);
    await tells("A2", / c$/);
    expect(faults).toEqual([]);
  });

  it("of a ready sheet moves the rows of its table, and the results follow", async () => {
    const { page, goTo, tells, faults } = await openSheet();
    // The heaviest cup of the log, 37.2 g from 18.2 g, and the lightest, 34.7 g from 17.9 g.
    await tells("J34", / 2\.0439\d* /);
    await goTo("E8");
    await choose(page, "Largest or Z first");
    await tells("E8", /^E8 37\.2$/);
    await tells("J8", / 2\.0439\d*$/);
    await tells("E57", /^E57 34\.7$/);
    await tells("J57", / 1\.9385\d* /);
    expect(faults).toEqual([]);
  });

  it("refuses in words to tear apart what a formula fills", async () => {
    const sheet = await openSheet();
    await sheet.page.getByRole("button", { name: "New" }).click();
    await sheet.opened("New sheet");
    for (const text of ["3", "1", "2"]) await sheet.enter(text);
    await sheet.goTo("B1");
    await sheet.enter("=A1:A3*2");
    await sheet.goTo("A1");
    await choose(sheet.page, "Smallest or A first");
    await expect.poll(sheet.notice).toBe("Sorting would tear apart what the formula in B1 fills. Select only the columns that were typed, and sort those.");
    await sheet.tells("A1", / 3$/);
  });
});

describe("the filter", () => {
  it("leaves rows out of sight, is saved and opened as a filter, and goes again", async () => {
    const sheet = await log();
    const { page, goTo, notice } = sheet;
    await goTo("A2");
    await page.getByRole("button", { name: "Filter" }).click();
    await expect.poll(notice).toMatch(/^Choose the arrow beside a heading/);
    expect(await loaded(page)).toEqual(["filter"]);
    // The arrow stands at the right end of the heading.
    const cells = (await page.locator("canvas[id^=univer-sheet-main]").boundingBox())!;
    await page.mouse.click(cells.x + 46 + 72 - 10, cells.y + 20 + 10);
    await page.getByText("By Values").waitFor();
    const text = (await page.getByText("A10", { exact: true }).boundingBox())!;
    await page.mouse.click(text.x - 20, text.y + text.height / 2);
    await page.getByRole("button", { name: "Confirm" }).click();
    await page.getByText("By Values").waitFor({ state: "hidden" });
    const { bytes } = await sheet.saved("Save copy (.xlsx)");
    const xml = new TextDecoder().decode((await unzip(new Uint8Array(bytes)).bytes("xl/worksheets/sheet1.xml"))!);
    expect([...xml.matchAll(/<row r="(\d+)"[^>]*hidden="1"/g)].map(([, row]) => row)).toEqual(["3"]);
    const filter = '<autoFilter ref="A1:D5"><filterColumn colId="0"><filters><filter val="A9"/><filter val="b"/><filter val="c"/></filters></filterColumn></autoFilter>';
    expect(/<autoFilter.*<\/autoFilter>/.exec(xml)?.[0]).toBe(filter);
    // Another page knows nothing of filters yet.
    const other = await openSheet();
    await other.openFile("log.xlsx", new Uint8Array(bytes));
    await other.opened("log.xlsx");
    expect(await loaded(other.page)).toEqual(["filter"]);
    await other.goTo("F9");
    await other.enter("x");
    const copy = await other.saved("Save copy (.xlsx)");
    expect(new TextDecoder().decode((await unzip(new Uint8Array(copy.bytes)).bytes("xl/worksheets/sheet1.xml"))!)).toContain(filter);
    await other.page.keyboard.press("Control+Shift+L");
    await expect.poll(other.notice).toBe("The filter is gone; every row is in sight again.");
    await other.goTo("A3");
    expect(other.faults).toEqual([]);
    await other.page.context().close();
    await page.keyboard.press("Control+Shift+L");
    await expect.poll(notice).toBe("The filter is gone; every row is in sight again.");
    const again = await sheet.saved("Save copy (.xlsx)");
    const plain = new TextDecoder().decode((await unzip(new Uint8Array(again.bytes)).bytes("xl/worksheets/sheet1.xml"))!);
    expect(plain).not.toMatch(/hidden=|autoFilter/);
    expect(sheet.faults).toEqual([]);
  });
});

it("finds from the toolbar and from the keyboard, and goes to what it finds", async () => {
  const { page, goTo, faults } = await log();
  await goTo("A1");
  await page.keyboard.press("Control+f");
  const box = page.getByPlaceholder("Find in this Sheet");
  await box.fill("A9");
  await page.getByText("1/1").waitFor();
  await box.press("Escape");
  await page.waitForFunction(() => document.getElementById("cell-line")!.textContent!.startsWith("A4"));
  expect(await loaded(page)).toEqual(["find"]);
  expect(faults).toEqual([]);
});

it("formats numbers as chosen, one step of Undo each, and saves the format", async () => {
  const sheet = await log();
  const { page, goTo, tells } = sheet;
  await goTo("B2");
  await choose(page, "Percent");
  await tells("B2", /1800\.0%/);
  await choose(page, "One decimal more");
  await tells("B2", /1800\.00%/);
  const { bytes } = await sheet.saved("Save copy (.xlsx)");
  const styles = new TextDecoder().decode((await unzip(new Uint8Array(bytes)).bytes("xl/styles.xml"))!);
  expect(styles).toMatch(/numFmtId="10"|0\.00%/);
  await sheet.press("Undo");
  await tells("B2", /1800\.0%/);
  await sheet.press("Undo");
  await tells("B2", / 18$/);
});

it("starts ready sheets from a menu that shows each with a picture and a line", async () => {
  const { page, press, notice, faults } = await openSheet();
  await page.getByRole("button", { name: "Ready sheets" }).click();
  const menu = page.getByRole("group", { name: "Ready sheets" });
  expect(await menu.locator(".ready-sheet").count()).toBe(await menu.locator(".ready-sheet .sheet-picture").count());
  await page.keyboard.press("ArrowDown");
  expect(await page.evaluate(() => document.activeElement!.getAttribute("aria-labelledby"))).toBe("ready-Morning");
  await menu.getByLabel("With example figures").check();
  await menu.getByRole("button", { name: "Dial-in" }).click();
  await expect.poll(notice).toMatch(/^The sheet “Dial-in.*” is ready, with invented figures\./);
  await press("Undo");
  await page.getByRole("tab", { name: /^Dial-in/ }).waitFor({ state: "detached" });
  expect(faults).toEqual([]);
});
