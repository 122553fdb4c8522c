/** What a person needs of a ready sheet to decide, seen at once: its decision and everything that is typed, on a small screen, without scrolling. */
import { describe, expect, it } from "vitest";
import { describedReadySheet, readySheetIds, withCompanion, type ReadySheetId } from "../../src/ready-sheets/index.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { areaOf, moved, placeOf } from "../../src/sheet/references.ts";
import { describedSheet } from "../../src/xlsx/ready-sheet.ts";
import { openSheet, useBrowser, type SheetPage } from "./open-sheet.ts";

useBrowser();

/** The sheets that answer first. */
const answerFirst: readonly ReadySheetId[] = ["Morning", "Trial", "Panel", "Water", "Audit", "AuditReport", "Instruments"];

/** As the grid draws them, pixels: the numbers beside the rows, the letters over the columns, and a row without a height of its own. */
const rowNumbers = 46;
const columnLetters = 20;
const usualRow = 20;

/** The cells that have to be seen: the decision, every named input, and of a table the headings and the first row. */
function needed(id: ReadySheetId, figures: "none" | "example"): string[] {
  const { cells, tables } = describedReadySheet(id, { units: defaultUnits, figures });
  const single = Object.entries(cells).filter(([, { role, name }]) => role === "decision" || role === "large" || (role === "input" && name !== undefined));
  return [...single.map(([at]) => at), ...tables.flatMap(({ at, columns }) => columns.flatMap((_, column) => [moved(at, 0, column), moved(at, 1, column)]))];
}

/** Where the cell lies on the page, with what is merged with it. */
function placesOf(id: ReadySheetId, figures: "none" | "example") {
  const sheet = describedSheet(describedReadySheet(id, { units: defaultUnits, figures }));
  const widthOf = (column: number) => (sheet.columns[column]?.hidden ? 0 : (sheet.columns[column]?.width ?? 0) * 7 + 5);
  const heightOf = (row: number) => (sheet.rows[row]?.height === undefined ? usualRow : Math.round((sheet.rows[row].height * 4) / 3));
  const sum = (from: number, to: number, sizeOf: (index: number) => number) =>
    Array.from({ length: to - from }, (_, index) => sizeOf(from + index)).reduce((all, one) => all + one, 0);
  return (at: string) => {
    const { row, column } = placeOf(at)!;
    const area = sheet.merges.find(({ top, left }) => top === row && left === column) ?? areaOf(at)!;
    const [left, top] = [rowNumbers + sum(0, column, widthOf), columnLetters + sum(0, row, heightOf)];
    return { left, top, right: left + sum(area.left, area.right + 1, widthOf), bottom: top + sum(area.top, area.bottom + 1, heightOf) };
  };
}

async function close({ page }: SheetPage, id: string): Promise<void> {
  const toggle = page.locator(`#${id}`);
  if ((await toggle.count()) > 0 && (await toggle.isVisible()) && (await toggle.getAttribute("aria-expanded")) === "true") await toggle.click();
}

describe.each(["none", "example"] as const)("at 1366 × 768 with everything closed, figures: %s,", (figures) => {
  it("decision and inputs are seen together in every sheet that answers first", async () => {
    const sheet = await openSheet({ viewport: { width: 1366, height: 768 } });
    const { page } = sheet;
    await page.getByRole("button", { name: "New", exact: true }).click();
    await sheet.opened("New sheet");
    await page.getByLabel("With example figures").setChecked(figures === "example");
    for (const id of readySheetIds.filter((one) => answerFirst.includes(one))) {
      const { name } = describedReadySheet(id, { units: defaultUnits });
      await page.getByRole("button", { name, exact: true }).click();
      await page.getByRole("status").filter({ hasText: `The sheet “${name}` }).waitFor();
      expect(withCompanion(id).every((one) => answerFirst.includes(one)), name).toBe(true);
    }
    for (const toggle of ["toggle-pane", "toggle-charts"]) await close(sheet, toggle);
    for (const id of answerFirst) {
      const { name } = describedReadySheet(id, { units: defaultUnits });
      await page.getByRole("tab", { name, exact: true }).click();
      await close(sheet, "toggle-charts");
      await page.waitForFunction(() => /^A1 /.test(document.getElementById("cell-line")!.textContent!));
      const grid = (await page.locator("canvas[id^=univer-sheet-main]").boundingBox())!;
      const place = placesOf(id, figures);
      const cells = needed(id, figures);
      // What lies farthest right and farthest down; the rest is seen with it.
      const farthest = (side: "right" | "bottom") => cells.reduce((most, one) => (place(one)[side] > place(most)[side] ? one : most));
      for (const at of new Set([cells[0]!, farthest("right"), farthest("bottom")])) {
        const { right, bottom } = place(at);
        // Its far corner: whoever can click there sees all of it.
        await page.mouse.click(grid.x + right - 4, grid.y + bottom - 4);
        await expect.poll(() => page.locator("#cell-line").textContent(), { message: `${name}, ${at}` }).toMatch(new RegExp(`^${at} `));
      }
      await page.mouse.click(grid.x + rowNumbers + 10, grid.y + columnLetters + 10);
    }
    expect(sheet.faults).toEqual([]);
  }, 120_000);
});
