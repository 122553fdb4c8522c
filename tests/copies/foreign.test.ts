import { describe, expect, it } from "vitest";
import { address } from "../../src/sheet/references.ts";
import { openWorkbook } from "../../src/xlsx/open-workbook.ts";
import { saveCopy } from "../../src/xlsx/save-copy.ts";
import { putCell, type Workbook } from "../../src/xlsx/workbook.ts";
import { after } from "./as-the-grid.ts";
import { newFaults } from "./faults.ts";
import { differingParts, foreignBytes, foreignWorkbooks, outsideCells, outsideView } from "./foreign-files.ts";

const ours = new Set<string>();
function opened(name: string, bytes = foreignBytes(name)): Workbook {
  return openWorkbook(bytes, { fileName: name, ours }).workbook;
}

/** Where outside views of two workbooks differ, apart from cells that are named. */
function differences(a: Uint8Array, b: Uint8Array, apart: ReadonlySet<string> = new Set()): string[] {
  const [from, to] = [outsideView(a), outsideView(b)];
  const found: string[] = [];
  const compare = (place: string, x: unknown, y: unknown) => {
    if (JSON.stringify(x) !== JSON.stringify(y)) found.push(`${place}: ${JSON.stringify(x)} is ${JSON.stringify(y)}`);
  };
  compare("sheets", from.SheetNames, to.SheetNames);
  compare("names", from.Workbook?.Names, to.Workbook?.Names);
  compare("hidden", from.Workbook?.Sheets?.map(({ Hidden }) => Hidden), to.Workbook?.Sheets?.map(({ Hidden }) => Hidden));
  for (const name of from.SheetNames) {
    const [x, y] = [from.Sheets[name]!, to.Sheets[name]!];
    for (const part of ["!merges", "!cols", "!autofilter"]) compare(`${name} ${part}`, x[part], y[part]);
    const [cells, others] = [outsideCells(x), outsideCells(y)];
    for (const place of new Set([...Object.keys(cells), ...Object.keys(others)])) {
      if (!apart.has(`${name}!${place}`)) compare(`${name}!${place}`, cells[place], others[place]);
    }
  }
  return found;
}

describe.each(foreignWorkbooks)("%s", (name) => {
  const bytes = foreignBytes(name);
  const before = opened(name);

  it("is saved as the very bytes where nothing was changed", async () => {
    const { bytes: copy, warnings } = await saveCopy(bytes, { before, now: structuredClone(before), journal: [] }, { fileName: name, ours });
    expect(copy).toBe(bytes);
    expect(warnings).toEqual([]);
  });

  it("differs only in the cells that were typed", async () => {
    const now = structuredClone(before);
    const typed = new Set<string>();
    for (const sheet of now.sheets) {
      const [row, column] = [sheet.cells.length + 1, 1];
      putCell(sheet, row, column, { value: `typed & <b> on ${sheet.name}` });
      typed.add(`${sheet.name}!${address(row, column)}`);
    }
    const { bytes: copy, warnings } = await saveCopy(bytes, { before, now, journal: [] }, { fileName: name, ours });
    expect(warnings).toEqual([]);
    expect(differences(bytes, copy, typed)).toEqual([]);
    expect(differingParts(bytes, copy).filter((part) => !concerned.test(part))).toEqual([]);
    expect(await newFaults(name, bytes, copy)).toEqual([]);
  });

  it("is as it was after rows and columns were inserted, saved, and deleted again", async () => {
    const inserted = before.sheets.flatMap(({ name: sheet }) => [
      { kind: "insert rows" as const, sheet, at: 1, count: 2 },
      { kind: "insert columns" as const, sheet, at: 1, count: 1 },
    ]);
    const there = await saveCopy(bytes, { before, now: after(before, inserted), journal: inserted }, { fileName: name, ours });
    const between = opened(name, there.bytes);
    const deleted = inserted.map((edit) => ({ ...edit, kind: edit.kind === "insert rows" ? ("delete rows" as const) : ("delete columns" as const) }));
    const back = await saveCopy(there.bytes, { before: between, now: after(between, deleted), journal: deleted }, { fileName: name, ours });
    expect(differences(bytes, back.bytes).filter((difference) => !expected[name]?.some((known) => difference.startsWith(known)))).toEqual([]);
  });
});

/** The sheets themselves, and what asks Excel to calculate. */
const concerned = /^xl\/worksheets\/[^/]*$|^xl\/workbook\.xml$|calcChain|^xl\/_rels\/workbook|Content_Types/i;

/**
 * Where the outside reader (0.20.3) itself reads the original wrongly (formulas that are shared over whole columns and rows), and where a look
 * of every column loses its last one, which was pushed off the sheet.
 */
const expected: Readonly<Record<string, readonly string[]>> = {
  "shared-columns.xlsx": ["Log!F8", "Log!G8", "Log!E10", "Log!E11"],
  "poi-62834.xlsx": ["problem !cols"],
};
