/** One file through the page: opened, compared with what an outside library reads, saved as it is, edited, saved again, compared again. */
import { readFileSync } from "node:fs";
import { basename, extname } from "node:path";
import Papa from "papaparse";
import * as outside from "@e965/xlsx";
import { differencesOfCopy, differencesOfFacts } from "./differences.ts";
import { emptyCellOf, readOutside, type OutsideCell, type OutsideWorkbook } from "./outside-reader.ts";
import { readOutsideCsv, saysTheSame, type CsvCells } from "./outside-csv.ts";
import type { Notice, PageDriver } from "./page-driver.ts";

export interface Trial {
  readonly file: string;
  readonly outcome: "opened" | "refused" | "failed";
  /** What the page said when it refused the file. */
  readonly words: string;
  /** Page errors, hangs, and every difference that the page had not announced. */
  readonly problems: readonly string[];
  readonly copies: { readonly name: string; readonly asIs?: Uint8Array; readonly edited?: Uint8Array };
  readonly seconds: number;
}

const saveButton = "Save copy (.xlsx)";
const typedText = "typed here";

export async function tryFile(driver: PageDriver, path: string): Promise<Trial> {
  const file = basename(path);
  const began = performance.now();
  const isText = /\.(csv|tsv|txt)$/i.test(file);
  const copies: { name: string; asIs?: Uint8Array; edited?: Uint8Array } = { name: isText ? `${basename(file, extname(file))}.xlsx` : file };
  const problems: string[] = [];
  const trial = (outcome: Trial["outcome"], words = ""): Trial => {
    problems.push(...driver.takeFaults().map((fault) => `page error: ${fault}`));
    return { file, outcome, words, problems, copies, seconds: (performance.now() - began) / 1000 };
  };
  try {
    const { opened, notice } = await driver.open(path, file);
    if (!opened) return trial("refused", notice.text);
    const bytes = readFileSync(path);
    const texts = isText ? readOutsideCsv(bytes) : undefined;
    const announced = texts ? announcedLine(notice) : undefined;
    if (announced === undefined) problems.push(...warnings("opening", notice));
    const asIs = await driver.save(saveButton);
    copies.asIs = asIs.bytes;
    problems.push(...warnings("saving as it is", asIs.notice));
    const copy = readOutside(asIs.bytes);
    const original = texts ? copy : readOutside(bytes);
    problems.push(...(texts ? differencesOfTexts(texts, copy, announced) : differencesOfCopy(original, copy, new Map())).map((it) => `as-is: ${it}`));
    problems.push(...(await differencesShown(driver, original)));
    const typed = await typeIntoEverySheet(driver, copy);
    const edited = await driver.save(saveButton);
    copies.edited = edited.bytes;
    const unsigned = /^The digital signature .* the copy does not have it\.$/m.test(edited.notice.text);
    if (!unsigned) problems.push(...warnings("saving after typing", edited.notice));
    // A workbook that did not come from one is written whole each time, so only what it says can be compared.
    const after = readOutside(edited.bytes);
    problems.push(...(texts ? differencesOfFacts(original, after, typed) : differencesOfCopy(original, after, typed, unsigned)).map((it) => `edited: ${it}`));
    return trial("opened");
  } catch (error) {
    problems.push(error instanceof Error ? error.message.split("\n")[0]! : String(error));
    const failed = trial("failed");
    await driver.restart();
    return failed;
  }
}

function warnings(when: string, { text, isWarning }: Notice): string[] {
  return isWarning ? [`warning on ${when}: ${text}`] : [];
}

/** The first line of a .csv that the page says it could not read surely; none where it says so of the letters only. */
function announcedLine({ text }: Notice): number | undefined {
  const line = /\bline (\d+)/i.exec(text)?.[1];
  if (line !== undefined) return Number(line);
  return /^The file is not UTF-8/.test(text) ? Infinity : undefined;
}

/** From an announced line on, programs go different ways: a quotation mark that is never closed may hold the whole rest of the file. */
function differencesOfTexts(original: CsvCells, copy: OutsideWorkbook, announced = Infinity): string[] {
  const { cells } = copy.sheets[0]!;
  return [...new Set([...original.keys(), ...cells.keys()])].flatMap((address) => {
    const [was, is] = [original.get(address), cells.get(address)?.value];
    const same = is === undefined ? was === undefined : was !== undefined && saysTheSame(was, is);
    return same || outside.utils.decode_cell(address).r + 1 >= announced ? [] : [`${address}: ${JSON.stringify(was) ?? "nothing"} → ${JSON.stringify(is) ?? "nothing"}`];
  });
}

