/** Shots of a log summed up by their settings: as many as come, in no more room than the settings take, and on as many machines as there are. */
import { noAnswer, type Problem } from "../problem";
import { inSettingOrder, settingKey, type Setting } from "../settings";
import { ratio, solids } from "../shot";
import { Running, type RunningState } from "../statistics/running";
import type { Values } from "./limits";

/** What a summary tells of the shots. */
export const measures = ["ratio", "time", "strength", "extraction"] as const;
export type Measure = (typeof measures)[number];

export interface SummaryShot {
  readonly dose: number | null;
  readonly beverage: number | null;
  readonly time: number | null;
  readonly strength: number | null;
}

export function isEmpty({ dose, beverage, time, strength }: SummaryShot): boolean {
  return dose === null && beverage === null && time === null && strength === null;
}

/** A number of the shot, or one that follows from it, g, s and %. Bare numbers, as the longest logs ask this; what the shot does not have is NaN. */
export function measureOf(measure: Measure, dose: number, beverage: number, time: number, strength: number): number {
  if (measure === "time") return time;
  if (measure === "strength") return strength;
  return measure === "ratio" ? ratio({ dose, beverage }) : (100 * solids({ beverage, strength })) / dose;
}

export type SumsState = { readonly shots: number } & Readonly<Record<Measure, RunningState>>;

/** The shots of one setting. */
export class ShotSums {
  private count = 0;
  private readonly ratio = new Running();
  private readonly time = new Running();
  private readonly strength = new Running();
  private readonly extraction = new Running();

  static of(state: SumsState): ShotSums {
    const sums = new ShotSums();
    sums.count = state.shots;
    for (const measure of measures) sums[measure].merge(Running.of(state[measure]));
    return sums;
  }

  get shots(): number {
    return this.count;
  }

  add({ dose, beverage, time, strength }: SummaryShot): void {
    this.addNumbers(dose ?? NaN, beverage ?? NaN, time ?? NaN, strength ?? NaN);
  }

  /** A shot as bare numbers, NaN for what it does not have. */
  addNumbers(dose: number, beverage: number, time: number, strength: number): void {
    this.count++;
    addTo(this.ratio, measureOf("ratio", dose, beverage, time, strength));
    addTo(this.time, time);
    addTo(this.strength, strength);
    addTo(this.extraction, measureOf("extraction", dose, beverage, time, strength));
  }

  /** As if the shots of the other had come after its own. */
  merge(other: ShotSums): void {
    this.count += other.count;
    for (const measure of measures) this[measure].merge(other[measure]);
  }

  get state(): SumsState {
    const { shots, ratio, time, strength, extraction } = this;
    return { shots, ratio: ratio.state, time: time.state, strength: strength.state, extraction: extraction.state };
  }

  measured(measure: Measure): Running {
    return this[measure];
  }
}

/** What a shot does not have is NaN, and a dose that is next to nothing has a ratio beyond all numbers. */
function addTo(running: Running, value: number): void {
  if (Number.isFinite(value)) running.add(value);
}

/** One line of a summary: the shots of a setting, and mean and standard deviation of what they have. */
export type SettingSummary = { anySetting: Setting; shots: number } & { [Name in `${"mean" | "sd"}${Capitalize<Measure>}`]: number | Problem };

export function settingSummary(setting: Setting, sums: ShotSums): SettingSummary {
  const [ratio, time, strength, extraction] = measures.map((measure) => sums.measured(measure)) as [Running, Running, Running, Running];
  return {
    anySetting: setting === "" ? "no setting" : setting,
    shots: sums.shots,
    meanRatio: ratio.mean, sdRatio: ratio.sd,
    meanTime: time.mean, sdTime: time.sd,
    meanStrength: strength.mean, sdStrength: strength.sd,
    meanExtraction: extraction.mean, sdExtraction: extraction.sd,
  };
}

/** Shots, and mean and standard deviation of ratio, time, strength and extraction, of each setting; a row with nothing in it is no shot. */
export function logSummary({ settings, dose, beverage, time, strength }: {
  settings: readonly (Setting | null)[]; dose: Values; beverage: Values; time: Values; strength: Values;
}): SettingSummary[] {
  const groups = new Map<string, { setting: Setting; sums: ShotSums }>();
  settings.forEach((typed, row) => {
    const shot = { dose: dose[row] ?? null, beverage: beverage[row] ?? null, time: time[row] ?? null, strength: strength[row] ?? null };
    if (isEmpty(shot)) return;
    const setting = typed ?? "";
    const key = settingKey(setting);
    const group = groups.get(key) ?? { setting, sums: new ShotSums() };
    groups.set(key, group);
    group.sums.add(shot);
  });
  if (groups.size === 0) noAnswer("There are no shots.");
  return [...groups.values()].sort((a, b) => inSettingOrder(a.setting, b.setting)).map(({ setting, sums }) => settingSummary(setting, sums));
}
