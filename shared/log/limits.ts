/** Control limits of single values, from how they move from one to the next. Blanks are skipped. */
import { noAnswer } from "../problem";
import { mean } from "../statistics/describe";

/** The values of a log in the order of its shots; null where there is none. */
export type Values = readonly (number | null)[];

/**
 * Constants of a chart of single values and moving ranges of two, as handbooks print them: d2 to 1.128, D4 to 3.267.
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2. The exact d2 is 2/√π = 1.128379; it would move the limits by 0.03 % of their width.
 */
const d2 = 1.128;
const d4 = 3.267;

interface Limits {
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  readonly rangeLimit: number;
}

/**
 * Centre line, limits at three standard deviations and the limit of the moving range, of a chart of single values (NIST e-Handbook 6.3.2.2).
 * With a baseline they come from that many first values, and later shots are judged by what the log did before.
 */
export function logLimits({ values }: { values: Values }): (asked: { baseline?: number }) => Limits {
  const present = withoutBlanks(values);
  return ({ baseline }) => {
    if (baseline !== undefined && baseline > present.length) {
      noAnswer(`baseline asks for ${baseline} values, but there ${present.length === 1 ? "is 1" : `are ${present.length}`} so far.`);
    }
    const { centre, sd, range } = chartOf(present.slice(0, baseline), "limits need");
    return { centre, low: centre - 3 * sd, high: centre + 3 * sd, rangeLimit: d4 * range };
  };
}

export function withoutBlanks(values: Values): number[] {
  return values.filter((value) => value !== null);
}

/** Centre, mean moving range and the standard deviation that it stands for; `what` is for a refusal, as in "limits need". */
export function chartOf(present: readonly number[], what: string): { centre: number; range: number; sd: number } {
  if (present.length < 2) noAnswer(`There ${present.length === 1 ? "is one value" : "are no values"}; ${what} two or more.`);
  let moved = 0;
  for (let index = 1; index < present.length; index++) moved += Math.abs(present[index]! - present[index - 1]!);
  const range = moved / (present.length - 1);
  return { centre: mean(present), range, sd: range / d2 };
}
