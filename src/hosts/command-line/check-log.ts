/**
 * Audits a shot log that is too long for a sheet: reads a .csv of any length in constant memory, writes what looks wrong as one .csv
 * and a summary of each setting as another, beside the log or in a folder of choice. The log itself is never changed.
 */
import { Problem } from "../../../shared/problem";
import { LogAudit, type Finding } from "../../log-file/audit";
import { fields } from "../../log-file/columns";
import { CsvReading, type CsvForm } from "../../log-file/csv-reading";
import { defaultUnits } from "../../sheet/unit-choice";
import { worded } from "../../sheet/wording";
import { help, readArguments, type Asked } from "./arguments";
import { CsvFile } from "./csv-file";
import { inputOf, piecesOf, type LogInput } from "./log-input";
import { Outputs } from "./outputs";
import { progressOf } from "./progress";

const found = 1;
const failed = 2;

async function run(): Promise<number> {
  const asked = readArguments(process.argv.slice(2));
  if (!asked) {
    console.log(help);
    return 0;
  }
  const input = inputOf(asked.input);
  const names = { findings: `${input.name}-findings.csv`, summary: `${input.name}-summary.csv` };
  const logs = input.path === undefined ? [] : [input.path];
  const outputs = Outputs.begin(asked.output ?? input.folder, Object.values(names), { logs, replace: asked.replace });
  discardWhenStopped(outputs);
  try {
    const { log, reading } = await audit(input, asked, outputs.path(names.findings));
    writeSummary(outputs.path(names.summary), log, reading.form!);
    outputs.finish();
    report(log, reading);
    console.log(`Findings: ${outputs.place(names.findings)}\nSummary of each setting: ${outputs.place(names.summary)}`);
    return log.sums.counts.found + log.sums.counts.refused > 0 ? found : 0;
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

async function audit(input: LogInput, asked: Asked, findingsPath: string): Promise<{ log: LogAudit; reading: CsvReading }> {
  const reading = new CsvReading(asked.form);
  const log = new LogAudit(asked.columns);
  const progress = progressOf(input.size);
  let findings: CsvFile | undefined;
  const take = (rows: ReturnType<CsvReading["push"]>): void => {
    if (!reading.form) return;
    const some = log.add(rows, reading.form);
    findings ??= new CsvFile(findingsPath, reading.form, ["line", ...fields, "finding"]);
    findings.write(some.map(findingCells));
  };
  for await (const piece of piecesOf(input)) {
    const before = log.sums.counts.rows;
    take(reading.push(piece));
    progress.add(piece.length, log.sums.counts.rows - before);
  }
  take(reading.end());
  progress.end();
  log.end();
  findings!.end();
  return { log, reading };
}

function findingCells({ line, typed, words, refused }: Finding): string[] {
  return [String(line), ...fields.map((field) => typed[field]), refused ? `Row refused: ${words}` : words];
}

const summaryHeadings = [
  "rows", "setting", "shots", "ratio mean", "ratio SD", "time mean, s", "time SD, s", "strength mean, %", "strength SD, %", "extraction mean, %", "extraction SD, %",
];

function writeSummary(path: string, log: LogAudit, form: CsvForm): void {
  const shown = (value: number | string | Problem): string => {
    if (value instanceof Problem) return "";
    const text = typeof value === "number" ? String(Number(value.toPrecision(6))) : value;
    return typeof value === "number" && form.decimal === "," ? text.replace(".", ",") : text;
  };
  const file = new CsvFile(path, form, summaryHeadings);
  for (const { rows, settings } of log.sums.summary()) {
    file.write(settings.map((it) => [
      rows, shown(it.anySetting), String(it.shots), ...[
        it.meanRatio, it.sdRatio, it.meanTime, it.sdTime, it.meanStrength, it.sdStrength, it.meanExtraction, it.sdExtraction,
      ].map(shown),
    ]));
  }
  file.end();
}

function report(log: LogAudit, reading: CsvReading): void {
  const { rows, read, refused, blank, found: odd } = log.sums.counts;
  const used = fields.flatMap((field) => (log.columns![field] ? [`${field} from “${log.columns![field].heading}”`] : []));
  console.log(`Columns: ${used.join(", ")}.`);
  const { separator, decimal } = reading.form!;
  console.log(`Cells are separated by ${separator === "\t" ? "tabs" : `“${separator}”`}, decimals by “${decimal}”.`);
  for (const note of [...reading.notes, ...log.notes]) console.log(note);
  console.log(`${rows} rows in the file: ${read} read, ${refused} refused. Of those read, ${blank} are blank and ${odd} look wrong.`);
  const seconds = process.uptime();
  const megabytes = process.resourceUsage().maxRSS / 1024;
  console.log(`${seconds.toFixed(1)} s, ${Math.round(rows / seconds)} rows a second, at most ${Math.round(megabytes)} MB of memory.`);
}

try {
  process.exitCode = await run();
} catch (thrown) {
  console.error(thrown instanceof Problem ? worded(thrown.words, defaultUnits) : thrown instanceof Error ? thrown.message : String(thrown));
  process.exitCode = failed;
}
