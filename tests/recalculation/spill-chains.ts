/** Sheets in which formulas that spill follow from one another, at random, and what they come to by hand. */
import fc from "fast-check";
import { expect } from "vitest";
import { address, columnName } from "../../src/sheet/references.ts";
import { Engine, type Contents } from "../grid-repairs/engine.ts";
import { repaired } from "./repaired-engine.ts";

const rows = 12;
const links = 7;
const inputs = 8;

/** A formula on the column before it, or on one a little further up the chain. */
type Kind = "filter" | "double" | "square" | "count" | "sum" | "add" | "sort" | "index" | "choose" | "part";

interface Link {
  readonly kind: Kind;
  readonly from: number;
  readonly other: number;
  readonly row: number;
  readonly limit: number;
}

interface Chain {
  /** Where the columns of the chain stand: its order on the sheet is not that of its links. */
  readonly places: readonly number[];
  readonly inputs: readonly number[];
  readonly links: readonly Link[];
}

const link: fc.Arbitrary<Link> = fc.record({
  kind: fc.constantFrom<Kind>("filter", "filter", "double", "double", "square", "count", "sum", "add", "sort", "index", "choose", "part"),
  from: fc.constantFrom(0, 0, 0, 1, 2),
  other: fc.constantFrom(0, 1, 2, 3),
  row: fc.integer({ min: 1, max: rows - 1 }),
  limit: fc.constantFrom(0, 1, 3, 5, 9),
});

const chains: fc.Arbitrary<Chain> = fc.record({
  // Every other column, so that a result of two columns has room.
  places: fc.shuffledSubarray(Array.from({ length: links + 1 }, (_, index) => index * 2), { minLength: links + 1 }),
  inputs: fc.array(fc.integer({ min: 0, max: 9 }), { minLength: inputs, maxLength: inputs }),
  links: fc.array(link, { minLength: links, maxLength: links }),
});

const inputRow = fc.integer({ min: 0, max: inputs - 1 });

function inputAddress(chain: Chain, row: number): string {
  return address(row, chain.places[0]!);
}

/** A cell below the formula of a link, where its result may want to spill. */
function cellInTheWay(chain: Chain, linkIndex: number, row: number): string {
  return address(1 + (row % (rows - 1)), chain.places[1 + (linkIndex % links)]!);
}

function formulaAddress(chain: Chain, linkIndex: number): string {
  return address(0, chain.places[1 + (linkIndex % links)]!);
}

function everyCell(chain: Chain): string[] {
  return chain.places.flatMap((place) => [place, place + 1]).flatMap((column) => Array.from({ length: rows }, (_, row) => address(row, column)));
}

function contentsOf(chain: Chain, typed: readonly (number | null)[] = chain.inputs): Contents {
  const contents: Record<string, string | number> = {};
  typed.forEach((value, row) => value !== null && (contents[inputAddress(chain, row)] = value));
  chain.links.forEach((one, index) => (contents[formulaAddress(chain, index)] = formulaOf(chain, one, index)));
  return contents;
}

function formulaOf(chain: Chain, { kind, from, other, row, limit }: Link, index: number): string {
  const column = columnName(chain.places[Math.max(0, index - from)]!)!;
  const second = columnName(chain.places[Math.max(0, index - other)]!)!;
  const range = `${column}1:${column}${rows}`;
  const formulas: Record<Kind, string> = {
    filter: `FILTER(${range},${range}>${limit},0)`,
    double: `${range}*2`,
    square: `${range}*{1,2}`,
    count: `SEQUENCE(MIN(8,MAX(1,${column}${row})))`,
    sum: `SUM(${range})`,
    add: `${column}${row}+${second}${row + 1}`,
    sort: `SORT(FILTER(${range},${range}>${limit},0),,-1)`,
    index: `INDEX(${range},${row})`,
    choose: `IF(${column}${row}>${limit},SEQUENCE(5),1)`,
    part: `SUM(${column}2:${column}${row + 1})`,
  };
  return `=${formulas[kind]}`;
}

/** The values of every cell of the chain, from the inputs, without the engine. Whole numbers, so that nothing is rounded. */
function calculatedByHand(chain: Chain, typed: readonly number[]): Record<string, number> {
  const columns: number[][][] = [typed.map((value) => [value])];
  for (const [index, one] of chain.links.entries()) {
    columns.push(resultOf(one, columns[Math.max(0, index - one.from)]!, columns[Math.max(0, index - one.other)]!));
  }
  const found: Record<string, number> = {};
  columns.forEach((lines, place) =>
    lines.forEach((line, row) => line.forEach((value, across) => (found[address(row, chain.places[place]! + across)] = value))),
  );
  return found;
}

