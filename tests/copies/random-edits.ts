/** Workbooks and edits at random, as a person might make them in a grid. */
import fc from "fast-check";
import type { Journal, StructuralEdit } from "../../src/xlsx/journal.ts";
import { emptySheet, putCell, type Cell, type CellStyle, type Sheet, type Workbook } from "../../src/xlsx/workbook.ts";
import { after, isHeading } from "./as-the-grid.ts";

const text = fc.oneof(
  fc.constantFrom("dose", " two spaces ", "line\nbreak", "a & b <c> \"d\"", "_x0041_", "=not a formula", "ünïcode 😀", "\u0007bell", "TRUE", "1.50"),
  fc.string({ maxLength: 12, unit: "grapheme" }).filter((value) => value !== "" && !value.includes("\r")),
);
const value: fc.Arbitrary<NonNullable<Cell["value"]>> = fc.oneof(
  text,
  fc.double({ noNaN: true, noDefaultInfinity: true }).map((number) => (number === 0 ? 0 : number)),
  fc.integer({ min: -1000, max: 50_000 }),
  fc.boolean(),
  fc.constantFrom("#N/A", "#VALUE!", "#DIV/0!").map((error) => ({ error })),
);
const formula = fc.constantFrom(
  "A1+B$2*$C$3",
  "SUM(A:A)+SUM(2:4)",
  "SUM(B2:D9)",
  "Log!B3&\" g\"",
  "'Second sheet'!C4:C4",
  "IF(A1>1,\"A1\",Log!$A$1)",
  "ROUND(total/3,1)",
  "IFERROR(VLOOKUP(A1,B2:C9,2,FALSE),\"\")",
);
const style: fc.Arbitrary<CellStyle> = fc.record(
  {
    bold: fc.constant(true as const),
    italic: fc.constant(true as const),
    underline: fc.constant(true as const),
    size: fc.constantFrom(8, 14),
    color: fc.constantFrom("#ff0000", "#123456"),
    fill: fc.constantFrom("#ffee00", "#abcdef"),
    format: fc.constantFrom("0.00", '0.0\\ "g"', "yyyy-mm-dd", "[$-409]h:mm", "0.0\\ \\g"),
    horizontal: fc.constantFrom("left" as const, "center" as const, "right" as const),
    vertical: fc.constantFrom("top" as const, "middle" as const),
    wrap: fc.constant(true as const),
    borders: fc.constantFrom<NonNullable<CellStyle["borders"]>>(
      { top: { line: "thin", color: "#000000" } },
      { left: { line: "double", color: "#ff0000" }, bottom: { line: "hair", color: "#00ff00" } },
    ),
  },
  { requiredKeys: [] },
);
const cell: fc.Arbitrary<Cell> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ value }) },
  { weight: 2, arbitrary: fc.record({ formula, value }) },
  { weight: 1, arbitrary: fc.record({ value, style: style.filter((one) => Object.keys(one).length > 0) }) },
);
const place = fc.record({ row: fc.nat(12), column: fc.nat(7) });

/** Each takes a state and gives the next, with what goes into the journal. */
export type Edit = (workbook: Workbook) => { workbook: Workbook; journal: Journal };

function changed(workbook: Workbook, at: number, change: (sheet: Sheet) => void): { workbook: Workbook; journal: Journal } {
  const copy = structuredClone(workbook);
  change(copy.sheets[at % copy.sheets.length]!);
  return { workbook: copy, journal: [] };
}

function restructured(workbook: Workbook, edit: StructuralEdit): { workbook: Workbook; journal: Journal } {
  return { workbook: after(workbook, [edit]), journal: [edit] };
}

const sheetAt = fc.nat(5);
const line = fc.nat(8);
const count = fc.integer({ min: 1, max: 3 });
const shift = fc.constantFrom("insert rows" as const, "delete rows" as const, "insert columns" as const, "delete columns" as const);

const typed: fc.Arbitrary<Edit> = fc.tuple(sheetAt, place, cell).map(
  ([at, { row, column }, entered]) =>
    (workbook) =>
      changed(workbook, at, (sheet) => {
        if (isHeading(sheet, row, column)) return;
        const kept = entered.style ?? sheet.cells[row]?.[column]?.style;
        putCell(sheet, row, column, { ...entered, ...(kept && { style: kept }) });
      }),
);

const cleared: fc.Arbitrary<Edit> = fc.tuple(sheetAt, place).map(
  ([at, { row, column }]) =>
    (workbook) =>
      changed(workbook, at, (sheet) => {
        if (sheet.cells[row] && !isHeading(sheet, row, column)) sheet.cells[row][column] = undefined;
      }),
);

