/** What the logs of a chain tell: café beside café, what is wanted against what is, and how much differs between cafés rather than between shots. */
import { varianceComponents, type VarianceComponents } from "../../../shared/comparison/variance-components";
import { logVerdict, type LogVerdict } from "../../../shared/decisions/log-verdict";
import { listed } from "../../../shared/decisions/sentences";
import { measures, type Measure } from "../../../shared/log/summary";
import { mean, standardDeviation } from "../../../shared/statistics/describe";
import { tQuantileTwoSided, tTwoSided } from "../../../shared/statistics/distributions";
import { neighbourTest } from "../../../shared/statistics/von-neumann";
import { printed } from "../../../shared/words";
import type { CafeState } from "../../log-file/cafe";
import { LogSums, type LogCounts, type Window } from "../../log-file/log-sums";

export interface CafeReport {
  readonly cafe: string;
  readonly counts: Readonly<LogCounts>;
  /** Shots without a finding. */
  readonly shots: number;
  readonly measured: Readonly<Record<Measure, Measured>>;
  /** In the order of the windows. */
  readonly watched: readonly Watched[];
}

export interface Measured {
  readonly shots: number;
  readonly mean?: number;
  readonly sd?: number;
  /** The 95 % interval of the mean. */
  readonly low?: number;
  readonly high?: number;
}

export interface Watched {
  /** Part of the shots inside the window, %. */
  readonly inside?: number;
  /** Of the latest shots. */
  readonly verdict: LogVerdict;
  /** How often chance alone gives a mean as far from the middle, and neighbours as alike; 1 where that cannot be told. */
  readonly chance: { readonly off: number; readonly moved: number };
}

export interface Difference extends VarianceComponents {
  readonly measure: Measure;
  /** Part of the variance of single shots that lies between cafés, %. */
  readonly share: number;
}

export interface ChainReport {
  readonly windows: readonly Window[];
  readonly cafes: readonly CafeReport[];
  /** Of the measures that two cafés or more have. */
  readonly differences: readonly Difference[];
}

export function chainReport(cafes: readonly CafeState[], windows: readonly Window[]): ChainReport {
  const reports = cafes.map(cafeReport);
  return { windows, cafes: reports, differences: measures.flatMap((measure) => differenceOf(measure, reports)) };
}

function cafeReport({ cafe, files, state }: CafeState): CafeReport {
  const sound = LogSums.of(state).sound();
  return {
    cafe,
    counts: state.counts,
    shots: sound.shots,
    measured: Object.fromEntries(measures.map((measure) => [measure, measuredOf(sound.measured(measure).state)])) as Record<Measure, Measured>,
    watched: state.watched.map(({ window, shots, inside, latest, rows, settings }) => ({
      ...(shots > 0 && { inside: (100 * inside) / shots }),
      verdict: logVerdict({ values: latest, settings, rows: files.length === 1 && areInOrder(rows) ? rows : undefined })({
        low: window.low, high: window.high, unit: unitOf[window.measure],
      }),
      chance: chanceOf(latest, window),
    })),
  };
}

/** Rows of several sheets are not: their numbers would name more than one. */
function areInOrder(rows: readonly number[]): boolean {
  return rows.every((row, index) => index === 0 || row > rows[index - 1]!);
}

function chanceOf(values: readonly number[], { low, high }: Window): Watched["chance"] {
  const sd = values.length > 1 ? standardDeviation(values) : 0;
  if (sd === 0) return { off: 1, moved: 1 };
  return {
    off: tTwoSided((Math.sqrt(values.length) * (mean(values) - (low + high) / 2)) / sd, values.length - 1),
    moved: values.length > 2 ? neighbourTest(values).alike : 1,
  };
}

function measuredOf([shots, mean, squares]: readonly [number, number, number]): Measured {
  if (shots < 2) return { shots, ...(shots > 0 && { mean }) };
  const sd = Math.sqrt(squares / (shots - 1));
  const reach = (tQuantileTwoSided(0.05, shots - 1) * sd) / Math.sqrt(shots);
  return { shots, mean, sd, low: mean - reach, high: mean + reach };
}

function differenceOf(measure: Measure, cafes: readonly CafeReport[]): Difference[] {
  const groups = cafes.flatMap(({ measured }) => {
    const { shots, mean, sd = 0 } = measured[measure];
    return mean === undefined ? [] : [{ count: shots, mean, squares: sd * sd * (shots - 1) }];
  });
  const shots = groups.reduce((sum, { count }) => sum + count, 0);
  if (groups.length < 2 || shots === groups.length) return [];
  const components = varianceComponents(groups);
  const { withinSd, betweenSd } = components;
  const all = withinSd ** 2 + betweenSd ** 2;
  return all === 0 ? [] : [{ measure, ...components, share: (100 * betweenSd ** 2) / all }];
}

export const unitOf: Readonly<Record<Measure, string>> = { ratio: "", time: "s", strength: "%", extraction: "%" };
export const labelOf: Readonly<Record<Measure, string>> = { ratio: "Ratio", time: "Shot time", strength: "Strength", extraction: "Extraction" };

/** So many names are said in a sentence. */
const mostNamed = 12;
/** A log with more wrong rows than one in so many is mended before it is judged. */
const soundEnough = 5;
/** Of cafés that are all well one is named wrongly at most once in 20 times, however many there are (Bonferroni). */
const amongAll = 0.05;
/** A difference between cafés is claimed where chance alone gives one as large at most once in 100 times. */
const significance = 0.01;

