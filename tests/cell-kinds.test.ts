import { describe, expect, it } from "vitest";
import { expectSound } from "./expected.ts";
import { parseExample, call, CellError, grid, useUnits } from "./worksheet.ts";
import { readDeclarations } from "../scripts/read-declarations.ts";

/** Every function against every kind of cell, one argument at a time, by itself and inside a column. */
const kinds: Record<string, unknown> = {
  "a blank as null": null,
  "a blank as text": "",
  "a blank as 0": 0,
  text: "abc",
  "numeric text": "18",
  "only spaces": "  ",
  TRUE: true,
  "an error": new CellError("#DIV/0!"),
  "-1": -1,
  "1E+300": 1e300,
  "1E-300": 1e-300,
  "a percent cell": 0.095,
  "a whole percent": 9.5,
  "a formatted number": { type: "Double", basicValue: 10, numberFormat: "0.0" },
};

const declarations = (await readDeclarations()).filter(({ parameters }) => parameters.length > 0);

describe.each(declarations)("$name", ({ name, parameters, examples }) => {
  const { cells } = parseExample(examples[0]!);

  describe.each(parameters.map((it, index) => ({ ...it, index })))("$name", ({ index }) => {
    it.each(Object.entries(kinds))("%s gives a value or an error with words", (_, kind) => {
      for (const style of ["number", "cell"] as const) {
        useUnits({ percent: style });
        expectSound(grid(name, ...cells.map((cell, at) => (at === index ? [[kind]] : cell)), ...(index >= cells.length ? [[[kind]]] : [])));
        const first = Array.isArray(cells[index]) ? (cells[index] as unknown[][])[0] ?? [] : [cells[index] ?? null];
        expectSound(grid(name, ...cells.map((cell, at) => (at === index ? [first, first.map(() => kind), first] : cell))));
      }
      useUnits();
    });
  });

  it("refuses nothing but its own example's kind of cell: the example itself calculates", () => {
    expect(call(name, ...cells)).not.toBeInstanceOf(CellError);
  });
});
