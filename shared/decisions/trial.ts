/**
 * What a trial of settings decides, in sentences: which setting to keep, how sure that is, and what to try next, for each outcome.
 * Each rule has a number, so that a test can drive every one of them; the first that applies speaks, and only that. COMPARE.PAIRS alone
 * decides what differs, with differences claimed at 5 % over all outcomes together (Holm 1979, Scand. J. Stat. 6:65).
 */
import { comparePairs, rankCorrelation } from "../comparison";
import { spreadOf, trialOf, unlinkedSettings, type Comparison } from "../comparison/groups";
import { oneSpread } from "../comparison/one-spread";
import type { Pair } from "../comparison/pairs";
import { attempted, badInput, Problem } from "../problem";
import { inSettingOrder, settingKey, type Setting } from "../settings";
import { mean } from "../statistics/describe";
import { shotsNeeded } from "../uncertainty";
import { printed, type Words } from "../words";
import { atEqualTime } from "./equal-time";
import { capitalised, counted, listed, once, resultWords, settingWords, together, type ResultWords, type SettingWords } from "./sentences";
import { driftRemark, nextSettings } from "./trial-next";
import { outcomesOf, withoutEmptyLists, type Outcome, type TrialRows } from "./trial-outcomes";

export interface TrialQuestion extends TrialRows {
  /** Of the settings, such as °C. */
  readonly unit?: string | undefined;
  /** The difference worth having: one for all outcomes, or one for each. */
  readonly worth?: readonly number[] | undefined;
  /** Shots planned for each setting. */
  readonly planned?: number | undefined;
  /** The workbook's cells hold percentages as fractions: outcomes in % and their worth are said times 100. */
  readonly percentCells?: boolean | undefined;
  /** The time wanted, s, where shots were brought back to it; `times` are theirs. */
  readonly target?: number | undefined;
}

export interface Decision {
  readonly branch: number;
  readonly decision: Words;
  readonly sure: Words;
  readonly next: Words;
  /** Of the outcome's chart. */
  readonly chartTitle: string;
  readonly methodUsed: string;
}

const CLAIMED = 0.05;
/** Remarks beside the decision, of which there may be several, ask for more. */
const REMARKED = 0.01;
const MOST_SHOTS_WORTH_PLANNING = 30;

/** A decision for each outcome, in the order of the outcomes. */
export function compareDecision(typed: TrialQuestion): Decision[] {
  const question = withoutEmptyLists(typed);
  const outcomes = outcomesOf(question);
  const { worth = [] } = question;
  if (worth.length > 1 && worth.length !== outcomes.length) {
    badInput(`worth has ${worth.length} values, but there are ${outcomes.length} outcomes. Give one for all of them, or one for each.`);
  }
  const say = settingWords(distinct(question.settings.filter((it): it is Setting => it !== null)), question.unit);
  const examined = outcomes.map((outcome, index) => examine(outcome, question, say, worthOf(outcome, worth[index] ?? worth[0], question)));
  const levels = levelsOf(examined);
  return examined.map((it, index) => ("branch" in it ? it : decided(it, levels[index]!, question, outcomes.length)));
}

function worthOf({ unit }: Outcome, worth: number | undefined, { percentCells }: TrialQuestion): number | undefined {
  return worth !== undefined && unit === "%" && percentCells ? 100 * worth : worth;
}

/** An outcome whose pairs could be judged. */
export interface Judged {
  readonly outcome: Outcome;
  readonly say: SettingWords;
  readonly isPanel: boolean;
  readonly comparison: Comparison;
  /** Numbers of runs and times of the shots compared. */
  readonly runs: readonly number[] | undefined;
  readonly times: readonly number[] | undefined;
  /** The settings, the highest mean first. */
  readonly ranking: readonly Setting[];
  /** Settings with a single shot, left out. */
  readonly alone: readonly Setting[];
  /** At 5 %. */
  readonly pairs: readonly Pair[];
  readonly smallestP: number;
  /** Standard deviation of one shot within settings and blocks. */
  readonly spread: number;
  readonly fewestShots: number;
  readonly worth: number | undefined;
}

