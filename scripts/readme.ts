/**
 * Writes what follows from the comments in src/functions: the list of functions in the README, and new ones into tests/released.json,
 * where released names, parameters and results stay as they are. `npm test` says when it is due.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { byTopic } from "../src/help/topics.ts";
import { heading } from "../src/sheet/results.ts";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { readDeclarations, type Declaration } from "./read-declarations.ts";

const marks = /(<!-- functions -->\n)[^]*?(<!-- \/functions -->)/;

/** The README as it should be. */
export async function readmeWithFunctions(readme: string): Promise<string> {
  const lines = byTopic(await readDeclarations()).map(({ title, entries }) => `- **${title}**: ${entries.map(({ name }) => `\`${name}\``).join(", ")}`);
  return readme.replace(marks, (_, before: string, after: string) => `${before}${lines.join("\n")}\n${after}`);
}

/** Parameters as they are frozen: in brackets where they may be left out. */
export function parameterList({ parameters }: Declaration): string[] {
  return parameters.map(({ name, optional }) => (optional ? `[${name}]` : name));
}

/** What people's workbooks count on. */
export interface Released {
  readonly parameters: readonly string[];
  /** The shape of the result, then its columns in order, as a table heads them in the canonical units. */
  readonly gives: readonly string[];
}

export function givenList({ shape, results }: Declaration): string[] {
  return [shape, ...results.map((it) => heading(it, defaultUnits))];
}

async function releasedWithNew(json: string): Promise<string> {
  const released = JSON.parse(json) as Record<string, Released>;
  for (const declaration of await readDeclarations()) {
    released[declaration.name] ??= { parameters: parameterList(declaration), gives: givenList(declaration) };
  }
  const list = (texts: readonly string[]): string => `[${texts.map((one) => JSON.stringify(one)).join(", ")}]`;
  const lines = Object.entries(released).map(([name, { parameters, gives }]) => `  ${JSON.stringify(name)}: { "parameters": ${list(parameters)}, "gives": ${list(gives)} }`);
  return `{\n${lines.join(",\n")}\n}\n`;
}

if (process.argv[1]?.endsWith("readme.ts")) {
  writeFileSync("README.md", await readmeWithFunctions(readFileSync("README.md", "utf8")));
  writeFileSync("tests/released.json", await releasedWithNew(readFileSync("tests/released.json", "utf8")));
}
