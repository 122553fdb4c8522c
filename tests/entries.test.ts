/** What is put into cells where a file could not hold it, or it is likely meant otherwise. */
import { expect, it } from "vitest";
import { checkEntries } from "../src/hosts/browser/grid/entries.ts";
import { longestText } from "../src/xlsx/limits.ts";
import { emptySheet, putCell } from "../src/xlsx/workbook.ts";
import { Engine } from "./grid-repairs/engine.ts";
import { repairEngine } from "../src/hosts/browser/grid/repaired-engine.ts";
import { repaired } from "./recalculation/repaired-engine.ts";

async function opened() {
  const told: string[] = [];
  const sheet = emptySheet("Log");
  putCell(sheet, 0, 0, { value: 46_000, style: { format: "yyyy-mm-dd" } });
  putCell(sheet, 1, 0, { value: "kept" });
  const engine = await Engine.open(
    { sheets: [sheet], names: [] },
    {
      ...repaired,
      started: (api, injector) => {
        checkEntries(api, injector, (words) => told.push(words), "en");
        return repairEngine(api, injector);
      },
    },
  );
  return { engine, told };
}

it.each([
  // 2026-11-27 is day 46,353 of a calendar in which 1900-01-01 is day 1 and 1900 a leap year, as in ECMA-376 part 1, 18.17.4.1.
  [20261127, 46_353, "A1 shows dates, so 20261127 was read as 2026-11-27. Undo takes it back."],
  [20261131, 20_261_131, "A1 shows dates, and 20261131 is none: the last is 9999-12-31, day 2,958,465. Type it as in 2026-11-27."],
  [1_000_000_000, 1_000_000_000, "A1 shows dates, and 1000000000 is none: the last is 9999-12-31, day 2,958,465. Type it as in 2026-11-27."],
  [46_001, 46_001, undefined],
])("%d in a cell of dates", async (typed, held, words) => {
  const { engine, told } = await opened();
  await engine.type({ A1: typed });
  expect(engine.value("A1")).toBe(held);
  expect(told).toEqual(words === undefined ? [] : [words]);
});

it("20261127 in another cell is a number", async () => {
  const { engine, told } = await opened();
  await engine.type({ B1: 20261127 });
  expect([engine.value("B1"), told]).toEqual([20261127, []]);
});

it.each([
  ["text", "x".repeat(longestText + 1), /^The text for A2 has 32,768 characters, and a cell holds up to 32,767\. A2 stays as it was\.$/],
  ["formula", `=${"A1+".repeat(3_000)}1`, /^The formula for A2 has 9,001 characters, and a formula has up to 8,192\. A2 stays as it was\.$/],
])("a %s that no file can hold is refused, and the cell stays as it was", async (_, typed, words) => {
  const { engine, told } = await opened();
  await engine.type({ A2: typed });
  expect(engine.value("A2")).toBe("kept");
  // The engine may hand a formula on more than once.
  expect([...new Set(told)]).toEqual([expect.stringMatching(words)]);
});
