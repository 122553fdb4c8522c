/** Shot times of shots that did not land on the same mass. */
import { badInput, noAnswer } from "../problem";
import { amount, words } from "../words";

/** The shot time as it would have been at another beverage mass, by the mean flow after the first drop. */
export function timeAtBeverage({ time, beverage, target, firstDrip = 0 }: { time: number; beverage: number; target: number; firstDrip?: number }): number {
  if (firstDrip >= time) badInput(words`firstdrip, ${amount("firstDrip", firstDrip)}, must be less than time, ${amount("time", time)}.`);
  if (Math.abs(target - beverage) > beverage / 4) {
    noAnswer(words`From ${amount("beverage", beverage)} to ${amount("beverage", target)} is more than 25 % of the beverage, too far to stretch a time. Pull the shot again.`);
  }
  return firstDrip + ((time - firstDrip) * target) / beverage;
}
