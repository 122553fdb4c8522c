/** Reads one log, writes what looks wrong in it, and keeps the sums. */
import { extname } from "node:path";
import { badInput, Problem } from "../../../shared/problem";
import { LogAudit, NoLog, type Finding } from "../../log-file/audit";
import { Gravest, joinedCafes, type CafeState, type PlacedFinding } from "../../log-file/cafe";
import { fields, type ChosenColumns } from "../../log-file/columns";
import { mostCafes } from "../../log-file/cafes-in-log";
import { CsvLog } from "../../log-file/csv-log";
import { CsvReading, type CsvForm, type CsvRow } from "../../log-file/csv-reading";
import { LogSums, type Window } from "../../log-file/log-sums";
import { inSettingOrder, settingKey } from "../../../shared/settings";
import { defaultUnits } from "../../sheet/unit-choice";
import { worded } from "../../sheet/wording";
import { FileProblem } from "../../xlsx/file-problem";
import { CannotWrite, CsvFile, type ResultForm } from "./csv-file";
import type { LogInput } from "./log-inputs";
import { piecesOf } from "./pieces";
import { WorkbookLog, type LogSheet } from "./workbook-rows";

export interface ReadingAsked {
  readonly columns: ChosenColumns;
  /** The only sheet of a workbook to be read. */
  readonly sheet?: string;
  readonly form: Partial<ResultForm>;
  readonly windows: readonly Window[];
  /** The form of the results; that of the log itself if left out. */
  readonly resultForm?: ResultForm;
  /** Where all findings will stand. */
  readonly findingsPlace: string;
}

export interface LogRead {
  /** As sentences: which columns were used, and what had to be assumed. */
  readonly notes: readonly string[];
  readonly form: ResultForm;
  readonly rows: number;
  /** The cafés that its column names, or the log as one. */
  readonly cafes: readonly CafeState[];
}

/** Why a log is not among the results, as a sentence. */
export interface LogNotRead {
  readonly refused: string;
}

export type LogOutcome = LogRead | LogNotRead;

export type OnProgress = (bytes: number, rows: number) => void;

export async function readLog(input: LogInput, asked: ReadingAsked, findingsPath: string, onProgress: OnProgress): Promise<LogOutcome> {
  try {
    return await (isWorkbook(input) ? readWorkbookLog : readCsvLog)(input, asked, findingsPath, onProgress);
  } catch (thrown) {
    if (thrown instanceof FileProblem) return { refused: thrown.message };
    if (thrown instanceof CannotWrite || !(thrown instanceof Problem)) throw thrown;
    return { refused: worded(thrown.words, defaultUnits) };
  }
}

function isWorkbook({ path }: LogInput): boolean {
  return path !== undefined && [".xlsx", ".xlsm"].includes(extname(path).toLowerCase());
}

async function readCsvLog(input: LogInput, asked: ReadingAsked, findingsPath: string, onProgress: OnProgress): Promise<LogRead> {
  const log = new CsvLog(asked);
  const { audit, reading } = log;
  let findings: Findings | undefined;
  let rows = 0;
  const take = (some: readonly Finding[], bytes: number): void => {
    if (reading.form) {
      findings ??= new Findings(new CsvFile(findingsPath, asked.findingsPlace, asked.resultForm ?? reading.form));
      findings.add(some, input.file, "");
    }
    onProgress(bytes, audit.sums.counts.rows - rows);
    rows = audit.sums.counts.rows;
  };
  for await (const piece of piecesOf(input)) take(log.push(piece), piece.length);
  take(log.end(), 0);
  findings!.end();
  const { separator, decimal } = reading.form!;
  const formNote = `Cells are separated by ${separator === "\t" ? "tabs" : `“${separator}”`}, decimals by “${decimal}”.`;
  return { notes: [columnNote(audit), formNote, ...reading.notes, ...audit.notes], form: reading.form!, rows, cafes: cafesOf(audit, input, findings!) };
}

/** Cells of a workbook hold numbers, whatever marks they are shown with. */
const workbookForm: CsvForm = { separator: ",", decimal: ".", width: 0 };
/** Rows between two signs of progress. */
const rowsAtOnce = 5000;

/** Every sheet with the headings of a log is read, and all of them are one café's. */
async function readWorkbookLog(input: LogInput, asked: ReadingAsked, findingsPath: string, onProgress: OnProgress): Promise<LogRead> {
  const workbook = await WorkbookLog.open(input, `${findingsPath}.texts`);
  const form = asked.resultForm ?? { separator: asked.form.separator ?? ",", decimal: asked.form.decimal ?? "." };
  const file = new CsvFile(findingsPath, asked.findingsPlace, form);
  try {
    return { form, ...readSheets(workbook, input, asked, file, onProgress) };
  } finally {
    workbook.close();
    file.end();
  }
}

