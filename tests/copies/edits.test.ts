import { describe, expect, it } from "vitest";
import { readySheetIds, withCompanion } from "../../src/ready-sheets/index.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import type { Journal } from "../../src/xlsx/journal.ts";
import { openWorkbook } from "../../src/xlsx/open-workbook.ts";
import { withReadySheet } from "../../src/xlsx/ready-sheets.ts";
import { saveCopy, type CopyOptions } from "../../src/xlsx/save-copy.ts";
import { emptySheet, putCell, type Cell, type Workbook } from "../../src/xlsx/workbook.ts";
import { writeXlsx } from "../../src/xlsx/xlsx.ts";
import { inMemory, Zip } from "../../src/xlsx/zip.ts";
import { after } from "./as-the-grid.ts";
import { newFaults } from "./faults.ts";
import { foreignBytes, outsideView } from "./foreign-files.ts";
import { packed, relation, worksheet } from "./packed.ts";

const ours = new Set(["ESPRESSO.RATIO", "ESPRESSO.GRIND.FORTIME"]);
const options = { fileName: "Log.xlsx", ours };

function open(bytes: Uint8Array): Workbook {
  return openWorkbook(bytes, options).workbook;
}

function cellAt(workbook: Workbook, row: number, column: number, sheet = 0): Cell {
  return workbook.sheets[sheet]!.cells[row]?.[column] ?? {};
}

function partOf(bytes: Uint8Array, name: string): string {
  return new TextDecoder().decode(new Zip(inMemory(bytes)).read(name));
}

/** Saves what `change` makes of the opened workbook after the journal. */
async function edited(bytes: Uint8Array, change: (now: Workbook) => void = () => undefined, journal: Journal = [], form: CopyOptions["form"] = "for Excel") {
  const before = open(bytes);
  const now = structuredClone(after(before, journal));
  change(now);
  return saveCopy(bytes, { before, now, journal }, { ...options, form });
}

