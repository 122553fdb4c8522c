/** Whether a difference between settings stands when shot time is taken out: for trials whose shots were brought back to a time. */
import { compareAdjusted, compareAdjustedTest } from "../comparison";
import { attempted, Problem } from "../problem";
import { mean } from "../statistics/describe";
import { amount, rounded, words, type Words } from "../words";
import type { Judged } from "./trial";

const SLOPES_DIFFER = 0.05;
const APPEARS = 0.01;

/** `level` and `claims`: at which level the settings were told apart without regard to time, and whether they were. */
export function atEqualTime({ comparison, times, say }: Judged, target: number | undefined, level: number, claims: boolean): Words {
  if (!times) return "Not every shot has a time: not compared at equal time.";
  const time = rounded(amount("time", target ?? mean(times)), target === undefined ? 0.1 : timeStep(target));
  const covariates = [times];
  const adjusted = attempted(() => compareAdjusted({ ...comparison, covariates, ...(target !== undefined && { at: [target] }) }));
  const test = attempted(() => compareAdjustedTest({ ...comparison, covariates }));
  if (adjusted instanceof Problem && target !== undefined && isOutside(times, target)) return words`No setting has shots around ${time}: not compared at equal time.`;
  if (adjusted instanceof Problem || test instanceof Problem) return "Times say too little to take them out: not compared at equal time.";
  const without = adjusted.filter(({ adjustedMean }) => adjustedMean instanceof Problem).map(({ setting }) => setting);
  if (without.length > 0) {
    return words`${say.several(without, "and")} ${without.length > 1 ? "have" : "has"} no shots around ${time}: not compared at equal time.`;
  }
  if (typeof test.slopesP === "number" && test.slopesP < SLOPES_DIFFER) return words`Time acts differently by setting: no comparison at ${time}.`;
  if (claims) {
    return test.p < level
      ? words`At ${time} for all, a difference is still shown.`
      : words`At ${time} for all, a difference is no longer shown: time may have made it.`;
  }
  return test.p < APPEARS ? words`At ${time} for all, one appears: repeat with times closer together.` : words`At ${time} for all, none is shown either.`;
}

/** A time is said as it was typed. */
function timeStep(target: number): number {
  return Number.isInteger(target) ? 1 : 0.1;
}

function isOutside(times: readonly number[], target: number): boolean {
  return times.every((time) => time < target) || times.every((time) => time > target);
}
