import fc from "fast-check";
import { expect } from "vitest";
import { openWorkbook } from "../../src/xlsx/open-workbook.ts";
import { saveCopy } from "../../src/xlsx/save-copy.ts";
import { cellsOf, type CellStyle, type Workbook } from "../../src/xlsx/workbook.ts";
import { foreignBytes } from "./foreign-files.ts";
import { edit } from "./random-edits.ts";

const ours = new Set(["ESPRESSO.RATIO"]);
const options = { fileName: "Log.xlsx", ours };

/** Workbooks to begin with: with shared and array formulas, names and formats, a table, a prefix, no numbers of rows, no styles. */
export const beginnings = [
  "shared-columns.xlsx",
  "formats-names.xlsx",
  "poi-simple-table-named-range.xlsx",
  "x-prefix.xlsx",
  "poi-59746_NoRowNums.xlsx",
  "rx-no-styles-or-sharedStrings-parts.xlsx",
  "poi-SimpleStrict.xlsx",
];

/** What a person sees of a workbook, in one spelling. */
function seen(workbook: Workbook): unknown {
  return {
    names: workbook.names.map(({ name, refersTo, sheet }) => `${sheet ?? ""}!${name} = ${refersTo}`).sort(),
    units: workbook.units,
    sheets: workbook.sheets.map((sheet) => ({
      name: sheet.name,
      cells: [...cellsOf(sheet)]
        .map(({ row, column, cell }) => ({ row, column, value: cell.value === "" ? undefined : cell.value, formula: cell.formula, ...looks(cell.style) }))
        .filter(({ row: _, column: __, ...rest }) => Object.values(rest).some((it) => it !== undefined)),
      merges: sheet.merges.map(({ top, left, bottom, right }) => `${top},${left},${bottom},${right}`).sort(),
      tables: sheet.tables,
      frozen: sheet.frozen,
      gridlines: sheet.gridlines,
    })),
  };
}

/** The font and size of the workbook are everywhere where a cell has no others. */
function looks({ font: _, size, ...style }: CellStyle = {}): object {
  const { borders, ...rest } = style;
  const inOrder = borders && Object.fromEntries(Object.entries(borders).sort(([a], [b]) => (a < b ? -1 : 1)));
  return { ...rest, ...(size !== undefined && [8, 14].includes(size) && { size }), ...(inOrder && { borders: inOrder }) };
}

/** Holds that a workbook which is edited at random, saved and opened is what it was on the page. */
export async function holdsAfterEdits(name: string, runs: number): Promise<void> {
  const bytes = foreignBytes(name);
  const before = openWorkbook(bytes, options).workbook;
  await fc.assert(
    fc.asyncProperty(fc.array(edit, { minLength: 1, maxLength: 12 }), async (edits) => {
      let now = before;
      const journal = edits.flatMap((apply) => {
        const step = apply(now);
        now = step.workbook;
        return step.journal;
      });
      const saved = await saveCopy(bytes, { before, now, journal }, options);
      expect(seen(openWorkbook(saved.bytes, options).workbook)).toEqual(seen(now));
    }),
    { numRuns: runs },
  );
}