describe("cells", () => {
  const rows = `<sheetData><row r="1" spans="1:2"><c r="A1"><v>1</v></c><c r="B1"><f>A1*2</f><v>2</v></c></row></sheetData>`;

  it("that were not touched keep their very characters", async () => {
    const { bytes } = await edited(packed({ sheet: rows }), ({ sheets }) => putCell(sheets[0]!, 2, 0, { value: 5 }));
    expect(partOf(bytes, "xl/worksheets/sheet1.xml")).toContain(rows.replace("</sheetData>", `<row r="3"><c r="A3"><v>5</v></c></row></sheetData>`));
  });

  it("whose formula gives something else keep the formula as it stands", async () => {
    const { bytes } = await edited(packed({ sheet: rows }), (now) => (cellAt(now, 0, 1).value = 3));
    expect(partOf(bytes, "xl/worksheets/sheet1.xml")).toContain(`<c r="B1"><f>A1*2</f><v>3</v></c>`);
  });

  it("take the look of their row or column in the file", async () => {
    const sheet = `<cols><col min="3" max="3" style="1"/></cols><sheetData><row r="2" s="2" customFormat="1"/></sheetData>`;
    const styles = `<cellXfs><xf/><xf numFmtId="2"/><xf numFmtId="10"/></cellXfs>`;
    const { bytes } = await edited(packed({ sheet, styles }), ({ sheets }) => {
      putCell(sheets[0]!, 0, 2, { value: 1 });
      putCell(sheets[0]!, 1, 2, { value: 1 });
    });
    expect(cellAt(open(bytes), 0, 2).style?.format).toBe("0.00");
    expect(cellAt(open(bytes), 1, 2).style?.format).toBe("0.00%");
  });

  it("of an add-in’s function are spelled for Excel, and spill marked", async () => {
    const { bytes } = await edited(packed({ sheet: rows }), ({ sheets }) => {
      putCell(sheets[0]!, 3, 0, { formula: "ESPRESSO.RATIO(A1:A2,B1:B2)", value: 2, spill: { rows: 2, columns: 1 } });
      putCell(sheets[0]!, 4, 0, { value: 2.5, spilled: true });
    });
    expect(partOf(bytes, "xl/worksheets/sheet1.xml")).toContain(
      `<c r="A4" cm="1"><f t="array" ref="A4:A5">_xldudf_ESPRESSO_RATIO(A1:A2,B1:B2)</f><v>2</v></c></row><row r="5"><c r="A5"><v>2.5</v></c></row>`,
    );
    expect(cellAt(open(bytes), 4, 0)).toEqual({ value: 2.5, spilled: true });
    expect(await newFaults("spill.xlsx", packed({ sheet: rows }), bytes)).toEqual([]);
  });

  it("typed in the way of spilled results are still there afterwards", async () => {
    const { bytes } = await edited(packed({ sheet: rows }), ({ sheets }) => {
      putCell(sheets[0]!, 0, 2, { formula: "ESPRESSO.RATIO(A1:A3,B1:B3)", value: { error: "#SPILL!" }, spill: { rows: 3, columns: 1 } });
      putCell(sheets[0]!, 1, 2, { value: "typed" });
    });
    expect(cellAt(open(bytes), 1, 2)).toEqual({ value: "typed" });
    expect(outsideView(bytes).Sheets.Log!.C2.v).toBe("typed");
  });

  it("that share a formula whose first cell is replaced go on with it", async () => {
    const sheet = `<sheetData><row r="1"><c r="A1"><f t="shared" ref="A1:A3" si="0">B1*2</f><v>1</v></c></row><row r="2"><c r="A2"><f t="shared" si="0"/><v>2</v></c></row><row r="3"><c r="A3"><f t="shared" si="0"/><v>3</v></c></row></sheetData>`;
    const { bytes } = await edited(packed({ sheet }), ({ sheets }) => putCell(sheets[0]!, 0, 0, { value: 7 }));
    expect([cellAt(open(bytes), 1, 0).formula, cellAt(open(bytes), 2, 0).formula]).toEqual(["B2*2", "B3*2"]);
    expect(outsideView(bytes).Sheets.Log!.A3.f).toBe("B3*2");
  });

  it("inside a fixed array formula let it go, and it is said", async () => {
    const sheet = `<sheetData><row r="1"><c r="A1"><f t="array" ref="A1:A3">B1:B3*2</f><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row><row r="3"><c r="A3"><v>3</v></c></row></sheetData>`;
    const { bytes, warnings } = await edited(packed({ sheet }), ({ sheets }) => putCell(sheets[0]!, 1, 0, { value: 9 }));
    expect([0, 1, 2].map((row) => cellAt(open(bytes), row, 0).value)).toEqual([1, 9, 3]);
    expect(warnings).toEqual([expect.stringMatching(/^“Log”: a cell inside A1:A3 was changed/)]);
  });

  it("in a what-if table that is changed become plain values, and it is said", async () => {
    const sheet = `<sheetData><row r="1"><c r="A1"><f t="dataTable" ref="A1:A2" dt2D="0" dtr="0" r1="C1"/><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row></sheetData>`;
    const { bytes, warnings } = await edited(packed({ sheet }), ({ sheets }) => putCell(sheets[0]!, 1, 0, { value: 9 }));
    expect(partOf(bytes, "xl/worksheets/sheet1.xml")).not.toContain("dataTable");
    expect(cellAt(open(bytes), 0, 0)).toEqual({ value: 1 });
    expect(warnings).toHaveLength(1);
  });

  it("keep the backslashes of their format", async () => {
    const bytes = foreignBytes("formats-names.xlsx");
    const formats = open(bytes).sheets[0]!.cells.flatMap((line) => line?.map((cell) => cell?.style?.format) ?? []);
    expect(formats).toContain("0.0\\ \\g");
    const copy = await edited(bytes, ({ sheets }) => putCell(sheets[0]!, 20, 0, { value: 5, style: { format: '0.0\\ \\g"x"' } }));
    expect(cellAt(open(copy.bytes), 20, 0).style?.format).toBe('0.0\\ \\g"x"');
  });

  it("count their days from 1904 in the file and from 1900 here, and clock times from nothing", async () => {
    const styles = `<cellXfs><xf/><xf numFmtId="14"/><xf numFmtId="45"/></cellXfs>`;
    const sheet = `<sheetData><row r="1"><c r="A1" s="1"><v>1</v></c><c r="B1" s="2"><v>0.0003125</v></c><c r="C1"><f>YEAR(A1)</f><v>1904</v></c><c r="D1"><f>B1*2</f><v>0.000625</v></c></row></sheetData>`;
    const bytes = packed({ sheet, styles, workbook: `<workbookPr date1904="1"/>` });
    const workbook = open(bytes);
    // 2 January 1904 is the day 1463 from the end of 1899.
    expect([cellAt(workbook, 0, 0).value, cellAt(workbook, 0, 1).value]).toEqual([1463, 0.0003125]);
    expect([cellAt(workbook, 0, 2).kept, cellAt(workbook, 0, 3).kept]).toEqual([expect.stringContaining("counts its days from 1904"), undefined]);
    const copy = await edited(bytes, (now) => (cellAt(now, 0, 0).value = 1464));
    expect(partOf(copy.bytes, "xl/worksheets/sheet1.xml")).toContain(`<c r="A1" s="1"><v>2</v></c>`);
  });
});

