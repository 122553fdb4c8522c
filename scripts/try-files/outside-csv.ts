/** The cells of a .csv as an outside library splits them, and whether a cell of the page holds the same. */
import * as outside from "@e965/xlsx";

/** Texts by address. */
export type CsvCells = ReadonlyMap<string, string>;

export function readOutsideCsv(bytes: Uint8Array): CsvCells {
  const book = outside.read(decoded(bytes), { type: "string", raw: true });
  const sheet = book.Sheets[book.SheetNames[0]!]!;
  const cells = new Map<string, string>();
  for (const [address, cell] of Object.entries(sheet) as [string, outside.CellObject][]) {
    if (!address.startsWith("!") && cell.v !== undefined && String(cell.v).trim() !== "") cells.set(address, String(cell.v));
  }
  return cells;
}

function decoded(bytes: Uint8Array): string {
  const wide = bytes[0] === 0xff && bytes[1] === 0xfe ? "utf-16le" : bytes[0] === 0xfe && bytes[1] === 0xff ? "utf-16be" : undefined;
  if (wide) return new TextDecoder(wide).decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

const dayOf1970 = 25_569;

/** Whether a text of a .csv and a value say the same: as text, as a number with either decimal sign, or as a date. Commas that may part thousands are none. */
export function saysTheSame(text: string, value: string | number | boolean): boolean {
  if (typeof value !== "number") return String(value).replace(/\r\n?/g, "\n").trim() === text.replace(/\r\n?/g, "\n").trim();
  if (Number(text) === value || (!/^-?\d{1,3}(,\d{3})+$/.test(text) && Number(text.replace(",", ".")) === value)) return true;
  const [, day, time = "00:00:00"] = /^(\d{4}-\d\d-\d\d)?[ T]?(\d\d:\d\d:\d\d)?$/.exec(text.trim()) ?? [];
  const serial = Date.parse(`${day ?? "1970-01-01"}T${time}Z`) / 86_400_000 + (day === undefined ? 0 : dayOf1970);
  return Math.abs(serial - value) < 1 / 86_400;
}
