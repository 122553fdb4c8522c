/** Values that come from outside this project, as tests/reference/ holds them, for the tests and for whoever checks an installation. */
import { readdirSync, readFileSync } from "node:fs";

export interface Reference {
  /** Where the values are printed, or the program, its version and its script. */
  source: string;
  kind: "published" | "independent program" | "definition" | "common practice" | "from memory";
  /** For an independent program: its script, beside this file. */
  script?: string;
  /** Why the tolerance is what it is, for all cases that do not say otherwise. */
  why: string;
  cases: Case[];
}

export interface Case {
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

export interface ReferenceFile {
  readonly name: string;
  readonly references: Reference[];
  /** Functions of this topic for which no outside value can exist, and why. */
  readonly none?: Record<string, string>;
}

export const referenceFolder = "tests/reference";

export function referenceFiles(): ReferenceFile[] {
  return readdirSync(referenceFolder)
    .filter((name) => name.endsWith(".json"))
    .map((name) => ({ name, ...(JSON.parse(readFileSync(`${referenceFolder}/${name}`, "utf8")) as Omit<ReferenceFile, "name">) }));
}

/** What is expected, as rows. */
export function rowsOf(expected: unknown): unknown[][] {
  if (!Array.isArray(expected)) return [[expected]];
  return Array.isArray(expected[0]) ? (expected as unknown[][]) : [expected];
}