function readSheets(workbook: WorkbookLog, input: LogInput, asked: ReadingAsked, file: CsvFile, onProgress: OnProgress): Omit<LogRead, "form"> {
  const sheets = chosenSheets(workbook.sheets, asked.sheet);
  let rows = 0;
  const cafes: CafeState[] = [];
  const notes: string[] = [];
  const passedOver: string[] = [];
  let whyNone = "";
  for (const sheet of sheets) {
    const log = new LogAudit({ ...asked, workbook: sheet });
    const findings = new Findings(file);
    const take = (some: readonly CsvRow[]): void => {
      const before = log.sums.counts.rows;
      findings.add(log.add(some, workbookForm), input.file, sheet.name);
      onProgress(workbook.bytesRead(), log.sums.counts.rows - before);
    };
    try {
      let some: CsvRow[] = [];
      for (const row of sheet.rows()) {
        some.push(row);
        // One by one as far as it is not known whether this is a log at all: many a sheet is none.
        if (log.columns && some.length < rowsAtOnce) continue;
        take(some);
        some = [];
      }
      take(some);
      log.end();
    } catch (thrown) {
      if (!(thrown instanceof NoLog)) throw thrown;
      passedOver.push(sheet.name);
      whyNone ||= worded(thrown.words, defaultUnits);
      continue;
    }
    rows += log.sums.counts.rows;
    cafes.push(...cafesOf(log, input, findings));
    notes.push(`Sheet “${sheet.name}”. ${columnNote(log)}`, ...log.notes.map((note) => `Sheet “${sheet.name}”. ${note}`));
  }
  if (notes.length === 0) badInput(sheets.length === 1 ? whyNone : `None of the sheets ${quoted(passedOver)} is a shot log. ${whyNone}`);
  if (passedOver.length > 0) notes.push(`Passed over, as no logs: ${quoted(passedOver)}.`);
  return { notes, rows, cafes: joinedCafes(cafes).map((it) => ({ ...it, files: [input.file] })) };
}

function chosenSheets(sheets: readonly LogSheet[], chosen: string | undefined): readonly LogSheet[] {
  if (chosen === undefined) return sheets;
  const sheet = sheets.find(({ name }) => name.toLowerCase() === chosen.toLowerCase());
  return sheet ? [sheet] : badInput(`There is no sheet “${chosen}”, but ${quoted(sheets.map(({ name }) => name))}.`);
}

function quoted(names: readonly string[]): string {
  return names.map((name) => `“${name}”`).join(", ");
}

/** What looks wrong, all of it in a file and the gravest of it at hand. */
class Findings {
  private readonly ranked = new Map<string, Gravest>();
  private readonly all = new Gravest();

  constructor(private readonly file: CsvFile) {}

  /** Of a café that the log names, or of all of them. */
  gravest(cafe?: string): readonly PlacedFinding[] {
    return cafe === undefined ? this.all.findings : (this.ranked.get(settingKey(cafe))?.findings ?? []);
  }

  add(findings: readonly Finding[], file: string, sheet: string): void {
    this.file.write(findings.map(({ line, typed, words, refused }) => [
      file, sheet, String(line), ...fields.map((field) => typed[field]), refused ? `Row refused: ${words}` : words,
    ]));
    for (const finding of findings) {
      const placed = { ...finding, file, sheet };
      this.all.add(placed);
      if (finding.cafe !== undefined) this.rankedOf(settingKey(finding.cafe)).add(placed);
    }
  }

  end(): void {
    this.file.end();
  }

  private rankedOf(key: string): Gravest {
    const known = this.ranked.get(key) ?? new Gravest();
    // As many as the audit tells apart.
    if (this.ranked.size < mostCafes) this.ranked.set(key, known);
    return known;
  }
}

/** Rows that name no café count under the name of the log; blank ones are no reason to make a café of it. */
function cafesOf({ cafes, sums }: LogAudit, { cafe, file }: LogInput, findings: Findings): CafeState[] {
  if (!cafes || cafes.length === 0) return [{ cafe, files: [file], state: sums.state, gravest: findings.gravest() }];
  const isOnlyBlank = ({ counts }: LogSums): boolean => counts.rows === counts.blank;
  const [kept, blank] = [cafes.filter((it) => !isOnlyBlank(it.sums)), cafes.filter((it) => isOnlyBlank(it.sums))];
  const told = kept.length > 0 ? kept : cafes.slice(0, 1);
  for (const it of blank.filter((one) => !told.includes(one))) told[0]!.sums.merge(it.sums);
  return told
    .sort((a, b) => inSettingOrder(a.cafe, b.cafe))
    .map((it) => ({ cafe: it.cafe || cafe, files: [file], state: it.sums.state, gravest: findings.gravest(it.cafe) }));
}

function columnNote({ columns }: LogAudit): string {
  return `Columns: ${fields.flatMap((field) => (columns![field] ? [`${field} from “${columns![field].heading}”`] : [])).join(", ")}.`;
}

/** The form of the first of the logs that has one of its own, or what every spreadsheet takes. */
export async function firstForm(logs: readonly LogInput[], given: Partial<ResultForm>): Promise<ResultForm> {
  for (const log of logs.filter((it) => !isWorkbook(it))) {
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
  return { separator: given.separator ?? ",", decimal: given.decimal ?? "." };
}
