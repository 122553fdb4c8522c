/** Saving into the file that was opened, in browsers that let a page write to one. The file lies in the origin's own private folder. */
import { Workbook } from "@cj-tech-master/excelts";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { foreignBytes } from "../copies/foreign-files.ts";
import { openSheet, sheetIn, useBrowser, type SheetPage } from "./open-sheet.ts";

useBrowser();

/** Opens a file by its handle, as the browser's own chooser would give it. */
async function openByHandle(sheet: SheetPage, name: string, bytes: Uint8Array): Promise<void> {
  await sheet.page.evaluate(
    async ([name, bytes]) => {
      const folder = await navigator.storage.getDirectory();
      const handle = await folder.getFileHandle(name, { create: true });
      const stream = await handle.createWritable();
      await stream.write(new Uint8Array(bytes));
      await stream.close();
      Object.assign(window, { showOpenFilePicker: () => Promise.resolve([handle]) });
    },
    [name, [...bytes]] as const,
  );
  await sheet.page.getByRole("button", { name: "Open…" }).click();
  await sheet.opened(name);
}

async function onDisk(page: Page, name: string): Promise<Buffer> {
  return Buffer.from(
    await page.evaluate(async (name) => {
      const handle = await (await navigator.storage.getDirectory()).getFileHandle(name);
      return [...new Uint8Array(await (await handle.getFile()).arrayBuffer())];
    }, name),
  );
}

it("asks once, writes what a copy would hold, and goes on writing", async () => {
  const sheet = await openSheet();
  const { page } = sheet;
  const opened = foreignBytes("shared-columns.xlsx");
  await openByHandle(sheet, "log.xlsx", opened);
  await sheet.goTo("H3");
  await sheet.enter("=1+2");
  await sheet.tells("H3", / 3$/);
  const copy = (await sheet.saved("Save copy (.xlsx)")).bytes;
  expect((await onDisk(page, "log.xlsx")).equals(Buffer.from(opened))).toBe(true);
  await page.keyboard.press("Control+s");
  await page.getByText("Save writes your changes into “log.xlsx” itself").waitFor();
  await page.getByRole("button", { name: "Save into the file" }).click();
  await expect.poll(sheet.notice).toBe("Saved in “log.xlsx”.");
  expect(await page.locator("#file-state").isHidden()).toBe(true);
  expect((await onDisk(page, "log.xlsx")).equals(copy)).toBe(true);
  // Not asked again, and Undo back beyond what was saved is saved too.
  await sheet.press("Undo");
  await sheet.tells("H3", /empty$/);
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.locator("#file-state").waitFor({ state: "hidden" });
  await expect.poll(async () => (await onDisk(page, "log.xlsx")).equals(copy)).toBe(false);
  expect(sheet.faults).toEqual([]);
});

it("goes on after a reload with the work and its file, which is asked for anew", async () => {
  const sheet = await openSheet();
  const { page } = sheet;
  await openByHandle(sheet, "log.xlsx", foreignBytes("shared-columns.xlsx"));
  await sheet.goTo("H4");
  await sheet.enter("7");
  await page.waitForFunction(() => dispatchEvent(new Event("beforeunload", { cancelable: true })));
  await page.reload();
  const again = await sheetIn(page, sheet.faults);
  await page.getByRole("button", { name: "Go on with it" }).click();
  await again.opened("log.xlsx");
  const before = await onDisk(page, "log.xlsx");
  await page.keyboard.press("Control+s");
  await page.getByRole("button", { name: "Save into the file" }).click();
  await expect.poll(again.notice).toBe("Saved in “log.xlsx”.");
  expect((await onDisk(page, "log.xlsx")).equals(before)).toBe(false);
  // A new workbook has nothing to come back to.
  await page.getByRole("button", { name: "New" }).click();
  await again.opened("New sheet");
  await page.reload();
  await sheetIn(page, sheet.faults);
  expect(sheet.faults).toEqual([]);
});

it("notices that the file was changed meanwhile, even at the same size and time", async () => {
  const sheet = await openSheet();
  const { page } = sheet;
  const opened = foreignBytes("shared-columns.xlsx");
  await openByHandle(sheet, "log.xlsx", opened);
  await sheet.goTo("H3");
  await sheet.enter("5");
  const other = Uint8Array.from(opened);
  other[20] = other[20]! ^ 1;
  await page.evaluate(async (bytes) => {
    const handle = await (await navigator.storage.getDirectory()).getFileHandle("log.xlsx");
    const stream = await handle.createWritable();
    await stream.write(new Uint8Array(bytes));
    await stream.close();
  }, [...other]);
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Something else has changed “log.xlsx”").waitFor();
  await page.getByRole("dialog").getByRole("button", { name: "Cancel" }).click();
  expect((await onDisk(page, "log.xlsx")).equals(Buffer.from(other))).toBe(true);
  expect(await page.locator("#file-state").isVisible()).toBe(true);
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("button", { name: "Replace what it holds now" }).click();
  await expect.poll(sheet.notice).toBe("Saved in “log.xlsx”.");
  expect(sheet.faults).toEqual([]);
});

it("says so where the file cannot be written, and leaves it as it was", async () => {
  const sheet = await openSheet();
  const { page } = sheet;
  const opened = foreignBytes("shared-columns.xlsx");
  await openByHandle(sheet, "log.xlsx", opened);
  await sheet.goTo("H3");
  await sheet.enter("5");
  await page.evaluate(() => {
    FileSystemFileHandle.prototype.createWritable = () => Promise.reject(new DOMException("locked", "NoModificationAllowedError"));
  });
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByRole("button", { name: "Save into the file" }).click();
  await expect.poll(sheet.notice).toMatch(/^“log\.xlsx” could not be written: another program may have it open/);
  expect(await page.locator("#file-state").isVisible()).toBe(true);
  expect((await onDisk(page, "log.xlsx")).equals(Buffer.from(opened))).toBe(true);
});

it("saves a workbook that has no file under a name of the person's", async () => {
  const sheet = await openSheet();
  const { page } = sheet;
  await page.getByRole("button", { name: "Demo log" }).click();
  await page.getByRole("textbox", { name: "Name of the workbook" }).fill("Monday");
  await page.getByRole("button", { name: "Use this name" }).click();
  await sheet.opened("Monday");
  expect((await sheet.saved("Save")).name).toBe("Monday.xlsx");
});

it("opens on the sheet that was in sight last, and work that was kept on the one that was then", async () => {
  const file = new Workbook();
  for (const name of ["First", "Second", "Third"]) file.addWorksheet(name).getCell("A1").value = name;
  file.views = [{ x: 0, y: 0, width: 10_000, height: 10_000, firstSheet: 0, activeTab: 1, visibility: "visible" }];
  const sheet = await openSheet();
  await sheet.openFile("three.xlsx", new Uint8Array(await file.xlsx.writeBuffer()));
  await sheet.opened("three.xlsx");
  await sheet.tells("A1", / Second$/);
  await sheet.page.getByRole("tab", { name: "Third" }).click();
  await sheet.goTo("B1");
  await sheet.enter("5");
  await sheet.tells("A1", / Third$/);
  await sheet.page.waitForFunction(() => dispatchEvent(new Event("beforeunload", { cancelable: true })));
  await sheet.page.reload();
  const again = await sheetIn(sheet.page, sheet.faults);
  await again.page.getByRole("button", { name: "Go on with it" }).click();
  await again.opened("three.xlsx");
  await again.tells("B1", / 5$/);
  await again.tells("A1", / Third$/);
  expect(sheet.faults).toEqual([]);
});