it("a result of which the first is an error is read as one result, and not as values in its own way", async () => {
  const sheet = emptySheet("Log");
  putCell(sheet, 0, 0, { formula: "ESPRESSO.RATIO(B1:B3,C1:C3)", value: { error: "#N/A" }, spill: { rows: 3, columns: 1 } });
  putCell(sheet, 1, 0, { value: { error: "#VALUE!" }, spilled: true });
  putCell(sheet, 2, 0, { value: 2, spilled: true });
  const opened = open(await writeXlsx({ sheets: [sheet], names: [] }, ours));
  expect([1, 2].map((row) => cellAt(opened, row, 0))).toMatchObject([{ value: { error: "#VALUE!" }, spilled: true }, { value: 2, spilled: true }]);
});

describe("filters", () => {
  const cell = (at: string, value: number) => `<c r="${at}"><v>${value}</v></c>`;
  const rows = [1, 2, 3, 4].map((row) => `<row r="${row}"${row === 3 ? ' hidden="1"' : ""}>${cell(`A${row}`, row)}${cell(`B${row}`, row * 2)}</row>`).join("");
  const rules =
    `<filterColumn colId="0"><filters blank="1"><filter val="2"/><filter val="&lt;4"/></filters></filterColumn>` +
    `<filterColumn colId="1"><customFilters and="1"><customFilter operator="greaterThan" val="3"/><customFilter operator="notEqual" val="6"/></customFilters></filterColumn>`;
  const filtered = (inside: string, more = "") => packed({ sheet: `<sheetData>${rows}</sheetData><autoFilter ref="A1:B4">${inside}</autoFilter>${more}` });
  const columns = [
    { column: 0, values: ["2", "<4"], blanks: true as const },
    { column: 1, conditions: [{ operator: "greaterThan", value: "3" }, { operator: "notEqual", value: "6" }], all: true as const },
  ];
  const sheetOf = (bytes: Uint8Array) => partOf(bytes, "xl/worksheets/sheet1.xml");

  it("are read with their rules, and stay to the letter where nothing becomes of them", async () => {
    const bytes = filtered(rules);
    expect(open(bytes).sheets[0]!.filter).toEqual({ area: { top: 0, left: 0, bottom: 3, right: 1 }, columns });
    const copy = await edited(bytes, (now) => putCell(now.sheets[0]!, 8, 0, { value: 1 }));
    expect(sheetOf(copy.bytes)).toContain(`<autoFilter ref="A1:B4">${rules}</autoFilter>`);
  });

  it("with rules that this page does not know stay to the letter, as hidden rows", async () => {
    for (const rule of [`<dynamicFilter type="aboveAverage"/>`, `<top10 val="2"/>`, `<filters><dateGroupItem year="2026" dateTimeGrouping="year"/></filters>`]) {
      const bytes = filtered(`<filterColumn colId="0">${rule}</filterColumn>`);
      expect(open(bytes).sheets[0]!.filter).toBeUndefined();
      const copy = await edited(bytes, (now) => putCell(now.sheets[0]!, 8, 0, { value: 1 }));
      expect(sheetOf(copy.bytes)).toContain(rule);
    }
  });

  it("follow a column that comes in, are written anew where they change, and go", async () => {
    const bytes = filtered(rules, `<dataValidations count="1"><dataValidation sqref="A2"/></dataValidations>`);
    const moved = await edited(bytes, undefined, [{ kind: "insert columns", sheet: "Log", at: 1, count: 1 }]);
    const further = [columns[0], { ...columns[1], column: 2 }];
    expect(open(moved.bytes).sheets[0]!.filter).toEqual({ area: { top: 0, left: 0, bottom: 3, right: 2 }, columns: further });
    const longer = { area: { top: 0, left: 0, bottom: 5, right: 1 }, columns: [{ column: 1, values: ["<4"] }] };
    const changed = await edited(bytes, (now) => (now.sheets[0]!.filter = longer));
    expect(sheetOf(changed.bytes)).toContain(`<autoFilter ref="A1:B6"><filterColumn colId="1"><filters><filter val="&lt;4"/></filters></filterColumn></autoFilter><dataValidations`);
    const gone = await edited(bytes, (now) => delete now.sheets[0]!.filter);
    expect(sheetOf(gone.bytes)).not.toContain("autoFilter");
  });

  it("of a table go with the table, which is filtered by its own columns alone", async () => {
    const table = (inside: string) => `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="Shots" displayName="Shots" ref="A1:B4">${inside}<tableColumns count="2"><tableColumn id="1" name="1"/><tableColumn id="2" name="2"/></tableColumns></table>`;
    const withTable = (inside: string) =>
      packed({
        sheet: `<sheetData>${rows}</sheetData><tableParts count="1"><tablePart r:id="rId1"/></tableParts>`,
        parts: { "xl/tables/table1.xml": table(inside) },
        sheetRelations: relation("rId1", "table", "../tables/table1.xml"),
        contentTypes: `<Override PartName="/xl/tables/table1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>`,
      });
    expect(open(withTable(`<autoFilter ref="A1:B4"/>`)).sheets[0]!.filter).toBeUndefined();
    const bytes = withTable(`<autoFilter ref="A1:B4">${rules}</autoFilter>`);
    expect(open(bytes).sheets[0]!.filter!.columns).toEqual(columns);
    const wider = { area: { top: 0, left: 0, bottom: 3, right: 2 }, columns: [{ column: 0, values: ["2"] }, { column: 2, values: ["x"] }] };
    const copy = await edited(withTable(`<autoFilter ref="A1:B4"/>`), (now) => (now.sheets[0]!.filter = wider));
    expect(copy.warnings).toEqual(["“Log”: Excel filters the table Shots by its own columns only. In the copy, what a column beside it left out are hidden rows."]);
    expect(partOf(copy.bytes, "xl/tables/table1.xml")).toContain(`<autoFilter ref="A1:B4"><filterColumn colId="0"><filters><filter val="2"/></filters></filterColumn></autoFilter><tableColumns`);
    expect(sheetOf(copy.bytes)).not.toContain("autoFilter");
    const gone = await edited(bytes, (now) => delete now.sheets[0]!.filter);
    expect(partOf(gone.bytes, "xl/tables/table1.xml")).toContain(`<autoFilter ref="A1:B4"/><tableColumns`);
  });

  it("of a workbook that came from no file are written too", async () => {
    const filter = { area: { top: 0, left: 0, bottom: 3, right: 1 }, columns };
    const sheet = { ...open(filtered("")).sheets[0]!, filter };
    expect(open(await writeXlsx({ sheets: [sheet], names: [] }, ours)).sheets[0]!.filter).toEqual(filter);
  });
});

