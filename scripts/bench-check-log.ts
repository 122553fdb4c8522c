/**
 * Speed and memory of check-log on simulated logs, one in a hundred rows mistaken: a shorter one and one of five million rows (or as many as given),
 * so that memory can be seen not to grow with the log. Prints; judges nothing.
 */
import { spawnSync } from "node:child_process";
import { createWriteStream, mkdtempSync, rmSync } from "node:fs";
import { once } from "node:events";
import { tmpdir } from "node:os";
import { join } from "node:path";
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
} finally {
  rmSync(folder, { recursive: true });
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