const shifted: fc.Arbitrary<Edit> = fc.tuple(sheetAt, shift, line, count).map(
  ([at, kind, first, lines]) =>
    (workbook) => {
      const { name, tables } = workbook.sheets[at % workbook.sheets.length]!;
      // No spreadsheet lets a table lose its headings alone.
      const beheads = tables.some(({ area: { top, bottom } }) => top >= first && top < first + lines && bottom >= first + lines);
      return kind === "delete rows" && beheads ? { workbook, journal: [] } : restructured(workbook, { kind, sheet: name, at: first, count: lines });
    },
);

const renamed: fc.Arbitrary<Edit> = fc.tuple(sheetAt, fc.constantFrom("Day 1", "Übung", "A1", "It's")).map(([at, to]) => (workbook) => {
  const { name } = workbook.sheets[at % workbook.sheets.length]!;
  const isTaken = workbook.sheets.some((sheet) => sheet.name === to);
  return isTaken ? { workbook, journal: [] } : restructured(workbook, { kind: "rename sheet", sheet: name, to });
});

const added: fc.Arbitrary<Edit> = fc.tuple(sheetAt, fc.constantFrom("New", "New & old")).map(([at, name]) => (workbook) => {
  if (workbook.sheets.some((sheet) => sheet.name === name)) return { workbook, journal: [] };
  const sheets = [...workbook.sheets];
  sheets.splice(at % (sheets.length + 1), 0, emptySheet(name));
  return { workbook: { ...workbook, sheets }, journal: [{ kind: "add sheet", sheet: name }] };
});

const removed: fc.Arbitrary<Edit> = sheetAt.map((at) => (workbook) => {
  if (workbook.sheets.length < 2) return { workbook, journal: [] };
  return restructured(workbook, { kind: "remove sheet", sheet: workbook.sheets[at % workbook.sheets.length]!.name });
});

const reordered: fc.Arbitrary<Edit> = fc.tuple(sheetAt, sheetAt).map(([from, to]) => (workbook) => {
  const sheets = [...workbook.sheets];
  const [moved] = sheets.splice(from % sheets.length, 1);
  sheets.splice(to % (sheets.length + 1), 0, moved!);
  return { workbook: { ...workbook, sheets }, journal: [] };
});

const merged: fc.Arbitrary<Edit> = fc.tuple(sheetAt, place).map(
  ([at, { row, column }]) =>
    (workbook) =>
      changed(workbook, at, (sheet) => {
        const area = { top: row, left: column, bottom: row + 1, right: column + 1 };
        const apart = sheet.merges.every((other) => other.right < area.left || other.left > area.right || other.bottom < area.top || other.top > area.bottom);
        if (apart) sheet.merges.push(area);
        else sheet.merges.pop();
      }),
);

const sized: fc.Arbitrary<Edit> = fc.tuple(sheetAt, line, fc.constantFrom(5, 20.5), fc.boolean()).map(
  ([at, index, size, hidden]) =>
    (workbook) =>
      changed(workbook, at, (sheet) => {
        sheet.columns[index] = { width: size, ...(hidden && { hidden: true }) };
        sheet.rows[index] = { height: size, ...(hidden && { hidden: true }) };
      }),
);

const frozen: fc.Arbitrary<Edit> = fc.tuple(sheetAt, fc.nat(3), fc.nat(3)).map(
  ([at, rows, columns]) =>
    (workbook) =>
      changed(workbook, at, (sheet) => {
        if (rows + columns > 0) sheet.frozen = { rows, columns };
        else delete sheet.frozen;
        if (rows === 1) sheet.gridlines = false;
        else delete sheet.gridlines;
      }),
);

const named: fc.Arbitrary<Edit> = fc
  .tuple(fc.constantFrom("total", "Other_name"), fc.constantFrom("SUM(Log!$A$1:$A$9)", "0.21", "Log!$B$2"))
  .map(([name, refersTo]) => (workbook) => {
    const names = workbook.names.filter((entry) => entry.name !== name);
    return { workbook: { ...workbook, names: [...names, { name, refersTo }] }, journal: [] };
  });

const units: fc.Arbitrary<Edit> = fc.constantFrom("mass=oz", "mass=g").map((text) => (workbook) => ({ workbook: { ...workbook, units: text }, journal: [] }));

export const edit: fc.Arbitrary<Edit> = fc.oneof(
  { weight: 5, arbitrary: typed },
  { weight: 3, arbitrary: shifted },
  ...[cleared, renamed, added, removed, reordered, merged, sized, frozen, named, units].map((arbitrary) => ({ weight: 1, arbitrary })),
);
