import { it } from "vitest";
import { readySheetIds } from "../../src/ready-sheets/index.ts";
import { everyEditAsNewlyOpened } from "../recalculation/ready-sheets.ts";
import { sheetsAsNewlyOpened } from "../recalculation/whole-sheet.ts";

it.each(readySheetIds)("%s is after every edit as when newly opened, and as before when the edit is taken back", (id) => everyEditAsNewlyOpened(id, 15));

it("a sheet is after every edit as when newly opened, and taking everything back gives it as it was", () => sheetsAsNewlyOpened(300));
