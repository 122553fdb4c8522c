/**
 * Runs everything that proves the project, in order of cost: types, lint, build, tests. Stops at the first that fails,
 * except that the tests always run to their end. The last line is the count.
 */
import { spawnSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";

const steps: [string, string, string[]][] = [
  ["The calculation module, with no DOM and no Node", "tsc", ["-p", "shared"]],
  ["Types", "tsc", ["-p", "."]],
  ["Lint", "eslint", ["."]],
];
const counts = { passed: 0, failed: 0 };
const results = ".cache/tests.json";

for (const [name, command, args] of steps) step(name, `node_modules/.bin/${command}`, args);
step("Build", "npm", ["run", "--silent", "build"]);

rmSync(results, { force: true });
const { status } = spawnSync("node_modules/.bin/vitest", ["run", ...process.argv.slice(2)], { stdio: "inherit" });
const { numPassedTests, numFailedTests } = readResults();
counts.passed += numPassedTests;
// A file that fails to load has no failed test of its own, but has failed all the same.
counts.failed += status === 0 ? numFailedTests : Math.max(1, numFailedTests);
finish();

function step(name: string, command: string, args: string[]): void {
  const began = Date.now();
  const done = spawnSync(command, args, { encoding: "utf8" });
  if (done.status === 0) {
    counts.passed++;
    console.log(`✓ ${name} (${((Date.now() - began) / 1000).toFixed(1)} s)`);
    return;
  }
  console.error(`✗ ${name}\n${done.stdout}${done.stderr}`);
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
