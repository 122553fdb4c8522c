import { describe, expect, it } from "vitest";
import { plausibleShots } from "../simulated-log.ts";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();

/** A log of plausible shots under the headings that a bar would use. */
function csvLog(rows: number): string {
  const lines = plausibleShots(rows, 5).map(({ dose, beverage, time, strength }, index) => [`grind ${index % 4}`, dose, beverage, time, strength].join(","));
  return `Grind,Dose,Beverage,Time,Strength\n${lines.join("\n")}\n`;
}

describe("a log of 20,000 rows", () => {
  const rows = 20_000;
  const last = rows + 1;

  it("is opened, checked, worked out and summed up with one formula each", async () => {
    const sheet = await openSheet();
    const shots = plausibleShots(rows, 5);
    const lines = csvLog(rows).split("\n");
    lines[12_345] = "grind 0,36,18,27,9.5"; // dose and beverage swapped
    await sheet.openFile("long.csv", lines.join("\n"));
    await sheet.opened("long.csv");
    await sheet.goTo("H2");
    await sheet.enter(`=ESPRESSO.LOG.CHECK(B2:B${last},C2:C${last},D2:D${last},E2:E${last})`);
    await sheet.tells("H12346", /Dose and beverage look swapped/);
    await sheet.goTo("J2");
    await sheet.enter(`=ESPRESSO.SHOT(B2:B${last},C2:C${last},E2:E${last},D2:D${last})`);
    const { dose, beverage } = shots.at(-1)!;
    expect(Number(/^\S+ (\S+)/.exec(await sheet.tells(`J${last}`, /filled by/))![1])).toBeCloseTo(beverage / dose, 4);
    await sheet.goTo("P2");
    await sheet.enter(`=ESPRESSO.LOG.SUMMARY(A2:A${last},B2:B${last},C2:C${last},D2:D${last},E2:E${last})`);
    await sheet.tells("Q3", new RegExp(`^Q3 ${rows / 4} `));
    // An edit is followed everywhere.
    await sheet.goTo("B2");
    await sheet.enter("1");
    await sheet.tells("H2", /Dose/);
    expect(sheet.faults).toEqual([]);
  });

  it("can be cancelled while it is read, and leaves the sheet as it was", async () => {
    const sheet = await openSheet();
    // Pressed the moment it shows: on a quick machine the reading could be over before a click from outside arrives.
    await sheet.page.evaluate(() => {
      const press = () => document.getElementById("progress-cancel")!.click();
      new MutationObserver(press).observe(document.getElementById("progress")!, { attributeFilter: ["hidden"] });
    });
    await sheet.openFile("longer.csv", csvLog(45_000));
    await sheet.page.locator("#notice-text").filter({ hasText: "was cancelled; the sheet is as it was" }).waitFor();
    await sheet.opened("Demo log");
  });
});

it("a log longer than the page can work with is refused with the command that reads it", async () => {
  const sheet = await openSheet();
  await sheet.openFile("endless.csv", csvLog(60_000));
  await sheet.page.locator("#notice-text").filter({ hasText: "npm run check-log -- FILE" }).waitFor();
  await sheet.opened("Demo log");
});