/** Every value of every sheet that a person can see, as the page saves it to .csv, and a sample of cells as the page tells them. */
async function differencesShown(driver: PageDriver, original: OutsideWorkbook): Promise<string[]> {
  const differences: string[] = [];
  for (const { name, cells } of original.sheets.filter(({ visible }) => visible)) {
    await driver.goToSheet(name);
    const csv = await driver.save("Save as .csv");
    const shown = cellsOfCsv(csv.bytes);
    for (const address of new Set([...cells.keys(), ...shown.keys()])) {
      const words = differenceShown(cells.get(address), shown.get(address) ?? "", original);
      if (words) differences.push(`shown: ${name}!${address} ${words}`);
    }
    for (const cell of sampleOf([...cells.values()])) {
      const told = await driver.select(cell.address);
      if (!tells(told, cell, original)) differences.push(`shown: ${name}!${cell.address} is told as “${told}”, not as ${JSON.stringify(cell.formula ?? cell.shown)}`);
    }
  }
  return differences;
}

function cellsOfCsv(bytes: Uint8Array): Map<string, string> {
  const rows = Papa.parse<string[]>(new TextDecoder().decode(bytes), { delimiter: ",", newline: "\r\n" }).data;
  return new Map(rows.flatMap((row, r) => row.flatMap((text, c) => (text === "" ? [] : [[outside.utils.encode_cell({ r, c }), text]]))));
}

function differenceShown(cell: OutsideCell | undefined, shown: string, { volatile, countsFrom1904 }: OutsideWorkbook): string | undefined {
  if (cell?.formula !== undefined && (volatile || cell.value === undefined)) return undefined;
  const value = cell?.value ?? "";
  // A text that begins like a formula is guarded in a .csv.
  if (typeof value === "string" && (shown === value || shown === `'${value}` || shown.replace(/\r\n?/g, "\n") === value.replace(/\r\n?/g, "\n"))) return undefined;
  if (typeof value === "boolean" && shown === String(value).toUpperCase()) return undefined;
  if (typeof value === "number" && (isClose(Number(shown), value) || saysTheSame(shown, value) || (countsFrom1904 && saysTheSame(shown, value + 1462)))) return undefined;
  return `${JSON.stringify(value)} is shown as ${JSON.stringify(shown)}${cell?.formula === undefined ? "" : ` by =${cell.formula}`}`;
}

/** Two programs add up in different orders. */
function isClose(a: number, b: number): boolean {
  return Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b)) || Math.abs(a - b) < 1e-12;
}

/** A number of each format, and some formulas. */
function sampleOf(cells: readonly OutsideCell[]): OutsideCell[] {
  const byFormat = new Map(cells.filter(({ value, format }) => typeof value === "number" && format !== "General").map((cell) => [cell.format, cell]));
  return [...[...byFormat.values()].slice(0, 6), ...cells.filter(({ formula }) => formula !== undefined).slice(0, 3)];
}

/** Whole columns and rows in a formula that cells share are not moved along by the outside library; it is no judge of those. */
const wholeLines = /(?:^|[^\w$])\$?(?:[A-Z]{1,3}:\$?[A-Z]{1,3}|\d+:\$?\d+)(?!\w)/i;

function tells(line: string, { value, formula, shown, format }: OutsideCell, { volatile }: OutsideWorkbook): boolean {
  const plain = (text: string) => text.replace(/_xl\w+\.|\s/g, "").toUpperCase();
  if (formula !== undefined) return plain(line).includes(plain(formula)) || /\[#This Row\]|@/.test(formula) || wholeLines.test(formula);
  // The built-in short date reads otherwise in every country; the outside library takes codes of dates in capitals for none.
  if (volatile || typeof value !== "number" || format === "m/d/yy" || (/[DY]/.test(format) && shown === String(value))) return true;
  return plain(line).includes(plain(shown)) || line.includes(String(Number(value.toPrecision(12))));
}

async function typeIntoEverySheet(driver: PageDriver, { sheets }: OutsideWorkbook): Promise<Map<string, string>> {
  const typed = new Map<string, string>();
  for (const sheet of sheets.filter(({ visible }) => visible)) {
    const address = emptyCellOf(sheet);
    if (address === undefined) continue;
    await driver.goToSheet(sheet.name);
    await driver.select(address);
    await driver.type(typedText);
    typed.set(`${sheet.name}!${address}`, typedText);
  }
  return typed;
}
