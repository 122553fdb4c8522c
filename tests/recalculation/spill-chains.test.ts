import fc from "fast-check";
import { expect, it } from "vitest";
import { repairedFunctions, repairEngine, repairLibrary } from "../../src/hosts/browser/grid/repaired-engine.ts";
import { Engine } from "../grid-repairs/engine.ts";
import { calculatedByHand, cellInTheWay, chains, contentsOf, everyCell, formulaAddress, inputAddress, inputRow } from "./spill-chains.ts";

repairLibrary();
const repaired = { functions: repairedFunctions(), started: repairEngine };
const digit = fc.integer({ min: 0, max: 9 });
const runs = Number(process.env.RUNS ?? 15);

it("a chain of spilled results is what it comes to by hand, when opened and after every edit", async () => {
  const edits = fc.array(fc.record({ row: inputRow, value: digit }), { minLength: 8, maxLength: 8 });
  await fc.assert(
    fc.asyncProperty(chains, edits, async (chain, changes) => {
      const inputs = [...chain.inputs];
      const engine = await Engine.openSheet(contentsOf(chain), repaired);
      const state = () => Object.fromEntries(everyCell(chain).flatMap((at) => ((engine.value(at) ?? "") === "" ? [] : [[at, engine.value(at)]])));
      expect(state()).toEqual(calculatedByHand(chain, inputs));
      for (const { row, value } of changes) {
        inputs[row] = value;
        await engine.type({ [inputAddress(chain, row)]: value });
        expect(state()).toEqual(calculatedByHand(chain, inputs));
      }
    }),
    { numRuns: runs },
  );
}, 600_000);

type Edit = { kind: "input"; row: number; value: number | null } | { kind: "block" | "free" | "replace" | "restore"; link: number; row: number };

const edit: fc.Arbitrary<Edit> = fc.oneof(
  fc.record({ kind: fc.constant("input" as const), row: inputRow, value: fc.option(digit, { freq: 5 }) }),
  fc.record({ kind: fc.constantFrom("block" as const, "free" as const, "replace" as const, "restore" as const), link: fc.integer({ min: 0, max: 6 }), row: fc.integer({ min: 0, max: 10 }) }),
);

it("a chain of spilled results is as when newly opened, also where cells are in the way and formulas come and go", async () => {
  await fc.assert(
    fc.asyncProperty(chains, fc.array(edit, { minLength: 8, maxLength: 12 }), async (chain, changes) => {
      const formulas = contentsOf(chain);
      const contents: Record<string, string | number> = { ...formulas };
      const engine = await Engine.openSheet(contents, repaired);
      const places = everyCell(chain);
      for (const change of changes) {
        const at =
          change.kind === "input" ? inputAddress(chain, change.row)
          : change.kind === "block" || change.kind === "free" ? cellInTheWay(chain, change.link, change.row)
          : formulaAddress(chain, change.link);
        const value = change.kind === "input" ? change.value : change.kind === "block" ? 7 : change.kind === "free" ? null : change.kind === "replace" ? 3 : formulas[at]!;
        if (value === null) {
          engine.cell(at).clearContent();
          await engine.calculated();
          delete contents[at];
        } else {
          await engine.type({ [at]: value });
          contents[at] = value;
        }
        const fresh = await Engine.openSheet(contents, repaired);
        const state = (one: Engine) => Object.fromEntries(places.map((place) => [place, one.value(place) ?? ""]));
        expect(state(engine), `${JSON.stringify(contents)} after ${at} ${String(value)}`).toEqual(state(fresh));
      }
    }),
    { numRuns: runs },
  );
}, 600_000);
