/** The comparison that judges saved copies must see every kind of change. */
import { readFileSync } from "node:fs";
import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { differencesOfCopy } from "../scripts/try-files/differences.ts";
import { emptyCellOf, readOutside } from "../scripts/try-files/outside-reader.ts";
import { readOutsideCsv, saysTheSame } from "../scripts/try-files/outside-csv.ts";

const cities = readFileSync("tests/foreign/poi-DataTableCities.xlsx");
const sheet2 = "xl/worksheets/sheet2.xml";

function changed(part: string, change: (text: string) => string): Uint8Array {
  const parts = unzipSync(cities);
  const before = strFromU8(parts[part]!);
  const after = change(before);
  expect(after).not.toBe(before);
  return zipSync({ ...parts, [part]: strToU8(after) });
}

const differences = (copy: Uint8Array, typed: [string, string][] = []) => differencesOfCopy(readOutside(cities), readOutside(copy), new Map(typed));
const partDiffers = (part: string) => expect.stringContaining(`the part ${part} differs`) as string;

describe("comparing a copy with its file", () => {
  it("finds nothing in the file itself, packed anew", () => {
    expect(differences(zipSync(unzipSync(cities)))).toEqual([]);
  });

  it.each([
    ["a value", sheet2, (xml: string) => xml.replace("<v>31.23</v>", "<v>31.24</v>"), "Table!D3 value: 31.23 → 31.24"],
    ["a merge", sheet2, (xml: string) => xml.replace(/<pageMargins/, '<mergeCells count="1"><mergeCell ref="P1:Q2"/></mergeCells><pageMargins'), "Table merge P1:Q2: nothing → there"],
    ["a hidden row", sheet2, (xml: string) => xml.replace('<row r="3" ', '<row r="3" hidden="1" '), "Table row 3: nothing → height undefined, hidden"],
    ["a formula", "xl/worksheets/sheet1.xml", (xml: string) => xml.replace("BigCity[[#Totals],[Latitude]]", "25.4"), "Formula!A5 formula: BigCity[[#Totals],[Latitude]] → 25.4"],
    ["a format", "xl/styles.xml", (xml: string) => xml.replaceAll('formatCode="0.00&quot;°&quot;"', 'formatCode="0.00"'), 'Table!D3 format: 0.00"°" → 0.00'],
    ["a table's area", "xl/tables/table1.xml", (xml: string) => xml.replace('ref="C2:F15"', 'ref="C2:F14"'), "table BigCity area: C2:F15 → C2:F14"],
    ["a heading of a table", "xl/tables/table1.xml", (xml: string) => xml.replace('name="Latitude"', 'name="North"'), "table BigCity columns: City | Latitude | Longitude | Population → City | North | Longitude | Population"],
    ["a sheet's name", "xl/workbook.xml", (xml: string) => xml.replace('name="PivotTable"', 'name="Pivot"'), "sheets: Formula | Table | PivotTable → Formula | Table | Pivot"],
  ] as const)("finds %s that changed", (_, part, change, words) => {
    const copy = changed(part, change);
    expect(differences(copy)).toEqual(expect.arrayContaining([words, partDiffers(part)]));
    // Typing elsewhere excuses none of it.
    expect(differences(copy, [["Table!Z99", "typed"]])).toContain(words);
  });

  it("finds a part of any kind that changed, went or came", () => {
    const parts = unzipSync(cities);
    const { "xl/charts/chart1.xml": _, ...without } = parts;
    expect(differences(zipSync(without))).toEqual(["the part xl/charts/chart1.xml is gone"]);
    expect(differences(zipSync({ ...parts, "xl/more.xml": strToU8("<x/>") }))).toEqual(["the part xl/more.xml is new"]);
    expect(differences(changed("xl/charts/chart1.xml", (xml) => `${xml} `), [["Table!Z99", "typed"]])).toEqual(["the part xl/charts/chart1.xml differs"]);
  });

  it("excuses what was typed, where it was typed, and what any edit has to leave", () => {
    const row = '<row r="99"><c r="Z99" t="inlineStr"><is><t>typed</t></is></c></row></sheetData>';
    const typing = changed(sheet2, (xml) => xml.replace("</sheetData>", row).replace(/<dimension ref="[^"]*"/, '<dimension ref="C1:Z99"'));
    expect(differences(typing, [["Table!Z99", "typed"]])).toEqual([]);
    expect(differences(typing, [["Table!Z99", "other"]])).toEqual(['Table!Z99 value: nothing → "typed"']);
    expect(differences(typing, [["Table!Y99", "typed"]])).toEqual(['Table!Z99 value: nothing → "typed"', partDiffers(sheet2)]);
    const both = changed(sheet2, (xml) => xml.replace("</sheetData>", row).replace("<pageMargins ", '<pageMargins footer2="1" '));
    expect(differences(both, [["Table!Z99", "typed"]])).toEqual([partDiffers(sheet2)]);
  });

  it("types where nothing is, and no formula over whole columns or rows looks", () => {
    const [, table] = readOutside(cities).sheets;
    // Its last cell is L15.
    expect(emptyCellOf(table!)).toBe("N17");
    const whole = { s: { r: 0, c: 0 }, e: { r: 1_048_575, c: 16_383 } };
    expect(emptyCellOf({ ...table!, merges: [whole] })).toBeUndefined();
    expect(emptyCellOf({ ...table!, merges: [{ ...whole, e: { r: 1_048_575, c: 0 } }] })).toBe("B1");
  });
});

describe("comparing a .csv with the cells it became", () => {
  it("reads texts as they stand", () => {
    const bytes = new TextEncoder().encode('\ufeffa,b\n007,"356,064"\n,=1+1\n');
    expect(Object.fromEntries(readOutsideCsv(bytes))).toEqual({ A1: "a", B1: "b", A2: "007", B2: "356,064", B3: "=1+1" });
  });

  it.each([
    ["18.2", 18.2, true],
    ["18,2", 18.2, true],
    ["5.33E-06", 0.00000533, true],
    ["007", "007", true],
    ["356,064", "356,064", true],
    ["356,064", 356.064, false],
    ["2026-11-27", 46353, true],
    ["2026-11-28", 46353, false],
    ["00:00:27", 0.0003125, true],
    ["18.2", 18.3, false],
    ["yes", "no", false],
    ["two\r\nlines", "two\nlines", true],
  ] as const)("%s and %s", (text, value, same) => {
    expect(saysTheSame(text, value)).toBe(same);
  });
});
