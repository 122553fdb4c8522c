/** The audit of a log file, row by row in constant memory: what looks wrong in each row, and a summary of each setting. */
import { checkedRow, type Grade } from "../../shared/log/check";
import { arePlausible, columns as shotColumns, type ShotColumn, type TypedShot } from "../../shared/log/plausible";
import { Problem } from "../../shared/problem";
import { plainNumber } from "../../shared/reading";
import type { Setting } from "../../shared/settings";
import { units } from "../../shared/units";
import { defaultUnits, type UnitChoice } from "../sheet/unit-choice";
import { worded } from "../sheet/wording";
import { CafesInLog, mostCafes, type CafeInLog } from "./cafes-in-log";
import { columnsOf, fields, mostRowsAboveHeading, requireOneUse, type ChosenColumns, type Field, type LogColumns } from "./columns";
import { LogSums, mostSettings, type LogCounts, type SettingSums, type Window } from "./log-sums";
import { KnownNames, PlainLines, type PlainForm } from "./plain-lines";
import type { CsvForm, CsvRow } from "./csv-reading";
import { typedNumber, unreadWords } from "./typed-number";

export interface Finding {
  /** Line of the file, from 1. */
  readonly line: number;
  /** What the row holds, as it was typed. */
  readonly typed: Readonly<Record<Field, string>>;
  readonly words: string;
  /** How bad it is; a row or a cell that cannot be read cannot be. */
  readonly grade: Grade;
  /** The row could not be read at all. */
  readonly refused: boolean;
  /** The café that the row names; left out where the log has no such column. */
  readonly cafe?: string;
}

const ounce = units.mass.oz.size;
const day = units.time.clock.size;
const whole = units.percent.cell.size;

export interface AuditOptions {
  /** Columns named by whoever asks for the audit. */
  readonly columns?: ChosenColumns;
  readonly windows?: readonly Window[];
  /** The rows are those of a workbook, where no cell moves to another column: what stands beside the columns of the log is something else. */
  readonly workbook?: {
    /** What the numbers of a column are, by the look of their cells: a day is 1 in clock cells, and all of a whole in percent cells. */
    kindOf(column: number): "clock" | "percent" | "number";
  };
}

type ReadShot = Readonly<Record<ShotColumn, number | null>>;

/** This is not a log: it has no row of headings. */
export class NoLog extends Problem {}

export class LogAudit {
  readonly sums: LogSums;
  private readonly byCafe: CafesInLog;
  private found: LogColumns | undefined;
  private asked: readonly ShotColumn[] = [];
  private units: UnitChoice = defaultUnits;
  private width = 0;
  private readonly aboveHeading: CsvRow[] = [];
  /** Dose, beverage, time and strength of the row above; NaN for what it does not have. */
  private readonly above = { dose: NaN, beverage: NaN, time: NaN, strength: NaN };
  private readonly chosen: ChosenColumns;
  private readonly workbook: AuditOptions["workbook"];

  constructor({ columns = {}, windows = [], workbook }: AuditOptions = {}) {
    this.chosen = columns;
    this.workbook = workbook;
    this.sums = new LogSums(windows);
    this.byCafe = new CafesInLog(windows);
  }

  /** Known once the heading row has been met. */
  get columns(): LogColumns | undefined {
    return this.found;
  }

  /** The cafés that the log names; undefined where it names none, or too many. */
  get cafes(): readonly CafeInLog[] | undefined {
    return this.found?.cafe && !this.byCafe.tooMany ? this.byCafe.all : undefined;
  }

  get notes(): string[] {
    const notes: string[] = [];
    if (this.aboveHeading.length > 0 && this.found) notes.push(`${this.aboveHeading.length === 1 ? "One line" : `${this.aboveHeading.length} lines`} above the heading row passed over.`);
    const { short } = this.sums.counts;
    if (short > 0) {
      notes.push(`${short === 1 ? "One row has" : `${short} rows have`} fewer cells than the heading; what is missing was read as blank.`);
    }
    if (this.sums.tooManySettings) notes.push(`“${this.found!.setting!.heading}” has more than ${mostSettings} different values, so its summary stops there; say which column is the setting with --setting.`);
    if (this.byCafe.tooMany) {
      const { heading } = this.found!.cafe!;
      notes.push(`“${heading}” has more than ${mostCafes} different values, so the log counts as one café; say which column is the café with --cafe.`);
    }
    return notes;
  }

  /** Takes rows in the order of the file; throws a Problem where they are no log. */
  add(rows: readonly CsvRow[], form: CsvForm): Finding[] {
    const findings: Finding[] = [];
    for (const row of rows) {
      if (!this.found) this.lookForHeading(row);
      else this.check(row, form, findings);
    }
    return findings;
  }

  /** To be called at the end of the file. */
  end(): void {
    if (!this.found) this.refuseAsNoLog();
  }

