/**
 * Audits shot logs that are too long or too many for a sheet: reads them in constant memory, writes what looks wrong in all of them as one .csv,
 * a summary of each café and setting as another, and a report as a workbook. The logs themselves are never changed.
 */
import { availableParallelism } from "node:os";
import { basename, dirname } from "node:path";
import { Problem } from "../../../shared/problem";
import { joinedCafes, type CafeState } from "../../log-file/cafe";
import { defaultUnits } from "../../sheet/unit-choice";
import { worded } from "../../sheet/wording";
import { help, readArguments, type Asked } from "./arguments";
import { CsvFile } from "./csv-file";
import { commonFolder, logInputs, type LogInput } from "./log-inputs";
import { Outputs } from "./outputs";
import { progressOf } from "./progress";
import { firstForm, type LogNotRead, type LogOutcome, type LogRead } from "./read-log";
import { readLogs } from "./read-logs";
import { writeFindings, writeReport, writeSummary } from "./results";
import { joinedStates, writeState, type RunState } from "./state-file";
import { commonNotes, notRead, sayTotals } from "./telling";

const found = 1;
const failed = 2;

async function run(): Promise<number> {
  const asked = readArguments(process.argv.slice(2));
  if (!asked) {
    console.log(help);
    return 0;
  }
  return asked.merge ? merge(asked) : audit(asked);
}

async function audit(asked: Asked): Promise<number> {
  const { logs, folder, prefix, leftOut } = logInputs(asked.inputs);
  const names = { findings: `${prefix}findings.csv`, summary: `${prefix}summary.csv`, report: `${prefix}report.xlsx` };
  const paths = logs.flatMap(({ path }) => path ?? []);
  return withOutputs(asked, asked.output ?? folder, Object.values(names), paths, async (outputs, stateOutput) => {
    const parts = logs.map((_, index) => outputs.path(`findings-${index}.part`));
    const form = logs.length > 1 ? await firstForm(logs, asked.form) : undefined;
    const outcomes = await read(asked, logs, parts, { resultForm: form, findingsPlace: outputs.place(names.findings) });
    const readAt = logs.flatMap((_, index) => (isRead(outcomes[index]!) ? [index] : []));
    if (readAt.length === 0) throw refusalOf(outcomes as LogNotRead[], logs);
    const cafes = joinedCafes(readAt.flatMap((index) => (outcomes[index] as LogRead).cafes));
    const resultForm = form ?? (outcomes[readAt[0]!] as LogRead).form;
    const file = (name: string): CsvFile => new CsvFile(outputs.path(name), outputs.place(name), resultForm);
    writeFindings(file(names.findings), readAt.map((index) => parts[index]!));
    writeSummary(file(names.summary), cafes, resultForm);
    const around = { notRead: notRead(logs, outcomes), notes: commonNotes(logs, outcomes) };
    await writeReport(outputs.path(names.report), outputs.place(names.report), cafes, asked.windows, around);
    keep(stateOutput, { version: 1, windows: asked.windows, form: resultForm, cafes });
    finish(outputs, stateOutput);
    for (const line of [...around.notRead, ...around.notes]) console.log(line);
    if (leftOut.length > 0) console.log(`Left out, as results of an earlier run: ${leftOut.join(", ")}.`);
    sayTotals(cafes);
    console.log(`Findings: ${outputs.place(names.findings)}\nSummary of each setting: ${outputs.place(names.summary)}\nReport: ${outputs.place(names.report)}`);
    return readAt.length < logs.length ? failed : isSound(cafes) ? 0 : found;
  });
}

