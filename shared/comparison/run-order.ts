/** In which order to pull the shots of a trial. */
import { badInput, noAnswer } from "../problem";
import { seededRandom, shuffled } from "../statistics/random";
import type { Setting } from "../settings";

const MOST_RUNS = 5000;

/**
 * Randomised blocks: every repeat has each setting once, in an order of its own, so that drift of machine, grinder and coffee
 * falls on all settings alike. The same settings, repeats and seed always give the same order.
 */
export function runOrder({ settings, repeats = 1, seed = 1 }: { readonly settings: readonly Setting[]; readonly repeats?: number; readonly seed?: number }): {
  run: number; setting: Setting;
}[] {
  if (settings.length === 0) noAnswer("settings is empty. Give the settings to try.");
  const runs = settings.length * repeats;
  if (runs > MOST_RUNS) badInput(`${settings.length} settings and ${repeats} repeats make ${runs} runs, more than ${MOST_RUNS}. Give fewer repeats.`);
  const random = seededRandom(seed);
  return Array.from({ length: repeats }, () => shuffled(settings, random))
    .flat()
    .map((setting, index) => ({ run: index + 1, setting }));
}