describe("tables", () => {
  const table = `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="Shots" displayName="Shots" ref="A1:B4" totalsRowCount="1"><autoFilter ref="A1:B3"/><tableColumns count="2"><tableColumn id="1" name="Dose" totalsRowLabel="Total"/><tableColumn id="2" name="Time" totalsRowFunction="sum"/></tableColumns><tableStyleInfo name="TableStyleMedium2" showRowStripes="1"/></table>`;
  const text = (at: string, value: string) => `<c r="${at}" t="inlineStr"><is><t>${value}</t></is></c>`;
  const sheet =
    `<sheetData><row r="1">${text("A1", "Dose")}${text("B1", "Time")}<c r="D1"><f>SUM(Shots[Dose])</f><v>36</v></c></row><row r="2"><c r="A2"><v>18</v></c><c r="B2"><v>25</v></c></row>` +
    `<row r="3"><c r="A3"><v>18</v></c><c r="B3"><v>27</v></c></row><row r="4">${text("A4", "Total")}<c r="B4"><f>SUBTOTAL(109,Shots[Time])</f><v>52</v></c></row></sheetData>` +
    `<conditionalFormatting sqref="A2:A3"><cfRule type="expression" priority="1"><formula>A2&gt;20</formula></cfRule></conditionalFormatting>` +
    `<dataValidations count="1"><dataValidation type="list" sqref="B2:B3"><formula1>$D$1:$D$3</formula1></dataValidation></dataValidations><tableParts count="1"><tablePart r:id="rId1"/></tableParts>`;
  const bytes = packed({
    sheet,
    names: `<definedName name="longest">MAX(Shots[Time])</definedName>`,
    parts: { "xl/tables/table1.xml": table },
    sheetRelations: relation("rId1", "table", "../tables/table1.xml"),
    contentTypes: `<Override PartName="/xl/tables/table1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>`,
  });

  it("are read without their totals, whose cells are cells like others", () => {
    const { tables, cells } = open(bytes).sheets[0]!;
    expect(tables).toEqual([{ name: "Shots", area: { top: 0, left: 0, bottom: 2, right: 1 }, columns: ["Dose", "Time"], totals: true }]);
    expect(cells[3]![0]!.value).toBe("Total");
  });

  it("whose heading is changed carry it into every formula", async () => {
    const copy = await edited(bytes, (now) => {
      cellAt(now, 0, 1).value = "Shot time (s)";
      putCell(now.sheets[0]!, 6, 0, { formula: "MIN(Shots[Time])", value: 25 });
    });
    const { workbook } = openWorkbook(copy.bytes, options);
    expect(workbook.sheets[0]!.tables[0]!.columns).toEqual(["Dose", "Shot time (s)"]);
    expect(workbook.names).toEqual([{ name: "longest", refersTo: "MAX(Shots[[Shot time (s)]])" }]);
    expect([cellAt(workbook, 3, 1).formula, cellAt(workbook, 6, 0).formula]).toEqual(["SUBTOTAL(109,Shots[[Shot time (s)]])", "MIN(Shots[[Shot time (s)]])"]);
    expect(copy.warnings).toEqual([]);
    expect(await newFaults("heading.xlsx", bytes, copy.bytes)).toEqual([]);
  });

  it("grow by a row that is inserted, and everything beside follows", async () => {
    const copy = await edited(bytes, ({ sheets }) => putCell(sheets[0]!, 2, 0, { value: 19 }), [{ kind: "insert rows", sheet: "Log", at: 2, count: 1 }]);
    expect(partOf(copy.bytes, "xl/tables/table1.xml")).toContain(`ref="A1:B5"`);
    expect(partOf(copy.bytes, "xl/tables/table1.xml")).toContain(`<autoFilter ref="A1:B4"/>`);
    const xml = partOf(copy.bytes, "xl/worksheets/sheet1.xml");
    expect(xml).toContain(`<conditionalFormatting sqref="A2:A4"><cfRule type="expression" priority="1"><formula>A2&gt;20</formula>`);
    expect(xml).toContain(`sqref="B2:B4"><formula1>$D$1:$D$4</formula1>`);
  });

  it("lose a column that is deleted, and formulas on it say so", async () => {
    const copy = await edited(bytes, undefined, [{ kind: "delete columns", sheet: "Log", at: 1, count: 1 }]);
    expect(partOf(copy.bytes, "xl/tables/table1.xml")).toContain(`<tableColumns count="1"><tableColumn id="1" name="Dose"`);
    expect(open(copy.bytes).names).toEqual([{ name: "longest", refersTo: "MAX(#REF!)" }]);
    expect(await newFaults("column.xlsx", bytes, copy.bytes)).toEqual([]);
  });

  it("get headings of their own where two were typed alike", async () => {
    const copy = await edited(bytes, (now) => (cellAt(now, 0, 1).value = "Dose"));
    expect(open(copy.bytes).sheets[0]!.tables[0]!.columns).toEqual(["Dose", "Dose2"]);
    expect(copy.warnings).toEqual([expect.stringMatching(/^“Log”: B1 has to hold a heading of its own in the table Shots; in the copy it is “Dose2”\.$/)]);
  });

  it("are added, resized and taken away", async () => {
    const copy = await edited(bytes, ({ sheets }) => {
      sheets[0]!.tables = [{ name: "Waters", area: { top: 9, left: 0, bottom: 11, right: 1 }, columns: ["Name", "Hardness"] }];
      putCell(sheets[0]!, 9, 0, { value: "Name" });
    });
    const [waters, ...others] = open(copy.bytes).sheets[0]!.tables;
    expect(waters).toMatchObject({ name: "Waters", columns: ["Name", "Hardness"], area: { top: 9, left: 0, bottom: 11, right: 1 } });
    expect(others).toEqual([]);
    expect(cellAt(open(copy.bytes), 9, 1).value).toBe("Hardness");
    expect(await newFaults("tables.xlsx", bytes, copy.bytes)).toEqual([]);
  });
});

