/** Sheets on paper: what the browser would print, as a PDF. */
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();

/** Answers the dialog, and gives the pages that come out. */
async function printed(page: Page, paper: "A4" | "Letter") {
  // The tool that drives the browser prints itself; the page's own call would wait for a person.
  await page.evaluate(() => (window.print = () => void (document.body.dataset.printed = "yes")));
  await page.getByRole("button", { name: "Print…" }).click();
  await page.getByLabel(paper).check();
  await page.getByRole("button", { name: "Print", exact: true }).click();
  await page.locator("body[data-printed]").waitFor();
  const view = await page.evaluate(() => {
    const rows = (of: string) => [...document.querySelectorAll<HTMLTableRowElement>(`.print ${of}`)].map((row) => [...row.cells].map((cell) => cell.textContent).filter(Boolean));
    return { repeated: rows("thead > tr"), body: rows("tr:not(thead > tr)"), charts: document.querySelectorAll(".print .chart svg").length };
  });
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  // Paper again is empty once it was printed.
  expect(await page.locator(".print").count()).toBe(0);
  const boxes = [...pdf.matchAll(/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/g)].map(([, width, height]) => [Math.round(Number(width)), Math.round(Number(height))]);
  return { ...view, boxes };
}

it("prints a ready sheet as it is meant for paper, with its chart, in the dark too", async () => {
  const { page, faults } = await openSheet({ colorScheme: "dark" });
  const { repeated, body, charts, boxes } = await printed(page, "A4");
  expect(repeated.at(-1)!.slice(0, 7)).toEqual(["Day", "Coffee", "Setting", "Dose", "Beverage", "Time", "Strength"]);
  expect(body[0]).toContain("Shot log");
  // All fifty shots of the demo, though the part for paper was made for forty.
  const isShot = (row: readonly string[]) => [/^1[78]\.\d$/, /^3[4-7]\.\d$/].every((weight) => row.some((cell) => weight.test(cell)));
  expect(body.filter(isShot)).toHaveLength(50);
  expect(charts).toBe(1);
  // A4 across, in points: the shots go on to a second page.
  expect(boxes).toEqual([[842, 595], [842, 595]]);
  expect(faults).toEqual([]);
});

it("goes on to further pages, all of the paper that was chosen", async () => {
  const { page, openFile, opened } = await openSheet();
  const rows = Array.from({ length: 150 }, (_, index) => `${index + 1},18,36`);
  await openFile("log.csv", ["shot,dose,beverage", ...rows].join("\n"));
  await opened("log.csv");
  const { body, boxes } = await printed(page, "Letter");
  expect(body).toHaveLength(151);
  expect(boxes.length).toBeGreaterThan(2);
  expect(new Set(boxes.map(String))).toEqual(new Set(["612,792"]));
});
