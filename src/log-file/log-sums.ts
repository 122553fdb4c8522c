/**
 * What is known of a log besides its findings: counts, sums of each setting, and the measures that are watched. It does not grow with the rows,
 * and the sums of two logs merge into those of both.
 */
import { isEmpty, measureOf, measures, settingSummary, ShotSums, type Measure, type SettingSummary, type SummaryShot, type SumsState } from "../../shared/log/summary";
import { inSettingOrder, settingKey, type Setting } from "../../shared/settings";
import type { RunningState } from "../../shared/statistics/running";

export interface LogCounts {
  /** All rows below the heading. */
  rows: number;
  read: number;
  refused: number;
  /** Of the rows read: blank ones, those with fewer cells than the heading, and those with a finding. */
  blank: number;
  short: number;
  found: number;
}

/** What the shots are wanted to be, in the canonical unit. */
export interface Window {
  readonly measure: Measure;
  readonly low: number;
  readonly high: number;
}

export interface WatchedState {
  readonly window: Window;
  readonly shots: number;
  readonly inside: number;
  /** The last values, the latest last, with the rows of the log they stand in and their settings. */
  readonly latest: readonly number[];
  readonly rows: readonly number[];
  readonly settings: readonly Setting[];
}

/** Plain data, for files and other machines. */
export interface LogState {
  readonly counts: Readonly<LogCounts>;
  readonly settings: readonly { readonly setting: Setting; readonly sound: SumsState; readonly odd: SumsState }[];
  readonly watched: readonly WatchedState[];
  readonly tooManySettings: boolean;
}

/** Whether a file of another machine holds the sums of a log. */
export function isLogState(it: unknown): it is LogState {
  const { counts, settings, watched } = (it ?? {}) as Partial<LogState>;
  const isCount = (count: unknown): boolean => Number.isSafeInteger(count) && (count as number) >= 0;
  const isRunning = (running: RunningState | undefined): boolean => isCount(running?.[0]) && running!.length === 3 && running!.every(Number.isFinite);
  const isSums = (sums: Partial<SumsState> | undefined): boolean => isCount(sums?.shots) && measures.every((measure) => isRunning(sums![measure]));
  return (
    Object.keys(noCounts).every((name) => isCount(counts?.[name as keyof LogCounts])) &&
    Array.isArray(settings) &&
    settings.every((one) => ["string", "number"].includes(typeof one?.setting) && isSums(one.sound) && isSums(one.odd)) &&
    Array.isArray(watched) &&
    watched.every(isWatched)
  );
}

function isWatched(it: Partial<WatchedState> | undefined): boolean {
  const { shots, inside, latest, rows, settings } = it ?? {};
  const areAsMany = (list: unknown): boolean => Array.isArray(list) && list.length === latest!.length;
  if (!Number.isSafeInteger(shots) || !Number.isSafeInteger(inside) || !Array.isArray(latest)) return false;
  return latest.every(Number.isFinite) && areAsMany(rows) && areAsMany(settings);
}

const noCounts: Readonly<LogCounts> = { rows: 0, read: 0, refused: 0, blank: 0, short: 0, found: 0 };

/** A log with more settings than this has none: the column is something else. */
export const mostSettings = 10_000;
/** So many of the latest shots tell whether a bar holds steady. */
const mostLatest = 1000;

/** One setting: shots without a finding, and those with one. */
export interface SettingSums {
  readonly setting: Setting;
  readonly sound: ShotSums;
  readonly odd: ShotSums;
}

export class LogSums {
  readonly counts: LogCounts = { ...noCounts };
  private readonly settings = new Map<string, SettingSums>();
  private readonly watched: readonly Watched[];
  private left = false;

  constructor(windows: readonly Window[] = []) {
    this.watched = windows.map((window) => new Watched(window));
  }

  static of({ counts, settings, watched, tooManySettings }: LogState): LogSums {
    const sums = new LogSums(watched.map(({ window }) => window));
    Object.assign(sums.counts, counts);
    for (const { setting, sound, odd } of settings) sums.settings.set(settingKey(setting), { setting, sound: ShotSums.of(sound), odd: ShotSums.of(odd) });
    sums.watched.forEach((it, index) => it.restore(watched[index]!));
    sums.left = tooManySettings;
    return sums;
  }

  /** Whether it matters in which rows the shots stand. */
  get isWatched(): boolean {
    return this.watched.length > 0;
  }

  /** Some settings are left out, as there were too many. */
  get tooManySettings(): boolean {
    return this.left;
  }

