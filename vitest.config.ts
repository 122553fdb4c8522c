import { readFileSync } from "node:fs";
import { defineConfig } from "vitest/config";
import { catalogueOf, readDeclarations } from "./scripts/read-declarations.ts";

const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };

const catalogue = catalogueOf(await readDeclarations());

export default defineConfig({
  define: { CATALOGUE: JSON.stringify(catalogue), PROJECT_VERSION: JSON.stringify(version) },
  test: {
    include: ["tests/**/*.test.ts"],
    // Two cores, and the browser tests start a Chromium each.
    maxWorkers: 2,
    testTimeout: 60_000,
    hookTimeout: 120_000,
    reporters: ["default", ["json", { outputFile: ".cache/tests.json" }]],
  },
});
