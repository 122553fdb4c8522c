/**
 * Whether a refractometer's reading can be trusted, by what it read of known solutions, and what half a point of extraction is worth by the
 * instruments at hand. Each rule has a number, so that a test can drive every one of them; the first that applies speaks.
 */
import { sortedTrial } from "../comparison/groups";
import { calibrate } from "../instruments";
import { Problem } from "../problem";
import type { Setting } from "../settings";
import { extremesOf, sum } from "../statistics/describe";
import { extractionUncertainty } from "../uncertainty";
import { amount, difference, range, rounded, words, type Amount } from "../words";
import { decimalsOf, together, type Advice, type TopicAdvice } from "./sentences";

type Cells = readonly (number | null)[];

export interface InstrumentsGiven {
  /** Readings of known solutions beside what is known of them, %; rows without one of the two are left out. */
  readonly readings: Cells;
  readonly references: Cells;
  readonly reading?: number;
  /** Readings of one cup, %, and who took each. */
  readonly repeats?: Cells;
  readonly operators?: readonly (Setting | null)[];
  readonly dose?: number;
  readonly beverage?: number;
  /** Standard uncertainty of the scale, g. */
  readonly scaleError?: number;
}

/** Points of extraction that a bar asks about. */
const asked = 0.5;
/** More readings of one shot than these no bar takes. */
const mostReadings = 10;

export function instrumentAdvice(given: InstrumentsGiven): TopicAdvice[] {
  return [{ topic: "reading", ...trustOf(given) }, { topic: "half a point", ...worthOf(given) }];
}

function trustOf({ readings, references, reading }: InstrumentsGiven): Advice {
  const known = readings.flatMap((it, row) => {
    const reference = references[row] ?? null;
    return it === null || reference === null ? [] : [{ reading: it, reference }];
  });
  if (known.length < 2) return { branch: 1, sentence: "Read two known solutions, at least." };
  if (reading === undefined) return { branch: 2, sentence: "Type a reading that you want to know more of." };
  const step = stepOf([...known.map((it) => it.reading), reading]);
  const say = (value: number): Amount => rounded(amount("strength", value), step);
  let trueOf: ReturnType<typeof calibrate>;
  try {
    trueOf = calibrate({ readings: known.map((it) => it.reading), references: known.map((it) => it.reference) });
  } catch (thrown) {
    if (thrown instanceof Problem) return { branch: 7, sentence: thrown.words };
    throw thrown;
  }
  const answer = answered(() => trueOf({ reading }));
  if (!answer) {
    const [least, most] = extremesOf(known.map((it) => it.reference));
    const span = rounded(range("strength", least, most), step);
    return { branch: 3, sentence: words`A reading of ${say(reading)} has no answer from known values of ${span}: read known values around it.` };
  }
  const { trueValue, low, high } = answer;
  if (low instanceof Problem || high instanceof Problem) {
    const why = low instanceof Problem ? low.words : "";
    return { branch: 4, sentence: together(words`${say(reading)} is about ${say(trueValue)}.`, why) };
  }
  if (low <= reading && reading <= high) return { branch: 5, sentence: words`${say(reading)} may stand (${rounded(range("strength", low, high), step)}, 19 in 20).` };
  const off = rounded(difference("strength", Math.abs(reading - trueValue)), step);
  return { branch: 6, sentence: words`It reads ${off} too ${reading > trueValue ? "high" : "low"}: take ${say(trueValue)}.` };
}

function answered<T>(ask: () => T): T | undefined {
  try {
    return ask();
  } catch (thrown) {
    if (thrown instanceof Problem && thrown.kind === "no answer") return undefined;
    throw thrown;
  }
}

function worthOf({ reading, repeats = [], operators = [], dose, beverage, scaleError }: InstrumentsGiven): Advice {
  const sd = ownSpread(repeats, operators);
  if (sd === undefined) return { branch: 1, sentence: "Read one cup three times or more to see what half a point of extraction is worth." };
  if (sd === 0) return { branch: 3, sentence: "The readings of one cup are all alike: read it with one more decimal." };
  if (reading === undefined || dose === undefined || beverage === undefined) {
    return { branch: 2, sentence: "Type dose, beverage and a reading to see what half a point of extraction is worth." };
  }
  const doubtOf = (count: number): number =>
    extractionUncertainty({ dose, beverage, strength: reading, strengthError: sd / Math.sqrt(count), doseError: scaleError, beverageError: scaleError });
  const doubt = doubtOf(1);
  const said = words`± ${rounded(difference("extraction", doubt), 0.01)}`;
  if (doubt < asked) return { branch: 4, sentence: words`Half a point of extraction is more than the instruments’ own doubt (${said}, 19 in 20).` };
  const alone = words`Half a point of extraction may be the instruments alone (${said})`;
  const enough = Array.from({ length: mostReadings }, (_, index) => index + 1).find((count) => doubtOf(count) < asked);
  if (enough === undefined) return { branch: 6, sentence: words`${alone}, and reading more often does not mend it: weigh more finely.` };
  return { branch: 5, sentence: words`${alone}: take the mean of ${enough} readings of each shot.` };
}

/** Standard deviation of readings of one cup by one person, pooled over people; undefined for fewer than three readings or none repeated. */
function ownSpread(repeats: Cells, operators: readonly (Setting | null)[]): number | undefined {
  const read = repeats.flatMap((value, row) => (value === null ? [] : [{ value, person: operators[row] ?? "" }]));
  if (read.length < 3) return undefined;
  const { groups } = sortedTrial({ settings: read.map(({ person }) => person), results: read.map(({ value }) => value) });
  return read.length === groups.length ? undefined : Math.sqrt(sum(groups.map(({ squares }) => squares)) / (read.length - groups.length));
}

/** As finely as the readings are written, at least to 0.1. */
function stepOf(readings: readonly number[]): number {
  return 10 ** -Math.max(1, Math.min(3, decimalsOf(readings)));
}
