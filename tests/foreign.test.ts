/** Files by others, through the real page and back: nothing in a copy differs but what was typed. */
import { createServer, type Server } from "node:http";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { filesOf, listen } from "../scripts/serve.ts";
import { PageDriver } from "../scripts/try-files/page-driver.ts";
import { tryFile } from "../scripts/try-files/try-file.ts";
import { launchChromium } from "./chromium.ts";

const folder = "tests/foreign";
const files = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile()).map(({ name }) => name);

let server: Server;
let browser: Browser;
let driver: PageDriver;

beforeAll(async () => {
  server = createServer(filesOf("dist"));
  browser = await launchChromium();
  driver = new PageDriver(browser, `http://localhost:${await listen(server, 0)}/sheet/`);
  await driver.restart();
});
afterAll(async () => {
  await browser.close();
  server.close();
});

describe("a file by others", () => {
  it.each(files)("%s", async (file) => {
    const { outcome, words, problems } = await tryFile(driver, join(folder, file));
    expect(problems).toEqual([]);
    if (file === "poi-60320-protected.xlsx") expect(words).toMatch(/^poi-60320-protected\.xlsx is an Excel workbook with a password/);
    else expect(outcome).toBe("opened");
  });
});
