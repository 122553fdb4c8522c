import { describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { expectPrinted } from "./expected.ts";
import { grid, parseExample } from "./worksheet.ts";

/** Every example of a comment is run, so that no help page can be wrong about a result. */
const declarations = await readDeclarations();

describe.each(declarations)("$name", ({ name, examples }) => {
  it("has an example", () => expect(examples.length).toBeGreaterThan(0));

  it.each(examples)("%s", (text) => {
    const { id, cells, printed } = parseExample(text);
    expect(id).toBe(name);
    expectPrinted(grid(id, ...cells), printed);
  });
});
