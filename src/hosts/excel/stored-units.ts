/** The units of the workbook as Excel keeps them: a custom document property, so that they travel in the .xlsx to any host. */
import { defaultUnits, unitsFromText, unitsProperty, unitsToText, type UnitChoice } from "../../sheet/unit-choice";
import type { UnitsInUse } from "../../sheet/workbook-units";
import { inWords } from "./office-error";

/** Reads the units. Never rejects: the functions wait for the answer, so a failure is the defaults and a note. */
export async function readStoredUnits(): Promise<UnitsInUse> {
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const property = context.workbook.properties.custom.getItemOrNullObject(unitsProperty);
      property.load({ value: true });
      await context.sync();
      return unitsFromText(property.isNullObject ? undefined : String(property.value));
    });
  } catch (error) {
    return { choice: defaultUnits, note: `The unit settings of this workbook could not be read, so the default units are used. ${inWords(error)}` };
  }
}

/** Keeps the units in the workbook; they reach the file when the workbook is saved. */
export async function storeUnits(choice: UnitChoice): Promise<void> {
  try {
    await Excel.run({ delayForCellEdit: true }, async (context) => {
      context.workbook.properties.custom.add(unitsProperty, unitsToText(choice));
      await context.sync();
    });
  } catch (error) {
    throw new Error(`The units could not be kept in this workbook. ${inWords(error)}`);
  }
}
