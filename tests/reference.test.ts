import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { CellError, grid } from "./worksheet.ts";

/** Values that come from outside this project, run through the worksheet functions. */
interface Reference {
  /** Where the values are printed, or the program, its version and its script. */
  source: string;
  kind: "published" | "independent program" | "definition" | "common practice" | "from memory";
  /** For an independent program: its script, beside this file. */
  script?: string;
  /** Why the tolerance is what it is, for all cases that do not say otherwise. */
  why: string;
  cases: Case[];
}

interface Case {
  function: string;
  /** As tests/worksheet.ts takes them: null where left out, a flat list for a column. */
  arguments: unknown[];
  /** One value, a row, or rows; null where a cell is not compared; an error code for a refusal. */
  expected: unknown;
  /** Greatest difference allowed; relative where `relative` is true. */
  tolerance?: number;
  relative?: true;
  where?: string;
  why?: string;
}

interface ReferenceFile {
  references: Reference[];
  /** Functions of this topic for which no outside value can exist, and why. */
  none?: Record<string, string>;
}

const folder = "tests/reference";
const files = readdirSync(folder)
  .filter((name) => name.endsWith(".json"))
  .map((name) => ({ name, ...(JSON.parse(readFileSync(`${folder}/${name}`, "utf8")) as ReferenceFile) }));

for (const file of files.filter(({ references }) => references.length > 0)) {
  describe(file.name, () => {
    for (const reference of file.references) {
      describe(reference.source, () => {
        it("says what it is and why its tolerances hold", () => {
          expect(["published", "independent program", "definition", "common practice", "from memory"]).toContain(reference.kind);
          expect(reference.why.length).toBeGreaterThan(10);
          if (reference.kind === "independent program") expect(readFileSync(`${folder}/${reference.script}`, "utf8").length).toBeGreaterThan(0);
        });
        it.each(reference.cases)("$function $where $arguments", (one) => {
          compare(grid(one.function, ...one.arguments), rowsOf(one.expected), one);
        });
      });
    }
  });
}

function rowsOf(expected: unknown): unknown[][] {
  if (!Array.isArray(expected)) return [[expected]];
  return Array.isArray(expected[0]) ? (expected as unknown[][]) : [expected];
}

function compare(result: unknown[][], expected: unknown[][], { tolerance = 0, relative }: Case): void {
  expect([result.length, result[0]!.length]).toEqual([expected.length, expected[0]!.length]);
  expected.forEach((line, row) =>
    line.forEach((want, column) => {
      const cell = result[row]![column];
      if (want === null) return;
      if (typeof want !== "number") return expect(cell instanceof CellError ? cell.code : cell).toBe(want);
      expect(cell instanceof CellError ? cell.message : cell).toBeTypeOf("number");
      const allowed = relative ? tolerance * Math.abs(want) : tolerance;
      expect(Math.abs((cell as number) - want), `${String(cell)} against ${want}`).toBeLessThanOrEqual(allowed);
    }),
  );
}

describe("every function", async () => {
  const covered = new Set(files.flatMap(({ references }) => references.flatMap(({ cases }) => cases.map((one) => one.function))));
  const excused = new Map(files.flatMap(({ none }) => Object.entries(none ?? {})));
  it.each((await readDeclarations()).map(({ name }) => name))("%s is checked against an outside value, or says why none exists", (name) => {
    if (covered.has(name)) return expect(excused.has(name)).toBe(false);
    expect(excused.get(name) ?? `tests/reference has no value for ${name}`).toMatch(/^(?!tests\/reference)/);
  });
});
