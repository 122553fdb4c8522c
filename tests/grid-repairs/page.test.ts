/** As for the engine: the page that the library draws, as it comes and repaired. */
import { expect, it } from "vitest";
import { pageFaults } from "./page-faults.ts";
import { useLibraryPages } from "./stock-page.ts";

useLibraryPages();

it.each(pageFaults)("the page as it comes still has the fault of $file", async ({ shows, wrong }) => {
  expect(await shows(false)).toEqual(wrong);
});

it.each(pageFaults)("$file is put right", async ({ shows, right }) => {
  expect(await shows(true)).toEqual(right);
});
