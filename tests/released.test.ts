import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { givenList, parameterList, type Released } from "../scripts/readme.ts";
import { grid } from "./worksheet.ts";

/** Released names, parameters and the order and headings of results stand in people's workbooks, so they stay: tests/released.json only grows. */
const released = JSON.parse(readFileSync("tests/released.json", "utf8")) as Record<string, Released>;
const declared = new Map((await readDeclarations()).map((it) => [it.name, it]));

it.each(Object.entries(released))("%s keeps its parameters", (name, { parameters }) => {
  const now = declared.get(name);
  expect(now, `${name} was released and may not disappear`).toBeDefined();
  const names = parameterList(now!);
  expect(names.slice(0, parameters.length)).toEqual(parameters);
  expect(names.slice(parameters.length).every((it) => it.startsWith("["))).toBe(true);
});

it.each(Object.entries(released))("%s keeps the shape, the order and the headings of its results", (name, { gives }) => {
  expect(givenList(declared.get(name)!)).toEqual(gives);
});

it("UNITS, which is laid out by itself, keeps its headings", () => {
  expect(grid("UNITS")[0]).toEqual(["Quantity", "Unit of this workbook", "Beside a number"]);
});

it.each([...declared.keys()])("%s is in the list", (name) => {
  expect(Object.keys(released), "npm run readme adds it to tests/released.json").toContain(name);
});
