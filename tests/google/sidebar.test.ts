/** The pane of a Google Sheet, as built, in a real Chromium; the script behind it runs against the recording spreadsheet. No Google Sheet is here. */
import { readFileSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, beforeEach, expect, it } from "vitest";
import { launchChromium } from "../chromium.ts";
import { RecordedBook } from "./spreadsheet.ts";

const script = readFileSync("dist/google/Sheets.js", "utf8");

let browser: Browser;
let book: RecordedBook;
let page: Page;
let faults: string[];

beforeAll(async () => {
  browser = await launchChromium();
});
afterAll(() => browser.close());

beforeEach(async () => {
  book = new RecordedBook();
  book.problems = JSON.stringify([{ functionName: "ESPRESSO_RATIO", message: "dose, -18 g, must be above 0 g.", count: 1 }]);
  const functions = book.run(script) as Record<string, (...given: unknown[]) => unknown>;
  page = await (await browser.newContext({ viewport: { width: 300, height: 700 } })).newPage();
  faults = [];
  page.on("pageerror", (error) => faults.push(error.message));
  await page.exposeFunction("callScript", (name: string, given: unknown[]) => {
    if (!functions[name]) throw new Error(`Script function not found: ${name}`);
    // Only data crosses between a page and the script.
    return JSON.parse(JSON.stringify(functions[name](...given) ?? null)) as unknown;
  });
  await page.addInitScript(`
    const runner = (done, failed) => new Proxy({}, { get: (_, name) =>
      name === "withSuccessHandler" ? (handler) => runner(handler, failed)
      : name === "withFailureHandler" ? (handler) => runner(done, handler)
      : (...given) => { callScript(name, given).then(done, failed); } });
    window.google = { script: { run: runner() } };
  `);
  await page.route("https://sheet.example/", (route) => route.fulfill({ contentType: "text/html", body: readFileSync("dist/google/Sidebar.html", "utf8") }));
  await page.goto("https://sheet.example/");
});

const turnTo = (name: string) => page.getByRole("tab", { name, exact: true }).click();

it("starts a ready sheet, and takes it away again", async () => {
  await turnTo("Ready sheets");
  await page.getByRole("button", { name: "Recipe card" }).click();
  await page.getByRole("status").filter({ hasText: "“Recipe card” is ready" }).waitFor();
  expect(book.active).toBe("Recipe card");
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("status").filter({ hasText: "Undone" }).waitFor();
  expect(book.sheets.map(({ name }) => name)).toEqual(["Sheet1"]);
  expect(faults).toEqual([]);
});

it("keeps a choice of units in the document, enters every formula anew, and converts what was typed, and back", async () => {
  await turnTo("Ready sheets");
  await page.getByLabel("With example figures").check();
  await page.getByRole("button", { name: "Recipe card" }).click();
  await page.getByRole("status").filter({ hasText: "is ready" }).waitFor();
  const recipe = book.sheet("Recipe card");
  const dose = book.names.get("Recipe_dose")!;
  const formulas = [...recipe.cells].filter(([, { formula }]) => formula !== undefined).map(([at, { formula }]) => [at, formula]);
  expect(recipe.cells.get(dose)).toMatchObject({ value: 18, format: "0.0" });
  await turnTo("Units");
  await page.getByRole("group", { name: "Masses" }).getByLabel("oz").check();
  await page.getByRole("status").filter({ hasText: "were converted" }).waitFor();
  expect(book.properties.get("Pucksheet units")).toBe("1 mass=oz");
  expect(book.flushes).toBe(1);
  // One ounce is 28.349523125 g.
  expect(recipe.cells.get(dose)!.value).toBeCloseTo(18 / 28.349523125, 9);
  expect(recipe.cells.get(dose)!.format).toBe("0.000");
  expect([...recipe.cells].filter(([, { formula }]) => formula !== undefined).map(([at, { formula }]) => [at, formula])).toEqual(formulas);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => recipe.cells.get(dose)!.value).toBe(18);
  expect(faults).toEqual([]);
});

it("shows what the functions refused, and says in words what the script cannot do", async () => {
  await page.getByText("dose, -18 g, must be above 0 g.").waitFor();
  await turnTo("Ready sheets");
  await page.getByRole("button", { name: "Recipe card" }).click();
  await page.getByRole("status").filter({ hasText: "is ready" }).waitFor();
  // Somebody deletes the sheet by hand, and its names go with it.
  book.sheets.splice(1, 1);
  book.names.clear();
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByText("The sheet “Recipe card” is no longer there.").waitFor();
  expect(faults).toEqual([]);
});