async function merge(asked: Asked): Promise<number> {
  const joined = joinedStates(asked.inputs);
  const cafes = joinedCafes(joined.cafes);
  const names = { summary: "summary.csv", report: "report.xlsx" };
  return withOutputs(asked, asked.output ?? commonFolder(asked.inputs), Object.values(names), asked.inputs, async (outputs, stateOutput) => {
    writeSummary(new CsvFile(outputs.path(names.summary), outputs.place(names.summary), joined.form), cafes, joined.form);
    await writeReport(outputs.path(names.report), outputs.place(names.report), cafes, joined.windows, { notRead: [], notes: [] });
    keep(stateOutput, { ...joined, cafes });
    finish(outputs, stateOutput);
    sayTotals(cafes);
    console.log(`Summary of each setting: ${outputs.place(names.summary)}\nReport: ${outputs.place(names.report)}`);
    return isSound(cafes) ? 0 : found;
  });
}

/** Makes room for the results, and takes them away again where the run does not come to its end. */
async function withOutputs(
  { replace, state }: Asked, folder: string, names: readonly string[], logs: readonly string[],
  write: (outputs: Outputs, stateOutput: Outputs | undefined) => Promise<number>,
): Promise<number> {
  const outputs = Outputs.begin(folder, names, { logs, replace });
  try {
    const stateOutput = state === undefined ? undefined : Outputs.begin(dirname(state), [basename(state)], { logs, replace });
    try {
      discardWhenStopped([outputs, ...(stateOutput ? [stateOutput] : [])]);
      return await write(outputs, stateOutput);
    } finally {
      stateOutput?.discard();
    }
  } finally {
    outputs.discard();
  }
}

/** Exit codes by which a shell knows that a signal ended the run. */
const signals = { SIGHUP: 129, SIGINT: 130, SIGTERM: 143 } as const;

function discardWhenStopped(outputs: readonly Outputs[]): void {
  for (const [signal, code] of Object.entries(signals)) {
    process.once(signal, () => {
      for (const it of outputs) it.discard();
      console.error("\nStopped. Nothing was written.");
      process.exit(code);
    });
  }
}

function keep(stateOutput: Outputs | undefined, state: RunState): void {
  const [name] = stateOutput?.names ?? [];
  if (stateOutput && name !== undefined) writeState(stateOutput.path(name), stateOutput.place(name), state);
}

function finish(outputs: Outputs, stateOutput: Outputs | undefined): void {
  outputs.finish();
  stateOutput?.finish();
}

/** Bytes that are read sooner than a thread starts. */
const worthThreads = 4_000_000;

async function read(
  { columns, sheet, form, windows, workers }: Asked, logs: readonly LogInput[], parts: readonly string[],
  results: Pick<Parameters<typeof readLogs>[1], "resultForm" | "findingsPlace">,
): Promise<LogOutcome[]> {
  const sizes = logs.map(({ size }) => size);
  const size = sizes.includes(undefined) ? undefined : sizes.reduce<number>((sum, it) => sum + it!, 0);
  const progress = progressOf(size);
  const tasks = logs.map((log, index) => ({ log, findingsPath: parts[index]! }));
  const threads = Math.min(workers ?? (size !== undefined && size < worthThreads ? 1 : availableParallelism()), logs.length);
  const outcomes = await readLogs(tasks, { columns, sheet, form, windows, ...results }, threads, (bytes, rows) => progress.add(bytes, rows));
  progress.end();
  return outcomes;
}

function isRead(outcome: LogOutcome): outcome is LogRead {
  return !("refused" in outcome);
}

function refusalOf(refused: readonly LogNotRead[], logs: readonly LogInput[]): Problem {
  if (refused.length === 1) return new Problem("bad input", refused[0]!.refused);
  return new Problem("bad input", ["None of these logs can be read.", ...refused.map((it, index) => `${logs[index]!.file}: ${it.refused}`)].join("\n"));
}

function isSound(cafes: readonly CafeState[]): boolean {
  return cafes.every(({ state }) => state.counts.found + state.counts.refused === 0);
}

try {
  process.exitCode = await run();
} catch (thrown) {
  console.error(thrown instanceof Problem ? worded(thrown.words, defaultUnits) : thrown instanceof Error ? thrown.message : String(thrown));
  process.exitCode = failed;
}
