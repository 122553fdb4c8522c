import { readdirSync, readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import axe from "axe-core";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { filesOf } from "../scripts/serve.ts";
import { largeLogs } from "../src/help/large-logs";
import { tasks } from "../src/help/tasks.ts";
import { describedReadySheet, readySheetIds } from "../src/ready-sheets/index.ts";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { launchChromium } from "./chromium.ts";

/** The built help pages, in a real browser. */
let browser: Browser;
let server: Server;
let base: string;

beforeAll(async () => {
  server = createServer(filesOf("dist"));
  await new Promise<void>((listening) => server.listen(0, "localhost", listening));
  base = `http://localhost:${(server.address() as AddressInfo).port}/functions`;
  browser = await launchChromium();
});

afterAll(async () => {
  await browser.close();
  server.close();
});

it("the index lists every function and every task, and its search narrows the list", async () => {
  const page = await browser.newPage();
  await page.goto(`${base}/index.html`);
  const names = (await readDeclarations()).map(({ name }) => name);
  const linked = await page.locator("[data-search] a").evaluateAll((links) => links.map((link) => link.getAttribute("href")));
  expect(linked.sort()).toEqual([...names, ...tasks.map(({ id }) => id), largeLogs.id].map((name) => `${name}.html`).sort());
  const search = page.getByLabel("Search the help");
  await search.fill("grind time");
  await page.getByRole("status").filter({ hasText: /^\d+ found$/ }).waitFor();
  expect(await page.locator("[data-search]:visible").filter({ hasText: "GRIND.FORTIME" }).count()).toBe(1);
  expect(await page.locator("[data-topic]:visible").count()).toBeLessThan(5);
  await search.fill("chandelier");
  await page.getByText("Nothing found. Try fewer or other words.").waitFor();
  expect(await page.locator("[data-topic]:visible").count()).toBe(0);
});

const meant: readonly (readonly [typed: string, found: readonly string[], not: readonly string[]])[] = [
  ["grinder", ["GRIND.ADVICE", "GRIND.FORTIME", "dial-in-a-new-coffee"], ["WATER.TDS"]],
  ["average", ["COMPARE", "LOG.SUMMARY"], []],
  ["channelling", ["PUCK.RESISTANCE"], []],
  ["grind finer", ["GRIND.ADVICE", "dial-in-a-new-coffee"], []],
  ["sour", ["EXTRACTION", "GRIND.ADVICE"], ["SOURCE"]],
  ["two baskets", ["COMPARE.DECISION", "compare-two-baskets"], []],
  ["limescale", ["WATER.SCALE", "set-up-water"], ["SCALE"]],
  ["gri", ["GRIND.ADVICE"], []],
  ["warehouse", ["logs-in-a-cluster-or-a-warehouse"], ["RATIO"]],
  ["ESPRESSO.RATIO", ["RATIO"], ["EXTRACTION.FROMPUCK"]],
];

it("the search finds what a person means by everyday words", async () => {
  const page = await browser.newPage();
  await page.goto(`${base}/index.html`);
  for (const [typed, found, not] of meant) {
    await page.getByLabel("Search the help").fill(typed);
    await page.getByRole("status").filter({ hasText: /found/ }).waitFor();
    const shown = await page.locator("[data-search]:visible a").evaluateAll((links) => links.map((link) => link.getAttribute("href")!.replace(".html", "")));
    expect(shown, typed).toEqual(expect.arrayContaining([...found]));
    for (const name of not) expect(shown, typed).not.toContain(name);
  }
  await page.close();
});

it("a task names ready sheets that there are", () => {
  const names = readySheetIds.map((id) => describedReadySheet(id, { units: defaultUnits }).name);
  for (const { sheets } of tasks) expect(names).toEqual(expect.arrayContaining([...sheets]));
});

it("an example shows what is given and what comes out as tables, and its formula can be taken along", async () => {
  const context = await browser.newContext({ permissions: ["clipboard-read", "clipboard-write"] });
  const page = await context.newPage();
  await page.goto(`${base}/COMPARE.html`);
  const given = page.locator("table:has(caption:text-is('Given'))");
  expect(await given.locator("th").allInnerTexts()).toEqual(["settings", "results"]);
  expect(await given.locator("tbody tr").first().locator("td").allInnerTexts()).toEqual(["8", "19"]);
  const result = page.locator("table:has(caption:text-is('Result'))");
  expect(await result.locator("tr").first().locator("td").allInnerTexts()).toEqual(["Setting", "Shots", "Mean", "SD", "Low", "High", "Group"]);
  expect(await result.locator("tr").last().locator("td").allInnerTexts()).toEqual(["9", "3", "20.3", "0.2", "19.803", "20.797", "a"]);
  await page.getByRole("button", { name: "Put this in my sheet" }).click();
  await page.getByText("Copied. Select a cell in your sheet and paste.").waitFor();
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  expect(copied).toMatch(/^=ESPRESSO\.COMPARE\(\{8;8;8;9;9;9\}, /);
  await context.close();
});

it("no table is flattened into bars, and units are those that an argument may have", () => {
  for (const file of readdirSync("dist/functions").filter((name) => name.endsWith(".html"))) {
    expect(readFileSync(`dist/functions/${file}`, "utf8").slice(2000), file).not.toMatch(/<p>[^<]*(?:<code[^>]*>[^<]*<\/code>)?[^<]* \| /);
  }
  const recipe = wordsOf(readFileSync("dist/functions/WATER.RECIPE.html", "utf8"));
  expect(recipe).toContain("US gal");
  expect(recipe).not.toContain("fl oz");
});

it("every function has a page with its arguments, result, example, equation and source", async () => {
  for (const { name, description, parameters, source } of await readDeclarations()) {
    const text = wordsOf(readFileSync(`dist/functions/${name}.html`, "utf8"));
    expect(text, name).toContain(description);
    expect(text, name).toContain(source);
    for (const part of ["Result", "Example", "Equation", "Source"]) expect(text, name).toContain(part);
    for (const parameter of parameters) expect(text, name).toContain(parameter.name);
  }
});

/** What a page says, in one line. */
function wordsOf(html: string): string {
  const named: Readonly<Record<string, string>> = { "&amp;": "&", "&lt;": "<", "&gt;": ">", "&quot;": '"' };
  const text = html.slice(html.indexOf("<main")).replace(/<[^>]*>/g, " ").replace(/&(?:amp|lt|gt|quot);/g, (entity) => named[entity]!);
  return text.replace(/\s+/g, " ");
}

it("a page of a function reads the same in a browser", async () => {
  const page = await browser.newPage();
  await page.goto(`${base}/GRIND.FORTIME.html`);
  const { description, source } = (await readDeclarations()).find(({ name }) => name === "GRIND.FORTIME")!;
  const text = (await page.locator("main").innerText()).replace(/\s+/g, " ");
  expect(text).toContain(description);
  expect(text).toContain(source);
});

it.each(["index.html", "GRIND.FORTIME.html", "COMPARE.html", "run-a-blind-tasting.html"])("%s has no accessibility fault, in light and dark, at 320 px", async (file) => {
  for (const colorScheme of ["light", "dark"] as const) {
    const context = await browser.newContext({ colorScheme, viewport: { width: 320, height: 800 }, bypassCSP: true });
    const page = await context.newPage();
    await page.goto(`${base}/${file}`);
    await page.addScriptTag({ content: axe.source });
    const { violations } = await page.evaluate(() => (globalThis as unknown as { axe: typeof axe }).axe.run());
    expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]!.html}`)).toEqual([]);
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true);
    await context.close();
  }
});
