/** Reads one log, writes what looks wrong in it, and keeps the sums. */
import { Problem } from "../../../shared/problem";
import { LogAudit, type Finding } from "../../log-file/audit";
import { fields, type ChosenColumns } from "../../log-file/columns";
import { CsvReading, type CsvForm, type CsvRow } from "../../log-file/csv-reading";
import type { LogState, Window } from "../../log-file/log-sums";
import { defaultUnits } from "../../sheet/unit-choice";
import { worded } from "../../sheet/wording";
import { CannotWrite, CsvFile, type ResultForm } from "./csv-file";
import type { LogInput } from "./log-inputs";
import { piecesOf } from "./pieces";

export interface ReadingAsked {
  readonly columns: ChosenColumns;
  readonly form: Partial<ResultForm>;
  readonly windows: readonly Window[];
  /** The form of the results; that of the log itself if left out. */
  readonly resultForm?: ResultForm;
}

export interface LogRead {
  /** As sentences: which columns were used, and what had to be assumed. */
  readonly notes: readonly string[];
  readonly form: ResultForm;
  readonly state: LogState;
}

/** Why a log is not among the results, as a sentence. */
export interface LogNotRead {
  readonly refused: string;
}

export type LogOutcome = LogRead | LogNotRead;

export async function readLog(
  input: LogInput, asked: ReadingAsked, findingsPath: string, onProgress: (bytes: number, rows: number) => void,
): Promise<LogOutcome> {
  try {
    return await readCsvLog(input, asked, findingsPath, onProgress);
  } catch (thrown) {
    if (thrown instanceof CannotWrite || !(thrown instanceof Problem)) throw thrown;
    return { refused: worded(thrown.words, defaultUnits) };
  }
}

async function readCsvLog(input: LogInput, asked: ReadingAsked, findingsPath: string, onProgress: (bytes: number, rows: number) => void): Promise<LogRead> {
  const reading = new CsvReading(asked.form);
  const log = new LogAudit(asked.columns, asked.windows);
  let findings: CsvFile | undefined;
  const take = (rows: readonly CsvRow[]): void => {
    if (!reading.form) return;
    const some = log.add(rows, reading.form);
    findings ??= new CsvFile(findingsPath, asked.resultForm ?? reading.form);
    findings.write(some.map((it) => findingCells(input.file, it)));
  };
  for await (const piece of piecesOf(input)) {
    const before = log.sums.counts.rows;
    take(reading.push(piece));
    onProgress(piece.length, log.sums.counts.rows - before);
  }
  const before = log.sums.counts.rows;
  take(reading.end());
  onProgress(0, log.sums.counts.rows - before);
  log.end();
  findings!.end();
  return { notes: [...columnNotes(log, reading.form!), ...reading.notes, ...log.notes], form: reading.form!, state: log.sums.state };
}

function findingCells(file: string, { line, typed, words, refused }: Finding): string[] {
  return [file, "", String(line), ...fields.map((field) => typed[field]), refused ? `Row refused: ${words}` : words];
}

function columnNotes(log: LogAudit, { separator, decimal }: CsvForm): string[] {
  const used = fields.flatMap((field) => (log.columns![field] ? [`${field} from “${log.columns![field].heading}”`] : []));
  return [`Columns: ${used.join(", ")}.`, `Cells are separated by ${separator === "\t" ? "tabs" : `“${separator}”`}, decimals by “${decimal}”.`];
}

/** The form of the first of the logs that can be read, or what every spreadsheet takes. */
export async function firstForm(logs: readonly LogInput[], given: Partial<ResultForm>): Promise<ResultForm> {
  for (const log of logs) {
    const reading = new CsvReading(given);
    try {
      for await (const piece of piecesOf(log)) {
        reading.push(piece);
        if (reading.form) return reading.form;
      }
      reading.end();
      if (reading.form) return reading.form;
    } catch (thrown) {
      if (!(thrown instanceof Problem)) throw thrown;
    }
  }
  return { separator: ",", decimal: "." };
}
