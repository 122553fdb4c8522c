/**
 * Where one of these fails, the grid library no longer has the fault, and its file in src/hosts/browser/grid/repairs/ is to be taken out.
 */
import { expect, it } from "vitest";
import { engineFaults } from "./engine-faults.ts";

it.each(engineFaults)("the engine as it comes still has the fault of $file", async ({ shows, wrong }) => {
  expect(await shows({})).toEqual(wrong);
});
