/** Values that come from outside this project, run through the worksheet functions. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readDeclarations } from "../scripts/read-declarations.ts";
import { referenceFiles, referenceFolder as folder, rowsOf } from "../scripts/reference-cases.ts";
import { expectWithin } from "./expected.ts";
import { grid } from "./worksheet.ts";

const files = referenceFiles();

for (const file of files.filter(({ references }) => references.length > 0)) {
  describe(file.name, () => {
    for (const reference of file.references) {
      describe(reference.source, () => {
        it("says what it is and why its tolerances hold", () => {
          expect(["published", "independent program", "definition", "common practice", "from memory"]).toContain(reference.kind);
          expect(reference.why.length).toBeGreaterThan(10);
          if (reference.kind === "independent program") expect(readFileSync(`${folder}/${reference.script}`, "utf8").length).toBeGreaterThan(0);
        });
        it.each(reference.cases)("$function $where $arguments", (one) => {
          expectWithin(grid(one.function, ...one.arguments), rowsOf(one.expected), one);
        });
      });
    }
  });
}

describe("every function", async () => {
  const covered = new Set(files.flatMap(({ references }) => references.flatMap(({ cases }) => cases.map((one) => one.function))));
  const excused = new Map(files.flatMap(({ none }) => Object.entries(none ?? {})));
  it.each((await readDeclarations()).map(({ name }) => name))("%s is checked against an outside value, or says why none exists", (name) => {
    if (covered.has(name)) return expect(excused.has(name)).toBe(false);
    expect(excused.get(name) ?? `tests/reference has no value for ${name}`).toMatch(/^(?!tests\/reference)/);
  });
});
