/** The built browser sheet in a real Chromium, worked with mouse and keyboard like a person does. */
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import type { Browser, BrowserContext, BrowserContextOptions, Download, Locator, Page } from "playwright-core";
import { afterAll, afterEach, beforeAll } from "vitest";
import { filesOf } from "../../scripts/serve.ts";
import { choose } from "../../scripts/toolbar-button.ts";
import { launchChromium } from "../chromium.ts";

export interface SheetPage {
  readonly page: Page;
  /** What went wrong on the page, in the order it happened: errors, warnings of the content policy, requests to elsewhere. */
  readonly faults: string[];
  /** Waits until a workbook of this name is open and calculated. */
  opened(name: string): Promise<void>;
  /** Selects a cell by its address. */
  goTo(address: string): Promise<void>;
  /** Types into the selected cell and presses Enter. */
  enter(text: string): Promise<void>;
  /** Selects a cell and waits until the line that tells it matches, as in "C1 =A1+B1 54". */
  tells(address: string, pattern: RegExp): Promise<string>;
  /** Opens a file through the page's own chooser. */
  openFile(name: string, content: Uint8Array | string): Promise<void>;
  /** Presses a button that saves, and answers the file. */
  saved(button: string): Promise<{ name: string; bytes: Buffer }>;
  notice(): Promise<string>;
  /** The pane, opened where it is closed. */
  pane(): Promise<Locator>;
  /** Starts a ready sheet from the menu, by its name. */
  start(name: string, figures?: "none" | "example"): Promise<void>;
  /** Presses Undo or Redo. */
  press(name: "Undo" | "Redo"): Promise<void>;
}

/** Waiting ends here for what never comes; on a busy machine much takes its time. */
const longest = 120_000;

let browser: Browser;
/** What the running test has opened. A page that is left open goes on calculating and drawing beside the tests that follow. */
const opened: BrowserContext[] = [];
const server = createServer(filesOf("dist"));

/** Starts what the tests of a file share. */
export function useBrowser(): void {
  beforeAll(async () => {
    await new Promise<void>((listening) => server.listen(0, "localhost", listening));
    browser = await launchChromium();
  });
  afterEach(async () => {
    await Promise.all(opened.splice(0).map((context) => context.close()));
  });
  afterAll(async () => {
    await browser.close();
    server.close();
  });
}

export async function openSheet(options: BrowserContextOptions = {}): Promise<SheetPage> {
  const base = `http://localhost:${(server.address() as AddressInfo).port}`;
  const context = await browser.newContext({ viewport: { width: 1440, height: 860 }, serviceWorkers: "block", ...options });
  context.setDefaultTimeout(longest);
  opened.push(context);
  const page = await context.newPage();
  // Files are chosen as in browsers that let no page write to one; a test of the others brings its own.
  await page.addInitScript(() => {
    for (const picker of ["showOpenFilePicker", "showSaveFilePicker"]) Reflect.deleteProperty(window, picker);
  });
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  // Most tests have no service worker, which would load everything for each of them; the tool that drives the browser says so.
  const isOwn = (text: string) => !text.includes("Service Worker registration blocked by Playwright");
  page.on("console", (message) => ["error", "warning"].includes(message.type()) && isOwn(message.text()) && faults.push(message.text()));
  page.on("request", (request) => new URL(request.url()).origin !== base && !/^(blob|data):/.test(request.url()) && faults.push(`request to ${request.url()}`));
  return sheetIn(page, faults, `${base}/sheet/`);
}

/** The page once it has started, as loaded or at this address. */
export async function sheetIn(page: Page, faults: string[], address?: string): Promise<SheetPage> {
  if (address !== undefined) await page.goto(address);
  const line = page.locator("#cell-line");
  const text = async () => (await line.textContent())!;
  const waitForCell = async (pattern: RegExp, timeout = longest) => {
    const found = ([source, flags]: readonly [string, string]) => new RegExp(source, flags).test(document.getElementById("cell-line")!.textContent!);
    await page.waitForFunction(found, [pattern.source, pattern.flags] as const, { timeout }).catch(async () => {
      throw new Error(`The line of the selected cell is “${await text()}”, not ${pattern}.`);
    });
    return text();
  };
  // The first page of a browser on a busy machine takes its time.
  await waitForCell(/^[A-Z]+\d/, 45_000);
  const opened = async (name: string) => {
    await page.waitForFunction((wanted) => document.getElementById("file-name")!.textContent === wanted && document.getElementById("grid")!.getAttribute("aria-busy") === "false", name);
  };
  await opened("Demo log");

  const goTo = async (address: string) => {
    const box = page.getByLabel("Address of the cell");
    // The box takes the address of every newly selected cell, so one that is just being selected can overwrite what is typed.
    for (let attempt = 1; ; attempt++) {
      await box.fill(address);
      await box.press("Enter");
      try {
        return void (await waitForCell(new RegExp(`^${address} `), attempt < 10 ? 1500 * attempt : undefined));
      } catch (error) {
        if (attempt === 10) throw error;
      }
    }
  };
  return {
    page,
    faults,
    opened,
    goTo,
    enter: async (typed) => {
      await page.keyboard.type(typed, { delay: 5 });
      await page.keyboard.press("Enter");
    },
    tells: async (address, pattern) => {
      await goTo(address);
      return waitForCell(pattern);
    },
    openFile: async (name, content) => {
      const chosen = page.waitForEvent("filechooser");
      await page.getByRole("button", { name: "Open…" }).click();
      await (await chosen).setFiles({ name, mimeType: "application/octet-stream", buffer: Buffer.from(content) });
    },
    saved: async (button) => {
      const [download] = await Promise.all([page.waitForEvent("download"), choose(page, button)]);
      return { name: download.suggestedFilename(), bytes: await bytesOf(download) };
    },
    pane: async () => {
      const pane = page.getByRole("complementary", { name: "Pane of the workbook" });
      if (!(await pane.isVisible())) await page.getByRole("button", { name: "Units", exact: true }).click();
      return pane;
    },
    start: async (name, figures = "none") => {
      await page.getByRole("button", { name: "Ready sheets" }).click();
      const menu = page.getByRole("group", { name: "Ready sheets" });
      await menu.getByLabel("With example figures").setChecked(figures === "example");
      await menu.getByRole("button", { name, exact: true }).click();
      await page.getByRole("status").filter({ hasText: `The sheet “${name}` }).waitFor();
    },
    press: (name) => page.getByRole("toolbar").getByRole("button", { name }).click(),
    notice: async () => (await page.locator("#notice-text").textContent())!,
  };
}

async function bytesOf(download: Download): Promise<Buffer> {
  const pieces: Buffer[] = [];
  for await (const piece of await download.createReadStream()) pieces.push(piece as Buffer);
  return Buffer.concat(pieces);
}
