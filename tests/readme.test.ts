import { existsSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { readmeWithFunctions } from "../scripts/readme.ts";

const readme = readFileSync("README.md", "utf8");

it("the README lists the functions there are (npm run readme writes the list)", async () => {
  expect(readme).toBe(await readmeWithFunctions(readme));
});

it.each(["README.md", "DEVELOPERS.md"])("%s names only commands and files that exist", (file) => {
  const text = readFileSync(file, "utf8");
  const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> };
  for (const [, name] of text.matchAll(/npm run ([a-z-]+)/g)) expect(Object.keys(scripts)).toContain(name);
  for (const [, path] of text.matchAll(/\]\(((?!https?:|#)[^)]+)\)/g)) expect(existsSync(path!), path).toBe(true);
  for (const [, path] of text.matchAll(/`((?:shared|src|tests|scripts)\/[\w./-]*\w)`/g)) expect(existsSync(path!), path).toBe(true);
});
