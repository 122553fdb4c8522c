import { it } from "vitest";
import { readySheetIds } from "../../src/ready-sheets/index.ts";
import { everyEditAsNewlyOpened } from "./ready-sheets.ts";
import { chainsAsNewlyOpened, chainsByHand } from "./spill-chains.ts";
import { sheetsAsNewlyOpened } from "./whole-sheet.ts";

it("a chain of spilled results is what it comes to by hand, when opened and after every edit", () => chainsByHand(10));

it("a chain of spilled results is as when newly opened, also where cells are in the way and formulas come and go", () => chainsAsNewlyOpened(10));

it("a sheet is after every edit as when newly opened, and taking everything back gives it as it was", () => sheetsAsNewlyOpened(6, 20));

it.each(readySheetIds)("%s is after every edit as when newly opened, and as before when the edit is taken back", (id) => everyEditAsNewlyOpened(id, 1));