  /**
   * A way for the plain lines of a log, which counts them as `add` would; undefined where there is none. It may be asked for once the heading
   * has been met, and used for whole lines in their turn; `lineOf` tells the line of the file of the plain line that is being taken.
   */
  plainLines({ separator, decimal }: CsvForm, lineOf: () => number): PlainLines | undefined {
    const columns = this.found;
    if (!columns || this.workbook || separator.charCodeAt(0) > 127 || separator.length !== 1) return undefined;
    const numbers = this.asked.map((column) => ({ column, index: columns[column]!.index, size: columns[column]!.bareUnit }));
    // Such a heading could come again as a row of numbers.
    if (this.asked.some((column) => plainNumber(columns[column]!.heading, decimal === ",") !== undefined)) return undefined;
    const required = this.asked.filter((column) => column !== "strength");
    const settingsOf = (sums: LogSums): KnownNames<SettingSums> => new KnownNames((text) => sums.of(settingOf(text, decimal)));
    const settings = settingsOf(this.sums);
    const cafes = new KnownNames((text) => {
      const cafe = this.byCafe.of(text);
      return cafe && { sums: cafe.sums, settings: settingsOf(cafe.sums) };
    });
    const { sums: all, above } = this;
    const isWatched = all.isWatched;
    const take: PlainForm["take"] = (dose, beverage, time, strength, { bytes, settingFrom, settingTo, cafeFrom, cafeTo }) => {
      if (!arePlausible(dose, beverage, time, strength)) return false;
      // The same numbers as in the row above: whether that is worth a word is for the check.
      if (above.time === time && above.beverage === beverage && above.dose === dose && above.strength === strength) return false;
      const sums = columns.setting ? settings.of(bytes, settingFrom, settingTo) : settings.of(allShots, 0, allShots.length);
      if (!sums) return false;
      const line = isWatched ? lineOf() : 0;
      if (columns.cafe) {
        const cafe = cafes.of(bytes, cafeFrom, cafeTo);
        if (!cafe) return false;
        const ownSums = columns.setting ? cafe.settings.of(bytes, settingFrom, settingTo) : cafe.settings.of(allShots, 0, allShots.length);
        if (!ownSums) return false;
        cafe.sums.counts.rows++;
        cafe.sums.counts.read++;
        cafe.sums.addSound(ownSums, ownSums.setting, line, dose, beverage, time, strength);
      }
      all.counts.rows++;
      all.counts.read++;
      all.addSound(sums, sums.setting, line, dose, beverage, time, strength);
      above.dose = dose;
      above.beverage = beverage;
      above.time = time;
      above.strength = strength;
      return true;
    };
    const [setting, cafe] = [columns.setting?.index ?? -1, columns.cafe?.index ?? -1];
    return new PlainLines({ separator, decimal, width: this.width, columns: numbers, required, setting, cafe, take });
  }

  private lookForHeading(row: CsvRow): void {
    const columns = row.refused === undefined ? columnsOf(row.cells, this.chosen) : undefined;
    if (columns) {
      requireOneUse(columns);
      this.asked = shotColumns.filter((column) => columns[column]);
      this.width = row.cells.length;
      this.found = this.asCells(columns);
      const inOunces = columns.dose?.bareUnit === ounce || columns.beverage?.bareUnit === ounce;
      const [clock, percent] = [this.found.time?.bareUnit === day, this.found.strength?.bareUnit === whole];
      this.units = { ...defaultUnits, mass: inOunces ? "oz" : "g", time: clock ? "clock" : "s", percent: percent ? "cell" : "number" };
      return;
    }
    if (row.cells.some((cell) => cell.trim() !== "")) this.aboveHeading.push(row);
    if (this.aboveHeading.length >= mostRowsAboveHeading) this.refuseAsNoLog();
  }

  /** In a workbook the look of the cells tells what their numbers are. */
  private asCells({ time, strength, ...others }: LogColumns): LogColumns {
    return {
      ...others,
      ...(time && { time: this.workbook?.kindOf(time.index) === "clock" ? { ...time, bareUnit: day } : time }),
      ...(strength && { strength: this.workbook?.kindOf(strength.index) === "percent" ? { ...strength, bareUnit: whole } : strength }),
    };
  }

  private refuseAsNoLog(): never {
    const first = this.aboveHeading[0];
    if (!first) throw new NoLog("bad input", "The file holds no rows.");
    const shown = first.cells.slice(0, 8).map((cell) => `“${cell.slice(0, 30)}”`).join(", ");
    const missing = Object.entries(this.chosen).map(([field, choice]) => `${field} “${choice}”`).join(", ");
    throw new NoLog(
      "bad input",
      missing !== ""
        ? `No heading row has the columns asked for (${missing}) and two of dose, beverage, time and strength. The file begins with ${shown}.`
        : `This is no shot log: no heading row names two of dose, beverage, time and strength. The file begins with ${shown}. If it is a log, say which column is which, as in --dose 2 --beverage "In the cup".`,
    );
  }

