/**
 * Audits a shot log that is too long for a sheet: reads a .csv of any length in constant memory, writes what looks wrong as one .csv
 * and a summary of each setting as another, beside the log or in a folder of choice. The log itself is never changed.
 */
import { createReadStream, createWriteStream, existsSync, statSync } from "node:fs";
import { basename, dirname, extname, join } from "node:path";
import { finished } from "node:stream/promises";
import { once } from "node:events";
import { parseArgs } from "node:util";
import Papa from "papaparse";
import { Problem } from "../../../shared/problem.ts";
import { LogAudit, type Finding } from "../../log-file/audit.ts";
import { fields, type ChosenColumns } from "../../log-file/columns.ts";
import { CsvReading, type CsvForm } from "../../log-file/csv-reading.ts";
import { defaultUnits } from "../../sheet/unit-choice.ts";
import { worded } from "../../sheet/wording.ts";

const help = `npm run check-log -- FILE [options]

Reads a shot log (.csv) and says what looks wrong in it, row by row. Writes FILE-findings.csv and FILE-summary.csv.

  --dose, --beverage, --time, --strength, --setting COLUMN
                     which column that is: its heading, or its number from 1 (found by the headings if left out)
  --separator SIGN   the sign between cells: "," ";" "|" or "tab" (found by itself if left out)
  --decimal MARK     "point" or "comma" (found by itself if left out)
  --output FOLDER    where to write (the folder of FILE if left out)
  --replace          write over the findings and summary of an earlier run

Ends with 0 where nothing was found, 1 where something was, 2 where the log could not be read.`;

const found = 1;
const failed = 2;

async function run(): Promise<number> {
  const text = { type: "string" } as const;
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      dose: text, beverage: text, time: text, strength: text, setting: text, separator: text, decimal: text, output: text,
      replace: { type: "boolean" }, help: { type: "boolean" },
    },
  });
  if (values.help) {
    console.log(help);
    return 0;
  }
  const [file, ...others] = positionals;
  if (file === undefined || others.length > 0) throw new Problem("bad input", `${file === undefined ? "Which log?" : "One log at a time, please."}\n\n${help}`);
  if (!existsSync(file)) throw new Problem("bad input", `There is no file ${file}.`);
  if (!statSync(file).isFile()) throw new Problem("bad input", `${file} is not a file.`);
  const chosen: ChosenColumns = Object.fromEntries(fields.flatMap((field) => (values[field] === undefined ? [] : [[field, values[field]]])));
  const reading = new CsvReading({ ...separatorOf(values.separator), ...decimalOf(values.decimal) });
  const folder = values.output ?? dirname(file);
  if (!existsSync(folder)) throw new Problem("bad input", `There is no folder ${folder}.`);
  const name = basename(file, extname(file));
  const outputs = { findings: join(folder, `${name}-findings.csv`), summary: join(folder, `${name}-summary.csv`) };
  for (const path of Object.values(outputs)) {
    if (existsSync(path) && !values.replace) throw new Problem("bad input", `${path} is there already. Move it, or let it be written over with --replace.`);
  }
  return audit(file, reading, new LogAudit(chosen), outputs);
}

function separatorOf(given: string | undefined): { separator?: string } {
  if (given === undefined) return {};
  const separator = given === "tab" ? "\t" : given;
  if (![",", ";", "|", "\t"].includes(separator)) throw new Problem("bad input", `--separator must be "," ";" "|" or tab, but is “${given}”.`);
  return { separator };
}

function decimalOf(given: string | undefined): { decimal?: "." | "," } {
  if (given === undefined) return {};
  if (given !== "point" && given !== "comma") throw new Problem("bad input", `--decimal must be point or comma, but is “${given}”.`);
  return { decimal: given === "point" ? "." : "," };
}

async function audit(file: string, reading: CsvReading, log: LogAudit, outputs: { findings: string; summary: string }): Promise<number> {
  const progress = progressOf(statSync(file).size);
  let findings: CsvFile | undefined;
  const take = async (rows: ReturnType<CsvReading["push"]>): Promise<void> => {
    if (!reading.form) return;
    const some = log.add(rows, reading.form);
    // Nothing is written for a file that turns out to be no log.
    if (!log.columns) return;
    findings ??= new CsvFile(outputs.findings, reading.form, ["line", ...fields, "finding"]);
    await findings.write(some.map((it) => findingCells(it)));
  };
  for await (const piece of createReadStream(file, { highWaterMark: 1 << 18 }) as AsyncIterable<Uint8Array>) {
    await take(reading.push(piece));
    progress.add(piece.length, log.counts.rows);
  }
  await take(reading.end());
  progress.end();
  log.end();
  await findings!.end();
  await writeSummary(new CsvFile(outputs.summary, reading.form!, summaryHeadings), log, reading.form!);
  report(log, reading, outputs);
  return log.counts.found + log.counts.refused > 0 ? found : 0;
}

