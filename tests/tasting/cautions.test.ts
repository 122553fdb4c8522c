import { expect, it } from "vitest";
import { readDeclarations } from "../../scripts/read-declarations.ts";

it("gives every test with people its cautions: caffeine, spitting, allergens", async () => {
  const declarations = (await readDeclarations()).filter(({ topic, name }) => topic === "tasting" && name !== "TASTE.CODES");
  expect(declarations.length).toBe(15);
  for (const { caution } of declarations) for (const words of ["caffeine", "spit", "allergens"]) expect(caution).toContain(words);
});
