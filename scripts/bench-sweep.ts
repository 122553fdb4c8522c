/**
 * How the cost of every function grows with its rows: time at 10,000 rows ÷ time at 1,000, which is 10 where it grows in proportion.
 * A function is asked with its own example made long; where it reads lists, once more with a column of whatever else it takes.
 */
import { parseExample } from "./parse-example.ts";
import { readDeclarations } from "./read-declarations.ts";

type WorksheetFunction = (...cells: unknown[]) => unknown;
type Line = (what: string, value: string, aim?: string) => void;
type Range = readonly (readonly unknown[])[];

const [few, many] = [1_000, 10_000];
const mostGrowth = 14;
const [fewestTurns, mostTurns] = [5, 40];

export async function benchSweep(functions: ReadonlyMap<string, WorksheetFunction>, line: Line): Promise<void> {
  const growths: { readonly what: string; readonly growth: number }[] = [];
  for (const { name, examples, parameters } of await readDeclarations()) {
    const calculate = functions.get(name);
    if (!calculate || parameters.length === 0) continue;
    const example = parseExample(examples[0]!).cells.map(rangeOf);
    const hasLists = example.some((cells) => cells && cells.length > 1);
    for (const withColumns of hasLists ? [false, true] : [true]) {
      const asked = (rows: number): unknown[] => example.map((cells) => (cells && (withColumns || cells.length > 1) ? repeated(cells, rows) : cells));
      if (!answers(calculate(...asked(few)))) continue;
      const [long, short] = [asked(many), asked(few)];
      const growth = growthOf(() => calculate(...long), () => calculate(...short));
      growths.push({ what: `${name}${withColumns && hasLists ? ", the rest as columns" : ""}`, growth });
    }
  }
  growths.sort((a, b) => b.growth - a.growth);
  line(`${growths.length} calls at ${many} rows ÷ at ${few}, median`, `${growths[growths.length >> 1]!.growth.toFixed(1)} ×`, `aim: every one under ${mostGrowth} ×`);
  const steep = growths.filter(({ growth }) => growth > mostGrowth);
  for (const { what, growth } of steep.length > 0 ? steep : growths.slice(0, 3)) line(`  ${what}`, `${growth.toFixed(1)} ×`);
}

/** A list in a row is turned into a column. */
function rangeOf(argument: unknown): Range | null {
  if (argument === null) return null;
  if (!Array.isArray(argument)) return [[argument]];
  const rows = argument as Range;
  return rows.length === 1 ? rows[0]!.map((cell) => [cell]) : rows;
}

/** The rows of the example, over and over. */
function repeated(cells: Range, rows: number): Range {
  return Array.from({ length: rows }, (_, row) => cells[row % cells.length]!);
}

/** Whether a call of this length has an answer at all: lists that are too long for a function are refused. */
function answers(result: unknown): boolean {
  return Array.isArray(result) && !(result as unknown[][]).flat().every((cell) => typeof cell === "object");
}

function repeat(times: number, run: () => unknown): void {
  for (let time = 0; time < times; time++) run();
}

/**
 * As many rows are timed in both, by turns, so that whatever else the machine does slows both alike. The least times count, since other work can
 * only add; a call that seems steep is timed on, as chance alone makes some of a hundred look so.
 */
function growthOf(long: () => unknown, short: () => unknown): number {
  const rounds = many / few;
  const shorts = (): void => repeat(rounds, short);
  for (const warm of [long, shorts, long, shorts]) warm();
  let [longest, shortest] = [Infinity, Infinity];
  let growth = Infinity;
  for (let turn = 0; turn < mostTurns && (turn < fewestTurns || growth > mostGrowth); turn++) {
    longest = Math.min(longest, timed(long));
    shortest = Math.min(shortest, timed(shorts));
    growth = rounds * (longest / shortest);
  }
  return growth;
}

/** ms */
function timed(run: () => unknown): number {
  const began = performance.now();
  run();
  return performance.now() - began;
}
