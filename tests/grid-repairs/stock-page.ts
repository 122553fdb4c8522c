/** The grid library in a page of its own in Chromium. */
import { createServer } from "node:http";
import { mkdtemp, rm, writeFile } from "node:fs/promises";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { build } from "esbuild";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { filesOf } from "../../scripts/serve.ts";
import { launchChromium } from "../chromium.ts";

// With a policy as the browser sheet has: markup brings no styles of its own.
const html = `<!doctype html><html lang="en"><meta http-equiv="Content-Security-Policy" content="style-src 'self'"><title>The grid library</title>
<link rel="stylesheet" href="main.css"><header><h1>The grid library</h1></header><main id="grid"></main><script type="module" src="main.js"></script></html>`;

export interface LibraryPage {
  readonly page: Page;
  /** What the page threw. */
  readonly errors: readonly string[];
}

let browser: Browser;
let address: string;

export function useLibraryPages(): void {
  let folder: string;
  const server = createServer((request, response) => filesOf(folder)(request, response));
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "grid-"));
    await build({ entryPoints: ["tests/grid-repairs/page/main.ts"], outdir: folder, bundle: true, format: "esm", target: "es2022" });
    await writeFile(join(folder, "index.html"), html);
    await new Promise<void>((listening) => server.listen(0, "localhost", listening));
    address = `http://localhost:${(server.address() as AddressInfo).port}/`;
    browser = await launchChromium();
  });
  afterAll(async () => {
    await browser.close();
    server.close();
    await rm(folder, { recursive: true });
  });
}

/** `before` runs in the page before its own scripts. */
export async function openLibrary({ repaired, before }: { repaired: boolean; before?: () => void }): Promise<LibraryPage> {
  const page = await browser.newPage();
  const errors: string[] = [];
  page.on("pageerror", (error) => errors.push(error.message));
  if (before) await page.addInitScript(before);
  await page.goto(repaired ? `${address}?repaired` : address);
  await page.waitForFunction(() => "api" in globalThis);
  return { page, errors };
}
