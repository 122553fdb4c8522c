/** A client's workbook, walked through in the page: what it cannot calculate, what is done to it, and what comes out in either form. */
import { expect, it } from "vitest";
import { outsideView } from "../copies/foreign-files.ts";
import { packed } from "../copies/packed.ts";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();

/** A log with a heading that holds signs, a circle, and a text and a formula that are longer than anyone types. */
function clientsLog(): Uint8Array {
  const text = (at: string, content: string) => `<c r="${at}" t="inlineStr"><is><t>${content}</t></is></c>`;
  const sheet =
    `<sheetData><row r="1">${text("A1", "Dose (g)")}${text("B1", "Beverage (g)")}<c r="D1"><f>E1+1</f><v>3</v></c><c r="E1"><f>D1*2</f><v>4</v></c><c r="F1"><f>E1+0.5</f><v>4.5</v></c></row>` +
    `<row r="2"><c r="A2"><v>18</v></c><c r="B2"><v>36</v></c><c r="D2"><f>SUM(Shots[Dose (g)])</f><v>38</v></c><c r="E2"><f>_xldudf_ESPRESSO_RATIO(A2,B2)</f><v>2</v></c></row>` +
    `<row r="3"><c r="A3"><v>20</v></c><c r="B3"><v>38</v></c>${text("D3", "long ".repeat(2_000))}</row></sheetData>` +
    `<tableParts count="1"><tablePart r:id="rId1"/></tableParts>`;
  const columns = ["Dose (g)", "Beverage (g)"].map((heading, index) => `<tableColumn id="${index + 1}" name="${heading}"/>`).join("");
  const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  const table = `<table xmlns="${main}" id="1" name="Shots" displayName="Shots" ref="A1:B3"><tableColumns count="2">${columns}</tableColumns></table>`;
  return packed({
    sheet,
    parts: { "xl/tables/table1.xml": table },
    sheetRelations: `<Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table1.xml"/>`,
    contentTypes: `<Override PartName="/xl/tables/table1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>`,
  });
}

it("keeps what is not calculated, follows a renamed heading, and is saved in either form", async () => {
  const sheet = await openSheet({ permissions: ["clipboard-read", "clipboard-write"] });
  const { tells, goTo, enter } = sheet;
  await sheet.openFile("client.xlsx", clientsLog());
  await sheet.opened("client.xlsx");
  expect(await sheet.notice()).toBe(
    "“Log”: 2 formulas (D1, E1) show the values that the file holds, because they refer to one another in a circle.",
  );
  await tells("D1", /^D1 =E1\+1 3 This page shows the value that the file holds, because the formula refers to its own cell, directly or through others\. Saving keeps the formula\.$/);
  await tells("F1", /^F1 =E1\+0\.5 4\.5$/);
  await tells("D2", /^D2 =SUM\(Shots\[Dose \(g\)\]\) 38$/);

  // A circle that is typed says so, and ends when it is broken.
  await goTo("H1");
  await enter("=H2+1");
  await goTo("H2");
  await enter("=H1*2");
  await tells("H1", /^H1 =H2\+1 #CYCLE! The formula refers to its own cell, directly or through others\.$/);
  await goTo("H2");
  await enter("5");
  await tells("H1", /^H1 =H2\+1 6$/);

  // A long text is shown, not loaded into the editors; a formula that no cell can hold is refused.
  await tells("D3", /^D3 long long/);
  await goTo("H3");
  await sheet.page.evaluate((text) => navigator.clipboard.writeText(text), `=1${"+1".repeat(200_000)}`);
  await sheet.page.keyboard.press("Control+v");
  await sheet.page.locator("#notice-text").filter({ hasText: /^The (?:formula|text) for H3 has 400,00\d characters, .* H3 stays as it was\.$/ }).waitFor();
  await tells("H3", /^H3 empty$/);

  // A heading that is typed over keeps its formulas, in the file too; a row below joins the table.
  await goTo("A1");
  await enter("Dose [g]");
  await tells("D2", /^D2 =SUM\(Shots\[\[Dose '\[g'\]\]\]\) 38$/);
  await goTo("A4");
  await enter("19");
  await tells("D2", / 57$/);

  const forExcel = await sheet.saved("Save copy (.xlsx)");
  const cells = outsideView(forExcel.bytes).Sheets.Log!;
  expect(cells.D2).toMatchObject({ f: "SUM(Shots[[Dose '[g']]])", v: 57 });
  expect(cells.E2).toMatchObject({ f: "_xldudf_ESPRESSO_RATIO(A2,B2)", v: 2 });
  expect([cells.D1, cells.E1, cells.F1].map(({ f, v }: { f: string; v: number }) => [f, v])).toEqual([["E1+1", 3], ["D1*2", 4], ["E1+0.5", 4.5]]);
  const plain = await sheet.saved("Save for other programs");
  const values = outsideView(plain.bytes).Sheets.Log!;
  expect(values.E2).toMatchObject({ v: 2 });
  expect(values.E2.f).toBeUndefined();
  expect(values.D2).toMatchObject({ f: "SUM(Shots[[Dose '[g']]])", v: 57 });

  await sheet.openFile(forExcel.name, forExcel.bytes);
  await sheet.opened(forExcel.name);
  await tells("D2", /^D2 =SUM\(Shots\[\[Dose '\[g'\]\]\]\) 57$/);
  expect(sheet.faults).toEqual([]);
});

it("can be let go while it is read, and what was open stays as it was", async () => {
  const sheet = await openSheet();
  const row = (number: number) => `<row r="${number}">${"ABCDEFGH".replace(/./g, (column) => `<c r="${column}${number}"><v>${number}.25</v></c>`)}</row>`;
  const rows = Array.from({ length: 5_000 }, (_, index) => row(index + 1)).join("");
  await sheet.goTo("E5");
  await sheet.enter("17");
  // Pressed the moment it shows: on a quick machine the reading could be over before a click from outside arrives.
  await sheet.page.evaluate(() => {
    const press = () => document.getElementById("progress-cancel")!.click();
    new MutationObserver(press).observe(document.getElementById("progress")!, { attributeFilter: ["hidden"] });
  });
  await sheet.openFile("long.xlsx", packed({ sheet: `<sheetData>${rows}</sheetData>` }));
  await sheet.page.locator("#notice-text").filter({ hasText: "was cancelled; the sheet is as it was" }).waitFor();
  await sheet.opened("Demo log");
  await sheet.tells("E5", /^E5 17$/);
  expect(sheet.faults).toEqual([]);
});
