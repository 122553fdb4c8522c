/**
 * Opens the built add-in in a stand-in for Excel on the web: real Chromium, Microsoft's own office.js and custom functions runtime,
 * and a page of ours that plays the workbook. Everything the browser asks for is answered from files; nothing leaves the machine.
 */
import { existsSync, readFileSync } from "node:fs";
import { extname, join } from "node:path";
import { build } from "esbuild";
import type { Browser, BrowserContextOptions, Frame, Page, Route } from "playwright-core";
import { launchChromium } from "../chromium.ts";
import { readApiSets } from "./api-sets.ts";
import type { ExcelKeyboard, WrittenSheet } from "./page/main.ts";
import type { HostOptions } from "./page/host-options.ts";
import { readManifest } from "./read-manifest.ts";

const hostedOffice = "https://appsforoffice.microsoft.com/lib/1/hosted/";
const hostPath = "/host/";
const types: Record<string, string> = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".json": "application/json",
  ".png": "image/png",
  ".svg": "image/svg+xml",
};

export interface OpenOptions extends Partial<Omit<HostOptions, "addIn" | "apiSets">> {
  /** Width of the pane. */
  readonly width?: number;
  readonly height?: number;
  readonly context?: BrowserContextOptions;
  /** Leaves out Microsoft's library, as when the network is down. */
  readonly withoutOffice?: boolean;
  /** Does not wait for the pane to be ready. */
  readonly early?: boolean;
}

export class ExcelHost {
  private constructor(
    private readonly browser: Browser,
    private readonly hostScript: string,
    private readonly apiSets: HostOptions["apiSets"],
  ) {}

  static async launch(): Promise<ExcelHost> {
    if (!existsSync("dist/manifest.xml")) throw new Error("There is no dist/manifest.xml: run “npm run build” first.");
    const bundle = await build({ entryPoints: ["tests/excel-host/page/main.ts"], bundle: true, write: false, format: "iife", target: "es2022" });
    const browser = await launchChromium();
    return new ExcelHost(browser, bundle.outputFiles[0]!.text, readApiSets());
  }

  close(): Promise<void> {
    return this.browser.close();
  }

