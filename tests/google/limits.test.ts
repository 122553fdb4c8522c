/** What a Google Sheet cannot hold is said in words ("Files you can store in Google Drive", Google Drive Help: 10 million cells, 50,000 characters). */
import { expect, it } from "vitest";
import { resultsOut } from "../../src/hosts/google/cells.ts";

it("more cells than a spreadsheet has", () => {
  const row = Array.from({ length: 2_000 }, () => 1);
  expect(() => resultsOut(Array.from({ length: 5_001 }, () => row))).toThrow("The result has 5001 × 2000 cells, but a Google Sheet holds 10 million at most. Ask for less at once.");
});

it("a text longer than a cell holds, by itself and in a column", () => {
  const words = "#VALUE! The text is longer than the 50,000 characters that a cell of a Google Sheet holds.";
  expect(resultsOut([["x".repeat(50_001)]])).toBe(words);
  expect(resultsOut([["x".repeat(50_001)], ["y".repeat(50_000)]])).toEqual([[words], ["y".repeat(50_000)]]);
});
