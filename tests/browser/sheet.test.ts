import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();

async function emptySheet() {
  const sheet = await openSheet();
  await sheet.page.getByRole("button", { name: "New" }).click();
  await sheet.opened("New sheet");
  await sheet.tells("A1", /^A1 empty$/);
  return sheet;
}

describe("the browser sheet by keyboard", () => {
  it("takes the completion of a formula, calculates it, and follows an edit and its undoing", async () => {
    const sheet = await emptySheet();
    const { page, enter, tells, goTo } = sheet;
    await enter("18");
    await goTo("B1");
    await enter("36");
    await goTo("C1");
    await page.keyboard.type("=ESPRESSO.RATI", { delay: 20 });
    await page.getByText("Ratio of a shot: beverage mass for each gram of dose.").waitFor();
    await page.keyboard.press("Tab");
    // The argument help names the arguments that functions.json declares.
    await page.getByText(/^ESPRESSO\.RATIO\(\s*dose\s*,\s*beverage\s*\)$/).waitFor();
    await enter("A1,B1)");
    await tells("C1", /^C1 =ESPRESSO\.RATIO\(A1,B1\) 2$/);
    await goTo("A1");
    await enter("20");
    await tells("C1", / 1\.8$/);
    await page.keyboard.press("Control+z");
    await tells("C1", / 2$/);
    await page.getByRole("button", { name: "Redo" }).click();
    await tells("C1", / 1\.8$/);
    expect(sheet.faults).toEqual([]);
  });

  it("takes what was typed, not what the list of functions still offers for its first letters", async () => {
    const { page, tells, enter } = await emptySheet();
    await page.keyboard.type("=E");
    await page.getByText("EFFECT").first().waitFor();
    await enter("SPRESSO.RATIO(18,36)");
    await tells("A1", /^A1 =ESPRESSO\.RATIO\(18,36\) 2$/);
  });

  it("spills a result, says where a spilled cell comes from, and says what blocks a spill", async () => {
    const { enter, tells, goTo } = await emptySheet();
    await enter("=ESPRESSO.SHOT(18,36,10,25)");
    await tells("A1", /^A1 =ESPRESSO\.SHOT\(18,36,10,25\) 2$/);
    await tells("B1", /^B1 20 \(filled by the formula in A1\)$/);
    await tells("D1", /^D1 1\.44 \(filled/);
    await goTo("C1");
    await enter("in the way");
    await tells("A1", /#SPILL! .*not empty/);
  });

  it("says in words what a function refuses, by line and by hover, and drops the words with the error", async () => {
    const { page, enter, tells, goTo } = await emptySheet();
    await enter("=ESPRESSO.RATIO(-1,36)");
    const told = await tells("A1", /#VALUE!/);
    expect(told).toMatch(/^A1 =ESPRESSO\.RATIO\(-1,36\) #VALUE! dose must be more than 0 g, but is -1 g\.$/);
    const cells = (await page.locator("canvas[id^=univer-sheet-main]").boundingBox())!;
    await page.mouse.move(cells.x + 80, cells.y + 30);
    await page.getByText("dose must be more than 0 g", { exact: false }).nth(1).waitFor();
    await goTo("A1");
    await enter('=1+"a"');
    await tells("A1", /#VALUE! An argument is of the wrong kind/);
    await goTo("A1");
    await enter("=ESPRESSO.RATIO(18)");
    await tells("A1", /takes 2 arguments \(dose, beverage\), but has 1\.$/);
    await goTo("A1");
    await enter("=ESPRESSO.NOSUCH(1)");
    await tells("A1", /#NAME\? There is no function or name/);
    await goTo("A1");
    await enter("=ESPRESSO.RATIO(18,36)");
    await tells("A1", / 2$/);
  });

  it("hands over blanks, left out arguments, texts and errors as Excel does", async () => {
    const { enter, tells, goTo } = await emptySheet();
    await enter("=ESPRESSO.RATIO(B1,36)");
    await tells("A1", /#N\/A dose is blank or 0 in this row/);
    await goTo("A2");
    await enter("=ESPRESSO.EXTRACTION(18,36,10,)");
    await tells("A2", / 20$/);
    await goTo("A3");
    await enter("=ESPRESSO.RATIO(1/0,36)");
    await tells("A3", /#DIV\/0! The formula divides by zero/);
    await goTo("A4");
    await enter('=ESPRESSO.RATIO("18 g",36)');
    await tells("A4", /#VALUE! dose must be a number, but is the text “18 g”/);
    // An error in a column spoils its own row only.
    await goTo("B5");
    await enter("18");
    await goTo("B6");
    await enter("=NA()");
    await goTo("C5");
    await enter("=ESPRESSO.RATIO(B5:B6,36)");
    await tells("C5", / 2$/);
    await tells("C6", /^C6 #N\/A/);
  });

  it("puts right what the grid's own functions get wrong: SORT in place, and comparing with an error", async () => {
    const { enter, tells, goTo } = await emptySheet();
    for (const [address, text] of [["A1", "3"], ["A2", "1"], ["A3", "2"], ["B1", "=SORT(A1:A3)"], ["C1", "=CORREL(A1:A3,ROW(A1:A3))"], ["D1", "=NA()"], ["D2", "=IF(D1>1,1,2)"]] as const) {
      await goTo(address);
      await enter(text);
    }
    await tells("B3", /^B3 3 \(filled/);
    // −0.5 by hand: the covariance of (3, 1, 2) with (1, 2, 3) is −1/2 and both variances are 1.
    await tells("C1", / -0\.5$/);
    await tells("D2", /#N\/A/);
  });

  it("opens on a log in which every formula has a result", async () => {
    const sheet = await openSheet();
    await sheet.tells("J8", /^J8 =ESPRESSO\.RATIO\(.*\) 1\.99/);
    await sheet.tells("K55", /^K55 \d\d\.\d+ \(filled by the formula in K8\)$/);
    await sheet.tells("S8", / Time 4\.0 s short$/);
    const before = await sheet.tells("N17", /of the last 30 on target/);
    // The time wanted.
    await sheet.goTo("Q8");
    await sheet.enter("22");
    await sheet.goTo("N17");
    await sheet.page.waitForFunction((old) => document.getElementById("cell-line")!.textContent !== old, before);
    expect(sheet.faults).toEqual([]);
  });

  it("goes from toolbar to cells and on with F6", async () => {
    const { page } = await openSheet();
    const inside = (id: string) => page.evaluate((region) => document.getElementById(region)!.contains(document.activeElement), id);
    expect(await inside("grid")).toBe(true);
    await page.keyboard.press("F6");
    expect(await inside("grid")).toBe(false);
    await page.getByRole("button", { name: "New" }).focus();
    await page.keyboard.press("F6");
    expect(await inside("grid")).toBe(true);
  });
});

describe("the page", () => {
  it.each(["light", "dark"] as const)("has no accessibility fault outside the drawn cells (%s)", async (colorScheme) => {
    const { page } = await openSheet({ colorScheme, bypassCSP: true });
    await page.evaluate(readFileSync("node_modules/axe-core/axe.min.js", "utf8"));
    const violations = await page.evaluate(async () => {
      const { axe } = window as unknown as { axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> } };
      return (await axe.run()).violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" ")}`);
    });
    expect(violations).toEqual([]);
  });

  it("asks nothing of the network after loading, runs no text as code, and keeps to its content policy", async () => {
    const { page, faults } = await openSheet();
    const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
    expect(policy).toContain("default-src 'none'");
    expect(policy).toMatch(/script-src 'self';/);
    expect(faults).toEqual([]);
    // The policy is really in force: neither a text nor an inserted script runs.
    const ran = await page.evaluate(
      () =>
        new Promise<string[]>((done) => {
          const found: string[] = [];
          const script = document.createElement("script");
          script.textContent = "document.body.dataset.ran = 'script'";
          document.head.append(script);
          // In a turn of its own, as what the test tool runs itself is exempt.
          setTimeout(() => {
            try {
              new Function("document.body.dataset.ran = 'text'")();
            } catch {
              found.push("text refused");
            }
            found.push(document.body.dataset.ran ?? "nothing ran");
            done(found);
          });
        }),
    );
    expect(ran).toEqual(["text refused", "nothing ran"]);
  });

  it("has nothing that scrolls sideways on a phone", async () => {
    const { page } = await openSheet({ viewport: { width: 320, height: 640 } });
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
  });
});
