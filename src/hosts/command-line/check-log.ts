/**
 * Audits shot logs that are too long or too many for a sheet: reads .csv files of any length in constant memory, writes what looks wrong in all
 * of them as one .csv and a summary of each café and setting as another. The logs themselves are never changed.
 */
import { availableParallelism } from "node:os";
import { Problem } from "../../../shared/problem";
import { LogSums, type LogCounts } from "../../log-file/log-sums";
import { defaultUnits } from "../../sheet/unit-choice";
import { worded } from "../../sheet/wording";
import { help, readArguments } from "./arguments";
import { CsvFile, shownNumber, type ResultForm } from "./csv-file";
import { findingHeadings, summaryHeadings } from "./headings";
import { logInputs, type LogInput } from "./log-inputs";
import { Outputs } from "./outputs";
import { progressOf } from "./progress";
import { firstForm, type LogNotRead, type LogOutcome, type LogRead, type ReadingAsked } from "./read-log";
import { readLogs } from "./read-logs";

const found = 1;
const failed = 2;

async function run(): Promise<number> {
  const asked = readArguments(process.argv.slice(2));
  if (!asked) {
    console.log(help);
    return 0;
  }
  const { logs, folder, prefix, leftOut } = logInputs(asked.inputs);
  const names = { findings: `${prefix}findings.csv`, summary: `${prefix}summary.csv` };
  const paths = logs.flatMap(({ path }) => path ?? []);
  const outputs = Outputs.begin(asked.output ?? folder, Object.values(names), { logs: paths, replace: asked.replace });
  discardWhenStopped(outputs);
  try {
    const form = logs.length > 1 ? await firstForm(logs, asked.form) : undefined;
    const { columns, sheet, form: given } = asked;
    const asking = { columns, sheet, form: given, windows: [], resultForm: form, findingsPlace: outputs.place(names.findings) };
    const outcomes = await read(logs, asking, asked.workers, outputs);
    const cafes = logs.flatMap((log, index) => readOf(log, outcomes[index]!));
    if (cafes.length === 0) throw refusalOf(outcomes, logs);
    const resultForm = form ?? cafes[0]!.form;
    const result = (name: string): CsvFile => new CsvFile(outputs.path(name), outputs.place(name), resultForm);
    writeFindings(result(names.findings), cafes.map(({ log }) => partPath(outputs, logs.indexOf(log))));
    writeSummary(result(names.summary), cafes, resultForm);
    outputs.finish();
    report(logs, outcomes, leftOut);
    console.log(`Findings: ${outputs.place(names.findings)}\nSummary of each setting: ${outputs.place(names.summary)}`);
    return exitCode(outcomes);
  } finally {
    outputs.discard();
  }
}

/** Exit codes by which a shell knows that a signal ended the run. */
const signals = { SIGHUP: 129, SIGINT: 130, SIGTERM: 143 } as const;

function discardWhenStopped(outputs: Outputs): void {
  for (const [signal, code] of Object.entries(signals)) {
    process.once(signal, () => {
      outputs.discard();
      console.error("\nStopped. Nothing was written.");
      process.exit(code);
    });
  }
}

function partPath(outputs: Outputs, index: number): string {
  return outputs.path(`findings-${index}.part`);
}

async function read(logs: readonly LogInput[], asking: ReadingAsked, wanted: number | undefined, outputs: Outputs): Promise<LogOutcome[]> {
  const sizes = logs.map(({ size }) => size);
  const progress = progressOf(sizes.includes(undefined) ? undefined : sizes.reduce<number>((sum, size) => sum + size!, 0));
  const tasks = logs.map((log, index) => ({ log, findingsPath: partPath(outputs, index) }));
  const workers = Math.min(wanted ?? availableParallelism(), logs.length);
  const outcomes = await readLogs(tasks, asking, workers, (bytes, rows) => progress.add(bytes, rows));
  progress.end();
  return outcomes;
}

type ReadLog = LogRead & { readonly log: LogInput };

function readOf(log: LogInput, outcome: LogOutcome): ReadLog[] {
  return "refused" in outcome ? [] : [{ log, ...outcome }];
}

function refusalOf(outcomes: readonly LogOutcome[], logs: readonly LogInput[]): Problem {
  const refused = outcomes as readonly LogNotRead[];
  if (refused.length === 1) return new Problem("bad input", refused[0]!.refused);
  return new Problem("bad input", ["None of these logs can be read.", ...refused.map((it, index) => `${logs[index]!.file}: ${it.refused}`)].join("\n"));
}

function writeFindings(file: CsvFile, parts: readonly string[]): void {
  file.begin(findingHeadings);
  file.take(parts);
  file.end();
}

function writeSummary(file: CsvFile, cafes: readonly ReadLog[], form: ResultForm): void {
  file.begin(summaryHeadings);
  for (const { log, state } of cafes) {
    for (const { rows, settings } of LogSums.of(state).summary()) {
      file.write(settings.map((it) => [
        rows, log.cafe, typeof it.anySetting === "number" ? shownNumber(it.anySetting, form) : it.anySetting, String(it.shots),
        ...[
          it.meanRatio, it.sdRatio, it.meanTime, it.sdTime, it.meanStrength, it.sdStrength, it.meanExtraction, it.sdExtraction,
        ].map((value) => shownNumber(value, form)),
      ]));
    }
  }
  file.end();
}

function report(logs: readonly LogInput[], outcomes: readonly LogOutcome[], leftOut: readonly string[]): void {
  const total: LogCounts = { ...new LogSums().counts };
  const notes = new Map<string, string[]>();
  outcomes.forEach((outcome, index) => {
    const { file } = logs[index]!;
    if ("refused" in outcome) {
      console.log(`${file} is NOT READ: ${outcome.refused}`);
      return;
    }
    for (const note of outcome.notes) notes.set(note, [...(notes.get(note) ?? []), file]);
    for (const [name, count] of Object.entries(outcome.state.counts)) total[name as keyof LogCounts] += count;
  });
  for (const [note, files] of notes) console.log(logs.length === 1 ? note : `${filesInWords(files, logs.length)}: ${note}`);
  if (leftOut.length > 0) console.log(`Left out, as results of an earlier run: ${leftOut.join(", ")}.`);
  const { rows, read, refused, blank, found: odd } = total;
  const where = logs.length > 1 ? `${outcomes.filter((it) => !("refused" in it)).length} logs` : "the file";
  console.log(`${rows} rows in ${where}: ${read} read, ${refused} refused. Of those read, ${blank} are blank and ${odd} look wrong.`);
  const seconds = process.uptime();
  const megabytes = process.resourceUsage().maxRSS / 1024;
  console.log(`${seconds.toFixed(1)} s, ${Math.round(rows / seconds)} rows a second, at most ${Math.round(megabytes)} MB of memory.`);
}

function filesInWords(files: readonly string[], of: number): string {
  if (files.length === of) return `All ${of} logs`;
  return files.length > 3 ? `${files[0]} and ${files.length - 1} others` : files.join(", ");
}

function exitCode(outcomes: readonly LogOutcome[]): number {
  if (outcomes.some((it) => "refused" in it)) return failed;
  return outcomes.some((it) => !("refused" in it) && it.state.counts.found + it.state.counts.refused > 0) ? found : 0;
}

try {
  process.exitCode = await run();
} catch (thrown) {
  console.error(thrown instanceof Problem ? worded(thrown.words, defaultUnits) : thrown instanceof Error ? thrown.message : String(thrown));
  process.exitCode = failed;
}