  private check(row: CsvRow, form: CsvForm, findings: Finding[]): void {
    const cells = this.workbook ? row.cells.slice(0, this.width) : row.cells;
    const column = this.found!.cafe;
    const cafe = column && this.byCafe.of(cells[column.index] ?? "");
    const named = column && { cafe: (cells[column.index] ?? "").trim() };
    this.count("rows", cafe);
    const refused = row.refused ?? this.misfit(cells, form);
    if (refused !== undefined) {
      this.count("refused", cafe);
      findings.push({ line: row.line, typed: this.typedIn(cells), words: refused, grade: "cannot be", refused: true, ...named });
      return;
    }
    this.count("read", cafe);
    if (lastFilled(cells) < 0) {
      this.count("blank", cafe);
      return;
    }
    if (cells.length < this.width && !this.workbook) this.count("short", cafe);
    const { shot, unread } = this.shotIn(cells, form);
    const asked = unread.length === 0 ? this.asked : this.asked.filter((it) => !unread.some(([column]) => column === it));
    const found = checkedRow(shot, { above: typedShot(this.above), asked, units: this.units });
    for (const column of shotColumns) this.above[column] = shot[column] ?? NaN;
    const sound = unread.length === 0 && !found;
    this.summarise(row.line, cells, shot, form, sound, cafe);
    if (sound) return;
    this.count("found", cafe);
    const words = [...unread.map(([, problem]) => problem), ...(found ? [worded(found.words, this.units)] : [])].join(" ");
    findings.push({ line: row.line, typed: this.typedIn(cells), words, grade: unread.length > 0 ? "cannot be" : found!.grade, refused: false, ...named });
  }

  private count(what: keyof LogCounts, cafe: CafeInLog | undefined): void {
    this.sums.counts[what]++;
    if (cafe) cafe.sums.counts[what]++;
  }

  /** Why a row does not fit under the heading. Cells left out at the end of a row read as blank. */
  private misfit(cells: readonly string[], form: CsvForm): string | undefined {
    const filled = lastFilled(cells) + 1;
    if (filled > this.width) {
      const hint = form.separator === "," ? " Decimal commas between commas look like this." : "";
      return `The row has ${filled} cells, but the heading has ${this.width}.${hint}`;
    }
    if (cells.length === 1 && filled === 1 && this.width > 2 && !this.workbook) return `The row has one cell, but the heading has ${this.width}.`;
    const headed = this.asked.every((column) => cells[this.found![column]!.index]?.trim() === this.found![column]!.heading);
    return headed ? "The heading row again." : undefined;
  }

  private shotIn(cells: readonly string[], form: CsvForm): { shot: ReadShot; unread: [ShotColumn, string][] } {
    const shot: Record<ShotColumn, number | null> = { dose: null, beverage: null, time: null, strength: null };
    const unread: [ShotColumn, string][] = [];
    for (const column of this.asked) {
      const { index, bareUnit } = this.found![column]!;
      try {
        shot[column] = typedNumber(column, cells[index] ?? "", { bareUnit, decimalComma: form.decimal === "," });
      } catch (thrown) {
        if (!(thrown instanceof Problem)) throw thrown;
        unread.push([column, unreadWords(column, thrown, this.units)]);
      }
    }
    return { shot, unread };
  }

  private summarise(line: number, cells: readonly string[], shot: ReadShot, form: CsvForm, sound: boolean, cafe: CafeInLog | undefined): void {
    const column = this.found!.setting;
    const setting = column ? settingOf(cells[column.index] ?? "", form.decimal) : noSettings;
    this.sums.add(setting, shot, sound, line);
    cafe?.sums.add(setting, shot, sound, line);
  }

  private typedIn(cells: readonly string[]): Record<Field, string> {
    const typed = { dose: "", beverage: "", time: "", strength: "", setting: "", cafe: "" };
    for (const field of fields) {
      const column = this.found?.[field];
      if (column) typed[field] = cells[column.index] ?? "";
    }
    return typed;
  }
}

/** What the shots of a log are called where it has no settings. */
const noSettings = "all shots";
const allShots = new TextEncoder().encode(noSettings);

function typedShot({ dose, beverage, time, strength }: Readonly<Record<ShotColumn, number>>): TypedShot {
  const typed = (value: number): number | null => (Number.isNaN(value) ? null : value);
  return { dose: typed(dose), beverage: typed(beverage), time: typed(time), strength: typed(strength) };
}

function settingOf(cell: string, decimal: string): Setting {
  const text = cell.trim();
  return plainNumber(text, decimal === ",") ?? text;
}

/** Index of the last cell that is not blank, or -1. */
function lastFilled(cells: readonly string[]): number {
  let index = cells.length - 1;
  while (index >= 0 && cells[index]!.trim() === "") index--;
  return index;
}
