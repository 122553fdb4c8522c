/** Words with their amounts and functions said, in the units of the workbook. */
import { isNumber, quantity } from "../../shared/quantities";
import { fromCanonical, type Unit } from "../../shared/units";
import { printed, printedTo, spelledOut, type Amount, type Words } from "../../shared/words";
import { spelled } from "./spelling";
import { chosenUnit, type UnitChoice } from "./unit-choice";

/** The words as a person of this workbook reads them. */
export function worded(words: Words, choice: UnitChoice): string {
  return typeof words === "string" ? words : spelledOut(words, (part) => ("functionId" in part ? spelled(part.functionId) : saidIn(part, choice)));
}

function saidIn({ quantity: name, value, to, difference, step }: Amount, choice: UnitChoice): string {
  const unit = spokenUnit(name, choice);
  const { symbol, size } = unit;
  const said = (canonical: number): string => {
    const number = difference ? canonical / size : fromCanonical(canonical, unit);
    return step === undefined ? printed(number) : printedTo(step / size, number);
  };
  const number = to === undefined ? said(value) : `${said(value)} to ${said(to)}`;
  return symbol === "" ? number : `${number} ${symbol}`;
}

/** The unit a number is said in: percentages and times in % and s also where cells hold fractions and clock times. */
function spokenUnit(name: Amount["quantity"], choice: UnitChoice): Pick<Unit, "size" | "zero" | "symbol"> {
  const record = quantity(name);
  if (!isNumber(record)) return { size: 1, symbol: "" };
  if (!record.measure) return { size: 1, symbol: record.unit ?? "" };
  const unit = chosenUnit(choice, record.measure);
  return unit.saidIn ?? unit;
}
