/** Slips of whoever typed a row of a log: each undone, the row is plausible. */
import { units } from "../units";
import { amount, Phrase, words, type Words } from "../words";
import { isExpected, isPlausible, named, outOfPlace, type LogUnits, type Shot, type ShotColumn } from "./plausible";

/** Strengths that filter coffee has. Common practice, no source. */
const filterStrength = { least: 0.8, most: 2 };

/** Extractions that a shot usually has. Common practice, no source. */
const usualExtraction = { least: 15, most: 25 };

/** Beverage and cup, and dose and portafilter or tin, together, g. Common practice, no source. */
const beverageWithCup = { least: 60, most: 1000 };
const doseWithPortafilter = { least: 100, most: 2000 };

/** What looks wrong in a row that is not plausible: the likeliest slip that the log's units allow, else what is out of place. */
export function explain(shot: Shot, written: LogUnits): Words[] {
  return explainOne(shot, causes.filter(({ where }) => canBe(where, written)));
}

/** A slip of whoever typed the row. */
interface Cause {
  /** The columns it touches. */
  readonly columns: readonly ShotColumn[];
  /** How unlikely it is; the likelier causes come first. */
  readonly rarity: number;
  /** The units in which it can be made; in any if left out. */
  readonly where?: Partial<LogUnits>;
  /** The row as it was meant; undefined where this slip cannot have been made. */
  undo(shot: Shot): Shot | undefined;
  words(shot: Shot, meant: Shot): Words;
}

function canBe(where: Partial<LogUnits> = {}, written: LogUnits): boolean {
  return (["mass", "time", "percent"] as const).every((measure) => where[measure] === undefined || where[measure] === written[measure]);
}

/** A number written too large or too small by a factor; `size` times what was typed is what was meant. */
function scaled(
  column: ShotColumn, rarity: number, size: number, looksLike: string | ((typed: number) => string),
  { when = () => true, where }: { when?: (typed: number) => boolean; where?: Partial<LogUnits> } = {},
): Cause {
  return {
    columns: [column],
    rarity,
    where,
    undo: (shot) => (shot[column] !== undefined && when(shot[column]) ? { ...shot, [column]: shot[column] * size } : undefined),
    words: (shot, meant) => {
      const typed = shot[column]!;
      const like = typeof looksLike === "string" ? looksLike : looksLike(typed);
      return words`${named(column)} ${amount(column, typed)} looks like ${like}: ${amount(column, meant[column]!)}?`;
    },
  };
}

/** A row without the number of a column: what was meant instead is not known, so the others alone must be plausible. */
function unknown(column: ShotColumn, { least, most }: { least: number; most: number }): (shot: Shot) => Shot | undefined {
  return (shot) => (shot[column] !== undefined && shot[column] >= least && shot[column] <= most ? { ...shot, [column]: undefined } : undefined);
}

function swapped(first: ShotColumn, second: ShotColumn, rarity: number, when: (shot: Shot) => boolean = () => true): Cause {
  return {
    columns: [first, second],
    rarity,
    undo: (shot) =>
      shot[first] !== undefined && shot[second] !== undefined && when(shot) ? { ...shot, [first]: shot[second], [second]: shot[first] } : undefined,
    words: (_, meant) => words`${named(first)} and ${second} look swapped: ${amount(first, meant[first]!)} and ${amount(second, meant[second]!)}?`,
  };
}

const ounce = units.mass.oz.size;
const slipped = "a slipped decimal point";

function slips(column: ShotColumn): Cause[] {
  return [
    scaled(column, 3, 0.1, slipped),
    scaled(column, 3, 10, slipped),
    scaled(column, 3.2, 0.01, "a number without its decimal point", { when: (typed) => Number.isInteger(typed) }),
  ];
}

function massCauses(column: "dose" | "beverage"): Cause[] {
  return [
    scaled(column, 2, ounce, "ounces", { where: { mass: "g" } }),
    scaled(column, 2, 1 / ounce, "grams where ounces are expected", { where: { mass: "oz" } }),
    scaled(column, 3, 1000, "kilograms"),
    ...slips(column),
  ];
}

