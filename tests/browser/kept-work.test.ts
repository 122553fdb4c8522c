/** Work that is kept while it is done: after a reload, beside other pages, and where there is no room. */
import type { BrowserContext, Page } from "playwright-core";
import { expect, it } from "vitest";
import { unzip } from "@cj-tech-master/excelts/archive";
import { foreignBytes } from "../copies/foreign-files.ts";
import { openSheet, sheetIn, useBrowser, type SheetPage } from "./open-sheet.ts";

useBrowser();

const left = (page: Page) => page.getByRole("region", { name: "Work from before" });
/** Waits until the page could be left without a question. */
const kept = (page: Page) => page.waitForFunction(() => dispatchEvent(new Event("beforeunload", { cancelable: true })));

/** A workbook with a chart and more that this page does not model, with a row inserted and a cell typed. */
async function worked(): Promise<SheetPage> {
  const sheet = await openSheet();
  await sheet.openFile("log.xlsx", foreignBytes("shared-columns.xlsx"));
  await sheet.opened("log.xlsx");
  await sheet.goTo("A2");
  await sheet.page.keyboard.press("Control+Shift+Equal");
  await sheet.goTo("H3");
  await sheet.enter("=1+2");
  await sheet.tells("H3", / 3$/);
  return sheet;
}

async function partsOf(bytes: Uint8Array): Promise<Record<string, string>> {
  const file = unzip(bytes);
  const parts: Record<string, string> = {};
  for await (const entry of file.entries()) parts[entry.path] = new TextDecoder().decode(await entry.bytes());
  return parts;
}

it("is offered after a reload, and a copy of it is the same as without", async () => {
  const sheet = await worked();
  const { bytes } = await sheet.saved("Save copy (.xlsx)");
  await sheet.goTo("H4");
  await sheet.enter("5");
  const without = await sheet.saved("Save copy (.xlsx)");
  expect(without.bytes.equals(bytes)).toBe(false);
  await sheet.goTo("H5");
  await sheet.enter("6");
  await sheet.press("Undo");
  await sheet.tells("H5", /empty$/);
  await kept(sheet.page);
  await sheet.page.reload();
  const again = await sheetIn(sheet.page, sheet.faults);
  await left(again.page).getByText("Not saved: “log.xlsx”, changed ").waitFor();
  await left(again.page).getByRole("button", { name: "Go on with it" }).click();
  await again.opened("log.xlsx");
  await again.tells("H3", /=1\+2 3$/);
  expect(await left(again.page).isHidden()).toBe(true);
  expect(await again.page.locator("#file-state").isVisible()).toBe(true);
  expect(await partsOf((await again.saved("Save copy (.xlsx)")).bytes)).toEqual(await partsOf(without.bytes));
  // What is saved is no longer kept.
  await again.page.locator("#file-state").waitFor({ state: "hidden" });
  await again.page.reload();
  await sheetIn(again.page, sheet.faults);
  expect(await left(again.page).isHidden()).toBe(true);
  expect(sheet.faults).toEqual([]);
});

it("of several pages stays apart, and only that of pages which are gone is offered", async () => {
  const sheet = await worked();
  await kept(sheet.page);
  const context: BrowserContext = sheet.page.context();
  const second = await sheetIn(await context.newPage(), sheet.faults, sheet.page.url());
  expect(await left(second.page).isHidden()).toBe(true);
  await second.goTo("L60");
  await second.enter("7");
  await second.tells("L60", / 7$/);
  await kept(second.page);
  await sheet.page.close();
  await second.page.reload();
  const third = await sheetIn(second.page, sheet.faults);
  await left(third.page).getByText("Not saved: “Demo log”").waitFor();
  await left(third.page).getByText("Not saved: “log.xlsx”").waitFor();
  // Discarding asks, and is for good.
  const item = left(third.page).getByRole("listitem").filter({ hasText: "Demo log" });
  await item.getByRole("button", { name: "Discard" }).click();
  await third.page.getByRole("button", { name: "Discard", exact: true }).last().click();
  await item.waitFor({ state: "detached" });
  await left(third.page).getByRole("button", { name: "Go on with it" }).click();
  await third.opened("log.xlsx");
  expect(sheet.faults).toEqual([]);
});

it("says so where there is no room, and asks before the page is left", async () => {
  const sheet = await openSheet();
  await sheet.page.evaluate(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await sheet.goTo("L60");
  await sheet.enter("7");
  await sheet.page.getByText("Your work could not be kept as you go. The disk has no room left for it. Save a copy before you leave this page.").waitFor();
  let asked = false;
  sheet.page.on("dialog", (dialog) => {
    asked = dialog.type() === "beforeunload";
    void dialog.dismiss();
  });
  await sheet.page.close({ runBeforeUnload: true });
  await expect.poll(() => asked).toBe(true);
});