  async open(options: OpenOptions = {}): Promise<OpenWorkbook> {
    const addIn = readManifest(readFileSync("dist/manifest.xml", "utf8"));
    const { width = 350, height = 700, context: contextOptions, withoutOffice, early, ...rest } = options;
    const hostOptions: HostOptions = { addIn, apiSets: this.apiSets, blank: null, properties: {}, held: [], failing: {}, ...rest };
    const context = await this.browser.newContext({ viewport: { width, height }, ...contextOptions });
    const outside: string[] = [];
    const base = addIn.page.replace(/taskpane\.html$/, "");
    const hostAddress = new URL(hostPath, base).href;
    await context.route("**/*", (route) => {
      const url = route.request().url().replace(/[?#].*$/, "");
      if (url === hostAddress) return route.fulfill({ contentType: "text/html", body: hostPage(hostOptions, width, height) });
      if (url === `${hostAddress}main.js`) return route.fulfill({ contentType: "text/javascript", body: this.hostScript });
      if (url.startsWith(hostedOffice)) return withoutOffice ? route.abort() : file(route, url.replace(hostedOffice, "node_modules/@microsoft/office-js/dist/"));
      if (url.startsWith(base)) return file(route, url.replace(base, "dist/"));
      outside.push(url);
      return route.abort();
    });
    const page = await context.newPage();
    const faults: string[] = [];
    page.on("pageerror", (error) => faults.push(error.message));
    await page.goto(hostAddress);
    const frame = await (await page.waitForSelector("iframe")).contentFrame();
    await frame!.waitForURL((url) => url.href.startsWith(addIn.page));
    if (!early) await frame!.waitForSelector("fieldset:not([disabled])");
    return new OpenWorkbook(page, frame!, outside, faults);
  }
}

type Cells = readonly (readonly unknown[])[];

/** A workbook that is open with the add-in beside it. */
export class OpenWorkbook {
  constructor(
    readonly page: Page,
    /** The add-in's own page, which shows the pane. */
    readonly pane: Frame,
    /** Addresses outside the add-in and Microsoft's library that were asked for. */
    readonly outside: readonly string[],
    /** Errors that nothing caught. */
    readonly faults: readonly string[],
  ) {}

  /** Types values and formulas, one or a block from this cell on, and waits for the results. */
  type(cell: string, typed: unknown, sheet = "Sheet1"): Promise<void> {
    return this.page.evaluate(([sheet, cell, typed]) => window.excel.type(sheet, cell, typed), [sheet, cell, block(typed)] as const);
  }

  /** Types without waiting for the results. */
  start(cell: string, typed: unknown, sheet = "Sheet1"): Promise<void> {
    return this.page.evaluate(([sheet, cell, typed]) => window.excel.start(sheet, cell, typed), [sheet, cell, block(typed)] as const);
  }

  values(address: string, sheet = "Sheet1"): Promise<Cells> {
    return this.page.evaluate(([sheet, address]) => window.excel.values(sheet, address), [sheet, address] as const);
  }

  async value(cell: string, sheet = "Sheet1"): Promise<unknown> {
    return (await this.values(cell, sheet))[0]![0];
  }

  /** The words that Excel shows beside an error. */
  async message(cell: string, sheet = "Sheet1"): Promise<unknown> {
    return (await this.page.evaluate(([sheet, cell]) => window.excel.messages(sheet, cell), [sheet, cell] as const))[0]![0];
  }

  settled(): Promise<void> {
    return this.page.evaluate(() => window.excel.settled());
  }

  properties(): Promise<Record<string, unknown>> {
    return this.page.evaluate(() => window.excel.properties());
  }

  sheet(name: string): Promise<WrittenSheet | undefined> {
    return this.page.evaluate((name) => window.excel.sheet(name), name);
  }

  /** Whether a sheet is hidden, in Excel's word. */
  hidden(name: string): Promise<string | undefined> {
    return this.page.evaluate((name) => window.excel.visibility(name), name);
  }

  sheets(): Promise<string[]> {
    return this.page.evaluate(() => window.excel.sheets());
  }

  names(): Promise<string[]> {
    return this.page.evaluate(() => window.excel.names());
  }

  activeSheet(): Promise<string | undefined> {
    return this.page.evaluate(() => window.excel.active());
  }

  /** Members of Excel's API that the add-in has used, as "Range.values". */
  used(): Promise<string[]> {
    return this.page.evaluate(() => window.excel.used());
  }

  host<Action extends "release" | "fail" | "recover" | "edit" | "addSheet" | "protect" | "colleague">(action: Action, ...given: Parameters<ExcelKeyboard[Action]>): Promise<void> {
    return this.page.evaluate(([action, given]) => (window.excel[action] as (...values: unknown[]) => void)(...given), [action, given as unknown[]] as const);
  }

  close(): Promise<void> {
    return this.page.context().close();
  }
}

function block(typed: unknown): unknown[][] {
  return Array.isArray(typed) ? (typed as unknown[][]) : [[typed]];
}

function file(route: Route, path: string): Promise<void> {
  const found = join(path);
  if (!existsSync(found)) return route.fulfill({ status: 404, body: `${found} does not exist` });
  return route.fulfill({ contentType: types[extname(found)] ?? "application/octet-stream", body: readFileSync(found) });
}

function hostPage(options: HostOptions, width: number, height: number): string {
  const json = JSON.stringify(options).replaceAll("<", "\\u003c");
  return `<!doctype html><html lang="en"><meta charset="utf-8"><title>Stand-in for Excel</title>
<style>body { margin: 0 } iframe { display: block; border: 0; width: ${width}px; height: ${height}px }</style>
<iframe title="Pane"></iframe>
<script type="application/json" id="options">${json}</script>
<script src="main.js"></script></html>`;
}
