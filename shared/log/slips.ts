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
  const { single, pairs } = suspectsIn(written);
  return explainedByOne(shot, single) ?? explainedByTwo(shot, pairs) ?? outOfPlace(shot);
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

/** Written out, as a long log undoes a great many slips. */
function withNumber({ dose, beverage, time, strength }: Shot, column: ShotColumn, value: number | undefined): Shot {
  const meant: Shot = { dose, beverage, time, strength };
  meant[column] = value;
  return meant;
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
    undo: (shot) => (shot[column] !== undefined && when(shot[column]) ? withNumber(shot, column, shot[column] * size) : undefined),
    words: (shot, meant) => {
      const typed = shot[column]!;
      const like = typeof looksLike === "string" ? looksLike : looksLike(typed);
      return words`${named(column)} ${amount(column, typed)} looks like ${like}: ${amount(column, meant[column]!)}?`;
    },
  };
}

/** A row without the number of a column: what was meant instead is not known, so the others alone must be plausible. */
function unknown(column: ShotColumn, { least, most }: { least: number; most: number }): (shot: Shot) => Shot | undefined {
  return (shot) => (shot[column] !== undefined && shot[column] >= least && shot[column] <= most ? withNumber(shot, column, undefined) : undefined);
}

function swapped(first: ShotColumn, second: ShotColumn, rarity: number, when: (shot: Shot) => boolean = () => true): Cause {
  return {
    columns: [first, second],
    rarity,
    undo: (shot) =>
      shot[first] !== undefined && shot[second] !== undefined && when(shot)
        ? withNumber(withNumber(shot, first, shot[second]), second, shot[first])
        : undefined,
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
      return withNumber(shot, "strength", (strength * dose) / beverage);
    },
    words: ({ strength }, meant) => words`Strength ${amount("strength", strength!)} looks like the extraction: the strength would be ${amount("strength", meant.strength!)}?`,
  },
  ...massCauses("dose"),
  ...massCauses("beverage"),
  {
    columns: ["dose", "beverage"],
    rarity: 2.2,
    where: { mass: "g" },
    undo: (shot) => (shot.dose && shot.beverage ? withNumber(withNumber(shot, "dose", shot.dose * ounce), "beverage", shot.beverage * ounce) : undefined),
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

function explainedByOne(shot: Shot, suspects: readonly Cause[]): Words[] | undefined {
  const [first, second] = suspects
    .flatMap((cause) => {
      const meant = cause.undo(shot);
      return meant !== undefined && isPlausible(meant) ? [{ cause, meant }] : [];
    })
    .sort((a, b) => a.cause.rarity - b.cause.rarity);
  if (!first) return undefined;
  const said = first.cause.words(shot, first.meant);
  if (!second || second.cause.rarity > first.cause.rarity + alsoLikely) return [said];
  return [said, words`Or: ${lowerFirst(second.cause.words(shot, second.meant))}`];
}

/** Two slips in one row. */
function explainedByTwo(shot: Shot, pairs: readonly (readonly [Cause, Cause])[]): Words[] | undefined {
  for (const [first, second] of pairs) {
    const between = first.undo(shot);
    const meant = between && second.undo(between);
    if (between && meant && isPlausible(meant)) return [first.words(shot, between), second.words(between, meant)];
  }
  return undefined;
}

interface Suspects {
  readonly single: readonly Cause[];
  /** Slips in different columns, the likeliest pair first. */
  readonly pairs: readonly (readonly [Cause, Cause])[];
}

const suspects = new Map<string, Suspects>();

/** The slips that can have been made in a log of these units. */
function suspectsIn(written: LogUnits): Suspects {
  const key = `${written.mass} ${written.time} ${written.percent}`;
  const known = suspects.get(key);
  if (known) return known;
  const single = causes.filter(({ where }) => canBe(where, written));
  const pairs = single
    .flatMap((first, index) => single.slice(index + 1).map((second) => [first, second] as const))
    .filter(([first, second]) => !second.columns.some((column) => first.columns.includes(column)))
    .sort((a, b) => a[0].rarity + a[1].rarity - (b[0].rarity + b[1].rarity));
  suspects.set(key, { single, pairs });
  return { single, pairs };
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