function examine(outcome: Outcome, question: TrialQuestion, say: SettingWords, worth: number | undefined): Decision | Judged {
  const { name, settings, results, blocks } = outcome;
  const { kind, planned } = question;
  const isPanel = kind === "tasters";
  const unsaid = (branch: number, decision: Words): Decision =>
    ({ branch, decision, sure: "", next: "", chartTitle: `No difference in ${name} shown yet`, methodUsed: "" });
  const allSettings = distinct(question.settings.filter((it): it is Setting => it !== null));
  const block = isPanel ? "taster" : "morning";
  const thing = isPanel ? "score" : "shot";

  if (results.length === 0) return unsaid(1, nothingYet(allSettings, name, isPanel));
  const groups = shotsBySetting(settings);
  const tried = [...groups.keys()];
  if (tried.length === 1) return unsaid(2, isPanel ? `Only ${say.one(tried[0]!)} so far. Serve another cup.` : `Only ${say.one(tried[0]!)} so far. Pull another setting.`);
  const confounded = confoundedWords({ settings, results, blocks }, block, isPanel, say);
  if (confounded) return unsaid(3, confounded);
  const expected = planned === undefined ? 0 : Math.round(planned * allSettings.length);
  if (!isPanel && isPulledInTurn(outcome, tried.length, results.length < expected)) {
    return unsaid(4, "Settings were pulled one after another: a warming machine would look the same. Pull them mixed.");
  }
  if (results.length < expected) return unsaid(5, `${results.length} of ${counted(expected, thing)} in. The answer comes with the last.`);

  const alone = tried.filter((setting) => groups.get(setting)!.length === 1);
  const kept = settings.flatMap((setting, shot) => (alone.some((it) => settingKey(it) === settingKey(setting)) ? [] : [shot]));
  if (alone.length >= tried.length - 1) return unsaid(6, onceEach(outcome, tried, alone, say, isPanel));
  const only = <T>(list: readonly T[]): T[] => kept.map((shot) => list[shot]!);
  const comparison = { settings: only(settings), results: only(results), blocks: blocks && only(blocks) };
  const confoundedWithout = confoundedWords(comparison, block, isPanel, say);
  if (confoundedWithout) return unsaid(3, confoundedWithout);
  const judgedPairs = attempted(() => comparePairs(comparison));
  const pairs = judgedPairs instanceof Problem ? [] : judgedPairs;
  if (pairs.length === 0 || pairs.some(({ p }) => p instanceof Problem)) return unsaid(...noSpread(comparison, isPanel));
  const opposed = opposedTasters(outcome.tasters);
  if (opposed) return unsaid(8, opposed);

  const trial = trialOf(comparison);
  const { means, error } = oneSpread(trial);
  const rows = trial.groups.map(({ setting, count, mean: own }, group) => ({ setting, shots: count, mean: trial.blockOf ? means[group]! : own }));
  rows.sort((a, b) => b.mean - a.mean);
  return {
    outcome, say, isPanel, comparison, alone, worth,
    runs: outcome.runs && only(outcome.runs),
    times: outcome.times && only(outcome.times),
    ranking: rows.map(({ setting }) => setting),
    pairs,
    smallestP: Math.min(...pairs.map(({ p }) => p as number)),
    spread: error instanceof Problem ? 0 : Math.sqrt(error.variance),
    fewestShots: Math.min(...rows.map(({ shots }) => shots)),
  };
}

function nothingYet(allSettings: readonly Setting[], name: string, isPanel: boolean): string {
  if (allSettings.length > 0) return `No ${name} typed yet. ${isPanel ? "Serve in the order shown." : "Pull in the order shown."}`;
  return isPanel ? "Type the cups and who tastes; serve in the order shown." : "Type what you vary and the settings; pull in the order shown.";
}

function distinct(settings: readonly Setting[]): Setting[] {
  return [...new Map(settings.map((setting) => [settingKey(setting), setting])).values()].sort(inSettingOrder);
}

