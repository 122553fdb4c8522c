/** The rows of workbooks as they stream, against the workbooks as they open whole. */
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { SpilledTexts } from "../src/hosts/command-line/spilled-texts.ts";
import { openWorkbook } from "../src/xlsx/open-workbook.ts";
import { streamedSheets, type TextStore } from "../src/xlsx/stream-rows.ts";
import { inMemory } from "../src/xlsx/zip.ts";
import { foreignBytes, foreignWorkbooks } from "./copies/foreign-files.ts";
import { packed } from "./copies/packed.ts";

type Values = Record<string, { value: unknown; format: string }>;

function textsInMemory(): TextStore {
  const texts: string[] = [];
  return { add: (text) => texts.push(text), at: (number) => texts[number] };
}

function streamed(bytes: Uint8Array): { name: string; cells: Values }[] {
  return streamedSheets(inMemory(bytes), "Odd.xlsx", textsInMemory()).map((sheet) => {
    const cells: Values = {};
    for (const row of sheet.rows()) row.cells.forEach((cell, column) => cell && (cells[`${row.row} ${column}`] = { ...cell }));
    return { name: sheet.name, cells };
  });
}

function opened(bytes: Uint8Array): { name: string; cells: Values }[] {
  const { workbook } = openWorkbook(bytes, { fileName: "Odd.xlsx", ours: new Set() });
  return workbook.sheets.map(({ name, cells }) => ({
    name,
    cells: Object.fromEntries(cells.flatMap((line, row) => line?.flatMap((cell, column) => {
      return cell?.value === undefined ? [] : [[`${row} ${column}`, { value: cell.value, format: cell.style?.format ?? "" }]];
    }) ?? [])),
  }));
}

describe("rows that stream", () => {
  it.each(foreignWorkbooks)("are those of %s", (name) => {
    expect(streamed(foreignBytes(name))).toEqual(opened(foreignBytes(name)));
  });

  it("are those of rows without numbers, cells under another row and parts in UTF-16", () => {
    const sheet = `<sheetData><row><c t="inlineStr"><is><r><t>do</t></r><r><t>se</t></r><rPh sb="0" eb="1"><t>x</t></rPh></is></c><c t="b"><v>1</v></c></row>
      <row/><row r="7"><c r="B7" t="e"><v>#N/A</v></c></row><row r="8"><c r="C9" t="str"><f>A1</f><v>a_x000D_b</v></c></row></sheetData>`;
    const wide = Buffer.from(`\ufeff<worksheet>${sheet}</worksheet>`, "utf16le");
    for (const bytes of [packed({ sheet }), packed({ parts: { "xl/worksheets/sheet1.xml": new Uint8Array(wide) } })]) {
      expect(streamed(bytes)).toEqual(opened(bytes));
      expect(Object.keys(streamed(bytes)[0]!.cells)).toEqual(["0 0", "0 1", "6 1", "8 2"]);
    }
  });

  it("end in words where the file is no workbook, or damaged further on", () => {
    const rows = Array.from({ length: 50_000 }, (_, row) => `<row r="${row + 1}"><c r="A${row + 1}"><v>${row}</v></c></row>`).join("");
    expect(() => streamed(zipSync({ "a.txt": strToU8("x") }))).toThrow(/is no Excel workbook/);
    expect(() => streamed(packed({ parts: { "xl/worksheets/sheet1.xml": `<worksheet><sheetData>${rows}` } }))).toThrow(/part “xl\/worksheets\/sheet1\.xml” could not be read/);
    expect(() => streamed(packed({ parts: { "xl/worksheets/sheet1.xml": `<!DOCTYPE a [<!ENTITY x "y">]><worksheet>&x;</worksheet>` } }))).toThrow(/entities of its own/);
  });

  it("end in words where the texts are more than can be kept", () => {
    const text = `<si><t>${"x".repeat(30_000)}</t></si>`;
    const bytes = packed({ sheet: "<sheetData/>", strings: text.repeat(70) });
    const forgetful: TextStore = { add: () => undefined, at: () => undefined };
    expect(() => streamedSheets(inMemory(bytes), "Odd.xlsx", forgetful, 2_000_000).map((sheet) => [...sheet.rows()])).toThrow(/more than 2,000,000 characters of text/);
  });
});

describe("texts that memory has no room for", () => {
  it("come back from their file as they were, and the file goes", () => {
    const folder = mkdtempSync(join(tmpdir(), "pucksheet-texts-"));
    try {
      const path = join(folder, "texts");
      const texts = new SpilledTexts(path);
      const text = (number: number): string => `${number} ${"né\ud83d ".repeat(number % 300)}`;
      for (let number = 0; number < 40_000; number++) texts.add(text(number));
      expect(existsSync(path)).toBe(true);
      for (const number of [0, 1, 17_000, 29_999, 39_998, 39_999]) expect(texts.at(number)).toBe(text(number));
      expect([texts.at(40_000), texts.at(-1), texts.at(1.5), texts.at(NaN)]).toEqual([undefined, undefined, undefined, undefined]);
      texts.close();
      expect(existsSync(path)).toBe(false);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
