import { Workbook, type CellArrayFormulaValue } from "@cj-tech-master/excelts";
import { editZip, unzip } from "@cj-tech-master/excelts/archive";
import { installChartSupport } from "@cj-tech-master/excelts/chart";
import { describe, expect, it } from "vitest";
import { choose } from "../../scripts/toolbar-button.ts";
import { openSheet, useBrowser } from "./open-sheet.ts";

useBrowser();

/** A log as Excel keeps it: an add-in's functions by their name in the file, a table, a name, dates, and a chart that the page cannot show. */
async function logFile(): Promise<Uint8Array> {
  installChartSupport();
  const file = new Workbook();
  const log = file.addWorksheet("Log", { views: [{ state: "frozen", ySplit: 1 }] });
  log.addTable({
    name: "Shots",
    ref: "A1",
    headerRow: true,
    style: { theme: "TableStyleMedium2" },
    columns: [{ name: "day" }, { name: "dose" }, { name: "beverage" }, { name: "ratio" }],
    rows: [
      [null, null, null, null],
      [null, null, null, null],
    ],
  });
  log.getCell("A2").value = 46083;
  log.getCell("A2").numFmt = "dd/mm/yyyy";
  for (const [address, value] of [["B2", 18], ["C2", 36], ["B3", 20], ["C3", 38]] as const) log.getCell(address).value = value;
  log.getCell("B2").font = { bold: true, color: { argb: "FF336699" } };
  log.getCell("D2").value = { formula: "_xldudf_ESPRESSO_RATIO(B2,C2)", result: 2 };
  log.getCell("D3").value = { formula: "_xldudf_ESPRESSO_RATIO(Shots[[#This Row],[dose]],Shots[[#This Row],[beverage]])", result: 1.9 };
  log.getCell("F2").value = { formula: "_xlfn.LET(_xlpm.d,SUM(doses),_xlpm.d/2)", result: 19 };
  log.getCell("F3").value = { formula: "_xlfn.GROUPBY(B2:B3,C2:C3,SUM)", result: 18, shareType: "array", ref: "F3:G4", isDynamicArray: true };
  log.getCell("H1").value = { formula: "_xlfn._xlws.SORT(C2:C3,1,-1)", result: 38, shareType: "array", ref: "H1:H2", isDynamicArray: true };
  log.getCell("H2").value = 36;
  log.getCell("I1").value = "=HYPERLINK(1)";
  log.getCell("I2").value = "007";
  log.getColumn(2).width = 17;
  file.definedNames.add("Log!$B$2:$B$3", "doses");
  log.addColumnChart({ series: [{ name: "dose", values: "Log!$B$2:$B$3", categories: "Log!$A$2:$A$3" }] }, "K2:P12");
  log.getCell("B3").note = "weighed twice";
  log.getCell("C3").dataValidation = { type: "decimal", operator: "greaterThan", formulae: [0] };
  log.addConditionalFormatting({ ref: "B2:B3", rules: [{ type: "cellIs", operator: "greaterThan", formulae: [19], style: { font: { bold: true } }, priority: 1 }] });
  log.getCell("I3").value = { text: "notes", hyperlink: "https://example.com/" };
  const editor = await editZip(new Uint8Array(await file.xlsx.writeBuffer()));
  editor.set("xl/vbaProject.bin", "x");
  return editor.bytes();
}

async function partOf(bytes: Uint8Array, name: string): Promise<string> {
  const part = await unzip(bytes).bytes(name);
  return part ? new TextDecoder().decode(part) : "";
}

