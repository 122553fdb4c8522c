/** Where a log drifts or jumps, by Nelson's rules. Blanks are skipped and keep their rows. */
import { badInput } from "../problem";
import { chartOf, withoutBlanks, type Values } from "./limits";

/** For every value the numbers of Nelson's rules that it completes, or an empty text. Nelson (1984), Journal of Quality Technology 16:237. */
export function logSignals({ values, rules = "1,2,3" }: { values: Values; rules?: string }): string[] {
  const wanted = ruleNumbers(rules);
  const present = withoutBlanks(values);
  const { centre, sd } = chartOf(present, "signals need");
  const deviations = present.map((value) => value - centre);
  let next = 0;
  return values.map((value) => {
    if (value === null) return "";
    const at = next++;
    return wanted.filter((rule) => nelson[rule - 1]!(deviations, at, sd)).join(",");
  });
}

function ruleNumbers(rules: string): number[] {
  const numbers = rules.split(/[,;\s]+/).filter((it) => it !== "").map(Number);
  if (numbers.length === 0 || !numbers.every((it) => Number.isInteger(it) && it >= 1 && it <= nelson.length)) {
    badInput(`rules must be numbers of Nelson's rules, 1 to ${nelson.length}, as in “1,2,3”, but is “${rules}”.`);
  }
  return [...new Set(numbers)].sort((a, b) => a - b);
}

/** Whether the deviations up to and with `at` complete the rule. */
type Rule = (deviations: readonly number[], at: number, sd: number) => boolean;

/** The last `count` deviations, or none where there are fewer. */
function last(deviations: readonly number[], at: number, count: number): readonly number[] {
  return at + 1 < count ? [] : deviations.slice(at + 1 - count, at + 1);
}

/** Whether `enough` of the last `count`, this one among them, lie beyond `limit` on this one's side. */
function beyondOnOneSide(deviations: readonly number[], at: number, count: number, enough: number, limit: number): boolean {
  const side = Math.sign(deviations[at]!);
  const beyond = (it: number): boolean => it * side > limit;
  return side !== 0 && beyond(deviations[at]!) && deviations.slice(Math.max(0, at + 1 - count), at + 1).filter(beyond).length >= enough;
}

function rises(run: readonly number[]): number[] {
  return run.slice(1).map((it, index) => Math.sign(it - run[index]!));
}

const nelson: readonly Rule[] = [
  // 1: one value beyond three standard deviations.
  (all, at, sd) => Math.abs(all[at]!) > 3 * sd,
  // 2: nine in a row on one side of the centre.
  (all, at) => beyondOnOneSide(all, at, 9, 9, 0),
  // 3: six in a row, each higher than the one before, or each lower.
  (all, at) => {
    const steps = rises(last(all, at, 6));
    return steps.length > 0 && steps[0] !== 0 && steps.every((it) => it === steps[0]);
  },
  // 4: fourteen in a row, up and down in turn.
  (all, at) => {
    const steps = rises(last(all, at, 14));
    return steps.length > 0 && steps.every((it, index) => it !== 0 && (index === 0 || it === -steps[index - 1]!));
  },
  // 5: two of three beyond two standard deviations on one side.
  (all, at, sd) => beyondOnOneSide(all, at, 3, 2, 2 * sd),
  // 6: four of five beyond one standard deviation on one side.
  (all, at, sd) => beyondOnOneSide(all, at, 5, 4, sd),
  // 7: fifteen in a row within one standard deviation.
  (all, at, sd) => {
    const run = last(all, at, 15);
    return sd > 0 && run.length > 0 && run.every((it) => Math.abs(it) < sd);
  },
  // 8: eight in a row beyond one standard deviation, on both sides.
  (all, at, sd) => {
    const run = last(all, at, 8);
    return run.length > 0 && run.every((it) => Math.abs(it) > sd) && run.some((it) => it > 0) && run.some((it) => it < 0);
  },
];
