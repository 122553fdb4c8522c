import { describe, expect, it } from "vitest";
import { logFindings, readLog } from "../../shared/log";
import { readGrams, readPercent, readSeconds, type Cell } from "../../shared/reading";
import { CellError, grid } from "../worksheet";

interface Columns {
  dose: Cell[];
  beverage: Cell[];
  time: Cell[];
  strength: Cell[];
}

const columns = (rows: readonly (readonly Cell[])[]): Columns => {
  const [dose, beverage, time, strength] = [0, 1, 2, 3].map((index) => rows.map((row) => row[index]!)) as [Cell[], Cell[], Cell[], Cell[]];
  return { dose, beverage, time, strength };
};

describe("a log as numbers", () => {
  it("holds each shot as the READ functions read it", () => {
    const typed = [["18,2 g", "36,4 g", "0:27", "9,4 %"], [18, 36, 27.5, null], ["18.1", 36.2, "26 s", 9.5]] as const;
    expect(readLog(columns(typed))).toEqual(typed.map(([dose, beverage, time, strength]) => ({
      dose: readGrams({ text: dose }), beverage: readGrams({ text: beverage }), time: readSeconds({ text: time }),
      strength: strength === null ? "" : readPercent({ text: strength }), leftOut: "",
    })));
  });

  it("leaves out exactly the rows that are found not to be right, or doubtful, in the words of the finding", () => {
    const log = columns([[18, 36, 27, 9.5], ["18 g", 36.2, 27, 9.5], [36, 18, 27, 9.5], [18, null, 27, 9.4], [null, null, null, null], [18, 36, "soon", 9.4], [5.5, 11, 27, 9.4]]);
    const read = readLog(log);
    const left = read.flatMap(({ leftOut }, row) => (leftOut === "" ? [] : [[row + 1, leftOut]]));
    const found = logFindings(log).filter(({ grade }) => grade !== "only text").map(({ logRow, words }) => [logRow, words]);
    expect(new Set(left.map(String))).toEqual(new Set(found.map(String)));
    expect(left.map(([row]) => row)).toEqual([3, 4, 6, 7]);
    for (const [row] of left) expect({ ...read[(row as number) - 1], leftOut: "" }).toEqual({ dose: "", beverage: "", time: "", strength: "", leftOut: "" });
    expect(read[4]).toEqual({ dose: "", beverage: "", time: "", strength: "", leftOut: "" });
  });

  it("keeps an error in its row", () => {
    const [first, second, third] = grid("READ.LOG", [18, new CellError("#N/A"), 18.1], [36, 36, 36.2], [27, 27, 26], [9.5, 9.5, 9.4]);
    expect(first).toEqual([18, 36, 27, 9.5, ""]);
    expect(second!.every((cell) => cell instanceof CellError)).toBe(true);
    expect(third).toEqual([18.1, 36.2, 26, 9.4, ""]);
  });
});
