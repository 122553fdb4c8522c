import { describe, expect, it } from "vitest";
import { CellError, grid } from "../worksheet";

const tasters = ["Ann", "Ann", "Ben", "Ben", "Cleo", "Cleo"];
const samples = ["A", "B", "A", "B", "A", "B"];

describe("tasting in a sheet", () => {
  it("TASTE.SCORES leaves out what is not scored yet, and refuses a score without its taster", () => {
    const table = grid("TASTE.SCORES", [...tasters, "Dan"], [...samples, "A"], [6, 4, 8, 7, 7, 5, ""]);
    expect(table).toEqual(grid("TASTE.SCORES", tasters, samples, [6, 4, 8, 7, 7, 5]));
    expect((grid("TASTE.SCORES", ["Ann", "", "Ben"], ["A", "B", "A"], [6, 4, 8])[0]![0] as CellError).message).toMatch(/^tasters is blank in row 2/);
  });

  it("TASTE.SCORES takes a score of 0 for a score", () => {
    expect(grid("TASTE.SCORES", tasters, samples, [0, 1, 2, 1, 0, 2])[1]!.slice(0, 2)).toEqual(["A", 3]);
  });

  it("TASTE.SCORES keeps the means where nothing can be judged, and says why beside them", () => {
    const [, row] = grid("TASTE.SCORES", ["Ann", "Ann"], ["A", "B"], [6, 4]);
    expect(row!.slice(0, 3)).toEqual(["A", 1, 6]);
    for (const cell of row!.slice(3)) expect((cell as CellError).code).toBe("#N/A");
  });

  it("TASTE.RANKS and TASTE.TREND take scores where they are told so", () => {
    const scores = [[9, 6, 3], [8, 4, 5], [7, 7, 1], [9, 5, 2]];
    const ranks = [[1, 2, 3], [1, 3, 2], [1.5, 1.5, 3], [1, 2, 3]];
    for (const name of ["TASTE.RANKS", "TASTE.TREND"]) expect(grid(name, scores, "scores")).toEqual(grid(name, ranks));
    expect((grid("TASTE.RANKS", scores)[0]![0] as CellError).message).toContain("given “scores”");
    expect((grid("TASTE.RANKS", scores, "points")[0]![0] as CellError).code).toBe("#VALUE!");
  });

  it("TASTE.RANKS passes over rows and columns that a host hands over as zeros", () => {
    const ranks = [[1, 2, 3], [1, 3, 2], [2, 1, 3]];
    expect(grid("TASTE.RANKS", [...ranks.map((row) => [...row, 0]), [0, 0, 0, 0]])).toEqual(grid("TASTE.RANKS", ranks));
  });

  it("TASTE.AGREEMENT and TASTE.ALIKE stop at an impossible answer with words", () => {
    expect((grid("TASTE.AGREEMENT", [[1, 2, 3]])[0]![0] as CellError).message).toMatch(/^scores holds fewer than two tasters/);
    expect((grid("TASTE.ALIKE", 9, 8, "triangle")[0]![0] as CellError).code).toBe("#VALUE!");
    expect(grid("TASTE.ALIKE", [7, 8], 25, "triangle").map(([, alike]) => alike)).toEqual([true, false]);
  });
});
