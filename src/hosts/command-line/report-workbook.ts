/** The report of a chain as a workbook: the answers first, then café beside café, charts, settings and the gravest findings. */
import type { CellRole, DescribedCell, DescribedChart, DescribedColumn, SheetDescription } from "../../ready-sheets/sheet-description";
import { broken } from "../../ready-sheets/sheet-builder";
import { address } from "../../sheet/references";
import { measures, type Measure, type SettingSummary } from "../../../shared/log/summary";
import type { Problem } from "../../../shared/problem";
import { inGravity, type CafeState, type PlacedFinding } from "../../log-file/cafe";
import { fields } from "../../log-file/columns";
import { LogSums } from "../../log-file/log-sums";
import { chainReport, labelOf, sentencesOf, unitOf, type CafeReport, type ChainReport, type Measured } from "./chain-report";

/** What a run can say of its logs besides what is in them. */
export interface Surroundings {
  /** Logs that could not be read, and why, as sentences. */
  readonly notRead: readonly string[];
  /** How the logs were read, as sentences. */
  readonly notes: readonly string[];
}

type Value = number | string | undefined;

export function reportSheets(cafes: readonly CafeState[], windows: ChainReport["windows"], around: Surroundings): SheetDescription[] {
  const report = chainReport(cafes, windows);
  return [answers(report, around), sideBySide(report), ...charts(report), settings(cafes), findings(cafes)];
}

function answers(report: ChainReport, { notRead, notes }: Surroundings): SheetDescription {
  const lines: [CellRole, string][] = [
    ["title", report.cafes.length === 1 ? `Shot log of ${report.cafes[0]!.cafe}` : `Shot logs of ${report.cafes.length} cafés`],
    ...paragraphs("verdict", [...sentencesOf(report), ...notRead]),
    ...paragraphs("note", notes),
    ...paragraphs("footnote", method(report)),
  ];
  return described("Report", "What the logs tell, in sentences", [lineLength], {
    cells: Object.fromEntries(lines.flatMap(([role, value], row) => (value === "" ? [] : [[address(row, 0), { role, value }]]))),
    print: { area: `A1:A${lines.length}`, landscape: true, onePage: true },
  });
}

/** Characters of a line of the report. */
const lineLength = 110;

/** Each text in as many lines as it takes, with a blank line before them all. */
function paragraphs(role: CellRole, texts: readonly string[]): [CellRole, string][] {
  return texts.length === 0 ? [] : [[role, ""], ...texts.flatMap((text) => broken(text, lineLength)).map((line): [CellRole, string] => [role, line])];
}

function method({ windows, differences }: ChainReport): string[] {
  return [
    "Method. Rows with a finding are left out of all means. Intervals are 95 % (Student's t).",
    ...(windows.length > 0 ? [
      "Steady, centred and tight are judged on the latest 1,000 shots without a finding, and shots have the numbers of their rows; where a café has several sheets or files, they are counted among these. Steady: von Neumann's ratio and a test for odd shots, which together find something in about 5 of 100 cafés where nothing moved; in the sentences above only what would come by chance in any of all these cafés at most once in 20 times (Bonferroni). Centred: the mean against the middle, within an eighth of the width. Tight: Pp against 1, by its 95 % interval.",
    ] : []),
    ...(differences.length > 0 ? ["Between cafés: one-way analysis of variance; a difference is claimed where chance gives one as large at most once in 100 times. Cafés may differ in what they aim for."] : []),
  ];
}

function sideBySide({ cafes, windows }: ChainReport): SheetDescription {
  const columns: DescribedColumn[] = [
    numbers("No.", cafes.map((_, index) => index + 1), "0"),
    words("Café", cafes.map(({ cafe }) => cafe)),
    numbers("Rows", cafes.map(({ counts }) => counts.rows), "#,##0"),
    numbers("Cannot be read", cafes.map(({ counts }) => counts.refused), "#,##0"),
    numbers("Look wrong", cafes.map(({ counts }) => counts.found), "#,##0"),
    numbers("Shots without a finding", cafes.map(({ shots }) => shots), "#,##0"),
    ...measures.flatMap((measure) => measuredColumns(measure, cafes)),
    ...windows.flatMap(({ measure }, index) => {
      const of = (text: (cafe: CafeReport["watched"][number]) => Value): Value[] => cafes.map(({ watched }) => text(watched[index]!));
      const label = labelOf[measure];
      return [
        numbers(`${label} inside, %`, of(({ inside }) => inside), "0.0"),
        words(`${label}: steady?`, of(({ verdict }) => verdict.steady)),
        words(`${label}: centred?`, of(({ verdict }) => verdict.centred)),
        words(`${label}: tight?`, of(({ verdict }) => verdict.tight)),
        words(`${label}: what next?`, of(({ verdict }) => verdict.next)),
      ];
    }),
  ];
  return tableSheet("Cafés", "Cafés side by side", "Cafes", columns);
}

