/** The examples of the functions' comments, worked by the functions themselves for the help pages. */
import type { Declaration } from "./read-declarations.ts";
import { catalogueOf } from "./read-declarations.ts";
import { parseExample } from "./parse-example.ts";
import type { WorkedExample } from "../src/help/pages.ts";

/** A table of the help holds no more rows. */
const mostRows = 12;

type Declared = (...cells: unknown[]) => unknown[][];

export async function workedExamples(declarations: readonly Declaration[], version: string): Promise<(declaration: Declaration) => WorkedExample[]> {
  // Here the functions run in the build, which puts the version into bundles only.
  Object.assign(globalThis, { PROJECT_VERSION: version });
  const functions = (await import("../src/functions/index.ts")) as unknown as Readonly<Record<string, Declared>>;
  const { bringWords } = await import("../src/help/catalogue.ts");
  const { useUnits } = await import("../src/sheet/workbook-units.ts");
  const { defaultUnits } = await import("../src/sheet/unit-choice.ts");
  bringWords(() => ({ words: catalogueOf(declarations) }));
  useUnits(defaultUnits);
  return ({ exportName, parameters, examples }) => examples.map((example) => {
    const { cells, printed } = parseExample(example);
    const given = parameters.map((_, index) => asRows(cells[index]));
    const results = functions[exportName]!(...given);
    // What the comment prints has the digits that a reader needs; where it only says “a table”, six are shown.
    const asPrinted = printed.length === results.flat().length && printed.length > 1 ? printed.values() : null;
    const single = results.flat().length === 1 && !/^a (text|table|number)$/.test(printed[0]!) ? printed[0]! : null;
    const shown = results.map((row) => row.map((cell) => single ?? asPrinted?.next().value ?? wordOf(cell)));
    return {
      formula: example.replace(/ gives .*$/, ""),
      given: parameters.flatMap(({ name }, index) => (given[index] ? [{ name, rows: given[index].map((row) => row.map(wordOf)) }] : [])),
      results: shown.length > mostRows ? [...shown.slice(0, mostRows), shown[0]!.map(() => "…")] : shown,
    };
  });
}

function asRows(argument: unknown): unknown[][] | null {
  if (argument === undefined || argument === null) return null;
  return Array.isArray(argument) ? (argument as unknown[][]) : [[argument]];
}

function wordOf(cell: unknown): string {
  if (typeof cell === "number") return String(Number(cell.toPrecision(6)));
  if (typeof cell === "object" && cell !== null && "code" in cell) return String(cell.code);
  return typeof cell === "boolean" ? String(cell).toUpperCase() : String(cell as string);
}
