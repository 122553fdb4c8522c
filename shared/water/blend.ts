/** Hardness that heating can lay down and the rest, and what a blend of two waters has. */
import { noAnswer } from "../problem";
import { printed } from "../words";

/** Carbonate and non-carbonate hardness: the part of the hardness that alkalinity covers, and the rest. */
export function waterCarbonate({ hardness, alkalinity }: { hardness: number; alkalinity: number }): { carbonate: number; nonCarbonate: number } {
  const carbonate = Math.min(hardness, alkalinity);
  return { carbonate, nonCarbonate: hardness - carbonate };
}

/** What a blend has of anything that mixes by volume; `share` is the part of raw water, %. */
export function waterBlend({ raw, treated, share }: { raw: number; treated: number; share: number }): number {
  return treated + (share / 100) * (raw - treated);
}

/** The share of raw water, %, that brings a blend to the target. */
export function waterBlendShare({ raw, treated, target }: { raw: number; treated: number; target: number }): number {
  if (raw === treated) noAnswer(`raw and treated water both have ${printed(raw)}, so every blend has.`);
  if (target < Math.min(raw, treated) || target > Math.max(raw, treated)) {
    noAnswer(`target ${printed(target)} does not lie between treated, ${printed(treated)}, and raw, ${printed(raw)}: no blend of the two reaches it.`);
  }
  return (100 * (target - treated)) / (raw - treated);
}