function shotsBySetting(settings: readonly Setting[]): Map<Setting, number[]> {
  return new Map(distinct(settings).map((setting) => [setting, settings.flatMap((it, shot) => (settingKey(it) === settingKey(setting) ? [shot] : []))]));
}

function confoundedWords(comparison: Comparison, block: string, isPanel: boolean, say: SettingWords): string | null {
  const { settings, blocks } = comparison;
  const pair = blocks && distinct(settings).length > 1 ? unlinkedSettings(trialOf(comparison)) : null;
  if (!pair) return null;
  const [here, there] = pair.map(say.one) as [string, string];
  if (isPanel) return `No taster scored ${here} and ${there}, directly or over other cups: tasters and cups cannot be told apart. Let one score both.`;
  const together = new Set(settings.map((setting, shot) => `${settingKey(setting)}\n${settingKey(blocks![shot]!)}`));
  const isOwn = together.size === distinct(settings).length;
  return isOwn
    ? `Each ${block} had its own settings: the two cannot be told apart. Pull two on one ${block}.`
    : `No ${block} had ${here} and ${there}, directly or over other settings: the two cannot be told apart. Pull both on one ${block}.`;
}

/**
 * Settings changed only as often as there are settings, with repeats. While shots are still to come, one repeat may be the mixed order's own:
 * a round may begin with the setting that ended the last.
 */
function isPulledInTurn({ settings, runs }: Outcome, tried: number, isUnfinished: boolean): boolean {
  if (!runs) return false;
  const inOrder = settings.map((setting, shot) => ({ key: settingKey(setting), run: runs[shot]! })).sort((a, b) => a.run - b.run);
  const changes = inOrder.filter(({ key }, index) => index > 0 && key !== inOrder[index - 1]!.key).length;
  return changes === tried - 1 && settings.length > tried + (isUnfinished ? 1 : 0);
}

function onceEach({ settings, results, unit }: Outcome, tried: readonly Setting[], alone: readonly Setting[], say: SettingWords, isPanel: boolean): string {
  const again = isPanel ? "Let more tasters score them." : "Pull each again.";
  if (alone.length < tried.length) {
    const repeated = tried.find((setting) => !alone.includes(setting))!;
    const what = isPanel ? "scored" : "pulled";
    return `Only ${say.one(repeated)} was ${what} more than once: there is nothing to compare it with. ${isPanel ? "Let more tasters score" : "Pull again"} ${say.several(alone, "and")}.`;
  }
  const most = results.indexOf(Math.max(...results));
  const reading = resultWords(unit, 0.1).one(results[most]!);
  return `One ${isPanel ? "score" : "shot"} each: most ${reading} at ${say.one(settings[most]!)}, which may be luck. ${again}`;
}

/** No spread inside the settings, or none left by settings and blocks. */
function noSpread(comparison: Comparison, isPanel: boolean): [number, string] {
  const trial = trialOf(comparison);
  const needed = trial.groups.length + (trial.blockOf ? new Set(trial.blockOf).size - 1 : 0);
  if (trial.results.length <= needed) {
    return [6, isPanel ? "Too few scores to judge by. Let another taster score all cups." : "Too few shots to judge by: settings and mornings need them all. Pull each again."];
  }
  return [7, isPanel
    ? "All tasters see the same differences, to the last point: luck cannot be judged. Score with finer steps."
    : "Shots at one setting all read alike: luck cannot be judged. Read one more decimal."];
}

/** Two tasters against each other, or one against the mean of the others. */
function opposedTasters(tasters: readonly (readonly number[])[]): string | null {
  const isAgainst = (first: readonly number[], second: readonly number[]): boolean => {
    const agreement = attempted(() => rankCorrelation({ first, second }));
    return !(agreement instanceof Problem) && agreement.rho < 0 && agreement.p < REMARKED;
  };
  if (tasters.length === 2) return isAgainst(tasters[0]!, tasters[1]!) ? "Tasters 1 and 2 score against each other. Agree on a scale." : null;
  const others = (one: number): number[] => tasters[one]!.map((_, shot) => mean(tasters.filter((__, taster) => taster !== one).map((scores) => scores[shot]!)));
  const against = tasters.length < 2 ? [] : tasters.flatMap((scores, taster) => (isAgainst(scores, others(taster)) ? [String(taster + 1)] : []));
  if (against.length === 0) return null;
  return `Taster${against.length > 1 ? "s" : ""} ${listed(against, "and")} score${against.length > 1 ? "" : "s"} against the others. Agree on a scale.`;
}

