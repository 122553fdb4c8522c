import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { StructuralEdit } from "../src/xlsx/journal.ts";
import { Relocation } from "../src/xlsx/relocation.ts";

const rows = (kind: "insert rows" | "delete rows", at: number, count = 1, sheet = "Log"): StructuralEdit => ({ kind, sheet, at, count });

/** What Excel makes of formulas on the sheet Log, tried against its documented behaviour: references follow their cells. */
describe("a formula after", () => {
  it.each<[StructuralEdit[], string, string]>([
    [[rows("insert rows", 4)], "A4+A5+$B$6", "A4+A6+$B$7"],
    [[rows("insert rows", 4)], "SUM(A1:A9)+SUM(A5:A9)", "SUM(A1:A10)+SUM(A6:A10)"],
    [[rows("insert rows", 0)], "SUM(A:A)+SUM(1:1048576)+SUM(2:3)", "SUM(A:A)+SUM(1:1048576)+SUM(3:4)"],
    [[rows("insert rows", 4)], "Other!A9+'Other sheet'!A9+Log!A9", "Other!A9+'Other sheet'!A9+Log!A10"],
    [[rows("insert rows", 4)], "[1]Log!A9+'[1]Log'!A9+First:Log!A9", "[1]Log!A9+'[1]Log'!A9+First:Log!A9"],
    [[rows("delete rows", 4, 2)], "A4+A5+A7", "A4+#REF!+A5"],
    [[rows("delete rows", 4, 2)], "SUM(A5:A6)+SUM(A1:A5)+SUM(A6:A9)", "SUM(#REF!)+SUM(A1:A4)+SUM(A5:A7)"],
    [[{ kind: "insert columns", sheet: "Log", at: 1, count: 2 }], "A1+B1+SUM(B:C)+SUM(3:3)+$B$2", "A1+D1+SUM(D:E)+SUM(3:3)+$D$2"],
    [[{ kind: "delete columns", sheet: "Log", at: 1, count: 1 }], "B1+C1&\"C1\"&T[C1]", "#REF!+B1&\"C1\"&T[C1]"],
    [[{ kind: "rename sheet", sheet: "Log", to: "My log" }], "Log!A1+'Log'!A2+First:Log!B1+LOG(2)", "'My log'!A1+'My log'!A2+'First:My log'!B1+LOG(2)"],
    [[{ kind: "rename sheet", sheet: "Log", to: "A1" }], "log!A1", "'A1'!A1"],
    [[{ kind: "remove sheet", sheet: "Old" }], "Old!A1+SUM(Old!A1:B2)+Log!A1+A1", "#REF!+SUM(#REF!)+Log!A1+A1"],
    [[{ kind: "rename sheet", sheet: "Log", to: "Day" }, rows("insert rows", 0, 1, "Day")], "A1+Log!A2", "A2+Day!A3"],
    [[{ kind: "move rows", sheet: "Log", at: 1, count: 2, before: 6 }], "A2+A3+A4+A6+A7", "A5+A6+A2+A4+A7"],
  ])("%j: %s", (edits, formula, expected) => {
    expect(new Relocation(edits).formula(formula, "Log")).toBe(expected);
  });

  it("rows inserted and deleted again is the same, whatever it is", () => {
    const piece = fc.constantFrom("A1", "$B$2", "C$3:$D9", "E:F", "4:9", "Log!A7", "'Other one'!B2:C3", '"A1"', "T[A1]", "LOG10(7)", "First:Log!A3");
    const formula = fc.array(piece, { minLength: 1, maxLength: 6 }).map((pieces) => pieces.join("+"));
    const place = fc.record({ at: fc.nat(40), count: fc.integer({ min: 1, max: 5 }) });
    fc.assert(
      fc.property(formula, place, (text, { at, count }) => {
        const there = new Relocation([rows("insert rows", at, count)]).formula(text, "Log");
        const back = new Relocation([rows("delete rows", at, count)]).formula(there, "Log");
        expect(back).toBe(text);
      }),
    );
  });
});
