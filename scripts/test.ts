/**
 * Runs everything that proves the project, in order of cost: types, lint, build, tests. Stops at the first that fails,
 * except that the tests always run to their end. The last line is the count. With --long it builds and runs the long tests instead.
 */
import { spawnSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { runTool } from "./build.ts";

const given = process.argv.slice(2).filter((argument) => argument !== "--long");
const long = process.argv.includes("--long");
const build: Step = ["Build", "webpack/bin/webpack.js", []];
const steps: Step[] = long
  ? [build]
  : [["Types, layer by layer", "typescript/bin/tsc", ["-b"]], ["Lint", "eslint/bin/eslint.js", ["."]], build];
const counts = { passed: 0, failed: 0 };
const results = ".cache/tests.json";

type Step = readonly [name: string, script: string, args: readonly string[]];

for (const step of steps) run(step);
rmSync(results, { force: true });
const { status } = spawnSync(process.execPath, ["node_modules/vitest/vitest.mjs", "run", ...(long ? ["--mode", "long"] : []), ...given], { stdio: "inherit" });
const { numPassedTests, numFailedTests } = readResults();
counts.passed += numPassedTests;
// A file that fails to load has no failed test of its own, but has failed all the same.
counts.failed += status === 0 ? numFailedTests : Math.max(1, numFailedTests);
finish();

function run([name, script, args]: Step): void {
  const began = Date.now();
  const { status, stdout, stderr } = runTool(script, args);
  if (status === 0) {
    counts.passed++;
    console.log(`✓ ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
    return;
  }
  console.error(`✗ ${name}\n${stdout}${stderr}`);
  counts.failed++;
  finish();
}

function readResults(): { numPassedTests: number; numFailedTests: number } {
  try {
    return JSON.parse(readFileSync(results, "utf8")) as { numPassedTests: number; numFailedTests: number };
  } catch {
    return { numPassedTests: 0, numFailedTests: 0 };
  }
}

function finish(): never {
  console.log(`${counts.passed} passed, ${counts.failed} failed`);
  process.exit(counts.failed > 0 ? 1 : 0);
}
