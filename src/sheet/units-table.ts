/** The units of the workbook as a table for UNITS(). */
import { measureLabels, measureNames, unitBeside, unitLabel } from "./unit-choice";
import { withUnits } from "./workbook-units";

export function unitsTable(): unknown[][] {
  return withUnits(({ choice, note }) => [
    ["Quantity", "Unit of this workbook", "Beside a number"],
    ...measureNames.map((measure) => [measureLabels[measure], unitLabel(measure, choice[measure]), unitBeside(choice, measure)]),
    ...(note ? [["Note", note, ""]] : []),
  ]) as unknown[][];
}