describe("sheets", () => {
  const two = packed({
    sheets: `<sheet name="Log" sheetId="1" r:id="rId1"/><sheet name="Old one" sheetId="7" r:id="rId8" state="hidden"/>`,
    sheet: `<sheetData><row r="1"><c r="A1"><f>'Old one'!B2*2</f><v>4</v></c></row></sheetData><hyperlinks><hyperlink ref="A1" location="'Old one'!B2"/></hyperlinks>`,
    names: `<definedName name="here" localSheetId="0">Log!$A$1</definedName><definedName name="there" localSheetId="1">'Old one'!$B$2</definedName>`,
    parts: { "xl/worksheets/sheet2.xml": worksheet(`<sheetData><row r="2"><c r="B2"><v>2</v></c></row></sheetData>`) },
    workbookRelations: relation("rId8", "worksheet", "worksheets/sheet2.xml"),
    contentTypes: `<Override PartName="/xl/worksheets/sheet2.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`,
  });

  it("take formulas, names and links along when they are renamed", async () => {
    const { bytes } = await edited(two, undefined, [{ kind: "rename sheet", sheet: "Old one", to: "New" }]);
    const workbook = open(bytes);
    expect(workbook.sheets.map(({ name, hidden }) => [name, hidden])).toEqual([["Log", undefined], ["New", true]]);
    expect(cellAt(workbook, 0, 0).formula).toBe("New!B2*2");
    expect(workbook.names).toEqual([{ name: "here", refersTo: "Log!$A$1", sheet: "Log" }, { name: "there", refersTo: "New!$B$2", sheet: "New" }]);
    expect(partOf(bytes, "xl/worksheets/sheet1.xml")).toContain(`location="New!B2"`);
  });

  it("leave no part behind when they are removed", async () => {
    const { bytes } = await edited(two, undefined, [{ kind: "remove sheet", sheet: "Old one" }]);
    expect(new Zip(inMemory(bytes)).names).not.toContain("xl/worksheets/sheet2.xml");
    expect(cellAt(open(bytes), 0, 0).formula).toBe("#REF!*2");
    expect(open(bytes).names.map(({ name }) => name)).toEqual(["here"]);
    expect(await newFaults("removed.xlsx", two, bytes)).toEqual([]);
  });

  it("keep their names with them when they are put in another order, shown and hidden", async () => {
    const { bytes } = await edited(two, (now) => {
      now.sheets.reverse();
      delete now.sheets[0]!.hidden;
      now.sheets[1]!.hidden = true;
    });
    const workbook = open(bytes);
    expect(workbook.sheets.map(({ name, hidden }) => [name, hidden])).toEqual([["Old one", undefined], ["Log", true]]);
    expect(workbook.names.map(({ name, sheet }) => [name, sheet])).toEqual([["here", "Log"], ["there", "Old one"]]);
  });

  it("that are ready sheets bring charts and limits, and leave the rest as it was", async () => {
    const bytes = foreignBytes("poi-DataTableCities.xlsx");
    const before = open(bytes);
    const now = readySheetIds.reduce((workbook, id) => withReadySheet(workbook, id, { units: defaultUnits, figures: "example" }).workbook, before);
    const copy = await saveCopy(bytes, { before, now, journal: [] }, options);
    const [was, is] = [outsideView(bytes), outsideView(copy.bytes)];
    for (const name of was.SheetNames) expect(is.Sheets[name]).toEqual(was.Sheets[name]);
    expect(is.SheetNames).toHaveLength(was.SheetNames.length + readySheetIds.flatMap(withCompanion).length);
    const charts = (file: Uint8Array) => new Zip(inMemory(file)).names.filter((name) => /charts\/chart\d+\.xml$/.test(name)).length;
    expect(charts(copy.bytes)).toBeGreaterThan(charts(bytes));
    expect(await newFaults("ready.xlsx", bytes, copy.bytes)).toEqual([]);
  });
});

