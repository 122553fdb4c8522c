/** Ready sheets, empty and with figures, are valid to Microsoft's validator as files. */
import { expect, it } from "vitest";
import { readySheetIds } from "../../src/ready-sheets/index.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";
import { withReadySheet } from "../../src/xlsx/ready-sheets.ts";
import { writeXlsx } from "../../src/xlsx/xlsx.ts";
import { faults } from "../copies/faults.ts";

it.each(readySheetIds.flatMap((id) => [[id, "none"], [id, "example"]] as const))("%s, figures: %s", async (id, figures) => {
  const { workbook } = withReadySheet({ sheets: [], names: [] }, id, { units: defaultUnits, figures });
  expect(await faults(`${id}.xlsx`, await writeXlsx(workbook, new Set()))).toEqual([]);
});
