import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { openWorkbook } from "../../src/xlsx/open-workbook.ts";
import { saveCopy } from "../../src/xlsx/save-copy.ts";
import { putCell } from "../../src/xlsx/workbook.ts";
import { inMemory, Zip } from "../../src/xlsx/zip.ts";
import { mostRows } from "../../src/sheet/references.ts";
import { foreignBytes, lockedFile, outsideView } from "./foreign-files.ts";
import { packed, relation, worksheet } from "./packed.ts";

const options = { fileName: "Odd.xlsx", ours: new Set<string>() };
const open = (bytes: Uint8Array) => openWorkbook(bytes, options);

function many(count: number, make: (number: number) => string): string {
  return Array.from({ length: count }, (_, index) => make(index + 1)).join("");
}

function oneCell(cell: string): string {
  return `<sheetData><row r="1">${cell}</row></sheetData>`;
}

describe("is refused in words that say what is wrong:", () => {
  it.each<[string, Uint8Array, RegExp]>([
    ["nothing", new Uint8Array(), /^Odd\.xlsx is empty\.$/],
    ["a text", strToU8("dose,beverage"), /is no Excel workbook.*rename it to \.csv/],
    ["a locked workbook", foreignBytes(lockedFile), /with a password/],
    ["an encrypted part", encrypted(packed()), /locked with a password/],
    ["another packed file", zipSync({ "word/document.xml": strToU8("<w/>") }), /is no Excel workbook, but another kind of packed file/],
    ["a binary workbook", zipSync({ "xl/workbook.bin": strToU8("x") }), /is a binary workbook/],
    ["a cut file", packed().slice(0, 900), /is damaged/],
    ["a damaged part", withOtherChecksum(packed()), /is damaged/],
    ["parts twice", withTwice(), /holds one of its parts twice/],
    ["a part that unpacks to too much", packed({ sheet: `<sheetData>${" ".repeat(270_000_000)}</sheetData>` }), /unpacks to more than this page can hold/],
    ["a part that unpacks to more than it says", withSmallerSize(packed({ sheet: `<sheetData>${" ".repeat(100_000)}</sheetData>` })), /is damaged/],
    [
      "one long text in every cell",
      packed({
        strings: `<si><t>${"x".repeat(32_000)}</t></si>`,
        sheet: `<sheetData>${many(8_000, (row) => `<row r="${row}"><c r="A${row}" t="s"><v>0</v></c></row>`)}</sheetData>`,
      }),
      /unpacks to more text/,
    ],
    ["entities of its own", packed({ parts: { "xl/worksheets/sheet1.xml": `<!DOCTYPE a [<!ENTITY x "y">]><worksheet>&x;</worksheet>` } }), /defines entities of its own/],
    ["no XML", packed({ parts: { "xl/worksheets/sheet1.xml": "<worksheet><sheetData>" } }), /part “xl\/worksheets\/sheet1\.xml” could not be read/],
    ["a text that is not there", packed({ strings: "<si><t>dose</t></si>", sheet: oneCell(`<c r="A1" t="s"><v>1</v></c>`) }), /lacks the text of the cell A1 of the sheet “Log”/],
    ["no sheet", packed({ sheets: "" }), /holds no worksheet/],
    ["a row beyond the last", packed({ sheet: `<sheetData><row r="${mostRows + 1}"/></sheetData>` }), /a row with the number 1,048,577/],
    ["a column beyond the last", packed({ sheet: oneCell(`<c r="XFE1"><v>1</v></c>`) }), /the cell XFE1/],
    ["a formula too long", packed({ sheet: oneCell(`<c r="A1"><f>${"A1+".repeat(130_000)}1</f></c>`) }), /the formula in A1 with 390,001 characters/],
    ["a formula too deep", packed({ sheet: oneCell(`<c r="A1"><f>${"ABS(".repeat(65)}1${")".repeat(65)}</f></c>`) }), /more than 64 levels/],
  ])("%s", (_, bytes, words) => {
    expect(() => open(bytes)).toThrow(words);
  });
});

