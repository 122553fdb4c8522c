/**
 * Values from outside this project, for whoever checks an installation: all of them as conformance.json in the build, and a hundred that a
 * ready sheet runs live, from the same files that the tests read.
 */
import webpack, { type Compiler } from "webpack";
import type { CheckedCase } from "../src/ready-sheets/check-installation.ts";
import { referenceFiles, rowsOf, type Case, type Reference } from "./reference-cases.ts";

/** How many cases the ready sheet runs. */
const live = 100;
/** Cells of a range as a formula can hold them. */
const mostCells = 60;
const longestFormula = 900;

interface Sourced extends Case {
  readonly source: string;
}

function allCases(): Sourced[] {
  const isShown = ({ kind }: Reference): boolean => kind !== "from memory";
  return referenceFiles().flatMap(({ references }) => references.filter(isShown).flatMap(({ source, cases }) => cases.map((one) => ({ ...one, source }))));
}

/** Every function once, then more of those that have more, round by round, until there are enough. */
export function liveCases(): CheckedCase[] {
  const byFunction = new Map<string, CheckedCase[]>();
  for (const one of allCases()) {
    const checked = asFormula(one);
    if (checked) byFunction.set(one.function, [...(byFunction.get(one.function) ?? []), checked]);
  }
  const chosen: CheckedCase[] = [];
  for (let round = 0; chosen.length < live; round++) {
    const next = [...byFunction.values()].flatMap((cases) => cases[round] ?? []);
    if (next.length === 0) throw new Error(`Only ${chosen.length} cases can be run in a cell, and ${live} are wanted.`);
    chosen.push(...next.slice(0, live - chosen.length));
  }
  const order = [...byFunction.keys()];
  return chosen.sort((a, b) => order.indexOf(a.functionId) - order.indexOf(b.functionId));
}

/** The case as a cell calculates and compares it, by one number that is expected; undefined where it cannot. */
function asFormula({ function: functionId, arguments: given, expected, tolerance = 0, relative, source }: Sourced): CheckedCase | undefined {
  const rows = rowsOf(expected);
  // A whole number may be one that was given, such as a setting.
  const isFraction = (cell: unknown): boolean => typeof cell === "number" && !Number.isInteger(cell);
  const isCompared = rows.flat().some(isFraction) ? isFraction : (cell: unknown) => typeof cell === "number";
  const row = rows.findIndex((line) => line.some(isCompared));
  const column = rows[row]?.findIndex(isCompared) ?? -1;
  const args = given.slice(0, given.length - leftOutAtTheEnd(given)).map(literal);
  if (column < 0 || args.some((text) => text === undefined)) return undefined;
  const value = rows[row]![column] as number;
  const texts = args as string[];
  if (texts.join(",").length > longestFormula) return undefined;
  const isSingle = rows.length === 1 && rows[0]!.length === 1;
  const at = isSingle ? {} : { at: [row + 1, column + 1] as const };
  return { functionId, args: texts, ...at, expected: value, tolerance: relative ? tolerance * Math.abs(value) : tolerance, source };
}

function leftOutAtTheEnd(given: readonly unknown[]): number {
  const fromTheEnd = [...given].reverse().findIndex((argument) => argument !== null);
  return fromTheEnd < 0 ? given.length : fromTheEnd;
}

/** An argument as a formula spells it; a flat list is a column. */
function literal(argument: unknown): string | undefined {
  if (Array.isArray(argument)) {
    const rows = argument.map((line: unknown) => (Array.isArray(line) ? (line as unknown[]) : [line]));
    const cells = rows.flatMap((line) => line.map(literal));
    // Not every program reads a text with separators in an array.
    if (cells.length > mostCells || cells.some((cell) => cell === undefined || cell.startsWith("{") || /^".*[,;].*"$/.test(cell))) return undefined;
    return `{${rows.map((line) => line.map(literal).join(",")).join(";")}}`;
  }
  if (typeof argument === "number") return String(argument);
  if (typeof argument === "boolean") return argument ? "TRUE" : "FALSE";
  // Sheets speak the units of the workbook alone, so that amounts with a unit are left to the tests.
  return typeof argument === "string" && !/^\d.*\p{L}/u.test(argument) ? `"${argument.replaceAll('"', '""')}"` : undefined;
}

export class Conformance {
  apply(compiler: Compiler): void {
    compiler.hooks.thisCompilation.tap("Conformance", (compilation) => {
      compilation.hooks.processAssets.tap({ name: "Conformance", stage: webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL }, () => {
        const cases = allCases().map(({ function: name, arguments: args, expected, tolerance, relative, where, source }) =>
          ({ function: name, arguments: args, expected, tolerance, relative, where, source }));
        const about = "Values in the units that a workbook starts with. null is a cell that is left out or not compared; a flat list of arguments is a column.";
        compilation.emitAsset("conformance.json", new webpack.sources.RawSource(`${JSON.stringify({ about, cases }, null, 1)}\n`));
      });
    });
  }
}