  /** `row` is the line of the log. */
  add(setting: Setting, shot: SummaryShot, sound: boolean, row: number): void {
    if (isEmpty(shot)) return;
    const sums = this.of(setting);
    const { dose, beverage, time, strength } = shot;
    // Under its first spelling, as its sums.
    if (sound) this.addSound(sums, sums?.setting ?? setting, row, dose ?? NaN, beverage ?? NaN, time ?? NaN, strength ?? NaN);
    else sums?.odd.add(shot);
  }

  /** A shot without a finding, to the sums of its setting, if that has any; NaN for what it does not have. */
  addSound(sums: SettingSums | undefined, setting: Setting, row: number, dose: number, beverage: number, time: number, strength: number): void {
    sums?.sound.addNumbers(dose, beverage, time, strength);
    for (const it of this.watched) it.add(setting, row, dose, beverage, time, strength);
  }

  /** As if the rows of the other had come after its own. */
  merge(other: LogSums): void {
    for (const [name, count] of Object.entries(other.counts)) this.counts[name as keyof LogCounts] += count as number;
    for (const { setting, sound, odd } of other.settings.values()) {
      const own = this.of(setting);
      own?.sound.merge(sound);
      own?.odd.merge(odd);
    }
    this.watched.forEach((it, index) => it.merge(other.watched[index]!));
    this.left ||= other.left;
  }

  get state(): LogState {
    return {
      counts: this.counts,
      settings: this.inOrder().map(({ setting, sound, odd }) => ({ setting, sound: sound.state, odd: odd.state })),
      watched: this.watched.map((it) => it.state),
      tooManySettings: this.left,
    };
  }

  /** Each setting twice: over all rows that were read, and over those without a finding. Shots without a setting last. */
  summary(): { readonly rows: "all" | "without findings"; readonly settings: SettingSummary[] }[] {
    const settings = this.inOrder();
    const lines = (sums: (of: SettingSums) => ShotSums): SettingSummary[] =>
      settings.map((it) => settingSummary(it.setting, sums(it))).filter(({ shots }) => shots > 0);
    return [{ rows: "all", settings: lines(({ sound, odd }) => joined([sound, odd])) }, { rows: "without findings", settings: lines(({ sound }) => sound) }];
  }

  /** Over all settings, without the rows that have a finding. */
  sound(): ShotSums {
    return joined(this.inOrder().map(({ sound }) => sound));
  }

  /** The sums of a setting; undefined where there are too many settings. */
  of(setting: Setting): SettingSums | undefined {
    const key = settingKey(setting);
    const known = this.settings.get(key);
    if (known) return known;
    if (this.settings.size >= mostSettings) {
      this.left = true;
      return undefined;
    }
    // A name cut out of the file would keep its whole piece of the file in memory.
    const sums = { setting: typeof setting === "string" ? [...setting].join("") : setting, sound: new ShotSums(), odd: new ShotSums() };
    this.settings.set(key, sums);
    return sums;
  }

  private inOrder(): SettingSums[] {
    return [...this.settings.values()].sort((a, b) => inSettingOrder(a.setting, b.setting));
  }
}

function joined(parts: readonly ShotSums[]): ShotSums {
  const all = new ShotSums();
  for (const part of parts) all.merge(part);
  return all;
}

interface Latest {
  readonly value: number;
  readonly row: number;
  readonly setting: Setting;
}

/** A measure that is wanted within limits. */
class Watched {
  private shots = 0;
  private inside = 0;
  /** The latest values, in a ring that `next` goes round. */
  private latest: Latest[] = [];
  private next = 0;

  constructor(private readonly window: Window) {}

  restore({ shots, inside, latest, rows, settings }: WatchedState): void {
    [this.shots, this.inside, this.next] = [shots, inside, latest.length % mostLatest];
    this.latest = latest.map((value, index) => ({ value, row: rows[index]!, setting: settings[index]! }));
  }

  add(setting: Setting, row: number, dose: number, beverage: number, time: number, strength: number): void {
    const value = measureOf(this.window.measure, dose, beverage, time, strength);
    if (!Number.isFinite(value)) return;
    this.shots++;
    if (value >= this.window.low && value <= this.window.high) this.inside++;
    this.keep({ value, row, setting });
  }

  merge(other: Watched): void {
    this.shots += other.shots;
    this.inside += other.inside;
    for (const it of other.inTurn()) this.keep(it);
  }

  get state(): WatchedState {
    const latest = this.inTurn();
    const { window, shots, inside } = this;
    return {
      window, shots, inside,
      latest: latest.map(({ value }) => value), rows: latest.map(({ row }) => row), settings: latest.map(({ setting }) => setting),
    };
  }

  private keep(it: Latest): void {
    this.latest[this.next] = it;
    this.next = (this.next + 1) % mostLatest;
  }

  private inTurn(): Latest[] {
    return this.latest.length < mostLatest ? [...this.latest] : [...this.latest.slice(this.next), ...this.latest.slice(0, this.next)];
  }
}
