import { unzip } from "@cj-tech-master/excelts/archive";
import { describe, expect, it } from "vitest";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();

describe("the units of a workbook", () => {
  it("change every formula at once, travel in the file, and come back with it", async () => {
    const sheet = await openSheet();
    const { page, tells } = sheet;
    const pane = await sheet.pane();
    const masses = pane.getByRole("group", { name: "Masses" });
    const before = await tells("K8", / 18\.\d+$/);
    await pane.getByRole("group", { name: "Percentages" }).getByLabel(/percent cells/).check();
    await pane.getByRole("status").filter({ hasText: /recalculated/i }).waitFor();
    // What was typed as 9.41 is 9.41 % of the cell now, and so is what follows from it.
    await tells("G8", / 9\.41%$/);
    await tells("K8", / (0\.18\d+|18\.\d+%)$/);
    await sheet.press("Undo");
    await pane.getByRole("status").filter({ hasText: "Percentages in this workbook are now read and shown as numbers, where 9.5 means 9.5 %." }).waitFor();
    expect(await pane.getByRole("group", { name: "Percentages" }).getByLabel(/percent cells/).isChecked()).toBe(false);
    await tells("K8", new RegExp(`^${before.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}$`));
    await masses.getByLabel("oz").check();
    await pane.getByRole("status").filter({ hasText: /oz/ }).waitFor();
    // 36 oz is 1020.6 g, over 25 s.
    await sheet.goTo("N50");
    await sheet.enter("=ESPRESSO.FLOW(36,25)");
    await tells("N50", / 40\.82/);

    const { name, bytes } = await sheet.saved("Save copy (.xlsx)");
    const zip = unzip(bytes);
    const text = async (part: string) => new TextDecoder().decode((await zip.bytes(part))!);
    expect(await text("docProps/custom.xml")).toContain('name="Pucksheet units"><vt:lpwstr>1 mass=oz</vt:lpwstr>');
    expect(await text("[Content_Types].xml")).toContain('PartName="/docProps/custom.xml"');
    expect(await text("_rels/.rels")).toContain('Target="docProps/custom.xml"');

    await page.getByRole("button", { name: "New" }).click();
    await sheet.opened("New sheet");
    expect(await masses.getByLabel("oz").isChecked()).toBe(false);
    await sheet.openFile(name, bytes);
    await sheet.opened(name);
    expect(await masses.getByLabel("oz").isChecked()).toBe(true);
    await tells("N50", / 40\.82/);
    expect(sheet.faults).toEqual([]);
  });
});
