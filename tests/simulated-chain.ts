/**
 * The logs of a simulated chain, seeded: every café pulls one recipe on its own grinder, two of them off target, and people slip as they type.
 * Invented, no source.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Workbook } from "@cj-tech-master/excelts";
import { chance, mistakes, rounded, type PlainShot } from "./simulated-log.ts";

export interface Chain {
  readonly cafes: number;
  readonly rows: number;
  /** Of so many rows one is mistaken. */
  readonly mistakenEvery: number;
  /** Seconds by which a café's shots run slow, by its number from 1. */
  readonly slow: Readonly<Record<number, number>>;
  /** Whether the log of a café is a workbook. */
  workbook(cafe: number): boolean;
}

export interface Planted {
  readonly file: string;
  readonly line: number;
}

/** What every café is told to aim for, s. */
export const wanted = { low: 25, high: 31 };

/** Writes the logs into a folder, and says which rows are mistaken. */
export async function writeChain(folder: string, chain: Chain): Promise<Planted[]> {
  mkdirSync(folder, { recursive: true });
  const planted: Planted[] = [];
  for (let cafe = 1; cafe <= chain.cafes; cafe++) {
    const name = `cafe-${String(cafe).padStart(String(chain.cafes).length, "0")}`;
    const file = chain.workbook(cafe) ? `${name}.xlsx` : `${name}.csv`;
    const { rows, mistaken } = cafeLog(chain, cafe);
    planted.push(...mistaken.map((row) => ({ file, line: row + 2 })));
    if (chain.workbook(cafe)) await writeWorkbook(join(folder, file), rows);
    else writeFileSync(join(folder, file), csvOf(rows));
  }
  return planted;
}

export function csvOf(rows: readonly (readonly (string | number)[])[]): string {
  return `${[headings, ...rows].map((row) => row.join(",")).join("\n")}\n`;
}

const headings = ["Date", "Grind", "Dose (g)", "Beverage (g)", "Shot time (s)", "TDS (%)", "Note"];
const kinds = Object.values(mistakes);

/** The rows of a café, and which of them, from 0, are mistaken. */
export function cafeLog(chain: Omit<Chain, "cafes" | "workbook">, cafe: number): { rows: (string | number)[][]; mistaken: number[] } {
  const luck = chance(cafe);
  const dose = 18 + luck.between(-0.3, 0.3);
  const time = (wanted.low + wanted.high) / 2 + (chain.slow[cafe] ?? luck.between(-0.3, 0.3));
  const rows: (string | number)[][] = [];
  const mistaken: number[] = [];
  let above: PlainShot | undefined;
  for (let row = 0; row < chain.rows; row++) {
    let shot = shotAround(luck, dose, time, above);
    // The first row has none above it to be typed again.
    if (above && row % chain.mistakenEvery === chain.mistakenEvery - 1) {
      const kind = kinds[mistaken.length % kinds.length]!;
      // Two shots of 18 g, 36 g, 28 s and 10 % in turn are no rarity: typed twice can be told only of numbers with decimals.
      shot = (kind === mistakes["the row above again"] && !isFine(above) ? kinds[0]! : kind)(shot, above, luck);
      mistaken.push(row);
    }
    above = shot;
    const day = `2025-${String(1 + (Math.floor(row / 60) % 12)).padStart(2, "0")}-${String(1 + (row % 28)).padStart(2, "0")}`;
    rows.push([day, 5 + (row % 4) / 2, shot.dose, shot.beverage, shot.time, shot.strength, ""]);
  }
  return { rows, mistaken };
}

function isFine({ dose, beverage, time, strength }: PlainShot): boolean {
  return [dose, beverage, time, strength].reduce((decimals, number) => decimals + (String(number).split(".")[1]?.length ?? 0), 0) >= 2;
}

/** Never the same four numbers as the shot before, which would look entered twice. */
function shotAround(luck: ReturnType<typeof chance>, dose: number, time: number, above: PlainShot | undefined): PlainShot {
  const weighed = luck.around(dose, 0.12);
  const beverage = luck.around(2 * dose, 1);
  const shot = {
    dose: rounded(weighed, 1),
    beverage: rounded(beverage, 1),
    time: rounded(luck.around(time, 0.85), 1),
    strength: rounded((luck.around(19.5, 0.7) * weighed) / beverage, 2),
  };
  return above && shot.dose === above.dose && shot.beverage === above.beverage && shot.time === above.time && shot.strength === above.strength
    ? shotAround(luck, dose, time, above)
    : shot;
}

async function writeWorkbook(path: string, rows: readonly (string | number)[][]): Promise<void> {
  const workbook = new Workbook();
  workbook.addWorksheet("Prices").addRow(["Item", "Price"]);
  const sheet = workbook.addWorksheet("Shots");
  sheet.addRow(headings);
  for (const row of rows) sheet.addRow(row);
  writeFileSync(path, new Uint8Array(await workbook.xlsx.writeBuffer()));
}
