/**
 * Whether to touch the grinder now, by the last shot of a log. A doubtful entry or a wrong weight speaks before the time does, as the grind
 * cannot mend them; then today's shots of that coffee and its earlier days advise, by the rules of GRIND.ADVICE and under their numbers.
 */
import { isBlank, readRows, type LogColumns } from "../log/check";
import { isPlausible } from "../log/plausible";
import { carriedDown, isTrusted, isUntyped, offTarget, printOf, targetsOf, timesOf, type CoffeeTargets, type Tolerances } from "../log/targets";
import { settingKey, type Setting } from "../settings";
import { words } from "../words";
import { advice, grindAdvice, type GrindAdvice } from "./grind-advice";
import { listed } from "./sentences";

export interface ShotLog extends LogColumns, CoffeeTargets {
  readonly days: readonly (Setting | null)[];
  readonly coffees: readonly (Setting | null)[];
  readonly settings: readonly (Setting | null)[];
}

export function shotAdvice({ days, coffees, settings, ...given }: ShotLog): (tolerances: Tolerances) => GrindAdvice {
  const rows = readRows(given);
  const last = rows.reduce((found, it, row) => (isUntyped(it) ? found : row), -1);
  if (last < 0) return () => advice(1, "Type coffee, setting, dose, beverage and time.");

  const [ownDays, ownCoffees] = [carriedDown(days), carriedDown(coffees)];
  const keyOf = (cells: readonly (Setting | null)[], row: number): string => settingKey(cells[row] ?? "");
  const coffee = ownCoffees[last] ?? null;
  const target = targetsOf(given)(coffee);
  const isSame = (row: number): boolean => keyOf(ownCoffees, row) === keyOf(ownCoffees, last);
  const isToday = (row: number): boolean => keyOf(ownDays, row) === keyOf(ownDays, last);
  const usable = rows.map((row, index) => ({ ...row, index, setting: settings[index] }))
    .filter((row): row is typeof row & { setting: number } => isSame(row.index) && isTrusted(row) && row.shot.time !== undefined && typeof row.setting === "number");
  const earlier = usable.filter(({ index }) => !isToday(index));
  const print = printOf(timesOf(rows, given));
  const { shot, finding } = rows[last]!;
  const lacking = (["dose", "beverage", "time"] as const).filter((name) => shot[name] === undefined);

  return (tolerances) => {
    if (!target) return advice(2, coffee === null ? "Give the coffee a target." : `Give ${String(coffee).trim()} a target.`);
    const isDoubted = !isTrusted(rows[last]!);
    // A shot that is being typed is no mistake.
    const isUnfinished = shot.time === undefined || (isDoubted && lacking.length > 0);
    if (isUnfinished && isPlausible(shot) && hasBlanksOnly(given, last)) return advice(13, `The last shot still lacks its ${listed(lacking, "and")}.`);
    if (finding && isDoubted) return advice(3, words`Check the last shot: ${finding.doubts} No advice from it.`);
    const off = offTarget(shot, target, tolerances);
    if (off.dose !== undefined) return advice(4, words`Dose ${print.difference("dose", off.dose)} ${off.dose > 0 ? "heavy" : "light"}: weigh again first.`);
    if (off.beverage !== undefined) {
      const stop = print.amount("beverage", target.beverage!);
      return advice(5, words`Cup ${print.difference("beverage", off.beverage)} ${off.beverage > 0 ? "heavy" : "light"}: stop at ${stop}, same setting.`);
    }
    if (target.time === undefined || tolerances.tolerance === undefined) return grindAdvice(nothing)({});
    if (typeof settings[last] !== "number") {
      const took = print.amount("time", shot.time!);
      if (off.time === undefined) return advice(6, words`On target: ${took}. Leave the grinder.`);
      return advice(14, words`${print.difference("time", off.time)} ${off.time > 0 ? "slow" : "fast"}. With the setting as a number beside it, the next one can be told.`);
    }
    // A shot that was weighed wrong says nothing of the grind.
    const today = usable.filter((row) => isToday(row.index) && !isOff(offTarget(row.shot, target, tolerances)));
    return grindAdvice({
      setting: today.map((row) => row.setting), time: today.map((row) => row.shot.time!),
      settings: earlier.map((row) => row.setting), times: earlier.map((row) => row.shot.time!), days: earlier.map(({ index }) => keyOf(ownDays, index)),
    })({ target: target.time, tolerance: tolerances.tolerance });
  };
}

const nothing = { setting: [], time: [], settings: [], times: [] };

function isOff({ dose, beverage }: ReturnType<typeof offTarget>): boolean {
  return dose !== undefined || beverage !== undefined;
}

/** Whether all that is typed is a number: what the row lacks is only not typed yet. */
function hasBlanksOnly(log: LogColumns, row: number): boolean {
  return (["dose", "beverage", "time"] as const).every((column) => {
    const cell = log[column][row] ?? null;
    return isBlank(cell) || typeof cell === "number";
  });
}
