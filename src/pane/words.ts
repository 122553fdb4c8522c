/** What the pane says, in full sentences. */
import { namespace } from "../sheet/spelling";
import { measureLabels, measureNames, unitLabel, type UnitChoice } from "../sheet/unit-choice";
import type { MeasureName } from "../../shared/units";
import type { Converted, Started } from "./port";

/** What numbers a measure covers, as the hint beside its choices. */
export const measureHints: { readonly [M in MeasureName]: string } = {
  percent: "Strength, extraction, moisture and shares.",
  mass: "Dose, beverage and whatever else goes on the scale.",
  time: "Shot time and time to the first drip.",
  temperature: "Brew water and beverage.",
  pressure: "Brew pressure, gauge.",
  volume: "Beverage without its foam.",
  watervolume: "Brew water to be measured, treated or mixed.",
  hardness: "Total hardness of water.",
  alkalinity: "Total alkalinity of water.",
};

/** What became of numbers that were typed before. */
export function convertedInWords({ numbers, sheets }: Converted): string {
  if (numbers === 0) return "Numbers already typed are re-read, not converted.";
  const were = numbers === 1 ? "was" : "were";
  return `${counted(numbers, "number")} typed into ${counted(sheets, "ready sheet")} ${were} converted; elsewhere typed numbers are re-read, not converted.`;
}

/** "Masses in this workbook are now read and shown in oz." for each measure that differs. */
export function changeInWords(before: UnitChoice, after: UnitChoice): string {
  return measureNames
    .filter((measure) => before[measure] !== after[measure])
    .map((measure) => {
      const label = measureLabels[measure];
      const verb = label.endsWith("s") && measure !== "hardness" ? "are" : "is";
      return `${label} in this workbook ${verb} now read and shown ${unitInWords(measure, after[measure])}.`;
    })
    .join(" ");
}

/** A change that was not made in this pane. */
export function changedElsewhereInWords(because: "undo" | "others", change: string): string {
  return because === "undo" ? change : `Somebody else who has this workbook open changed its units. ${change}`;
}

function unitInWords(measure: MeasureName, unit: string): string {
  if (measure === "percent") return unit === "cell" ? "as percent cells, where 9.5 % is 0.095" : "as numbers, where 9.5 means 9.5 %";
  if (measure === "time") return unit === "clock" ? "as clock cells, where 27 s is 0:00:27" : "in s";
  return `in ${unitLabel(measure, unit)}`;
}

export function startedInWords({ sheet, logRows }: Started, example: boolean): string {
  const withWhat = example ? ", with invented figures" : logRows === undefined ? "" : `, with ${counted(logRows, "row")} of the log that was in sight`;
  return `The sheet “${sheet}” is ready${withWhat}. Type into the cells with a border.`;
}

export function notTakenUpInWords(formulas: number): string {
  return `${counted(formulas, "formula")} of Pucksheet ${formulas === 1 ? "shows" : "show"} #NAME?: Excel has not taken ${formulas === 1 ? "it" : "them"} up from the file.`;
}

export function offerToEnterInWords(formulas: number): string {
  return `Enter ${counted(formulas, "formula")} anew`;
}

export function enteredInWords({ formulas, sheets }: { readonly formulas: number; readonly sheets: number }): string {
  return `${counted(formulas, "formula")} on ${counted(sheets, "sheet")} entered anew. Where #NAME? stays, this edition lacks the function.`;
}

/** Of so many that were entered. */
export function takenBackInWords(formulas: number, entered: number): string {
  const others = entered - formulas;
  const left = others === 0 ? "" : ` ${counted(others, "other")} ${others === 1 ? "was" : "were"} changed since and ${others === 1 ? "stays" : "stay"}.`;
  return `Undone. ${counted(formulas, "formula")} put back as before.${left}`;
}

function counted(count: number, thing: string): string {
  return `${count.toLocaleString("en")} ${thing}${count === 1 ? "" : "s"}`;
}

export function recalculatedInWords(formulas: number | undefined): string {
  if (formulas === undefined) return "All formulas recalculated.";
  if (formulas === 0) return `No formula in this workbook uses ${namespace} functions yet.`;
  return formulas === 1 ? "1 formula recalculated." : `${formulas.toLocaleString("en")} formulas recalculated.`;
}
