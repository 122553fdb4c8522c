import { it } from "vitest";
import { chainsAsNewlyOpened, chainsByHand } from "../recalculation/spill-chains.ts";

it("a chain of spilled results is what it comes to by hand, when opened and after every edit", () => chainsByHand(500));

it("a chain of spilled results is as when newly opened, also where cells are in the way and formulas come and go", () => chainsAsNewlyOpened(500));