function measuredColumns(measure: Measure, cafes: readonly CafeReport[]): DescribedColumn[] {
  const unit = unitOf[measure] === "" ? "" : `, ${unitOf[measure]}`;
  const of = (value: (measured: Measured) => number | undefined): (number | undefined)[] => cafes.map(({ measured }) => value(measured[measure]));
  const label = labelOf[measure];
  return [
    numbers(`${label} mean${unit}`, of(({ mean }) => mean), "0.00"),
    numbers(`${label} mean, low${unit}`, of(({ low }) => low), "0.00"),
    numbers(`${label} mean, high${unit}`, of(({ high }) => high), "0.00"),
    numbers(`${label} SD${unit}`, of(({ sd }) => sd), "0.00"),
  ];
}

/** Rows that a chart takes on its sheet. */
const chartRows = 22;
/** Intervals that a chart shows before it is nothing but lines. */
const mostSegments = 100;

/** One chart a measure: the mean of every café with its interval, and the window. */
function charts({ cafes, windows, differences }: ChainReport): SheetDescription[] {
  const shown = differences.map(({ measure }) => measure);
  if (shown.length === 0) return [];
  const cells: Record<string, DescribedCell> = { A1: { role: "title", value: "Cafés side by side" } };
  const drawn: DescribedChart[] = [];
  const below = 3 + shown.length * chartRows;
  const put = (row: number, column: number, role: CellRole, value: Value): void => {
    if (value !== undefined) cells[address(row, column)] = { role, value };
  };
  put(below, 0, "heading", "No.");
  put(below, 1, "heading", "No.");
  put(below, 2, "text heading", "Café");
  cafes.forEach(({ cafe }, index) => {
    // An interval is a line from one x to the same x.
    for (const column of [0, 1]) put(below + 1 + index, column, "working", index + 1);
    put(below + 1 + index, 2, "working", cafe);
  });
  shown.forEach((measure, place) => {
    const left = 3 + 5 * place;
    const top = 2 + place * chartRows;
    const window = windows.find((it) => it.measure === measure);
    const unit = unitOf[measure] === "" ? "" : `, ${unitOf[measure]}`;
    const title = `${labelOf[measure]}${unit}`;
    ["mean", "from", "to", "low", "high"].forEach((heading, index) => put(below, left + index, "heading", `${labelOf[measure]} ${heading}${unit}`));
    cafes.forEach(({ measured }, index) => {
      const { mean, low, high } = measured[measure];
      [mean, low, high, window?.low, window?.high].forEach((value, at) => put(below + 1 + index, left + at, "working", value));
    });
    const wanted = window ? `, and the window of ${window.low} to ${window.high}` : "";
    put(top - 1, 0, "note", `${title}: the mean of each café with its 95 % interval${wanted}. Cafés by number, as listed below.`);
    const titles = [address(below, 0), address(below, left)] as const;
    const ends = endsOf([...cafes.flatMap(({ measured: { [measure]: it } }) => [it.mean, it.low, it.high]), window?.low, window?.high]);
    drawn.push(chartOf(title, measure, { top, below, left, rows: cafes.length, window: window !== undefined, titles, words: address(top - 1, 0), ends }));
  });
  return [described("Charts", "The means of the cafés with their intervals", [7, 7, 26, ...new Array<number>(5 * shown.length).fill(11)], {
    cells, charts: drawn, print: { area: `A1:${address(below - 1, 9)}`, onePage: true },
  })];
}

interface ChartPlace {
  readonly top: number;
  readonly below: number;
  readonly left: number;
  readonly rows: number;
  readonly window: boolean;
  readonly titles: readonly [string, string];
  readonly words: string;
  readonly ends: DescribedChart["yEnds"];
}

/** Round numbers about all that is shown: from 0 the cafés would lie in one line. */
function endsOf(shown: readonly (number | undefined)[]): DescribedChart["yEnds"] {
  const values = shown.filter((value) => value !== undefined);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  if (!(least < most)) return undefined;
  const step = 10 ** Math.floor(Math.log10(most - least));
  return [Math.floor(least / step - 0.2) * step, Math.ceil(most / step + 0.2) * step].map((end) => Number(end.toPrecision(6))) as [number, number];
}