describe("is read all the same:", () => {
  it("a package whose parts are named in capitals, and by absolute targets", async () => {
    const inside = oneCell(`<c r="A1"><v>18</v></c><c r="B1"><f>A1*2</f><v>36</v></c>`);
    const bytes = withParts(packed({ sheet: inside }), (name, text) => [
      name.replace("worksheets/sheet1.xml", "worksheets/Sheet1.xml"),
      text.replace('Target="worksheets/sheet1.xml"', 'Target="/xl/worksheets/sheet1.xml"').replace('Target="xl/workbook.xml"', 'Target="/xl/workbook.xml"'),
    ]);
    const { workbook, notes } = open(bytes);
    expect([workbook.sheets[0]!.cells[0]!.map((cell) => cell!.value), notes]).toEqual([[18, 36], []]);
    const now = structuredClone(workbook);
    putCell(now.sheets[0]!, 0, 0, { value: 20 });
    const copy = await saveCopy(bytes, { before: workbook, now, journal: [] }, options);
    expect(outsideView(copy.bytes).Sheets.Log!.A1.v).toBe(20);
    expect(new Zip(inMemory(copy.bytes)).names).toEqual(new Zip(inMemory(bytes)).names);
  });

  it("a text without its number, which is blank and not the first text", () => {
    const { workbook } = open(packed({ strings: "<si><t>Partner</t></si>", sheet: oneCell(`<c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v/></c><c r="C1" t="s"/>`) }));
    expect(workbook.sheets[0]!.cells[0]!.map((cell) => cell?.value)).toEqual(["Partner"]);
  });

  it("names that are equal on two sheets, each with its own meaning", () => {
    const { workbook } = open(
      packed({
        sheets: `<sheet name="Log" sheetId="1" r:id="rId1"/><sheet name="Other" sheetId="2" r:id="rId9"/>`,
        names: `<definedName name="dose" localSheetId="0">Log!$A$1</definedName><definedName name="dose" localSheetId="1">Other!$A$1</definedName>`,
        sheet: oneCell(`<c r="A1"><v>10</v></c><c r="B1"><f>dose</f><v>10</v></c>`),
        parts: { "xl/worksheets/sheet2.xml": worksheet(oneCell(`<c r="A1"><v>36.2</v></c><c r="B1"><f>dose</f><v>36.2</v></c>`)) },
        workbookRelations: relation("rId9", "worksheet", "worksheets/sheet2.xml"),
        contentTypes: `<Override PartName="/xl/worksheets/sheet2.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`,
      }),
    );
    expect(workbook.names.map(({ name, refersTo, sheet }) => [name, refersTo, sheet])).toEqual([["dose", "Log!$A$1", "Log"], ["dose", "Other!$A$1", "Other"]]);
  });

  it.each(["NaN", "INF", "-Infinity", "1e999", "abc"])("a cell of numbers that holds “%s”, kept in the file", async (text) => {
    const bytes = packed({ sheet: oneCell(`<c r="A1"><v>${text}</v></c><c r="B1"><v>2</v></c><c r="C1"><f>B1*2</f><v>4</v></c>`) });
    const { workbook, notes } = open(bytes);
    const [a, b] = workbook.sheets[0]!.cells[0]!;
    expect([a!.value, b!.value]).toEqual([{ error: "#NUM!" }, 2]);
    expect(notes).toEqual([`“Log”: A1 holds “${text}” as a number, which is none; #NUM! stands for it here. The file keeps it as long as it is not edited.`]);
    const now = structuredClone(workbook);
    putCell(now.sheets[0]!, 4, 0, { value: "typed" });
    const copy = await saveCopy(bytes, { before: workbook, now, journal: [] }, options);
    expect(new TextDecoder().decode(new Zip(inMemory(copy.bytes)).read("xl/worksheets/sheet1.xml"))).toContain(`<v>${text}</v>`);
    expect(copy.warnings).toEqual([]);
  });

  it("a column list that reaches beyond the last column, clipped to what is used", () => {
    const { columns } = open(packed({ sheet: `<cols><col min="1" max="99999999" width="5"/></cols>${oneCell(`<c r="B1"><v>1</v></c>`)}` })).workbook.sheets[0]!;
    expect(columns[1]).toEqual({ width: 5 });
    expect(columns.length).toBeLessThan(100);
  });

  it("a merge over the whole sheet, clipped to what is used", () => {
    const { merges } = open(packed({ sheet: `${oneCell(`<c r="A1"><v>1</v></c>`)}<mergeCells><mergeCell ref="A1:XFD${mostRows}"/></mergeCells>` })).workbook.sheets[0]!;
    expect(merges).toHaveLength(1);
    expect(merges[0]!.bottom).toBeLessThan(1000);
    expect(merges[0]!.right).toBeLessThan(100);
  });

  it("57,000 merges where nothing stands", () => {
    const sheet = `${oneCell(`<c r="A1"><v>1</v></c>`)}<mergeCells>${many(57_000, (row) => `<mergeCell ref="A${row}:B${row}"/>`)}</mergeCells>`;
    expect(open(packed({ sheet })).workbook.sheets[0]!.merges.length).toBeLessThan(1000);
  });

  it("array formulas over whole columns", () => {
    const sheet = `<sheetData>${many(500, (row) => `<row r="${row}"><c r="A${row}"><f t="array" ref="A1:A${mostRows}">B:B*2</f><v>1</v></c></row>`)}</sheetData>`;
    expect(open(packed({ sheet })).workbook.sheets[0]!.cells[0]![0]!.spill).toEqual({ rows: 500, columns: 1 });
  });

  it("looks of a whole column, as far as it is used", () => {
    const sheet = `<sheetData>${many(30_000, (row) => `<row r="${row}"><c r="A${row}" s="1"/></row>`)}</sheetData>`;
    const styles = `<cellXfs><xf/><xf numFmtId="14"/></cellXfs>`;
    expect(open(packed({ sheet, styles })).workbook.sheets[0]!.cells.length).toBeLessThan(1000);
  });

  it("elements deep inside one another, and names in rings", () => {
    const deep = `<sheetData/>${"<a>".repeat(50_000)}${"</a>".repeat(50_000)}`;
    expect(open(packed({ sheet: deep, names: `<definedName name="a">b</definedName><definedName name="b">a</definedName>` })).workbook.names).toHaveLength(2);
  });

  it("an empty sheet", () => {
    expect(open(packed()).workbook.sheets).toEqual([{ name: "Log", cells: [], columns: [], rows: [], merges: [], tables: [] }]);
  });

  it("a text longer than Excel takes, which stays as long as it is not edited", async () => {
    const bytes = packed({ sheet: oneCell(`<c r="A1" t="inlineStr"><is><t>${"x".repeat(32_768)}</t></is></c>`) });
    const { workbook, notes } = open(bytes);
    expect(notes).toEqual([expect.stringMatching(/^“Log”: A1 holds a text of more than 32,767 characters/)]);
    const now = structuredClone(workbook);
    putCell(now.sheets[0]!, 4, 0, { value: 1 });
    const saved = await saveCopy(bytes, { before: workbook, now, journal: [] }, options);
    expect(String(outsideView(saved.bytes).Sheets.Log!.A1.v)).toHaveLength(32_768);
    putCell(now.sheets[0]!, 0, 0, { value: "y".repeat(40_000) });
    await expect(saveCopy(bytes, { before: workbook, now, journal: [] }, options)).rejects.toThrow(/^The copy was not saved: A1 on “Log” holds 40,000 characters/);
  });

  it("a document property called constructor, beside the units", async () => {
    const types = "http://schemas.openxmlformats.org/officeDocument/2006";
    const property = `<property fmtid="{D5CDD505-2E9C-101B-9397-08002B2CF9AE}" pid="2" name="constructor"><vt:lpwstr>x</vt:lpwstr></property>`;
    const bytes = packed({
      parts: { "docProps/custom.xml": `<Properties xmlns="${types}/custom-properties" xmlns:vt="${types}/docPropsVTypes">${property}</Properties>` },
      packageRelations: `<Relationship Id="rId9" Type="${types}/relationships/custom-properties" Target="/docProps/custom.xml"/>`,
    });
    const { workbook } = open(bytes);
    expect(workbook.units).toBeUndefined();
    const saved = await saveCopy(bytes, { before: workbook, now: { ...workbook, units: "mass=oz" }, journal: [] }, options);
    expect(open(saved.bytes).workbook.units).toBe("mass=oz");
    expect(new TextDecoder().decode(new Zip(inMemory(saved.bytes)).read("docProps/custom.xml"))).toContain(property);
  });
});