describe("an .xlsx log", () => {
  it("opens, follows an edit, and is saved as a copy that Excel can take up", async () => {
    const sheet = await openSheet();
    const { enter, tells, goTo } = sheet;
    const opened = await logFile();
    await sheet.openFile("my log.xlsx", opened);
    await sheet.opened("my log.xlsx");
    expect(await sheet.notice()).toBe(
      "This page does not show charts, macros, comments, conditional formatting, data validation and hyperlinks of my log.xlsx; a copy saved here keeps them.\n" +
        "“Log”: The formula in F3 shows the value that the file holds, because this page does not have the function GROUPBY.",
    );
    await tells("A2", /^A2 02\/03\/2026$/);
    await tells("D2", /^D2 =ESPRESSO\.RATIO\(B2,C2\) 2$/);
    await tells("D3", /^D3 =ESPRESSO\.RATIO\(Shots\[\[#This Row\],\[dose\]\],Shots\[\[#This Row\],\[beverage\]\]\) 1\.9$/);
    await tells("F2", /^F2 =LET\(d,SUM\(doses\),d\/2\) 19$/);
    await tells("F3", /^F3 =GROUPBY\(B2:B3,C2:C3,SUM\) 18 This page shows the value that the file holds, because it does not have the function GROUPBY\. Saving keeps the formula\.$/);
    await tells("H2", /^H2 36 \(filled by the formula in H1\)$/);
    await goTo("B2");
    await enter("12");
    await tells("D2", / 3$/);
    await tells("F2", / 16$/);
    // Typed as a person types it in a table.
    await goTo("D3");
    await enter("=ESPRESSO.RATIO([@dose],[@beverage])*1");
    await tells("D3", /\[\[#This Row\],\[dose\]\].* 1\.9$/);

    const { name, bytes } = await sheet.saved("Save copy (.xlsx)");
    expect(name).toBe("my log (Pucksheet copy).xlsx");
    expect(await sheet.notice()).toBe("Saved a copy as “my log (Pucksheet copy).xlsx” in your downloads.");
    for (const part of ["xl/vbaProject.bin", "xl/charts/chart1.xml", "xl/drawings/drawing1.xml", "xl/comments1.xml", "xl/styles.xml"]) {
      expect(await partOf(bytes, part), part).toBe(await partOf(opened, part));
      expect(await partOf(bytes, part), part).not.toBe("");
    }
    const xml = await partOf(bytes, "xl/worksheets/sheet1.xml");
    for (const kept of ["<conditionalFormatting", "<dataValidation ", "<hyperlink "]) expect(xml).toContain(kept);
    expect(xml).toContain("<f>_xldudf_ESPRESSO_RATIO(B2,C2)</f><v>3</v>");
    expect(xml).toContain("_xlfn.LET(_xlpm.d,SUM(doses),_xlpm.d/2)</f><v>16</v>");
    expect(xml).toMatch(/<f t="array" ref="H1:H2">_xlfn\._xlws\.SORT\(C2:C3,1,-1\)<\/f><v>38<\/v>/);
    expect(xml).toMatch(/_xlfn\.GROUPBY\(B2:B3,C2:C3,SUM\)<\/f><v>18<\/v>/);
    expect(await partOf(bytes, "xl/metadata.xml")).toContain('fDynamic="1"');

    const copy = new Workbook();
    await copy.xlsx.load(bytes);
    const log = copy.getWorksheet("Log")!;
    expect(log.getCell("B2").value).toBe(12);
    expect(log.getCell("B2").font).toMatchObject({ bold: true, color: { argb: "FF336699" } });
    expect(log.getCell("A2").numFmt).toBe("dd/mm/yyyy");
    expect((log.getCell("A2").value as Date).toISOString()).toMatch(/^2026-03-02/);
    expect(log.getCell("H2").value).toBe(36);
    expect(log.getCell("I1").value).toBe("=HYPERLINK(1)");
    expect(log.getCell("I2").value).toBe("007");
    expect(log.getColumn(2).width).toBeCloseTo(17, 0);
    expect(log.getTables().map((table) => [table.model.name, table.model.tableRef])).toEqual([["Shots", "A1:D3"]]);
    expect(copy.definedNames.model).toMatchObject([{ name: "doses", ranges: ["Log!$B$2:$B$3"] }]);
    expect(log.views[0]).toMatchObject({ state: "frozen", ySplit: 1 });

    // The copy opens again, and a copy of it has a name of its own.
    await sheet.openFile(name, bytes);
    await sheet.opened(name);
    await tells("D2", /^D2 =ESPRESSO\.RATIO\(B2,C2\) 3$/);
    await tells("H2", /^H2 36 \(filled by the formula in H1\)$/);
    expect((await sheet.saved("Save copy (.xlsx)")).name).toBe("my log (Pucksheet copy 2).xlsx");
    expect(sheet.faults).toEqual([]);
  });

  it("takes what is typed far from everything else, which going there does not change", async () => {
    const sheet = await openSheet();
    await sheet.openFile("my log.xlsx", await logFile());
    await sheet.opened("my log.xlsx");
    await sheet.tells("BZ1234", /^BZ1234 empty$/);
    expect(await sheet.page.locator("#file-state").isHidden()).toBe(true);
    await sheet.enter("=B2*2");
    await sheet.tells("BZ1234", / 36$/);
    const { bytes } = await sheet.saved("Save copy (.xlsx)");
    expect(await partOf(bytes, "xl/worksheets/sheet1.xml")).toContain('<c r="BZ1234"><f>B2*2</f><v>36</v></c>');
    expect(sheet.faults).toEqual([]);
  });

  it("is not taken for saved where something is typed while a copy is made, also a number that is no date", async () => {
    const sheet = await openSheet();
    await sheet.openFile("my log.xlsx", await logFile());
    await sheet.opened("my log.xlsx");
    await sheet.goTo("A3");
    await sheet.enter("1000000000");
    let goOn = () => {};
    const held = new Promise<void>((resolve) => (goOn = resolve));
    await sheet.page.route("**/sheet-xlsx*.js", async (route) => {
      await held;
      await route.continue();
    });
    const download = sheet.page.waitForEvent("download");
    await choose(sheet.page, "Save copy (.xlsx)");
    await sheet.goTo("B2");
    await sheet.enter("12");
    goOn();
    await download;
    await sheet.page.getByText("Saved a copy as").waitFor();
    expect(await sheet.page.locator("#file-state").isVisible()).toBe(true);
    await sheet.saved("Save copy (.xlsx)");
    await sheet.page.locator("#file-state").waitFor({ state: "hidden" });
    expect(sheet.faults).toEqual([]);
  });

  it("shows the one value that an older program took of a list, and nothing beside it", async () => {
    const file = new Workbook();
    const log = file.addWorksheet("Log");
    log.getCell("A1").value = { formula: "COLUMN(G17:H21)", result: 7 };
    log.getCell("A2").value = { formula: "A1*2", result: 14 };
    const sheet = await openSheet();
    await sheet.openFile("old.xlsx", new Uint8Array(await file.xlsx.writeBuffer()));
    await sheet.opened("old.xlsx");
    await sheet.tells("A1", /^A1 =COLUMN\(G17:H21\) 7 This page shows the value that the file holds/);
    await sheet.tells("B1", /^B1 empty$/);
    await sheet.tells("A2", / 14$/);
  });

  it("keeps the demo log through saving and opening", async () => {
    const sheet = await openSheet();
    const { name, bytes } = await sheet.saved("Save copy (.xlsx)");
    expect(name).toBe("Demo log.xlsx");
    const copy = new Workbook();
    await copy.xlsx.load(bytes);
    const log = copy.getWorksheet("Shot log")!;
    expect((log.getCell("J8").value as CellArrayFormulaValue).formula).toBe("_xldudf_ESPRESSO_RATIO(ShotLog[Dose],ShotLog[Beverage])");
    expect(log.getCell("J8").value as CellArrayFormulaValue).toMatchObject({ ref: "J8:J57", isDynamicArray: true });
    await sheet.openFile(name, bytes);
    await sheet.opened(name);
    await sheet.tells("J8", /^J8 =ESPRESSO\.RATIO\(ShotLog\[Dose\],.* 1\.9\d+$/);
    await sheet.tells("J9", /\(filled by the formula in J8\)$/);
  });

  it("is refused in words where it is none, and what was open stays open", async () => {
    const files: [string, string | Uint8Array, RegExp][] = [
      ["empty.xlsx", "", /^empty\.xlsx is empty\.$/],
      ["text.xlsx", "dose,beverage\n18,36", /^text\.xlsx is named \.xlsx but is no Excel workbook\. .*rename it to \.csv/],
      ["old.xlsx", Uint8Array.of(0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1), /with a password, or of the old \.xls kind/],
      ["cut.xlsx", Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 0, 0), /^cut\.xlsx is damaged/],
      ["picture.png", "x", /^picture\.png is neither an \.xlsx nor a \.csv file/],
      ["empty.csv", "", /^empty\.csv is empty\.$/],
      ["blank.csv", "\n\n,,\n", /^blank\.csv holds no values\.$/],
      ["packed.csv", Uint8Array.of(0x50, 0x4b, 3, 4, 20, 0, 0, 0), /^packed\.csv is a packed file/],
    ];
    const sheet = await openSheet();
    for (const [name, content, words] of files) {
      await sheet.openFile(name, content);
      await sheet.page.locator("#notice-text").filter({ hasText: words }).waitFor();
    }
    await sheet.opened("Demo log");
    expect(sheet.faults).toEqual([]);
  });
});

describe("a .csv log", () => {
  it("opens with its own separators and decimal commas, and never runs what begins like a formula", async () => {
    const sheet = await openSheet();
    const { tells } = sheet;
    await sheet.openFile("log.csv", '\ufeffTag;Dosis;Notiz\r\n2026-03-02;18,2;"zwei; ""gut"""\r\n2026-03-03;-0,5;=1+1\r\n;007;@SUM(1)\r\n');
    await sheet.opened("log.csv");
    expect(await sheet.notice()).toBe("Numbers were read with decimal commas.");
    await tells("A2", /^A2 2026-03-02$/);
    await tells("B2", /^B2 18\.2$/);
    await tells("C2", /^C2 zwei; "gut"$/);
    await tells("B3", /^B3 -0\.5$/);
    await tells("C3", /^C3 =1\+1$/);
    await tells("B4", /^B4 007$/);
    await tells("C4", /^C4 @SUM\(1\)$/);
    // Editing the cell and leaving it as it is keeps the text.
    await sheet.goTo("C3");
    await sheet.page.keyboard.press("F2");
    await sheet.page.keyboard.press("Enter");
    await tells("C3", /^C3 =1\+1$/);
    await sheet.goTo("D2");
    await sheet.enter("=ESPRESSO.RATIO(B2,36.4)");
    await tells("D2", / 2$/);
    const { name, bytes } = await sheet.saved("Save as .csv");
    expect(name).toBe("log (Pucksheet copy).csv");
    expect(bytes.toString("utf8")).toBe('\ufeffTag,Dosis,Notiz,\r\n2026-03-02,18.2,"zwei; ""gut""",2\r\n2026-03-03,-0.5,"\'=1+1",\r\n,007,"\'@SUM(1)",\r\n');
    expect(sheet.faults).toEqual([]);
  });

  it("says what had to be mended", async () => {
    const sheet = await openSheet();
    await sheet.openFile("alt.csv", Uint8Array.of(...Buffer.from("Caf\u00e9,g\n\"offen,18\nzu,19\n", "latin1")));
    await sheet.opened("alt.csv");
    expect(await sheet.notice()).toMatch(/not UTF-8, so it was read as Windows Western European.*\nLine 2 of the file could not be split into cells properly/s);
    await sheet.tells("A1", /^A1 Café$/);
    await sheet.tells("B3", /^B3 19$/);
  });

  it("asks before changes are lost", async () => {
    const sheet = await openSheet();
    await sheet.goTo("E5");
    await sheet.enter("17");
    await sheet.page.locator("#file-state").filter({ visible: true }).waitFor();
    await sheet.page.getByRole("button", { name: "New" }).click();
    await sheet.page.getByRole("button", { name: "Cancel" }).click();
    await sheet.tells("E5", /^E5 17$/);
    await sheet.page.getByRole("button", { name: "New" }).click();
    await sheet.page.getByRole("button", { name: "Go on without saving" }).click();
    await sheet.opened("New sheet");
  });
});