const causes: readonly Cause[] = [
  swapped("dose", "beverage", 1),
  scaled("time", 1, 1440, (typed) => clockTyped(typed * 1440), { when: isWholeMinutes, where: { time: "s" } }),
  scaled("time", 1, 1 / 60, (typed) => clockTyped(typed / 60), { when: (typed) => isWholeMinutes(typed / 86400), where: { time: "clock" } }),
  scaled("time", 1.1, 86400, "a clock cell", { where: { time: "s" } }),
  scaled("time", 1.1, 1 / 86400, "seconds where clock cells are expected", { where: { time: "clock" } }),
  scaled("time", 2, 60, "minutes", { where: { time: "s" } }),
  scaled("time", 2.5, 100, "minutes and seconds with a point between", { when: (typed) => typed < 0.6, where: { time: "s" } }),
  scaled("time", 3.1, 0.001, "milliseconds"),
  ...slips("time"),
  scaled("strength", 1, 100, "a percent cell", { when: (typed) => typed < 1, where: { percent: "number" } }),
  scaled("strength", 1, 0.01, "a number where percent cells are expected", { where: { percent: "cell" } }),
  ...slips("strength"),
  {
    columns: ["strength"],
    rarity: 2,
    undo: unknown("strength", filterStrength),
    words: ({ strength }) => words`Strength ${amount("strength", strength!)} is that of a filter coffee, not of an espresso.`,
  },
  {
    columns: ["strength"],
    rarity: 2.5,
    undo: (shot) => {
      const { dose, beverage, strength } = shot;
      if (!dose || !beverage || !strength || strength < usualExtraction.least || strength > usualExtraction.most) return undefined;
      return { ...shot, strength: (strength * dose) / beverage };
    },
    words: ({ strength }, meant) => words`Strength ${amount("strength", strength!)} looks like the extraction: the strength would be ${amount("strength", meant.strength!)}?`,
  },
  ...massCauses("dose"),
  ...massCauses("beverage"),
  {
    columns: ["dose", "beverage"],
    rarity: 2.2,
    where: { mass: "g" },
    undo: (shot) => (shot.dose && shot.beverage ? { ...shot, dose: shot.dose * ounce, beverage: shot.beverage * ounce } : undefined),
    words: (shot, meant) =>
      words`Dose ${amount("dose", shot.dose!)} and beverage ${amount("beverage", shot.beverage!)} look like ounces: ${amount("dose", meant.dose!)} and ${amount("beverage", meant.beverage!)}?`,
  },
  {
    columns: ["beverage"],
    rarity: 3.5,
    undo: unknown("beverage", beverageWithCup),
    words: ({ beverage }) => words`Beverage ${amount("beverage", beverage!)} looks weighed with its cup.`,
  },
  {
    columns: ["dose"],
    rarity: 3.5,
    undo: unknown("dose", doseWithPortafilter),
    words: ({ dose }) => words`Dose ${amount("dose", dose!)} looks weighed with the portafilter or a cup.`,
  },
  swapped("dose", "strength", 4),
  // Far-fetched where both numbers are fine as they stand.
  ...([["beverage", "time"], ["beverage", "strength"], ["time", "strength"], ["dose", "time"]] as const).map(([first, second]) =>
    swapped(first, second, 4, (shot) => !isExpected(first, shot) || !isExpected(second, shot))),
];

/** A second cause is worth a word when it is about as likely as the first. */
const alsoLikely = 1.5;

function explainOne(shot: Shot, possible: readonly Cause[]): Words[] {
  const single = possible
    .map((cause) => ({ cause, meant: cause.undo(shot) }))
    .filter(({ meant }) => meant !== undefined && isPlausible(meant))
    .sort((a, b) => a.cause.rarity - b.cause.rarity);
  if (single.length > 0) {
    const [first, second] = single.map(({ cause, meant }) => cause.words(shot, meant!));
    return second !== undefined && single[1]!.cause.rarity <= single[0]!.cause.rarity + alsoLikely ? [first!, words`Or: ${lowerFirst(second)}`] : [first!];
  }
  return explainTwo(shot, possible) ?? outOfPlace(shot);
}

/** Two slips in one row, the likeliest pair. */
function explainTwo(shot: Shot, possible: readonly Cause[]): Words[] | undefined {
  let best: { rarity: number; words: Words[] } | undefined;
  for (const [index, first] of possible.entries()) {
    const between = first.undo(shot);
    if (between === undefined) continue;
    for (const second of possible.slice(index + 1)) {
      const rarity = first.rarity + second.rarity;
      if (second.columns.some((column) => first.columns.includes(column)) || (best && rarity >= best.rarity)) continue;
      const meant = second.undo(between);
      if (meant !== undefined && isPlausible(meant)) best = { rarity, words: [first.words(shot, between), second.words(between, meant)] };
    }
  }
  return best?.words;
}

function isWholeMinutes(fraction: number): boolean {
  const minutes = fraction * 1440;
  return fraction < 1 && Math.abs(minutes - Math.round(minutes)) < 1e-6;
}

/** The trap of a sheet, in words, for a cell that holds this many minutes. */
function clockTyped(minutes: number): string {
  const whole = Math.round(minutes);
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")} typed as a clock time, which a sheet takes for hours and minutes`;
}

function lowerFirst(text: Words): Words {
  if (text instanceof Phrase) {
    const [first, ...rest] = text.parts;
    return typeof first === "string" ? new Phrase([lowerFirst(first) as string, ...rest]) : text;
  }
  return text.charAt(0).toLowerCase() + text.slice(1);
}