it("refuses more cells than the caller can show", () => {
  const bytes = packed({ sheet: oneCell(many(5, (column) => `<c r="${"ABCDE"[column - 1]}1"><v>1</v></c>`)) });
  expect(() => openWorkbook(bytes, { ...options, mostCells: 4 })).toThrow(/holds more than 4 cells/);
});

/** Every entry marked as encrypted. */
function encrypted(bytes: Uint8Array): Uint8Array {
  return patched(bytes, 0x02014b50, (view, at) => view.setUint16(at + 8, view.getUint16(at + 8, true) | 1, true));
}

/** Two entries under one name. */
function withTwice(): Uint8Array {
  const twice = zipSync({ "a.xml": strToU8("<a/>"), "b.xml": strToU8("<a/>") });
  return patched(twice, 0x02014b50, (view, at) => view.setUint8(at + 46, "a".charCodeAt(0)));
}

function withOtherChecksum(bytes: Uint8Array): Uint8Array {
  return patched(bytes, 0x02014b50, (view, at) => view.setUint32(at + 16, 1, true));
}

/** Every entry says that it unpacks to a byte. */
function withSmallerSize(bytes: Uint8Array): Uint8Array {
  return patched(bytes, 0x02014b50, (view, at) => view.setUint32(at + 24, 1, true));
}

function patched(bytes: Uint8Array, signature: number, change: (view: DataView, at: number) => void): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  for (let at = 0; at + 46 <= copy.length; at++) if (view.getUint32(at, true) === signature) change(view, at);
  return copy;
}

/** The package with each part under another name or with another text. */
function withParts(bytes: Uint8Array, change: (name: string, text: string) => readonly [string, string]): Uint8Array {
  const parts = Object.entries(unzipSync(bytes)).map(([name, content]) => change(name, strFromU8(content)));
  return zipSync(Object.fromEntries(parts.map(([name, text]) => [name, strToU8(text)])));
}
