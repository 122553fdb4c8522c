import { readFileSync } from "node:fs";
import { createContext, runInContext } from "node:vm";
import { gzipSync } from "node:zlib";
import { beforeAll, describe, expect, it } from "vitest";
import { readDeclarations } from "../../scripts/read-declarations.ts";
import { defaultUnits } from "../../src/sheet/unit-choice.ts";

/** dist/functions.js in a page that has nothing but what Excel's runtime puts there: `CustomFunctions.associate` and `.Error`. */
type Calculate = (...cells: unknown[]) => unknown[][] | Promise<unknown[][]>;

class ExcelError {
  constructor(readonly code: string, readonly message?: string) {}
}

const associated = new Map<string, Calculate>();
const page = createContext({
  CustomFunctions: {
    ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A" },
    Error: ExcelError,
    associate: (id: string, calculate: Calculate) => associated.set(id, calculate),
  },
  setTimeout,
});
const inPage = <T>(code: string): T => runInContext(code, page) as T;

beforeAll(() => runInContext(readFileSync("dist/functions.js", "utf8"), page));

describe("functions.js alone", () => {
  it("associates every function that functions.json lists, with as many arguments", async () => {
    const { functions } = JSON.parse(readFileSync("dist/functions.json", "utf8")) as { functions: { id: string; parameters: { name: string }[] }[] };
    expect([...associated.keys()].sort()).toEqual(functions.map(({ id }) => id).sort());
    expect(functions.map(({ id }) => id).sort()).toEqual((await readDeclarations()).map(({ name }) => name).sort());
    for (const { parameters } of functions) for (const { name } of parameters) expect(name).toBe(name.toLowerCase());
  });

  it("waits for the units, and takes today's choice", async () => {
    const ratio = associated.get("RATIO")!([[18]], [[36]]);
    expect(ratio).toHaveProperty("then");
    inPage<{ useUnits(choice: unknown): void }>("globalThis.pucksheet").useUnits(defaultUnits);
    expect(await ratio).toEqual([[2]]);
    expect(associated.get("DOSE")!([[36]], [[2]])).toEqual([[18]]);
    inPage<{ useUnits(choice: unknown): void }>("globalThis.pucksheet").useUnits({ ...defaultUnits, mass: "oz" });
    expect(associated.get("SOLIDS")!([[1]], [[10]])).toEqual([[expect.closeTo(0.1, 12)]]);
    inPage<{ useUnits(choice: unknown): void }>("globalThis.pucksheet").useUnits(defaultUnits);
  });

  it("is small enough for every workbook to wait for", () => {
    expect(gzipSync(readFileSync("dist/functions.js")).length).toBeLessThan(75_000);
  });

  it("says where it has no words of its own, and has them with the file beside it", async () => {
    const source = (): unknown => associated.get("SOURCE")!([["RATIO"]]);
    expect(await source()).toEqual([[expect.objectContaining({ code: "#N/A", message: expect.stringMatching(/could not be fetched/) as unknown })]]);
    runInContext(readFileSync("dist/functions-words.js", "utf8"), page);
    const [, first, second] = (await source()) as string[][];
    expect([first![0], second![0]]).toEqual(["Function", "Equation"]);
    expect(second![1]).toContain("beverage");
    expect(source()).toEqual(await source());
  });

  it("gives Excel's own errors with words, one for cells with the same refusal, and hands other cells' errors on", () => {
    const error = { type: "CustomFunctionError", code: "#DIV/0!" };
    const [first, second, third] = associated.get("RATIO")!([[-1], [-1], [error]], [[36], [36], [36]]) as unknown[][];
    expect(first![0]).toBeInstanceOf(ExcelError);
    expect(first![0]).toMatchObject({ code: "#VALUE!", message: "dose must be more than 0 g, but is -1 g." });
    expect(second![0]).toBe(first![0]);
    expect(third![0]).toBe(error);
  });
});
