/** Typing formulas and numbers: completion, the help of arguments, and decimal commas. */
import { expect, it } from "vitest";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();

it("completes a name without its prefix, with the caret where the arguments go, by Tab and by mouse", async () => {
  const { page, tells, enter, goTo, faults } = await openSheet();
  await goTo("N60");
  await page.keyboard.type("=EXTRAC", { delay: 20 });
  await page.locator('ul[data-u-comp="sheets-formula-editor"] li').filter({ hasText: "ESPRESSO.EXTRACTION" }).first().waitFor();
  await page.keyboard.press("Tab");
  // Meanings and units of the arguments are open.
  await page.getByText("Dissolved solids in the beverage, %.").waitFor();
  expect(await page.getByText("Dissolved solids in the beverage, %.").isVisible()).toBe(true);
  await enter("18,36,10)");
  await tells("N60", /^N60 =ESPRESSO\.EXTRACTION\(18,36,10\) 20$/);
  await goTo("N61");
  await page.keyboard.type("=1+FLO", { delay: 20 });
  await page.locator('ul[data-u-comp="sheets-formula-editor"] li').filter({ hasText: /^ESPRESSO\.FLOW/ }).first().click();
  await page.getByText("ESPRESSO.FLOW(").first().waitFor();
  await enter("36,24)");
  await tells("N61", /^N61 =1\+ESPRESSO\.FLOW\(36,24\) 2\.5$/);
  expect(faults).toEqual([]);
});

it("offers what most people use first", async () => {
  const { page, goTo } = await openSheet();
  await goTo("N60");
  await page.keyboard.type("=ESPRESSO.", { delay: 20 });
  const names = page.locator('ul[data-u-comp="sheets-formula-editor"] li > span:first-child');
  await names.first().waitFor();
  expect((await names.allTextContents()).slice(0, 3)).toEqual(["ESPRESSO.RATIO", "ESPRESSO.EXTRACTION", "ESPRESSO.SHOT"]);
});

it("reads decimal commas where the browser's language has them, says so once, and reads ; between arguments", async () => {
  const { goTo, enter, tells, notice, page, press } = await openSheet({ locale: "de-DE" });
  await goTo("N60");
  await enter("18,2");
  await tells("N60", / 18\.2$/);
  expect(await notice()).toMatch(/^“18,2” was read as 18\.2: the language of this browser writes decimals with a comma\./);
  await page.getByRole("button", { name: "Close", exact: true }).click();
  await goTo("N61");
  await enter("=ESPRESSO.RATIO(18,2;36,4)");
  await tells("N61", /=ESPRESSO\.RATIO\(18\.2,36\.4\) 2$/);
  await goTo("N62");
  await enter("0,5");
  await tells("N62", / 0\.5$/);
  expect(await page.locator("#notice").isHidden()).toBe(true);
  await press("Undo");
  await tells("N62", /empty$/);
  // A percentage stays one; what is typed after Undo is none.
  await goTo("N62");
  await enter("9,4 %");
  await tells("N62", / 9\.40%$/);
  await press("Undo");
  await tells("N62", /empty$/);
  await goTo("N62");
  await enter("0,5");
  await tells("N62", / 0\.5$/);
});
