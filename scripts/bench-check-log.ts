/**
 * Speed and memory of check-log on simulated logs, one in a hundred rows mistaken: a shorter one and one of five million rows (or as many as given),
 * so that memory can be seen not to grow with the log. Prints; judges nothing.
 */
import { spawnSync } from "node:child_process";
import { createWriteStream, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { once } from "node:events";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Papa from "papaparse";
import { read } from "@e965/xlsx";
import { CsvLog } from "../src/log-file/csv-log.ts";
import { LogSums, type LogState } from "../src/log-file/log-sums.ts";
import { wanted, writeChain } from "../tests/simulated-chain.ts";
import { chance, mistakes, plausibleShots } from "../tests/simulated-log.ts";

const longest = Number(process.argv[2] ?? 5_000_000);
const folder = mkdtempSync(join(tmpdir(), "pucksheet-bench-"));
try {
  for (const rows of [longest / 10, longest]) {
    const file = join(folder, `${rows}.csv`);
    const planted = await writeLog(file, rows);
    const { stdout, stderr } = spawnSync(process.execPath, ["scripts/check-log.mjs", file], { encoding: "utf8" });
    const lines = stdout.split("\n").filter((line) => / rows in the file| rows a second/.test(line));
    console.log(`${rows} rows, ${planted} of them mistaken:\n  ${lines.join("\n  ") || stderr}`);
  }
  await benchAgainstPapaparse(join(folder, `${longest / 10}.csv`));
  benchMerged(join(folder, `${longest / 10}.csv`));
  await benchCores(folder, longest / 5);
  await benchChain(folder, Math.max(12, longest / 25_000));
} finally {
  rmSync(folder, { recursive: true });
}

/**
 * The whole audit against splitting the same text into cells and nothing else, each in one process and from memory, by turns; the least of each counts.
 * Papaparse alone is `Papa.parse(text, { step })`, which hands on row by row as constant memory needs it; it is quicker where a piece of 256 kB
 * is split at once and its rows are dropped, which is printed beside it.
 */
async function benchAgainstPapaparse(file: string): Promise<void> {
  const bytes = readFileSync(file);
  const text = bytes.toString("utf8");
  const piece = 1 << 18;
  let [ours, byRow, byPiece, rows] = [Infinity, Infinity, Infinity, 0];
  for (let turn = 0; turn < 6; turn++) {
    ours = Math.min(ours, cpuSeconds(() => {
      const log = new CsvLog();
      for (let at = 0; at < bytes.length; at += piece) log.push(bytes.subarray(at, at + piece));
      log.end();
      rows = log.audit.sums.counts.rows;
    }));
    byRow = Math.min(byRow, cpuSeconds(() => Papa.parse(text, { step: () => undefined })));
    byPiece = Math.min(byPiece, cpuSeconds(() => {
      for (let at = 0; at < text.length; at += piece) Papa.parse(text.slice(at, at + piece), { delimiter: ",", newline: "\n" });
    }));
  }
  const thousands = (seconds: number): string => `${Math.round(rows / seconds / 1000)} thousand rows a CPU second`;
  console.log(`${rows} rows, 1 in 100 mistaken: check-log ${thousands(ours)}`);
  console.log(`  ÷ papaparse alone, row by row (${thousands(byRow)}): ${(byRow / ours).toFixed(2)} × (aim: above 2)`);
  console.log(`  ÷ papaparse alone, pieces of 256 kB at once (${thousands(byPiece)}): ${(byPiece / ours).toFixed(2)} ×`);
}

function cpuSeconds(run: () => unknown): number {
  const before = process.cpuUsage();
  run();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1e6;
}

/** The sums of a log cut into ten, each as if read on a machine of its own, against those of the log in one run. */
function benchMerged(file: string): void {
  const [heading, ...lines] = readFileSync(file, "utf8").trimEnd().split("\n");
  const sumsOf = (some: readonly string[]): LogSums => {
    const log = new CsvLog();
    log.push(Buffer.from(`${heading}\n${some.join("\n")}\n`));
    log.end();
    return log.audit.sums;
  };
  const whole = sumsOf(lines);
  const part = Math.ceil(lines.length / 10);
  const [merged, ...others] = Array.from({ length: 10 }, (_, index) => sumsOf(lines.slice(index * part, (index + 1) * part)));
  for (const other of others) merged!.merge(LogSums.of(JSON.parse(JSON.stringify(other.state)) as LogState));
  let furthest = 0;
  const shotsOf = (sums: LogSums): unknown => sums.summary().map(({ settings }) => settings.map(({ anySetting, shots }) => [anySetting, shots]));
  const counts = (sums: LogSums): string => JSON.stringify([sums.counts, shotsOf(sums)]);
  whole.summary().forEach(({ settings }, kind) => settings.forEach((setting, index) => {
    const other = merged!.summary()[kind]!.settings[index]! as Readonly<Record<string, unknown>>;
    for (const [name, value] of Object.entries(setting)) {
      if (/^(?:mean|sd)/.test(name) && typeof value === "number" && value !== 0) furthest = Math.max(furthest, Math.abs((other[name] as number) / value - 1));
    }
  }));
  const same = counts(whole) === counts(merged!) ? "equal" : "NOT EQUAL";
  console.log(`${lines.length} rows in ten parts merged against one run: largest relative difference ${furthest.toExponential(1)} (aim: below 1e-12), counts ${same}`);
}

/** The simulated chain: whether the report names what was planted and nothing else. */
async function benchChain(folder: string, cafes: number): Promise<void> {
  const logs = join(folder, "cafes");
  const rows = 20_000;
  const slow = { 4: 4, 9: -4 };
  const planted = await writeChain(logs, { cafes, rows, mistakenEvery: 50, slow, workbook: (cafe) => cafe % 20 === 0 });
  const began = performance.now();
  const command = ["scripts/check-log.mjs", logs, "--window", `time=${wanted.low}..${wanted.high}`];
  const { stdout, stderr } = spawnSync(process.execPath, command, { encoding: "utf8", maxBuffer: 1 << 28 });
  const seconds = (performance.now() - began) / 1000;
  const key = (file: string, line: number | string): string => `${file} ${line}`;
  const found = Papa.parse<string[]>(readFileSync(join(logs, "findings.csv"), "utf8").trimEnd()).data.slice(1).map(([file, , line]) => key(file!, line!));
  const wantedRows = new Set(planted.map(({ file, line }) => key(file, line)));
  const missed = wantedRows.size - new Set(found.filter((it) => wantedRows.has(it))).size;
  const sentences = JSON.stringify(read(readFileSync(join(logs, "report.xlsx"))).Sheets.Report);
  console.log(`${cafes} cafés of ${rows} rows, 1 in 20 a workbook: ${seconds.toFixed(0)} s, ${Math.round((cafes * rows) / seconds)} rows a second`);
  console.log(`  ${planted.length} rows mistaken: ${missed} missed, ${found.length - (planted.length - missed)} others named`);
  console.log(`  cafe 4 is 4 s slow, cafe 9 4 s fast: ${/Off target: [^"]*?average\./.exec(sentences)?.[0] ?? "NOT SAID"}`);
  console.log(`  ${stdout.split("\n").find((line) => line.includes("MB of memory")) ?? stderr}`);
}

/** Ten logs, on one core and on two. */
async function benchCores(folder: string, rows: number): Promise<void> {
  const chain = join(folder, "chain");
  mkdirSync(chain);
  for (let log = 0; log < 10; log++) await writeLog(join(chain, `${log}.csv`), rows);
  const [one, two] = [1, 2].map((workers) => {
    const began = performance.now();
    const command = ["scripts/check-log.mjs", chain, "--workers", String(workers), "--replace"];
    spawnSync(process.execPath, command, { encoding: "utf8" });
    return performance.now() - began;
  }) as [number, number];
  console.log(`10 logs of ${rows} rows on 2 cores ÷ on 1: ${(one / two).toFixed(2)} × as fast (aim: 1.8)`);
}

async function writeLog(file: string, rows: number): Promise<number> {
  const out = createWriteStream(file);
  out.write("date,setting,dose,beverage,time,strength,note\n");
  const kinds = Object.values(mistakes);
  const luck = chance(1);
  let planted = 0;
  for (let written = 0; written < rows; written += 100_000) {
    const shots = plausibleShots(Math.min(100_000, rows - written), 2 + written);
    const lines = shots.map((shot, row) => {
      const mistaken = row % 100 === 99;
      if (mistaken) planted++;
      const { dose, beverage, time, strength } = mistaken ? kinds[planted % kinds.length]!(shot, shots[row - 1]!, luck) : shot;
      return `2025-03-${String(1 + (row % 28)).padStart(2, "0")},${5 + (row % 8) / 2},${dose},${beverage},${time},${strength},\n`;
    });
    if (!out.write(lines.join(""))) await once(out, "drain");
  }
  out.end();
  await once(out, "close");
  return planted;
}
