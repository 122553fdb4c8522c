/** The units of the spreadsheet, kept as one of its document properties. */
import { unitsFromText, unitsProperty } from "../../sheet/unit-choice";
import { useUnits } from "../../sheet/workbook-units";

/** Where they cannot be read, the defaults are used and UNITS() says so. */
export function useStoredUnits(): void {
  try {
    const { choice, note } = unitsFromText(PropertiesService.getDocumentProperties().getProperty(unitsProperty));
    useUnits(choice, note);
  } catch (thrown) {
    const why = thrown instanceof Error ? thrown.message : String(thrown);
    const { choice } = unitsFromText(null);
    useUnits(choice, `The unit settings of this spreadsheet could not be read, so the default units are used. ${why}`);
  }
}