function resultOf({ kind, row, limit }: Link, source: number[][], second: number[][]): number[][] {
  const at = (lines: number[][], place: number) => lines[place - 1]?.[0] ?? 0;
  const filled = Array.from({ length: rows }, (_, index) => at(source, index + 1));
  const kept = filled.filter((value, index) => index < source.length && value > limit);
  const orZero = (values: number[]) => (values.length > 0 ? values : [0]).map((value) => [value]);
  const sum = (values: number[]) => values.reduce((total, value) => total + value, 0);
  const counted = (length: number) => Array.from({ length }, (_, index) => [index + 1]);
  const results: Record<Kind, () => number[][]> = {
    filter: () => orZero(kept),
    double: () => filled.map((value) => [value * 2]),
    square: () => filled.map((value) => [value, value * 2]),
    count: () => counted(Math.min(8, Math.max(1, at(source, row)))),
    sum: () => [[sum(filled)]],
    add: () => [[at(source, row) + at(second, row + 1)]],
    sort: () => orZero([...kept].sort((a, b) => b - a)),
    index: () => [[at(source, row)]],
    choose: () => (at(source, row) > limit ? counted(5) : [[1]]),
    part: () => [[sum(filled.slice(1, row + 1))]],
  };
  return results[kind]();
}

const digit = fc.integer({ min: 0, max: 9 });

/** When opened and after every edit. */
export async function chainsByHand(runs: number): Promise<void> {
  const edits = fc.array(fc.record({ row: inputRow, value: digit }), { minLength: 8, maxLength: 8 });
  await fc.assert(
    fc.asyncProperty(chains, edits, async (chain, changes) => {
      const typed = [...chain.inputs];
      const engine = await Engine.openSheet(contentsOf(chain), repaired);
      const state = () => Object.fromEntries(everyCell(chain).flatMap((at) => ((engine.value(at) ?? "") === "" ? [] : [[at, engine.value(at)]])));
      expect(state()).toEqual(calculatedByHand(chain, typed));
      for (const { row, value } of changes) {
        typed[row] = value;
        await engine.type({ [inputAddress(chain, row)]: value });
        expect(state()).toEqual(calculatedByHand(chain, typed));
      }
    }),
    { numRuns: runs },
  );
}

interface Edit {
  readonly at: string;
  /** null clears the cell. */
  readonly value: string | number | null;
}

type Make = (chain: Chain) => Edit;

const edit = fc.oneof(
  fc.record({ row: inputRow, value: fc.option(digit, { freq: 5 }) }).map(({ row, value }): Make => (chain) => ({ at: inputAddress(chain, row), value })),
  fc.record({ link: fc.nat(links - 1), row: fc.nat(rows - 2), value: fc.constantFrom(7, null) })
    .map(({ link, row, value }): Make => (chain) => ({ at: cellInTheWay(chain, link, row), value })),
  fc.record({ link: fc.nat(links - 1), isFormula: fc.boolean() }).map(({ link, isFormula }): Make => (chain) => {
    const at = formulaAddress(chain, link);
    return { at, value: isFormula ? contentsOf(chain)[at]! : 3 };
  }),
);

/** Also where cells are in the way, and formulas come and go. */
export async function chainsAsNewlyOpened(runs: number): Promise<void> {
  await fc.assert(
    fc.asyncProperty(chains, fc.array(edit, { minLength: 8, maxLength: 12 }), async (chain, edits) => {
      const contents = new Map(Object.entries(contentsOf(chain)));
      const engine = await Engine.openSheet(Object.fromEntries(contents), repaired);
      const state = (one: Engine) => Object.fromEntries(everyCell(chain).map((at) => [at, one.value(at) ?? ""]));
      for (const { at, value } of edits.map((make) => make(chain))) {
        if (value === null) {
          engine.cell(at).clearContent();
          await engine.calculated();
          contents.delete(at);
        } else {
          await engine.type({ [at]: value });
          contents.set(at, value);
        }
        const fresh = await Engine.openSheet(Object.fromEntries(contents), repaired);
        expect(state(engine), `${JSON.stringify([...contents])} after ${at} ${String(value)}`).toEqual(state(fresh));
      }
    }),
    { numRuns: runs },
  );
}
