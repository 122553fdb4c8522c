import { describe, expect, it, test } from "vitest";
import type { TypedShot } from "../../shared/log/plausible";
import { logFindings } from "../../shared/log";
import { CellError, grid } from "../worksheet";
import { chance, mistakes, plausibleShots } from "../simulated-log";

const good: TypedShot = { dose: 18, beverage: 36, time: 27, strength: 9.5 };

function columnsOf(rows: readonly Partial<TypedShot>[]): Omit<Parameters<typeof logFindings>[0], "first" | "units"> {
  const column = (name: keyof TypedShot): TypedShot["dose"][] => rows.map((row) => ({ ...good, ...row })[name]);
  return { dose: column("dose"), beverage: column("beverage"), time: column("time"), strength: column("strength") };
}

describe("findings in a log", () => {
  test.each<[string, Partial<TypedShot>]>([
    ["cannot be", { dose: "a handful" }],
    ["cannot be", { dose: 36, beverage: 18 }],
    ["cannot be", { time: 270 }],
    ["cannot be", { time: 0.01875 }],
    ["cannot be", { strength: 0.095 }],
    ["cannot be", { dose: -18 }],
    ["cannot be", { beverage: 75, strength: 12 }],
    // A text that is understood, but not as a shot.
    ["cannot be", { dose: "180 g" }],
    ["doubtful", { time: 130 }],
    ["doubtful", { dose: 5.5, beverage: 11 }],
    ["doubtful", { beverage: 17 }],
    ["doubtful", { beverage: 57, strength: 9.9 }],
    ["doubtful", { time: null }],
    // A text beside a blank.
    ["doubtful", { dose: "18 g", time: null }],
    ["only text", { dose: "18 g", time: "0:27" }],
  ])("are graded: %s for %j", (grade, row) => {
    const [finding, ...others] = logFindings(columnsOf([{}, row]));
    expect(others).toEqual([]);
    expect([finding!.logRow, finding!.grade]).toEqual([2, grade]);
    expect(finding!.words).not.toBe("");
  });

  it("say a repeat of the row above to be doubtful", () => {
    const fine = { beverage: 36.2, strength: 9.53 };
    expect(logFindings(columnsOf([fine, fine]))).toEqual([{ logRow: 2, grade: "doubtful", words: "Exactly the same shot as in the row above: entered twice?" }]);
  });

  it("come by grade and then by row, as many as are asked for", () => {
    const log = columnsOf([{ time: "27 s" }, { time: 130 }, { time: 0.01875 }, {}, { time: "0:27" }, { dose: "x" }, { time: null }]);
    expect(logFindings(log).map(({ logRow, grade }) => [logRow, grade])).toEqual([
      [3, "cannot be"], [6, "cannot be"], [2, "doubtful"], [7, "doubtful"], [1, "only text"], [5, "only text"],
    ]);
    expect(logFindings({ ...log, first: 3 }).map(({ logRow }) => logRow)).toEqual([3, 6, 2]);
    const many = columnsOf(Array.from({ length: 40 }, (_, row) => ({ time: row === 30 ? 0.02 : 130 })));
    expect(logFindings(many).map(({ logRow }) => logRow)).toEqual([31, ...Array.from({ length: 14 }, (_, row) => row + 1)]);
  });

  it("say so where there are none", () => {
    expect(logFindings(columnsOf([{}, { time: 28 }]))).toEqual([{ logRow: "", grade: "", words: "Nothing stands out in 2 shots." }]);
    expect(logFindings(columnsOf([{}]))[0]!.words).toBe("Nothing stands out in one shot.");
    expect(logFindings({ dose: [null], beverage: [""], time: [0], strength: [null] })[0]!.words).toBe("No shots yet.");
  });

  it("say of hardly any plausible shot that it cannot be, and of most slips that they cannot", () => {
    const shots = plausibleShots(4000, 41);
    const cannot = (rows: readonly TypedShot[]): number => logFindings({ ...columnsOf(rows), first: 10_000 }).filter(({ grade }) => grade === "cannot be").length;
    expect(cannot(shots)).toBe(0);
    for (const [kind, mistake] of Object.entries(mistakes)) {
      const luck = chance(42);
      const rows = shots.slice(1, 501).map((shot, row) => mistake(shot, shots[row]!, luck));
      const share = cannot(rows.flatMap((row) => [good, row])) / rows.length;
      // A repeat can be right, and so can a tenth of a slow shot's time.
      const least = kind === "the row above again" ? 0 : kind === "decimal point of the time slipped" ? 0.4 : 0.95;
      expect(share, kind).toBeGreaterThanOrEqual(least);
    }
  });

  it("in a sheet name the error of another cell instead of passing its row over", () => {
    const table = grid("LOG.FINDINGS", [18, new CellError("#DIV/0!"), 18], [36, 36, 36], [27, 27, 27], [9.5, 9.4, 9.5]);
    expect(table[0]).toEqual(["Row", "Grade", "In words"]);
    expect(table.slice(1)).toEqual([[2, "cannot be", "Dose holds the error #DIV/0!."]]);
  });
});
