import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { parameterList } from "../scripts/readme.ts";

/** A released name or parameter stands in people's workbooks, so it stays: tests/released.json only grows. */
const released = JSON.parse(readFileSync("tests/released.json", "utf8")) as Record<string, string[]>;
const declared = new Map((await readDeclarations()).map((it) => [it.name, it]));

it.each(Object.entries(released))("%s keeps its parameters", (name, parameters) => {
  const now = declared.get(name);
  expect(now, `${name} was released and may not disappear`).toBeDefined();
  const names = parameterList(now!);
  expect(names.slice(0, parameters.length)).toEqual(parameters);
  expect(names.slice(parameters.length).every((it) => it.startsWith("["))).toBe(true);
});

it.each([...declared.keys()])("%s is in the list", (name) => {
  expect(Object.keys(released), "npm run readme adds it to tests/released.json").toContain(name);
});
