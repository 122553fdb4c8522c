/**
 * Runs everything that proves the project, in order of cost: types, lint, build, tests. Stops at the first that fails,
 * except that the tests always run to their end. The last line is the count. With --long it builds and runs the long tests instead.
 */
import { spawnSync } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import { relative } from "node:path";
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
const { numPassedTests, numFailedTests, testResults } = readResults();
counts.passed += numPassedTests;
// A file that fails to load has no failed test of its own, but has failed all the same.
counts.failed += status === 0 ? numFailedTests : Math.max(1, numFailedTests);
// Once more at the end, where they are seen: thousands of lines stand before.
for (const file of testResults) {
  const failed = file.assertionResults.filter((test) => test.status === "failed");
  if (file.status === "failed") console.error([`✗ ${relative(".", file.name)}`, ...failed.map((test) => `  ${test.fullName}: ${test.failureMessages[0]?.split("\n")[0] ?? ""}`)].join("\n"));
}
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

/** What Vitest's JSON reporter writes, as far as it is read here. */
interface Results {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly testResults: readonly {
    readonly name: string;
    readonly status: string;
    readonly assertionResults: readonly { readonly fullName: string; readonly status: string; readonly failureMessages: readonly string[] }[];
  }[];
}

function readResults(): Results {
  try {
    return JSON.parse(readFileSync(results, "utf8")) as Results;
  } catch {
    return { numPassedTests: 0, numFailedTests: 0, testResults: [] };
  }
}

function finish(): never {
  console.log(`${counts.passed} passed, ${counts.failed} failed`);
  process.exit(counts.failed > 0 ? 1 : 0);
}
