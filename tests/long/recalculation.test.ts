import { it } from "vitest";
import { readySheetIds } from "../../src/ready-sheets/index.ts";
import { everyEditAsNewlyOpened } from "../recalculation/ready-sheets.ts";

it.each(readySheetIds)("%s is after every edit as when newly opened, and as before when the edit is taken back", (id) => everyEditAsNewlyOpened(id, 15));
