/** Results of worksheet functions against what they are to be, whichever host calculated them. */
import { expect } from "vitest";
import type { Case } from "../scripts/reference-cases.ts";
import { CellError } from "./worksheet.ts";

/** Against a reference, within its tolerance. */
export function expectWithin(result: unknown[][], expected: unknown[][], { tolerance = 0, relative }: Pick<Case, "tolerance" | "relative">): void {
  expect([result.length, result[0]!.length]).toEqual([expected.length, expected[0]!.length]);
  expected.forEach((line, row) =>
    line.forEach((want, column) => {
      const cell = result[row]![column];
      if (want === null) return;
      if (typeof want !== "number") return expect(cell instanceof CellError ? cell.code : cell).toBe(want);
      expect(cell instanceof CellError ? cell.message : cell).toBeTypeOf("number");
      const allowed = relative ? tolerance * Math.abs(want) : tolerance;
      expect(Math.abs((cell as number) - want), `${String(cell)} against ${want}`).toBeLessThanOrEqual(allowed);
    }),
  );
}

/** Against what an example prints. */
export function expectPrinted(result: unknown[][], printed: readonly string[]): void {
  if (printed[0] === "a table") {
    expect(result.length).toBeGreaterThan(1);
    expect(result.flat().filter((cell) => cell instanceof CellError)).toEqual([]);
  } else if (printed[0] === "a text") {
    expect(result[0]![0]).toBeTypeOf("string");
  } else {
    expect(result.flat().map((cell, index) => shown(cell, printed[index] ?? ""))).toEqual(printed);
  }
}

/** A number to as many decimals as the example prints. */
function shown(cell: unknown, printed: string): string {
  if (cell instanceof CellError) return cell.code;
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  if (typeof cell !== "number") return cell === "" ? "blank" : String(cell);
  if (/e/i.test(printed)) return cell.toExponential(/\.(\d+)e/i.exec(printed)?.[1]?.length ?? 0);
  return cell.toFixed(printed.split(".")[1]?.length ?? 0);
}

/** Rectangular, not empty, and only what a cell can hold; an error that was made here has words. */
export function expectSound(result: unknown[][]): void {
  expect(result.length).toBeGreaterThan(0);
  expect(result[0]!.length).toBeGreaterThan(0);
  for (const row of result) {
    expect(row.length).toBe(result[0]!.length);
    for (const cell of row) {
      if (cell instanceof CellError) {
        if (cell.code !== "#DIV/0!") {
          expect(["#VALUE!", "#N/A"]).toContain(cell.code);
          expect(cell.message).toMatch(/^[^]{10,}[.?!)]$/);
          expect(cell.message).not.toMatch(/fault in Pucksheet|undefined|NaN|\[object/);
        }
      } else if (typeof cell === "number") expect(Number.isFinite(cell)).toBe(true);
      else expect(["string", "boolean"]).toContain(typeof cell);
    }
  }
}