/** The level at which each outcome's pairs are judged; `claims` where it is passed. */
interface Level {
  readonly level: number;
  readonly claims: boolean;
}

/** Holm: the smallest p at 5 % over the number of outcomes, the next over one fewer, until one is not passed. */
function levelsOf(examined: readonly (Decision | Judged)[]): Level[] {
  const inUse = examined.filter((it) => !("branch" in it) || it.branch > 1).length;
  const p = examined.map((it) => ("branch" in it ? 1 : it.smallestP));
  const order = p.map((_, index) => index).sort((a, b) => p[a]! - p[b]!);
  const levels: Level[] = [];
  let left = Math.max(1, inUse);
  let passed = true;
  for (const index of order) {
    passed &&= p[index]! < CLAIMED / left;
    levels[index] = { level: CLAIMED / left, claims: passed };
    if (passed) left = Math.max(1, left - 1);
  }
  return levels;
}

function decided(judged: Judged, { level, claims }: Level, question: TrialQuestion, outcomes: number): Decision {
  const { alone, say, isPanel } = judged;
  const { p, ...verdict } = claims ? claimed(judged, level) : notShown(judged, level, question);
  const leftOut = alone.length === 0 ? "" : `${say.several(alone, "and")} ${alone.length > 1 ? "were" : "was"} ${isPanel ? "scored" : "pulled"} once only: left out.`;
  const atTime = question.times && !isPanel ? atEqualTime(judged, question.target, level, claims) : "";
  return {
    ...verdict,
    sure: together(verdict.sure, atTime, leftOut),
    next: together(verdict.next, isPanel ? "" : driftRemark(judged, REMARKED)),
    methodUsed: methodOf(judged, outcomes, p),
  };
}

/** With the p that stands for it; null where intervals do. */
type Verdict = Omit<Decision, "methodUsed"> & { readonly p: number | null };

/** A pair the better way round. */
interface Gap {
  readonly better: Setting;
  readonly worse: Setting;
  readonly difference: number;
  readonly low: number;
  readonly high: number;
  readonly p: number;
}

function gapsOf({ comparison, pairs }: Judged, level: number): Gap[] {
  return (level === CLAIMED ? pairs : comparePairs({ ...comparison, confidence: 1 - level })).map((pair) => {
    const [low, high, p] = [pair.low, pair.high, pair.p] as [number, number, number];
    return pair.difference >= 0
      ? { better: pair.second, worse: pair.first, difference: pair.difference, low, high, p }
      : { better: pair.first, worse: pair.second, difference: -pair.difference, low: -high, high: -low, p };
  });
}

