/** The page without a network, and on a phone. */
import { expect, it } from "vitest";
import { choose } from "../../scripts/toolbar-button.ts";
import { openSheet, sheetIn, useBrowser } from "./open-sheet.ts";

useBrowser();

it("opens, calculates and saves without a network once it was there, parts that are loaded late included", async () => {
  const sheet = await openSheet({ serviceWorkers: "allow" });
  const { page } = sheet;
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  // Only the folder of the page: Excel's files are never served from what is kept.
  expect(await page.evaluate(async () => new URL((await navigator.serviceWorker.ready).scope).pathname)).toBe("/sheet/");
  await page.context().setOffline(true);
  await page.reload();
  const again = await sheetIn(page, sheet.faults);
  // Parts that follow the first load come from what is kept.
  await page.waitForLoadState("networkidle");
  await again.goTo("N60");
  await again.enter("=ESPRESSO.RATIO(18,36)");
  await again.tells("N60", / 2$/);
  await again.goTo("E8");
  await choose(page, "Largest or Z first");
  // It is still selected: its line follows by itself.
  await page.waitForFunction(() => / 37\.2$/.test(document.getElementById("cell-line")!.textContent!));
  expect((await again.saved("Save copy (.xlsx)")).bytes.length).toBeGreaterThan(5000);
  // What is tried first is the network, and the browser notes that in its console; the grid library notes an editor that it lays out before it has a width.
  const isNoted = (fault: string) => fault.includes("net::ERR_") || fault.startsWith("The column width is less than 0");
  expect([...new Set(sheet.faults)].filter((fault) => !isNoted(fault)).join("\n")).toBe("");
});

it("leaves most of a phone to the cells, and shows the units from below without covering them", async () => {
  const { page, pane, faults } = await openSheet({ viewport: { width: 400, height: 800 } });
  const cells = page.locator("canvas[id^=univer-sheet-main]");
  const box = async () => (await cells.boundingBox())!;
  expect((await box()).height).toBeGreaterThan(500);
  const units = (await (await pane()).boundingBox())!;
  const under = await box();
  expect(units.y).toBeGreaterThanOrEqual(under.y + under.height);
  expect(under.height).toBeGreaterThan(180);
  expect(units.width).toBe(400);
  expect(faults).toEqual([]);
});