function findingCells({ line, typed, words, refused }: Finding): string[] {
  return [String(line), ...fields.map((field) => typed[field]), refused ? `Row refused: ${words}` : words];
}

const summaryHeadings = [
  "rows", "setting", "shots", "ratio mean", "ratio SD", "time mean, s", "time SD, s", "strength mean, %", "strength SD, %", "extraction mean, %", "extraction SD, %",
];

async function writeSummary(file: CsvFile, log: LogAudit, form: CsvForm): Promise<void> {
  const shown = (value: number | string | Problem): string => {
    if (value instanceof Problem) return "";
    const text = typeof value === "number" ? String(Number(value.toPrecision(6))) : value;
    return typeof value === "number" && form.decimal === "," ? text.replace(".", ",") : text;
  };
  for (const { rows, settings } of log.summary()) {
    await file.write(settings.map((it) => [
      rows, shown(it.anySetting), String(it.shots), ...[
        it.meanRatio, it.sdRatio, it.meanTime, it.sdTime, it.meanStrength, it.sdStrength, it.meanExtraction, it.sdExtraction,
      ].map(shown),
    ]));
  }
  await file.end();
}

function report(log: LogAudit, reading: CsvReading, outputs: { findings: string; summary: string }): void {
  const { rows, read, refused, blank, found: odd } = log.counts;
  const used = fields.flatMap((field) => (log.columns![field] ? [`${field} from “${log.columns![field].heading}”`] : []));
  console.log(`Columns: ${used.join(", ")}.`);
  const { separator, decimal } = reading.form!;
  console.log(`Cells are separated by ${separator === "\t" ? "tabs" : `“${separator}”`}, decimals by “${decimal}”.`);
  for (const note of [...reading.notes, ...log.notes]) console.log(note);
  console.log(`${rows} rows in the file: ${read} read, ${refused} refused. Of those read, ${blank} are blank and ${odd} look wrong.`);
  const seconds = process.uptime();
  const megabytes = process.resourceUsage().maxRSS / 1024;
  console.log(`${seconds.toFixed(1)} s, ${Math.round(rows / seconds)} rows a second, at most ${Math.round(megabytes)} MB of memory.`);
  console.log(`Findings: ${outputs.findings}\nSummary of each setting: ${outputs.summary}`);
}

/** How far the reading is: a line that renews itself on a terminal, else one line for every tenth. */
function progressOf(size: number): { add(bytes: number, rows: number): void; end(): void } {
  let [done, shownAt, shownTenth, wrote] = [0, Date.now(), 0, false];
  return {
    add(bytes, rows) {
      done += bytes;
      const percent = Math.floor((100 * done) / Math.max(1, size));
      const line = `${percent} % read, ${rows} rows`;
      if (process.stderr.isTTY) {
        if (Date.now() - shownAt < 200) return;
        [shownAt, wrote] = [Date.now(), true];
        process.stderr.write(`\r${line}`);
      } else if (Math.floor(percent / 10) > shownTenth) {
        shownTenth = Math.floor(percent / 10);
        process.stderr.write(`${line}\n`);
      }
    },
    end() {
      if (wrote) process.stderr.write("\n");
    },
  };
}

/** A .csv that is written row by row, in the form of the log, so that the same spreadsheet opens both. */
class CsvFile {
  private readonly stream;
  private readonly failed: Promise<never>;

  constructor(path: string, private readonly form: CsvForm, headings: readonly string[]) {
    this.stream = createWriteStream(path);
    this.failed = new Promise((_, reject) => this.stream.once("error", (error) => reject(new Problem("bad input", `${path} cannot be written: ${error.message}.`))));
    this.failed.catch(() => undefined);
    // With the mark, spreadsheets read the letters as UTF-8.
    this.stream.write(`\ufeff${this.lines([[...headings]])}`);
  }

  async write(rows: string[][]): Promise<void> {
    if (rows.length > 0 && !this.stream.write(this.lines(rows))) await Promise.race([once(this.stream, "drain"), this.failed]);
  }

  async end(): Promise<void> {
    this.stream.end();
    await Promise.race([finished(this.stream), this.failed]);
  }

  /** What begins like a formula stays text when a spreadsheet opens the file. */
  private lines(rows: string[][]): string {
    return `${Papa.unparse(rows, { delimiter: this.form.separator, newline: "\r\n", escapeFormulae: true })}\r\n`;
  }
}

try {
  process.exitCode = await run();
} catch (thrown) {
  console.error(thrown instanceof Problem ? worded(thrown.words, defaultUnits) : thrown instanceof Error ? thrown.message : String(thrown));
  process.exitCode = failed;
}
