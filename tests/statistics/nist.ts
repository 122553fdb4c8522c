/** Reads the data block of a NIST StRD file: the rows of numbers after the last line that begins with "Data:". */
import { readFileSync } from "node:fs";

export function nistRows(file: string): number[][] {
  const lines = readFileSync(new URL(`../reference/numerics/${file}`, import.meta.url), "utf8").split(/\r?\n/);
  const start = lines.reduce((last, line, index) => (line.startsWith("Data:") ? index : last), 0);
  return lines
    .slice(start + 1)
    .filter((line) => /^[\d\s.+-]+$/.test(line) && /\d/.test(line))
    .map((line) => line.trim().split(/\s+/).map(Number));
}

export function column(rows: readonly (readonly number[])[], index: number): number[] {
  return rows.map((row) => row[index] as number);
}
