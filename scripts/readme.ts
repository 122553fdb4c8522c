/** Writes the list of functions into the README, from the comments in src/functions. `npm test` says when it is due. */
import { readFileSync, writeFileSync } from "node:fs";
import { byTopic } from "../src/help/topics.ts";
import { readDeclarations } from "./read-declarations.ts";

const marks = /(<!-- functions -->\n)[^]*?(<!-- \/functions -->)/;

/** The README as it should be. */
export async function readmeWithFunctions(readme: string): Promise<string> {
  const lines = byTopic(await readDeclarations()).map(({ title, entries }) => `- **${title}**: ${entries.map(({ name }) => `\`${name}\``).join(", ")}`);
  return readme.replace(marks, (_, before: string, after: string) => `${before}${lines.join("\n")}\n${after}`);
}

if (process.argv[1]?.endsWith("readme.ts")) writeFileSync("README.md", await readmeWithFunctions(readFileSync("README.md", "utf8")));