function chartOf(title: string, measure: Measure, { top, below, left, rows, window, titles, words: said, ends }: ChartPlace): DescribedChart {
  const columns = (from: number, to = from): string => `${address(below + 1, from)}:${address(below + rows, to)}`;
  return {
    title, from: address(top, 0), to: address(top + chartRows - 4, 9), xTitle: titles[0], yTitle: titles[1], yEnds: ends, words: said,
    series: [
      { name: labelOf[measure], look: "points", x: columns(0), y: columns(left) },
      // Each is a series of its own, of which a chart holds no more than 255.
      ...(rows <= mostSegments ? [{ name: "95 % interval", look: "segments" as const, x: columns(0, 1), y: columns(left + 1, left + 2) }] : []),
      ...(window ? [
        { name: "window, low", look: "line" as const, x: columns(0), y: columns(left + 3) },
        { name: "window, high", look: "line" as const, x: columns(0), y: columns(left + 4) },
      ] : []),
    ],
  };
}

/** More rows than these of a sheet are left to the .csv files. */
const mostRows = 5000;

function settings(cafes: readonly CafeState[]): SheetDescription {
  const rows = cafes.flatMap(({ cafe, state }) => LogSums.of(state).summary()[1]!.settings.map((setting) => ({ cafe, setting }))).slice(0, mostRows);
  const of = (value: (setting: SettingSummary) => number | Problem): Value[] => rows.map(({ setting }) => numberOf(value(setting)));
  return tableSheet("Settings", "Every café and setting, without rows that have a finding", "Settings", [
    words("Café", rows.map(({ cafe }) => cafe)),
    words("Setting", rows.map(({ setting }) => setting.anySetting)),
    numbers("Shots", rows.map(({ setting }) => setting.shots), "#,##0"),
    numbers("Ratio mean", of((it) => it.meanRatio), "0.00"), numbers("Ratio SD", of((it) => it.sdRatio), "0.00"),
    numbers("Shot time mean, s", of((it) => it.meanTime), "0.0"), numbers("Shot time SD, s", of((it) => it.sdTime), "0.0"),
    numbers("Strength mean, %", of((it) => it.meanStrength), "0.00"), numbers("Strength SD, %", of((it) => it.sdStrength), "0.00"),
    numbers("Extraction mean, %", of((it) => it.meanExtraction), "0.00"), numbers("Extraction SD, %", of((it) => it.sdExtraction), "0.00"),
  ]);
}

function numberOf(value: number | Problem): number | undefined {
  return typeof value === "number" && Number.isFinite(value) ? value : undefined;
}

function findings(cafes: readonly CafeState[]): SheetDescription {
  const all = inGravity(cafes.flatMap(({ gravest }) => gravest));
  const rows = all.slice(0, mostRows);
  const of = (value: (finding: PlacedFinding) => Value): Value[] => rows.map(value);
  return tableSheet("Findings", "What looks wrong, the gravest first; all of it is in the file of findings", "Findings", [
    words("File", of(({ file }) => file)), words("Sheet", of(({ sheet }) => sheet)), numbers("Line", of(({ line }) => line), "0"),
    words("Grade", of(({ grade }) => grade)),
    ...fields.map((field) => words(`${field.charAt(0).toUpperCase()}${field.slice(1)}`, of(({ typed }) => typed[field]))),
    words("Finding", of((it) => (it.refused ? `Row refused: ${it.words}` : it.words))),
  ]);
}

function numbers(heading: string, values: readonly Value[], format: string): DescribedColumn {
  return { heading, role: "result", format, values };
}

function words(heading: string, values: readonly Value[]): DescribedColumn {
  return { heading, role: "result", words: true, values: values.map((value) => (typeof value === "string" ? shownText(value) : value)) };
}

/** No cell of a workbook holds signs that control a printer, nor may one long text hide the rest of the report. */
function shownText(text: string): string {
  const plain = text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "�");
  return plain.length > longestText ? `${plain.slice(0, longestText - 1)}…` : plain;
}

const longestText = 500;

/** A title, and a table with its headings in sight. */
function tableSheet(name: string, purpose: string, table: string, columns: readonly DescribedColumn[]): SheetDescription {
  const rows = Math.max(1, columns[0]!.values!.length);
  return described(name, purpose, columns.map(widthOf), {
    cells: { A1: { role: "title", value: purpose } },
    tables: [{ name: table, at: "A3", rows, columns }],
    frozenRows: 3,
    print: { area: `A1:${address(2 + rows, columns.length - 1)}`, landscape: true, repeated: "3:3" },
  });
}

function widthOf({ heading, words: isWords, values }: DescribedColumn): number {
  const longest = Math.max(0, ...values!.map((value) => String(value ?? "").length));
  return isWords ? Math.min(70, Math.max(heading.length, longest) + 2) : Math.max(9, Math.ceil(heading.length / 2) + 3);
}

function described(name: string, purpose: string, widths: readonly number[], rest: Partial<SheetDescription> & Pick<SheetDescription, "cells">): SheetDescription {
  return { name, purpose, widths, tables: [], ...rest };
}
