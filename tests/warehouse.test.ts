/** The check of a shot as warehouses run it: the built script in a bare engine, with nothing but the language itself. */
import { readFileSync } from "node:fs";
import vm from "node:vm";
import { describe, expect, it } from "vitest";
import { CsvLog } from "../src/log-file/csv-log";
import { chance, mistakes, plausibleShots, type PlainShot } from "./simulated-log";

type CheckShot = (...cells: (number | string | null | undefined)[]) => string;

const script = readFileSync("dist/warehouse/check-shot.js", "utf8");

/** No host: what a context has besides the language is taken away. */
function bareEngine(): vm.Context {
  return vm.createContext(Object.create(null) as object, { codeGeneration: { strings: false, wasm: false } });
}

function fromScript(): CheckShot {
  return vm.runInContext(`${script}; checkShot`, bareEngine()) as CheckShot;
}

/** The function as a file of SQL declares it, called with its arguments by name. */
function fromSql(name: string, marks: string, argumentNames: (name: string) => string): CheckShot {
  const sql = readFileSync(`dist/warehouse/${name}`, "utf8");
  const [, body] = sql.split(marks);
  const names = ["dose", "beverage", "shot_time", "strength", "dose_above", "beverage_above", "shot_time_above", "strength_above"].map(argumentNames);
  return vm.runInContext(`(function (${names.join(", ")}) {${body}})`, bareEngine()) as CheckShot;
}

function simulated(): PlainShot[] {
  const kinds = Object.values(mistakes);
  const luck = chance(31);
  const shots = plausibleShots(1400, 32);
  return shots.map((shot, row) => (row % 5 === 4 ? kinds[row % kinds.length]!(shot, shots[row - 1]!, luck) : shot));
}

/** What check-log finds in the same rows. */
function findingsOf(rows: readonly PlainShot[]): string[] {
  const log = new CsvLog();
  const text = ["dose,beverage,time,strength", ...rows.map(({ dose, beverage, time, strength }) => `${dose},${beverage},${time},${strength}`)].join("\n");
  const found = new Map([...log.push(new TextEncoder().encode(text)), ...log.end()].map(({ line, words }) => [line, words]));
  return rows.map((_, row) => found.get(row + 2) ?? "");
}

describe("checkShot in a bare engine", () => {
  const rows = simulated();
  const expected = findingsOf(rows);
  const cells = ({ dose, beverage, time, strength }: PlainShot): number[] => [dose, beverage, time, strength];

  it.each<[string, () => CheckShot]>([
    ["the script", fromScript],
    ["snowflake.sql", () => fromSql("snowflake.sql", "$$", (name) => name.toUpperCase())],
    ["postgresql.sql", () => fromSql("postgresql.sql", "$check_shot$", (name) => name)],
  ])("of %s finds what check-log finds, with the shot above", (_, made) => {
    const checkShot = made();
    const found = rows.map((row, index) => checkShot(...cells(row), ...(index === 0 ? [null, null, null, null] : cells(rows[index - 1]!))));
    expect(found).toEqual(expected);
    expect(found.filter((words) => words !== "").length).toBeGreaterThan(200);
  });

  it("reads texts as they were typed, and blanks", () => {
    const checkShot = fromScript();
    expect(checkShot("18.2", "36,4 g", "0:27", "9.5 %")).toBe("");
    expect(checkShot("18.2", "36.4", "27", null)).toBe("");
    expect(checkShot(null, undefined, "", " ")).toBe("");
    expect(checkShot("18.2", "fast", "27", "9.5")).toMatch(/^Beverage cannot be read: “fast” is not a mass/);
    expect(checkShot(18.2, null, 27, 9.5)).toBe("Beverage is blank or 0.");
    expect(checkShot(18.2, 364, 27, 9.5)).toMatch(/^Beverage 364 g looks like a slipped decimal point: 36\.4 g\?/);
  });

  it("asks for an old language only, and leaves the marks of SQL alone", () => {
    // Arrow functions and template texts are of 2015; these came later.
    expect(script).not.toMatch(/\?\?|\?\.[a-z([]|\*\*|async /i);
    expect(script).not.toContain("$$");
    expect(script).not.toContain("$check_shot$");
  });
});
