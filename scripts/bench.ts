/**
 * Speed and size, each as a ratio within this run where that is possible. Prints; judges nothing.
 * The functions are those of the build, called as a host calls them.
 */
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import vm from "node:vm";
import { gzipSync } from "node:zlib";
// Declares what the functions put on globalThis.
import type {} from "../src/sheet/bundle-interface.ts";
import { defaultUnits } from "../src/sheet/unit-choice.ts";
import { benchAgainstR } from "./bench-against-r.ts";
import { benchSweep } from "./bench-sweep.ts";
import { benchBrowserSheet } from "./bench-browser-sheet.ts";
import { build } from "./build.ts";

build();
const registered = new Map<string, (...cells: unknown[]) => unknown>();
class ExcelError {
  constructor(readonly code: string, readonly message?: string) {}
}
Object.assign(globalThis, {
  CustomFunctions: {
    ErrorCode: { invalidValue: "#VALUE!", notAvailable: "#N/A" },
    Error: ExcelError,
    associate: (id: string, calculate: (...cells: unknown[]) => unknown) => registered.set(id, calculate),
  },
});
await import(pathToFileURL("dist/functions.js").href);
globalThis.pucksheet!.useUnits(defaultUnits);

const rows = 100_000;
const column = (value: (row: number) => unknown): unknown[][] => Array.from({ length: rows }, (_, row) => [value(row)]);
const dose = column((row) => 17.5 + (row % 10) / 10);
const beverage = column((row) => 34 + (row % 50) / 10);
const strength = column((row) => 8.5 + (row % 20) / 10);
const extraction = registered.get("EXTRACTION")!;

/** The same arithmetic with nothing around it, over the same arrays. */
function bareLoop(): unknown[][] {
  const results: unknown[][] = new Array(rows);
  for (let row = 0; row < rows; row++) results[row] = [((beverage[row]![0] as number) * (strength[row]![0] as number)) / (dose[row]![0] as number)];
  return results;
}

/** Least milliseconds of several runs, after a few to warm up: other work on the machine can only add. */
function timed(run: () => unknown, times = 25): number {
  for (let warm = 0; warm < 5; warm++) run();
  const all = Array.from({ length: times }, () => {
    const began = performance.now();
    run();
    return performance.now() - began;
  });
  return Math.min(...all);
}

function line(what: string, value: string, aim = ""): void {
  console.log(`${what.padEnd(74)} ${value.padStart(16)}  ${aim}`);
}

const bare = timed(bareLoop);
const whole = timed(() => extraction(dose, beverage, strength, null, {}));
line(`EXTRACTION of ${rows} rows in one call ÷ the bare loop`, `${(whole / bare).toFixed(2)} ×`, "aim: under 3 ×");
const cells = [[[18]], [[36]], [[9.5]]];
const single = timed(() => {
  for (let call = 0; call < rows; call++) extraction(...cells, null, {});
});
line(`${rows} one-cell calls ÷ one call of ${rows} rows`, `${(single / whole).toFixed(1)} ×`);
const tooStrong = column(() => 95);
const text = column((row) => `typed ${row}`);
line("Refused rows (out of range) ÷ accepted rows", `${(timed(() => extraction(dose, beverage, tooStrong, null, {})) / whole).toFixed(2)} ×`, "aim: at most 5 ×");
line("Refused rows (text) ÷ accepted rows", `${(timed(() => extraction(dose, beverage, text, null, {})) / whole).toFixed(2)} ×`, "aim: at most 5 ×");

const shots = 12 * 200;
const settings = Array.from({ length: shots }, (_, row) => [row % 12]);
const results = Array.from({ length: shots }, (_, row) => [20 + (row % 12) / 50 + Math.sin(row * row)]);
const pairs = timed(() => registered.get("COMPARE.PAIRS")!(settings, results, null, null, null, {}), 10);
line("COMPARE.PAIRS of 12 settings with 200 shots each", `${pairs.toFixed(1)} ms`, "aim: under 50 ms");
const distance = timed(() => registered.get("TASTE.DISTANCE")!([[18]], [[36]], [["triangle"]], {}), 10);
line("TASTE.DISTANCE of one test", `${distance.toFixed(2)} ms`, "aim: under 5 ms");

benchAgainstR(registered, timed, line);

const kilobytes = (bytes: number): string => `${(bytes / 1000).toFixed(1)} kB`;
for (const file of ["functions.js", "functions-words.js", "functions.json", "taskpane.js"]) {
  const content = readFileSync(`dist/${file}`);
  line(`dist/${file}, gzipped (as it is)`, `${kilobytes(gzipSync(content).length)} (${kilobytes(content.length)})`, file === "functions.js" ? "aim: under 75 kB" : file === "functions-words.js" ? "of SOURCE() and FUNCTIONS(), fetched when first asked for" : "");
}
const script = readFileSync("dist/google/Code.js", "utf8");
line("dist/google/Code.js, gzipped (as it is)", `${kilobytes(gzipSync(script).length)} (${kilobytes(script.length)})`, "aim: under 100 kB");
const scripts = ["Code.js", "Words.js", "Sheets.js"].map((name) => readFileSync(`dist/google/${name}`, "utf8"));
const runAll = (): void => {
  const context = vm.createContext(Object.create(null) as object);
  for (const one of scripts) vm.runInContext(one, context);
};
line("… with Words.js and Sheets.js, read and run in an empty context, as at every run of that sheet", `${timed(runAll, 10).toFixed(1)} ms`, "aim: under 60 ms");

await benchSweep(registered, line);
await benchBrowserSheet(line);
process.exit(0);