/** The report in sentences, the most pressing first. */
export function sentencesOf(report: ChainReport): string[] {
  const { cafes, windows } = report;
  const clear = cafes.filter((cafe) => !isMuddled(cafe));
  const judged = clear.length === 0 ? [] : windows.flatMap((window, index) => againstWindow(clear, window, index));
  return [totals(cafes), ...mend(cafes.filter(isMuddled)), ...judged, ...apart(report)];
}

function totals(cafes: readonly CafeReport[]): string {
  const total = (count: keyof LogCounts): number => cafes.reduce((sum, { counts }) => sum + counts[count], 0);
  const [rows, found, refused] = [total("rows"), total("found"), total("refused")];
  const wrong = found + refused;
  const often = wrong === 0 ? "none of them looks wrong" : `${grouped(wrong)} of them ${wrong === 1 ? "looks wrong or cannot" : "look wrong or cannot"} be read, 1 in ${grouped(Math.round(rows / wrong))}`;
  return `${cafes.length === 1 ? "" : `${cafes.length} cafés: `}${grouped(rows)} ${rows === 1 ? "row" : "rows"}; ${often}.`;
}

/** To the last digit: these are counts. */
function grouped(count: number): string {
  return count.toLocaleString("en");
}

function isMuddled({ counts }: CafeReport): boolean {
  return (counts.found + counts.refused) * soundEnough > counts.rows;
}

function mend(muddled: readonly CafeReport[]): string[] {
  const [what, them] = muddled.length === 1 ? ["log", "it"] : ["logs", "they"];
  return muddled.length === 0 ? [] : [`More than one row in ${soundEnough} looks wrong in the ${what} of ${named(muddled, ({ cafe }) => cafe)}: to be mended before ${them} can be judged.`];
}

function againstWindow(cafes: readonly CafeReport[], { measure, low, high }: Window, index: number): string[] {
  const unit = unitOf[measure] === "" ? "" : ` ${unitOf[measure]}`;
  const title = `${labelOf[measure]}, ${printed(low)} to ${printed(high)}${unit} wanted`;
  const verdict = ({ watched }: CafeReport): LogVerdict => watched[index]!.verdict;
  const sure = (chance: number): boolean => chance * cafes.length < amongAll;
  const which = (rule: (rules: LogVerdict["rules"], chance: Watched["chance"]) => boolean): CafeReport[] =>
    cafes.filter(({ watched }) => rule(watched[index]!.verdict.rules, watched[index]!.chance));
  const off = which(({ centred }, chance) => centred === "off" && sure(chance.off));
  const unknown = which(({ centred }) => centred === "not known");
  const moved = which(({ steady }, chance) => (steady === "moved" || steady === "drifted") && sure(chance.moved));
  const wide = which(({ tight }) => tight === "too wide");
  const several = cafes.length > 1;
  return [
    off.length > 0
      ? `${title}. Off target: ${named(off, (cafe) => `${several ? `${cafe.cafe}, ` : ""}${bare(verdict(cafe).centred)}`, "; ")}.`
      : `${title}. ${unknown.length === cafes.length ? "Whether that is met on average is not known." : "Nothing is shown to be off target."}`,
    ...(unknown.length > 0 && unknown.length < cafes.length ? [`${labelOf[measure]}: not known of ${named(unknown, ({ cafe }) => cafe)}.`] : []),
    ...(moved.length > 0 ? [`${labelOf[measure]}, not steady: ${named(moved, (cafe) => `${several ? `${cafe.cafe}, ` : ""}${bare(verdict(cafe).steady)}`, "; ")}.`] : []),
    ...(wide.length > 0 ? [several ? `${labelOf[measure]}, spread too wide: ${named(wide, ({ cafe }) => cafe)}.` : `${labelOf[measure]}: the spread is too wide.`] : []),
  ];
}

/** A short text of a verdict within a sentence. */
function bare(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`.replace(/\.$/, "");
}

function named(cafes: readonly CafeReport[], words: (cafe: CafeReport) => string, between = ", "): string {
  const names = cafes.slice(0, mostNamed).map(words);
  const more = cafes.length - names.length;
  if (more > 0) return `${names.join(between)}${between}and ${more} more`;
  return between === ", " ? listed(names, "and") : names.join(between);
}

function apart({ cafes, differences }: ChainReport): string[] {
  return differences.map(({ measure, betweenSd, withinSd, share, p }) => {
    const unit = unitOf[measure] === "" ? "" : ` ${unitOf[measure]}`;
    if (p >= significance || betweenSd === 0) return `${labelOf[measure]}: no difference between cafés is shown; shots of one café differ by ${printedSd(withinSd)}${unit} (SD).`;
    const inOrder = cafes.filter(({ measured }) => measured[measure].mean !== undefined).sort((a, b) => a.measured[measure].mean! - b.measured[measure].mean!);
    const [lowest, highest] = [inOrder[0]!, inOrder[inOrder.length - 1]!];
    const said = (cafe: CafeReport): string => `${cafe.cafe} (${printedSd(cafe.measured[measure].mean!)}${unit})`;
    return `${labelOf[measure]}: ${part(share)} of the spread of single shots lies between cafés (SD ${printedSd(betweenSd)}${unit}), the rest between the shots of one (SD ${printedSd(withinSd)}${unit}). `
      + `Lowest at ${said(lowest)}, highest at ${said(highest)}.`;
  });
}

function part(share: number): string {
  return share < 1 ? "less than 1 %" : `${Math.round(share)} %`;
}

function printedSd(value: number): string {
  return String(Number(value.toPrecision(3)));
}
