/** The workbooks by other programs and people in tests/foreign, and an outside view of any workbook. */
import { readdirSync, readFileSync } from "node:fs";
import { read, type CellObject, type WorkBook, type WorkSheet } from "@e965/xlsx";
import { inMemory, Zip } from "../../src/xlsx/zip.ts";

const folder = "tests/foreign";

/** Refused by Excel's own rules: locked with a password. */
export const lockedFile = "poi-60320-protected.xlsx";

export const foreignWorkbooks = readdirSync(folder).filter((name) => /\.xls[xm]$/.test(name) && name !== lockedFile);

export function foreignBytes(name: string): Uint8Array {
  return new Uint8Array(readFileSync(`${folder}/${name}`));
}

/** What a reader that is not under test finds in a workbook. */
export function outsideView(bytes: Uint8Array): WorkBook {
  return read(bytes, { cellFormula: true, cellNF: true, cellStyles: true, sheetStubs: true });
}

export type OutsideCells = Record<string, { v: unknown; f: string | undefined; z: unknown }>;

/** Cells with contents by their addresses. */
export function outsideCells(sheet: WorkSheet): OutsideCells {
  const cells: OutsideCells = {};
  for (const [address, cell] of Object.entries(sheet) as [string, CellObject][]) {
    if (address.startsWith("!") || (cell.v === undefined && cell.f === undefined)) continue;
    cells[address] = { v: cell.t === "e" ? cell.w : cell.v, f: cell.f, z: cell.z };
  }
  return cells;
}

/** Names of parts that differ in a byte, or are in one file only. */
export function differingParts(a: Uint8Array, b: Uint8Array): string[] {
  const [from, to] = [new Zip(inMemory(a)), new Zip(inMemory(b))];
  return [...new Set([...from.names, ...to.names])].filter((name) => {
    const [x, y] = [from.read(name), to.read(name)];
    return !x || !y || Buffer.compare(x, y) !== 0;
  });
}
