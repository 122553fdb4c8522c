/** The rows of a trial as they are typed, sorted into its outcomes: which shots count for which, and what one shot of several tasters is worth. */
import { badInput, noAnswer } from "../problem";
import { settingKey, type Setting } from "../settings";
import { mean } from "../statistics/describe";

type Gaps<T> = readonly (T | null)[];

export interface TrialRows {
  readonly settings: Gaps<Setting>;
  /** A column for each outcome; several columns of one name are tasters of it. */
  readonly results: readonly Gaps<number>[];
  readonly outcomes: readonly Setting[] | undefined;
  readonly blocks?: Gaps<Setting> | undefined;
  readonly runs?: Gaps<number> | undefined;
  readonly times?: Gaps<number> | undefined;
  /** "tasters": the blocks are tasters, and repeats of a taster are averaged first. */
  readonly kind?: "shots" | "tasters" | undefined;
  /** Results of outcomes in % are fractions, 0.2 for 20 %. */
  readonly percentCells?: boolean | undefined;
}

export interface Outcome {
  /** As in sentences: "taste", "extraction". */
  readonly name: string;
  readonly unit: string;
  /** Something to have much of; of anything else the sentences only say what gives most. */
  readonly isTaste: boolean;
  /** The shots that count, in the order of the rows. */
  readonly settings: readonly Setting[];
  readonly results: readonly number[];
  readonly blocks: readonly Setting[] | undefined;
  readonly runs: readonly number[] | undefined;
  readonly times: readonly number[] | undefined;
  /** What each taster in use scored, shot by shot; empty with a single column. */
  readonly tasters: readonly (readonly number[])[];
}

const TASTE = /^(taste|liking|score)/i;

export function outcomesOf(rows: TrialRows): Outcome[] {
  const { outcomes = badInput("outcomes is blank: name the outcome of each column of results, such as “Taste”."), results } = rows;
  if (outcomes.length !== results.length) {
    badInput(`results has ${results.length} columns, but outcomes has ${outcomes.length} names. Give one name for each column.`);
  }
  const columns = new Map<string, { label: string; columns: Gaps<number>[] }>();
  outcomes.forEach((label, index) => {
    const text = String(label).trim().replace(/ \d+$/, "");
    const known = columns.get(settingKey(text));
    if (known) known.columns.push(results[index]!);
    else columns.set(settingKey(text), { label: text, columns: [results[index]!] });
  });
  return [...columns.values()].map((it) => outcomeOf(rows, it.label, it.columns));
}

/** A column that is there but has nothing in it yet says nothing. */
export function withoutEmptyLists<R extends TrialRows>(rows: R): R {
  const filled = <T>(list: Gaps<T> | undefined): Gaps<T> | undefined => (list?.some((it) => it !== null) ? list : undefined);
  return { ...rows, blocks: filled(rows.blocks), runs: filled(rows.runs), times: filled(rows.times) };
}

function outcomeOf(rows: TrialRows, label: string, columns: readonly Gaps<number>[]): Outcome {
  const { name, unit } = nameAndUnit(label);
  const inUse = columns.filter((column) => column.some((value) => value !== null));
  const size = unit === "%" && rows.percentCells ? 100 : 1;
  const counted = rows.settings.flatMap((_, row) => (inUse.length > 0 && inUse.every((column) => column[row] !== null) ? [row] : []));
  const shots: Outcome = {
    name,
    unit,
    isTaste: TASTE.test(name),
    settings: take(rows.settings, counted, "settings"),
    results: counted.map((row) => size * mean(inUse.map((column) => column[row]!))),
    blocks: rows.blocks && take(rows.blocks, counted, "blocks"),
    runs: rows.runs && take(rows.runs, counted, "runs"),
    times: timesOf(rows.times, counted),
    tasters: inUse.length < 2 ? [] : inUse.map((column) => counted.map((row) => column[row]!)),
  };
  return rows.kind === "tasters" ? averagedByTaster(shots) : shots;
}

/** "Extraction, %" or "Extraction (%)". */
function nameAndUnit(label: string): { name: string; unit: string } {
  const parts = /^(.+?)\s*(?:,\s*([^,]+)|\(([^)]+)\))$/.exec(label);
  const name = (parts?.[1] ?? label).trim();
  const unit = (parts?.[2] ?? parts?.[3] ?? "").trim();
  return { name: name.toLowerCase(), unit: unit === "" && TASTE.test(name) ? "points" : unit };
}

function take<T>(list: Gaps<T>, rows: readonly number[], name: string): T[] {
  return rows.map((row) => list[row] ?? noAnswer(`${name} is blank in row ${row + 1}, where a result is typed. Fill it in, or clear the result.`));
}

/** Shots without a time cannot be compared at a time; then none is. */
function timesOf(times: Gaps<number> | undefined, rows: readonly number[]): number[] | undefined {
  const known = times && rows.map((row) => times[row]!);
  return known?.every((time) => time !== null) ? known : undefined;
}

/** The scores of one taster for one cup, averaged. */
function averagedByTaster(shots: Outcome): Outcome {
  const { blocks } = shots;
  if (!blocks) badInput("With kind “tasters”, blocks are the tasters: give who scored each cup.");
  const cells = new Map<string, number[]>();
  shots.settings.forEach((setting, shot) => {
    const key = `${settingKey(setting)}\n${settingKey(blocks[shot]!)}`;
    const known = cells.get(key);
    if (known) known.push(shot);
    else cells.set(key, [shot]);
  });
  const first = [...cells.values()].map((own) => own[0]!);
  return {
    ...shots,
    settings: first.map((shot) => shots.settings[shot]!),
    results: [...cells.values()].map((own) => mean(own.map((shot) => shots.results[shot]!))),
    blocks: first.map((shot) => blocks[shot]!),
    runs: undefined,
    times: undefined,
    tasters: [],
  };
}