/** At least one pair differs. */
function claimed(judged: Judged, level: number): Verdict {
  const { ranking, say } = judged;
  const gaps = gapsOf(judged, level);
  const shown = gaps.filter(({ p }) => p < level);
  const top = ranking[0]!;
  const beaten = shown.filter(({ better }) => better === top);
  const kept = ranking.filter((setting) => !beaten.some(({ worse }) => worse === setting));
  if (beaten.length === 0) return lowestShown(judged, shown);

  const rarest = Math.max(...beaten.map(({ p }) => p));
  const sure = `If they were alike, a gap that big would come ${once(rarest)}.`;
  if (kept.length === 1) {
    const next = gaps.find(({ better, worse }) => better === top && worse === ranking[1])!;
    const others = beaten.length > 1 ? ", and more than every other" : "";
    return {
      branch: 9,
      decision: `${useWords(judged, say.one(top))} It ${gave(judged)} ${gapWords(judged, next, beaten.length > 1 ? `the next, ${say.one(next.worse)}` : say.one(next.worse))}${others}.`,
      sure,
      next: nextSettings(judged, kept),
      chartTitle: `${say.one(top)} ${bestWords(judged)}`,
      p: rarest,
    };
  }
  const named = beaten.find(({ p }) => p === rarest)!;
  const between = beaten.find(({ worse }) => isBetween(worse, kept));
  if (between && !judged.isPanel) {
    return {
      branch: 10,
      decision: `${keepWords(judged, say.several(kept, "or"))}; ${say.one(between.worse)} gave less than ${say.one(top)}. Less in between is unusual: repeat first.`,
      sure,
      next: "",
      chartTitle: betterTitle(judged, between),
      p: rarest,
    };
  }
  const alike = gaps.filter(({ better, worse, p }) => kept.includes(better) && kept.includes(worse) && p < level).length === 0;
  const open = alike ? "between them no difference is shown" : `none of them is shown to differ from ${say.one(top)}`;
  return {
    branch: 11,
    decision: `${keepWords(judged, say.several(kept, "or"))}; ${open}. ${capitalised(say.one(top))} ${gave(judged)} ${gapWords(judged, named, say.one(named.worse))}.`,
    sure,
    next: nextSettings(judged, kept),
    chartTitle: betterTitle(judged, named),
    p: rarest,
  };
}

/** Only a pair without the top differs. */
function lowestShown(judged: Judged, shown: readonly Gap[]): Verdict {
  const { say, outcome, isPanel } = judged;
  const gap = shown.reduce((best, it) => (it.p < best.p ? it : best));
  const amounts = gapAmounts(judged, gap);
  const worse = say.one(gap.worse);
  const open = outcome.isTaste ? "the best is not shown" : `which ${isPanel ? "has" : "gives"} most is not shown`;
  const leave = outcome.isTaste ? `Leave ${worse} out.` : `For most ${outcome.name}, leave ${worse} out.`;
  return {
    branch: 12,
    decision: `${capitalised(worse)} ${gave(judged)} ${amounts.one(gap.difference)} less than ${say.one(gap.better)} (${amounts.span(gap.low, gap.high)}); ${open}. ${leave}`,
    sure: `If they were alike, a gap that big would come ${once(gap.p)}.`,
    next: isPanel ? "" : "Pull the others again, in mixed order.",
    chartTitle: betterTitle(judged, gap),
    p: gap.p,
  };
}

/** No pair differs at the level of the sheet. */
function notShown(judged: Judged, level: number, question: TrialQuestion): Verdict {
  const { worth, outcome, fewestShots, ranking, spread, isPanel } = judged;
  const none = `No difference in ${outcome.name} is shown`;
  const chartTitle = `${none.replace(" is shown", "")} shown`;
  const verdict = (branch: number, decision: string, next = ""): Verdict => ({ branch, decision, sure: "", next, chartTitle, p: judged.smallestP });
  const untypedMornings = !isPanel && !question.blocks ? "If it took several mornings, type them." : "";
  if (worth === undefined) {
    const plan = "Say what difference would be worth having, to see how many it takes.";
    return verdict(15, `${none} yet.`, [plan, untypedMornings].filter(Boolean).join(" "));
  }
  const worthWords = asTyped(judged, worth);
  const widest = Math.max(...gapsOf(judged, CLAIMED).map(({ low, high }) => Math.max(-low, high)));
  if (widest < worth) {
    const alike = `Treat them alike in ${outcome.name}: any difference is under ${worthWords} (19 in 20). Choose by ease.`;
    return { ...verdict(13, alike), chartTitle: `No difference in ${outcome.name} of ${worthWords}`, p: null };
  }
  const needed = attempted(() => shotsNeeded({ difference: worth, spread, significance: level, settings: ranking.length }));
  if (!(needed instanceof Problem) && needed <= fewestShots) {
    return verdict(14, `${none}; ${worthWords} would probably have come out (4 in 5).`, isPanel ? "" : "Choose by ease, or try settings further apart.");
  }
  if (!(needed instanceof Problem) && needed <= MOST_SHOTS_WORTH_PLANNING) {
    const plan = isPanel
      ? `A new tasting with ${counted(needed, "taster")}, judged alone, would probably show ${worthWords}, if there.`
      : `A new trial with ${needed} of each, judged alone, would probably show ${worthWords}, if there.`;
    return verdict(15, `${none} yet.`, [plan, untypedMornings].filter(Boolean).join(" "));
  }
  return isPanel
    ? verdict(16, `${none}; tasters differ too much (${asTyped(judged, spread)}). Agree on a scale first.`)
    : verdict(16, `${none}; shots vary too much (${asTyped(judged, spread)}). Make dose and puck alike first.`, untypedMornings);
}

