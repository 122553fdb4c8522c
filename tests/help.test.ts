import { readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import axe from "axe-core";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { filesOf } from "../scripts/serve.ts";
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

it("the index lists every function and its search narrows the list", async () => {
  const page = await browser.newPage();
  await page.goto(`${base}/index.html`);
  const names = (await readDeclarations()).map(({ name }) => name);
  expect((await page.locator("[data-search] a").evaluateAll((links) => links.map((link) => link.getAttribute("href")))).sort()).toEqual(names.map((name) => `${name}.html`).sort());
  await page.getByLabel("Search the functions").fill("grind time");
  await page.getByRole("status").filter({ hasText: /^\d+ functions?$/ }).waitFor();
  expect(await page.locator("[data-search]:visible").first().textContent()).toContain("GRIND.FORTIME");
  expect(await page.locator("[data-topic]:visible").count()).toBeLessThan(4);
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

it.each(["index.html", "GRIND.FORTIME.html", "BOILER.TEMPERATURE.html"])("%s has no accessibility fault, in light and dark, at 320 px", async (file) => {
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
