/** What to try after a trial that showed which settings to keep, and what drifted in it. */
import { bestSetting, runDrift } from "../comparison";
import { attempted, Problem } from "../problem";
import { inSettingOrder, settingKey, type Setting } from "../settings";
import { capitalised, resultWords } from "./sentences";
import type { Judged } from "./trial";

/** Names are tasted blind; numbers lead beyond the end they reach, to the peak of a curve, or halfway to the neighbours. */
export function nextSettings(judged: Judged, kept: readonly Setting[]): string {
  const { say, ranking, outcome, isPanel } = judged;
  const tried = [...ranking].sort(inSettingOrder);
  if (isPanel || !tried.every((it) => typeof it === "number")) return blindWords(judged, kept);
  const numbers = tried;
  const [least, most] = [numbers[0]!, numbers[numbers.length - 1]!];
  const reaches = { least: kept.includes(least), most: kept.includes(most) };
  if (reaches.least && reaches.most) return "Repeat these.";
  if (reaches.most) return beyond("above", most, most - numbers[numbers.length - 2]!, judged);
  if (reaches.least) return beyond("below", least, least - numbers[1]!, judged);

  const top = ranking[0] as number;
  const place = numbers.indexOf(top);
  const [lower, higher] = [numbers[place - 1]!, numbers[place + 1]!];
  const { comparison } = judged;
  const settings = comparison.settings.map((it) => numbers.find((number) => settingKey(number) === settingKey(it))!);
  const peak = attempted(() => bestSetting({ ...comparison, settings })({}));
  if (!(peak instanceof Problem) && typeof peak.low === "number" && typeof peak.high === "number") {
    const isInside = peak.low >= least && peak.high <= most;
    if (isInside && Math.abs(peak.setting - top) > Math.min(top - lower, higher - top) / 4) {
      const what = outcome.isTaste ? "A curve" : `A curve of ${outcome.name}`;
      return `${what} peaks at ${say.found(peak.setting)} (${say.span(peak.low, peak.high)}): pull it against ${say.one(top)}.`;
    }
  }
  return `Try halfway to the neighbours: ${say.proposed((lower + top) / 2, (top + higher) / 2)}.`;
}

function beyond(side: "above" | "below", end: number, step: number, { say, ranking }: Judged): string {
  const proposal = end + step;
  const nothing = `Nothing ${side} ${say.one(end)} was tried`;
  // A setting that would change its sign is none that a person could turn to.
  const isPossible = proposal > 0 || ranking.some((it) => (it as number) <= 0);
  return isPossible ? `${nothing}: ${say.proposed(proposal)} next, if the maker allows it.` : `${nothing}.`;
}

function blindWords({ say, ranking, outcome, isPanel }: Judged, kept: readonly Setting[]): string {
  const pair = kept.length === 1 ? ranking.slice(0, 2) : kept.slice(0, 3);
  const cups = say.several(pair, "and");
  if (isPanel) return `Serve ${cups} again, to other tasters.`;
  return outcome.isTaste ? `Serve ${cups} blind to others.` : `Serve ${cups} blind, to see whether taste agrees.`;
}

/** A drift over the runs, within the mornings. */
export function driftRemark({ comparison, runs, outcome }: Judged, level: number): string {
  const drift = runs ? attempted(() => runDrift({ ...comparison, runs })) : null;
  if (!drift || drift instanceof Problem || drift.p instanceof Problem || drift.p >= level) return "";
  const unit = outcome.unit === "%" ? "points" : outcome.unit;
  const change = resultWords(unit, Math.abs(drift.change) / 2).one(Math.abs(drift.change));
  return `${capitalised(outcome.name)} ${drift.change > 0 ? "rose" : "fell"} ${change} a shot. The mixed order spreads it; warm up longer.`;
}
