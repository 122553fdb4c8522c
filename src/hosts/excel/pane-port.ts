/** The pane's view of an Excel workbook. */
import { projectVersion } from "../../help/version";
import type { Converted, PanePort } from "../../pane/port";
import type { FunctionsLink } from "../../sheet/bundle-interface";
import type { UnitsInUse } from "../../sheet/workbook-units";
import { countNotTakenUp, enterAnew } from "./enter-anew";
import { countOwnFormulas, recalculateAll } from "./recalculate";
import { inWords } from "./office-error";
import { convertInputs, fitResults } from "./ready-sheet-units";
import { removeStarted, startSheet } from "./ready-sheets";
import { readStoredUnits, storeUnits } from "./stored-units";

/** Reads the workbook's units for the functions at once, and offers the pane its port. */
export function excelPanePort(link: FunctionsLink): PanePort {
  const reading = hand(link, readStoredUnits());
  return {
    readUnits: async () => {
      await reading;
      return link.units()!;
    },
    writeUnits: async (choice) => {
      const before = link.units()!;
      await storeUnits(choice);
      let converted: Converted | undefined;
      try {
        converted = await convertInputs(before.choice, choice);
        link.useUnits(choice);
        await recalculateAll().catch((error: unknown) => {
          throw new Error(`The workbook could not be recalculated. ${inWords(error)}`);
        });
        // Only the look of results: where it cannot be changed they are right all the same.
        await fitResults(before.choice, choice).catch(() => undefined);
      } catch (error) {
        // Cells must not stay as they were calculated, or typed, while the settings say otherwise.
        if (converted) await convertInputs(choice, before.choice);
        await storeUnits(before.choice);
        link.useUnits(before.choice, before.note);
        throw error;
      }
      return { converted, formulas: await countOwnFormulas().catch(() => undefined) };
    },
    startSheet: (id, example) => startSheet(id, link.units()!.choice, example),
    removeStarted,
    formulasOfFile: { countNotTakenUp: () => countNotTakenUp().catch(() => 0), enterAnew },
    // Excel reports no change of a document property, and each workbook has a page of its own.
    onUnits: () => () => {},
    recentProblems: link.recentProblems,
    onProblems: link.onProblems,
    version: projectVersion,
    helpAddress: "functions/index.html",
  };
}

async function hand(link: FunctionsLink, read: Promise<UnitsInUse>): Promise<void> {
  const { choice, note } = await read;
  link.useUnits(choice, note);
}
