/**
 * What looks wrong in a row of a shot log, in words, the likeliest cause first. A row is odd when a number, or what follows from two of them,
 * is outside what an espresso can be expected to have; a cause is a slip that explains it: undone, the whole row is plausible.
 * Nothing is changed or left out: these are questions to whoever keeps the log.
 */
import { together } from "./decisions/sentences";
import { Problem } from "./problem";
import type { QuantityName } from "./quantities";
import { readGrams, readPercent, readSeconds, type Cell } from "./reading";
import { flow, ratio, solids } from "./shot";
import { units } from "./units";
import { amount, functionNamed, Phrase, printed, quoted, range, words, type Words } from "./words";

const columns = ["dose", "beverage", "time", "strength"] as const;
export type ShotColumn = (typeof columns)[number];

/** A row as it was typed; numbers in g, s and %. */
export type TypedShot = Readonly<Record<ShotColumn, Cell>>;

/** The numbers of a row, as far as it has any. */
export type Shot = Partial<Record<ShotColumn, number>>;

/** How the log writes its numbers before they are converted to g, s and %: it decides which slips can have been made. */
export interface LogUnits {
  readonly mass: string;
  readonly time: string;
  readonly percent: string;
}

const usualUnits: LogUnits = { mass: "g", time: "s", percent: "number" };

/** What an espresso can be expected to have, wide enough for a single, a triple, a ristretto and a lungo. Common practice, no source. */
const expected = {
  dose: { least: 6, most: 30 },
  beverage: { least: 5, most: 150 },
  time: { least: 5, most: 120 },
  strength: { least: 2.5, most: 20 },
  ratio: { least: 1, most: 6 },
  /** Little more than 30 % of roasted coffee dissolves at all. */
  extraction: { least: 10, most: 30 },
  flow: { least: 0.2, most: 8 },
} as const satisfies Partial<Record<QuantityName, { readonly least: number; readonly most: number }>>;
type Expected = keyof typeof expected;
const expectedNames = Object.keys(expected) as Expected[];

/** Strengths that filter coffee has. Common practice, no source. */
const filterStrength = { least: 0.8, most: 2 };

/** Extractions that a shot usually has. Common practice, no source. */
const usualExtraction = { least: 15, most: 25 };

/** Beverage and cup, and dose and portafilter or tin, together, g. Common practice, no source. */
const beverageWithCup = { least: 60, most: 1000 };
const doseWithPortafilter = { least: 100, most: 2000 };

/** For every row what looks wrong in it, or an empty text. A column that is blank throughout is not asked for. */
export function logCheck({ units: written, ...log }: { readonly [C in ShotColumn]: readonly Cell[] } & { readonly units?: LogUnits }): Words[] {
  const asked = columns.filter((column) => log[column].some((cell) => !isBlank(cell)));
  const rows = Math.max(...columns.map((column) => log[column].length));
  const found: Words[] = [];
  let above: TypedShot | undefined;
  for (let row = 0; row < rows; row++) {
    const typed = {
      dose: log.dose[row] ?? null, beverage: log.beverage[row] ?? null, time: log.time[row] ?? null, strength: log.strength[row] ?? null,
    };
    found.push(checkShot(typed, { above, asked, units: written }));
    above = typed;
  }
  return found;
}

export interface ShotContext {
  /** The row above. */
  readonly above?: TypedShot;
  /** The columns that the log has. */
  readonly asked?: readonly ShotColumn[];
  readonly units?: LogUnits;
}

/** What looks wrong in one row. */
export function checkShot(typed: TypedShot, { above, asked = columns, units: written = usualUnits }: ShotContext = {}): Words {
  if (columns.every((column) => isBlank(typed[column]))) return "";
  const { shot, findings } = numbersOf(typed, asked);
  if (!isPlausible(shot)) findings.push(...explain(shot, causes.filter(({ where }) => canBe(where, written))));
  if (above && isRepeat(typed, above)) findings.push("Exactly the same shot as in the row above: entered twice?");
  return together(...findings);
}

function isBlank(cell: Cell): boolean {
  // Some builds of Excel hand a blank cell over as 0, and no shot has 0 of anything.
  return cell === null || cell === "" || cell === 0;
}