describe("what follows rows and columns", () => {
  it.each([
    ["the ranges of charts", "poi-DataTableCities.xlsx", /charts\/chart\d+\.xml$/],
    ["the ranges of charts beside pictures", "poi-simple-monthly-budget.xlsx", /charts\/chart\d+\.xml$/],
  ])("%s", async (_, name, parts) => {
    const bytes = foreignBytes(name);
    const journal = open(bytes).sheets.map(({ name: sheet }) => ({ kind: "insert rows" as const, sheet, at: 0, count: 3 }));
    const copy = await edited(bytes, undefined, journal);
    const rows = (from: Uint8Array) => {
      const zip = new Zip(inMemory(from));
      const formulas = zip.names.filter((part) => parts.test(part)).flatMap((part) => [...new TextDecoder().decode(zip.read(part)).matchAll(/<c:f>([^<]*)<\/c:f>/g)].map(([, formula]) => formula!));
      return formulas.flatMap((formula) => [...formula.matchAll(/\$[A-Z]+\$(\d+)/g)].map(([, row]) => Number(row)));
    };
    expect(rows(bytes).length).toBeGreaterThan(0);
    expect(rows(copy.bytes)).toEqual(rows(bytes).map((row) => row + 3));
  });

  it("is nothing where what was done was undone", async () => {
    const bytes = foreignBytes("poi-simple-table-named-range.xlsx");
    const before = open(bytes);
    const same = await saveCopy(
      bytes,
      {
        before,
        now: before,
        journal: [
          { kind: "delete rows", sheet: "Sheet1", at: 3, count: 1 },
          { kind: "rename sheet", sheet: "Sheet1", to: "Other" },
          { kind: "rename sheet", sheet: "Other", to: "Sheet1" },
          { kind: "insert rows", sheet: "Sheet1", at: 3, count: 1 },
        ],
      },
      options,
    );
    expect(same.bytes).toBe(bytes);
  });

  it("is said where it cannot: a pivot table that is torn", async () => {
    const bytes = foreignBytes("poi-DataTableCities.xlsx");
    const copy = await edited(bytes, undefined, [{ kind: "insert rows", sheet: "PivotTable", at: 7, count: 1 }]);
    expect(copy.warnings).toEqual([expect.stringMatching(/^“PivotTable”: the pivot table at B5:E18 cannot follow/)]);
  });

  it("follows a formula that this page does not calculate, though the grid does not", async () => {
    const sheet = `<sheetData><row r="1"><c r="A1"><v>1</v></c><c r="B1"><f>A1+[1]Other!A1</f><v>3</v></c></row></sheetData>`;
    const bytes = packed({ sheet });
    const before = open(bytes);
    expect(cellAt(before, 0, 1).kept).toMatch(/does not follow links to other workbooks/);
    const journal: Journal = [{ kind: "insert rows", sheet: "Log", at: 0, count: 2 }];
    const now = structuredClone(after(before, journal));
    cellAt(now, 2, 1).formula = "A1+[1]Other!A1";
    const copy = await saveCopy(bytes, { before, now, journal }, options);
    expect(cellAt(open(copy.bytes), 2, 1).formula).toBe("A3+[1]Other!A1");
  });
});

describe("the form for other programs", () => {
  it("has values where our functions stood, spilled ones too, and other formulas as they were", async () => {
    const sheet =
      `<sheetData><row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A2">_xldudf_ESPRESSO_RATIO(C1:C2,D1:D2)</f><v>2</v></c><c r="B1"><f>A1*2</f><v>4</v></c></row>` +
      `<row r="2"><c r="A2"><v>2.5</v></c></row></sheetData>`;
    const metadata = `<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><metadataTypes count="1"><metadataType name="XLDAPR"/></metadataTypes><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`;
    const bytes = packed({ sheet, parts: { "xl/metadata.xml": metadata }, workbookRelations: relation("rId5", "sheetMetadata", "metadata.xml") });
    const copy = await edited(bytes, undefined, [], "for other programs");
    const cells = outsideView(copy.bytes).Sheets.Log!;
    expect([cells.A1.v, cells.A1.f, cells.A2.v, cells.B1.f]).toEqual([2, undefined, 2.5, "A1*2"]);
  });
});
