/** Every ready sheet in units drawn at random for all measures at once: what the short test holds for one measure after another. */
import { expect, it } from "vitest";
import { allReadySheetIds, describedReadySheet } from "../../src/ready-sheets/index.ts";
import { measureNames, unitChoices, unitsToText, type UnitChoice } from "../../src/sheet/unit-choice.ts";
import { chance } from "../simulated-log.ts";
import { rules } from "../ready-sheet-rules.ts";

const draws = 300;

it.each(allReadySheetIds)("the sheet %s keeps to its rules in any combination of units", (id) => {
  const { even } = chance(1);
  for (let draw = 0; draw < draws; draw++) {
    const units = Object.fromEntries(measureNames.map((measure) => {
      const names = unitChoices(measure);
      return [measure, names[Math.floor(even() * names.length)]];
    })) as unknown as UnitChoice;
    const sheet = describedReadySheet(id, { units, figures: draw % 2 === 0 ? "example" : "none" });
    for (const [rule, faultsOf] of Object.entries(rules)) expect(faultsOf(sheet, units), `${rule}: ${unitsToText(units)}`).toEqual([]);
  }
});
