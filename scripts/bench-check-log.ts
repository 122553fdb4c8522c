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
import { CsvLog } from "../src/log-file/csv-log.ts";
import { chance, mistakes, plausibleShots } from "../tests/simulated-log.ts";

const longest = Number(process.argv[2] ?? 5_000_000);
const folder = mkdtempSync(join(tmpdir(), "pucksheet-bench-"));
try {
  for (const rows of [longest / 10, longest]) {
    const file = join(folder, `${rows}.csv`);
    const planted = await writeLog(file, rows);
    const { stdout, stderr } = spawnSync(process.execPath, ["--import", "tsx", "src/hosts/command-line/check-log.ts", file], { encoding: "utf8" });
    const lines = stdout.split("\n").filter((line) => / rows in the file| rows a second/.test(line));
    console.log(`${rows} rows, ${planted} of them mistaken:\n  ${lines.join("\n  ") || stderr}`);
  }
  await benchAgainstPapaparse(join(folder, `${longest / 10}.csv`));
  await benchCores(folder, longest / 50);
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

/** Ten logs, on one core and on two. */
async function benchCores(folder: string, rows: number): Promise<void> {
  const chain = join(folder, "chain");
  mkdirSync(chain);
  for (let log = 0; log < 10; log++) await writeLog(join(chain, `${log}.csv`), rows);
  const [one, two] = [1, 2].map((workers) => {
    const began = performance.now();
    const command = ["--import", "tsx", "src/hosts/command-line/check-log.ts", chain, "--workers", String(workers), "--replace"];
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
