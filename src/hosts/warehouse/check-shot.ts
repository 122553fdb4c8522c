/**
 * What looks wrong in a shot, for warehouses that run JavaScript beside their SQL. The build makes one script of it that needs nothing but the
 * language itself; the .sql files here tell three warehouses about it.
 */
import { checkShot as check } from "../../../shared/log/check";
import { columns, type ShotColumn } from "../../../shared/log/plausible";
import { Problem } from "../../../shared/problem";
import { unreadWords, typedNumber } from "../../log-file/typed-number";
import { defaultUnits } from "../../sheet/unit-choice";
import { worded } from "../../sheet/wording";

/** A number in g, s or %, or a text as it was typed. */
type Typed = number | string | null | undefined;

/**
 * The words for what looks wrong, or an empty text. `above` is the shot before, of the same café and in the order in which they were typed:
 * with it a shot that was entered twice is found.
 */
export function checkShot(dose: Typed, beverage: Typed, time: Typed, strength: Typed, ...above: Typed[]): string {
  const unread: [ShotColumn, Problem][] = [];
  const shot = numbersOf([dose, beverage, time, strength], unread);
  const asked = columns.filter((column) => !unread.some(([other]) => other === column));
  const words = check(shot, { asked, ...(above.length > 0 && { above: numbersOf(above, []) }) });
  return [...unread.map(([column, problem]) => unreadWords(column, problem, defaultUnits)), worded(words, defaultUnits)].filter((it) => it !== "").join(" ");
}

function numbersOf(cells: readonly Typed[], unread: [ShotColumn, Problem][]): Record<ShotColumn, number | null> {
  const shot: Record<ShotColumn, number | null> = { dose: null, beverage: null, time: null, strength: null };
  columns.forEach((column, place) => {
    const cell = cells[place];
    try {
      shot[column] = typeof cell === "string" ? typedNumber(column, cell) : (cell ?? null);
    } catch (thrown) {
      if (!(thrown instanceof Problem)) throw thrown;
      unread.push([column, thrown]);
    }
  });
  return shot;
}
