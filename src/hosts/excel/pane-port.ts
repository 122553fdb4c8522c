/** The pane's view of an Excel workbook. */
import { projectVersion } from "../../help/version";
import type { Converted, PanePort } from "../../pane/port";
import type { FunctionsLink } from "../../sheet/bundle-interface";
import { unitsToText } from "../../sheet/unit-choice";
import type { UnitsInUse } from "../../sheet/workbook-units";
import { countNotTakenUp, enterAnew } from "./enter-anew";
import { countOwnFormulas, recalculateAll } from "./recalculate";
import { inWords } from "./office-error";
import { convertInputs, fitResults } from "./ready-sheet-units";
import { removeStarted, startSheet } from "./ready-sheets";
import { onChangeByOthers, tellOthers } from "./shared-change";
import { readStoredUnits, storeUnits } from "./stored-units";

/** Reads the workbook's units for the functions at once, and offers the pane its port. */
export function excelPanePort(link: FunctionsLink): PanePort {
  const reading = hand(link, readStoredUnits());
  const listeners = new Set<() => void>();
  // Excel reports no change of a document property. A workbook that tells nothing at all works as it does for one person.
  void reading.then(() => onChangeByOthers(() => void readAgain(link, () => listeners.forEach((listener) => listener())))).catch(() => undefined);
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
      await tellOthers();
      return { converted, formulas: await countOwnFormulas().catch(() => undefined) };
    },
    startSheet: (id, example) => startSheet(id, link.units()!.choice, example),
    removeStarted,
    formulasOfFile: { countNotTakenUp: () => countNotTakenUp().catch(() => 0), enterAnew },
    onUnits: (listener) => {
      const heard = (): void => listener("others");
      listeners.add(heard);
      return () => listeners.delete(heard);
    },
    recentProblems: link.recentProblems,
    onProblems: link.onProblems,
    version: projectVersion,
    helpAddress: "functions/index.html",
  };
}

async function hand(link: FunctionsLink, read: Promise<UnitsInUse>): Promise<void> {
  const { choice, note } = await read;
  link.useUnits(choice, note);
  if (link.hasGivenUpWaiting()) await recalculateAll().catch(() => undefined);
}

/** Pauses before the units are read again, ms: the property may arrive later than the word of its change. */
const pauses = [0, 2_000, 5_000, 15_000];

/** Takes up what somebody else has chosen. What they convert arrives as cells; nothing is converted here. */
async function readAgain(link: FunctionsLink, changed: () => void): Promise<void> {
  for (const pause of pauses) {
    await new Promise((resolve) => setTimeout(resolve, pause));
    const { choice, note } = await readStoredUnits();
    if (note !== undefined || unitsToText(choice) === unitsToText(link.units()!.choice)) continue;
    link.useUnits(choice);
    await recalculateAll().catch(() => undefined);
    return changed();
  }
}