function isBetween(setting: Setting, kept: readonly Setting[]): boolean {
  const numbers = kept.filter((it) => typeof it === "number");
  return typeof setting === "number" && numbers.some((it) => it < setting) && numbers.some((it) => it > setting);
}

function gave({ isPanel }: Judged): string {
  return isPanel ? "got" : "gave";
}

function useWords({ outcome, isPanel }: Judged, setting: string): string {
  if (isPanel) return `${outcome.isTaste ? "Best liked" : `Most ${outcome.name}`}: ${setting}.`;
  return outcome.isTaste ? `Use ${setting}.` : `For most ${outcome.name}, ${setting}.`;
}

function keepWords({ outcome, isPanel }: Judged, settings: string): string {
  if (isPanel) return `${outcome.isTaste ? "Best liked" : `Most ${outcome.name}`}: ${settings}`;
  return outcome.isTaste ? `Keep to ${settings}` : `For most ${outcome.name}, keep to ${settings}`;
}

function bestWords({ outcome, isPanel }: Judged): string {
  if (isPanel) return outcome.isTaste ? "was liked best" : `had most ${outcome.name}`;
  return outcome.isTaste ? "tasted best" : `gave most ${outcome.name}`;
}

function betterTitle({ outcome, isPanel, say }: Judged, { better, worse }: Gap): string {
  const verb = isPanel ? (outcome.isTaste ? "was liked better than" : `had more ${outcome.name} than`) : outcome.isTaste ? "tasted better than" : `gave more ${outcome.name} than`;
  return `${say.one(better)} ${verb} ${say.one(worse)}`;
}

/** "0.6 points more than 91 °C (0.2 to 1.0)". */
function gapWords(judged: Judged, gap: Gap, than: string): string {
  const amounts = gapAmounts(judged, gap);
  return `${amounts.one(gap.difference)} more than ${than} (${amounts.span(gap.low, gap.high)})`;
}

function gapAmounts(judged: Judged, { difference, low, high }: Gap): ResultWords {
  return amountsOf(judged, (high - low) / 2, difference, low);
}

function amountsOf({ outcome }: Judged, reach: number, ...kept: readonly number[]): ResultWords {
  return resultWords(differenceUnit(outcome), reach, ...kept);
}

/** A difference with two digits at most, as a person would write it. */
function asTyped({ outcome }: Judged, value: number): string {
  return [printed(Number(value.toPrecision(2))), differenceUnit(outcome)].filter(Boolean).join(" ");
}

/** Differences of percentages are points, since 0.6 % more could mean 0.6 % of it. */
function differenceUnit({ name, unit }: Outcome): string {
  return unit === "%" ? `points of ${name}` : unit;
}

function methodOf({ comparison, isPanel }: Judged, outcomes: number, p: number | null): string {
  const trial = trialOf(comparison);
  const blocks = comparison.blocks ? `, ${isPanel ? "tasters" : "mornings"} as blocks` : "";
  const test = spreadOf(trial) === "equal" ? `Tukey–Kramer${blocks}` : "Games–Howell, own spreads";
  const several = outcomes > 1 ? `; Holm over ${outcomes} outcomes` : "";
  const chance = p === null ? "; intervals at 95 %" : `; p ${p < 0.001 ? "below 0.001" : p.toFixed(3)}`;
  return `${test}${several}${chance}.${isPanel ? " About these pulls and tasters only." : ""}`;
}
