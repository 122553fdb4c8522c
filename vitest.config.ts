import { readFileSync } from "node:fs";
import { defineConfig } from "vitest/config";
import { liveCases } from "./scripts/conformance.ts";
import { catalogueOf, readDeclarations } from "./scripts/read-declarations.ts";

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };

const catalogue = catalogueOf(await readDeclarations());

/** With `--mode long` the long tests, the full counts of what the others sample. */
export default defineConfig(({ mode }) => ({
  define: { CATALOGUE: JSON.stringify(catalogue), PROJECT_VERSION: JSON.stringify(version), LIVE_CASES: JSON.stringify(liveCases()) },
  test: {
    include: [mode === "long" ? "tests/long/**/*.test.ts" : "tests/**/*.test.ts"],
    exclude: mode === "long" ? [] : ["tests/long/**"],
    // Two cores, and the browser tests start a Chromium each.
    maxWorkers: 2,
    // They end what hangs, on the slowest machine too; how long something takes is no matter of a test.
    testTimeout: mode === "long" ? 30 * 60_000 : 10 * 60_000,
    hookTimeout: 10 * 60_000,
    expect: { poll: { timeout: 60_000 } },
    reporters: ["default", ["json", { outputFile: ".cache/tests.json" }]],
  },
}));