function numbersOf(typed: TypedShot, asked: readonly ShotColumn[]): { shot: Shot; findings: Words[] } {
  const shot: Shot = {};
  const findings: Words[] = [];
  for (const column of columns) {
    const cell = typed[column];
    if (isBlank(cell)) {
      // Strength is read on some shots only.
      if (column !== "strength" && asked.includes(column)) findings.push(`${named(column)} is blank or 0.`);
    } else if (typeof cell === "number") {
      shot[column] = cell;
    } else {
      try {
        shot[column] = readers[column].read({ text: cell });
        findings.push(words`${named(column)} is the text ${quoted(String(cell))}; ${functionNamed(readers[column].id)} reads ${amount(column, shot[column])}.`);
      } catch (thrown) {
        if (!(thrown instanceof Problem)) throw thrown;
        findings.push(words`${named(column)} is not a number: ${thrown.words}`);
      }
    }
  }
  return { shot, findings };
}

const readers = {
  dose: { read: readGrams, id: "READ.GRAMS" },
  beverage: { read: readGrams, id: "READ.GRAMS" },
  time: { read: readSeconds, id: "READ.SECONDS" },
  strength: { read: readPercent, id: "READ.PERCENT" },
} as const;

function isPlausible(shot: Shot): boolean {
  return expectedNames.every((name) => isExpected(name, valueOf(shot, name)));
}

function isExpected(name: Expected, value: number | undefined): boolean {
  return value === undefined || (value >= expected[name].least && value <= expected[name].most);
}

/** A number of the row, or one that follows from it; undefined where the row does not have what it takes. */
function valueOf({ dose, beverage, time, strength }: Shot, name: Expected): number | undefined {
  if (name === "ratio") return dose && beverage ? ratio({ dose, beverage }) : undefined;
  if (name === "extraction") return dose && beverage && strength ? (100 * solids({ beverage, strength })) / dose : undefined;
  if (name === "flow") return beverage && time && time > 0 ? flow({ beverage, time }) : undefined;
  return { dose, beverage, time, strength }[name];
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
  scaled("time", 1, 1 / 60, (typed) => clockTyped(typed / 60), { when: (typed) => typed % 60 === 0, where: { time: "clock" } }),
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
    swapped(first, second, 4, (shot) => !isExpected(first, shot[first]) || !isExpected(second, shot[second]))),
];

/** A second cause is worth a word when it is about as likely as the first. */
const alsoLikely = 1.5;

function explain(shot: Shot, possible: readonly Cause[]): Words[] {
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

/** What is out of place, where no slip explains it. A number out of place explains what follows from it. */
function outOfPlace(shot: Shot): Words[] {
  const odd = (name: Expected): boolean => !isExpected(name, valueOf(shot, name));
  const typed = columns.filter(odd);
  const names: readonly Expected[] = typed.length > 0 ? typed : (["ratio", "extraction", "flow"] as const).filter(odd);
  return names.map((name) => {
    const value = valueOf(shot, name)!;
    if (name === "ratio" && value < 1) return words`Beverage ${amount("beverage", shot.beverage!)} is lighter than the dose, ${amount("dose", shot.dose!)}.`;
    if (name === "extraction" && value > 30) {
      return words`Extraction would be ${amount("extraction", value)}, more than the ${amount("extraction", 30)} or so that coffee gives up: check strength, beverage and dose.`;
    }
    const { least, most } = expected[name];
    return words`${named(name)} ${amount(name, value)} is outside ${range(name, least, most)}, what an espresso can be expected to have.`;
  });
}

/** The same four numbers again. Only where they are written finely enough for that to be no coincidence. */
function isRepeat(typed: TypedShot, above: TypedShot): boolean {
  if (columns.some((column) => isBlank(typed[column]) || typed[column] !== above[column])) return false;
  return columns.reduce((count, column) => count + decimals(typed[column]), 0) >= 2;
}

function decimals(cell: Cell): number {
  return /[.,](\d+)$/.exec(typeof cell === "number" ? printed(cell) : String(cell))?.[1]?.length ?? 0;
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

function named(name: Expected): string {
  return name.charAt(0).toUpperCase() + name.slice(1);
}

function lowerFirst(text: Words): Words {
  if (text instanceof Phrase) {
    const [first, ...rest] = text.parts;
    return typeof first === "string" ? new Phrase([lowerFirst(first) as string, ...rest]) : text;
  }
  return text.charAt(0).toLowerCase() + text.slice(1);
}
