/** How long a filter that takes out hardness lasts. */
import { noAnswer } from "../problem";
import { amount, words } from "../words";

/**
 * Litres delivered until the filter is spent, those that pass it by included: it takes out as much hardness as `capacity` litres at the
 * `reference` hardness hold. `bypass` is the part of the water that goes round it, %.
 */
export function waterFilterLife({ capacity, reference, hardness, bypass = 0 }: {
  capacity: number; reference: number; hardness: number; bypass?: number;
}): number {
  if (!(hardness > 0)) noAnswer(words`hardness is ${amount("hardness", hardness)}: a filter that takes out hardness has nothing to do.`);
  if (!(bypass < 100)) noAnswer(words`bypass is ${amount("share", bypass)}: no water goes through the filter.`);
  return (capacity * reference) / hardness / (1 - bypass / 100);
}
