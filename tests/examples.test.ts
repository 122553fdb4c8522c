import { describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { CellError, grid, parseExample } from "./worksheet.ts";

/** Every example of a comment is run, so that no help page can be wrong about a result. */
const declarations = await readDeclarations();

describe.each(declarations)("$name", ({ name, examples }) => {
  it("has an example", () => expect(examples.length).toBeGreaterThan(0));

  it.each(examples)("%s", (text) => {
    const { id, cells, printed } = parseExample(text);
    expect(id).toBe(name);
    const result = grid(id, ...cells);
    if (printed[0] === "a table") {
      expect(result.length).toBeGreaterThan(1);
      expect(result.flat().filter((cell) => cell instanceof CellError)).toEqual([]);
    } else if (printed[0] === "a text") {
      expect(result[0]![0]).toBeTypeOf("string");
    } else {
      expect(result.flat().map((cell, index) => shown(cell, printed[index] ?? ""))).toEqual(printed);
    }
  });
});

/** A number to as many decimals as the example prints. */
function shown(cell: unknown, printed: string): string {
  if (cell instanceof CellError) return cell.code;
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  if (typeof cell !== "number") return cell === "" ? "blank" : String(cell);
  if (/e/i.test(printed)) return cell.toExponential(/\.(\d+)e/i.exec(printed)?.[1]?.length ?? 0);
  return cell.toFixed(printed.split(".")[1]?.length ?? 0);
}
