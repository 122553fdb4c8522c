/**
 * What a file says, read by a library that the page does not use (@e965/xlsx), as a flat list of facts that can be compared one by one.
 * Tables are taken from the parts' own text, because that library leaves them out.
 */
import { Buffer } from "node:buffer";
import * as outside from "@e965/xlsx";

/** What stands at a place, by the place and the kind of fact, as in "Log!B4 value" or "table Shots area". */
export type Facts = ReadonlyMap<string, string>;

export interface OutsideCell {
  readonly address: string;
  /** As typed, or the last result of the formula; undefined where the file holds none. */
  readonly value: number | string | boolean | undefined;
  readonly isError: boolean;
  readonly formula: string | undefined;
  readonly format: string;
  /** As the format shows it. */
  readonly shown: string;
}

export interface OutsideSheet {
  readonly name: string;
  readonly visible: boolean;
  readonly cells: ReadonlyMap<string, OutsideCell>;
  readonly merges: readonly outside.Range[];
  /** The areas that array formulas and tables fill. */
  readonly areas: readonly outside.Range[];
}

export interface OutsideWorkbook {
  readonly sheets: readonly OutsideSheet[];
  readonly facts: Facts;
  /** The unpacked parts by name. */
  readonly parts: ReadonlyMap<string, Uint8Array>;
  /** A formula has another result each time, or the file says that its results are outdated. */
  readonly volatile: boolean;
  readonly countsFrom1904: boolean;
}

const volatile = /\b(NOW|TODAY|RAND|RANDBETWEEN|RANDARRAY|OFFSET|INDIRECT|CELL|INFO)\(/i;

function outdated(parts: ReadonlyMap<string, Uint8Array>): boolean {
  return [...parts].some(([name, content]) => /workbook[^/]*\.xml$/i.test(name) && /fullCalcOnLoad="(?:1|true)"/.test(new TextDecoder().decode(content)));
}

/** Throws where the library cannot read the file. */
export function readOutside(bytes: Uint8Array): OutsideWorkbook {
  const options = { type: "buffer", cellNF: true, cellStyles: true, sheetStubs: true, bookFiles: true, nodim: true, xlfn: true } as const;
  const book = outside.read(Buffer.from(bytes), options) as outside.WorkBook & { files: Record<string, { content?: Uint8Array }> };
  const parts = new Map(Object.entries(book.files).flatMap(([name, { content }]) => (content && !name.endsWith("/") ? [[name, content]] : [])));
  const facts = new Map<string, string>();
  const tables = tableAreas(parts, facts);
  // Charts, old macros and dialogs on sheets of their own are not shown, and a sheet may lack its part; what there is of them lies in the parts.
  const ofCells = (name: string) => book.Sheets[name] !== undefined && !["chart", "macro", "dialog"].includes(book.Sheets[name]["!type"] ?? "");
  const sheets = book.SheetNames.filter(ofCells).map((name) => {
    const index = book.SheetNames.indexOf(name);
    const sheet = book.Sheets[name]!;
    const hidden = book.Workbook?.Sheets?.[index]?.Hidden ?? 0;
    facts.set(`sheet ${name} state`, ["visible", "hidden", "very hidden"][hidden]!);
    const cells = cellsOf(sheet, textsOfPieces(parts, name));
    addSheetFacts(facts, name, sheet, cells);
    return { name, visible: hidden === 0, cells, merges: sheet["!merges"] ?? [], areas: [...arrayAreas(sheet), ...tables] };
  });
  facts.set("sheets", book.SheetNames.join(" | "));
  for (const { Name, Sheet, Ref } of book.Workbook?.Names ?? []) facts.set(`name ${Name}${Sheet === undefined ? "" : ` of ${book.SheetNames[Sheet] ?? Sheet}`}`, Ref);
  return {
    sheets,
    facts,
    parts,
    volatile: outdated(parts) || sheets.some(({ cells }) => [...cells.values()].some(({ formula }) => formula !== undefined && volatile.test(formula))),
    countsFrom1904: book.Workbook?.WBProps?.date1904 === true,
  };
}

/** Texts of several pieces by the parts' own text, as the library stops after the first piece where it does not expect more. */
function textsOfPieces(parts: ReadonlyMap<string, Uint8Array>, sheetName: string): Map<string, string> {
  const text = (part: string) => new TextDecoder().decode(parts.get(part));
  const tags = (xml: string, name: string) => [...xml.matchAll(new RegExp(`<(?:\\w+:)?${name}\\s[^>]*>`, "g"))].map(([tag]) => tag);
  const main = tags(text("_rels/.rels"), "Relationship").map((tag) => attribute(tag, "Target") ?? "").find((target) => /workbook[^/]*\.xml$/i.test(target)) ?? "";
  const folder = main.slice(main.startsWith("/") ? 1 : 0, main.lastIndexOf("/") + 1);
  const relations = tags(text(`${folder}_rels/${main.slice(main.lastIndexOf("/") + 1)}.rels`), "Relationship");
  const targetOf = (tag: string | undefined) => {
    const target = tag === undefined ? "" : (attribute(tag, "Target") ?? "");
    return target.startsWith("/") ? target.slice(1) : folder + target;
  };
  const sheet = tags(text(folder + main.slice(main.lastIndexOf("/") + 1)), "sheet").find((tag) => unescaped(attribute(tag, "name") ?? "") === sheetName) ?? "";
  const id = /:id=["']([^"']*)/.exec(sheet)?.[1];
  const strings = [...text(targetOf(relations.find((tag) => /sharedStrings$/.test(attribute(tag, "Type") ?? "")))).matchAll(/<(\w+:)?si>(.*?)<\/\1si>/gs)];
  const cells = text(targetOf(relations.find((tag) => attribute(tag, "Id") === id))).matchAll(/<(\w+:)?c\s([^>]*[^>/])>(.*?)<\/\1c>/gs);
  const texts = new Map<string, string>();
  for (const [, , attributes, inside] of cells) {
    const at = attribute(` ${attributes}`, "r");
    const type = attribute(` ${attributes}`, "t");
    const xml = type === "inlineStr" ? inside : type === "s" ? strings[Number(/v>(\d+)</.exec(inside!)?.[1])]?.[2] : undefined;
    if (at !== undefined && xml !== undefined) texts.set(at, joinedPieces(xml));
  }
  return texts;
}

function joinedPieces(xml: string): string {
  const pieces = [...xml.replace(/<(\w+:)?rPh[\s>].*?<\/\1rPh>/gs, "").matchAll(/<(?:\w+:)?t(?:\s[^>]*)?>([^<]*)</g)];
  // Where a formula has given a text, some programs put it in the place of a number.
  const texts = pieces.length > 0 ? pieces : [...xml.matchAll(/<(?:\w+:)?v(?:\s[^>]*)?>([^<]*)</g)];
  return unescaped(texts.map(([, piece]) => piece!).join(""));
}

function unescaped(xml: string): string {
  const named: Record<string, string> = { lt: "<", gt: ">", quot: '"', apos: "'", amp: "&" };
  return xml
    .replace(/&(?:#x([\da-f]+)|#(\d+)|(\w+));/gi, (whole, hex, decimal, name: string) => (hex ?? decimal ? String.fromCodePoint(hex ? parseInt(hex as string, 16) : Number(decimal)) : (named[name] ?? whole)))
    .replace(/_x([\da-f]{4})_/gi, (_, hex: string) => String.fromCharCode(parseInt(hex, 16)));
}

function cellsOf(sheet: outside.WorkSheet, pieces: ReadonlyMap<string, string>): Map<string, OutsideCell> {
  const cells = new Map<string, OutsideCell>();
  for (const [address, cell] of Object.entries(sheet) as [string, outside.CellObject][]) {
    if (address.startsWith("!")) continue;
    const isError = cell.t === "e";
    const value = cell.t === "z" || cell.v === undefined ? undefined : isError ? (cell.w ?? String(cell.v)) : wholeText(cell.v as string | number | boolean, pieces.get(address));
    // A formula without a result is given the number 0 by the library.
    cells.set(address, { address, value, isError, formula: cell.f, format: String(cell.z ?? "General"), shown: cell.w ?? String(cell.v ?? "") });
  }
  return cells;
}

function wholeText(value: string | number | boolean, pieces: string | undefined): string | number | boolean {
  return typeof value === "string" && pieces?.startsWith(value) ? pieces : value;
}

function addSheetFacts(facts: Map<string, string>, name: string, sheet: outside.WorkSheet, cells: ReadonlyMap<string, OutsideCell>): void {
  for (const { address, value, isError, formula, format } of cells.values()) {
    if (value !== undefined) facts.set(`${name}!${address} value`, isError ? value.toString() : JSON.stringify(value));
    if (formula !== undefined) facts.set(`${name}!${address} formula`, `${formula}${arrayMark(sheet[address] as outside.CellObject)}`);
    if (format !== "General") facts.set(`${name}!${address} format`, format);
  }
  for (const merge of sheet["!merges"] ?? []) facts.set(`${name} merge ${outside.utils.encode_range(merge)}`, "there");
  sheet["!cols"]?.forEach((column, index) => {
    if (column) facts.set(`${name} column ${outside.utils.encode_col(index)}`, `width ${column.width}${column.hidden ? ", hidden" : ""}`);
  });
  sheet["!rows"]?.forEach((row, index) => {
    if (row && (row.hpt !== undefined || row.hidden)) facts.set(`${name} row ${index + 1}`, `height ${row.hpt}${row.hidden ? ", hidden" : ""}`);
  });
}

/** Where the result of an array formula goes, and whether it finds its size by itself. */
function arrayMark(cell: outside.CellObject): string {
  return cell.F === undefined ? "" : ` fills ${cell.F}${cell.D ? " dynamically" : ""}`;
}

function arrayAreas(sheet: outside.WorkSheet): outside.Range[] {
  const areas = new Set<string>();
  for (const [address, cell] of Object.entries(sheet) as [string, outside.CellObject][]) if (!address.startsWith("!") && cell.F) areas.add(cell.F);
  return [...areas].map((area) => outside.utils.decode_range(area));
}

/** The tables of all sheets; which sheet one stands on is not needed to keep away from it. */
function tableAreas(parts: ReadonlyMap<string, Uint8Array>, facts: Map<string, string>): outside.Range[] {
  const areas: outside.Range[] = [];
  for (const [part, content] of parts) {
    if (!/\/tables\/[^/]+\.xml$/i.test(part)) continue;
    const xml = new TextDecoder().decode(content);
    const root = /<(?:\w+:)?table\s[^>]*>/.exec(xml)?.[0] ?? "";
    const name = attribute(root, "displayName") ?? attribute(root, "name") ?? part;
    const area = attribute(root, "ref") ?? "";
    facts.set(`table ${name} area`, area);
    facts.set(`table ${name} rows of headings and totals`, `${attribute(root, "headerRowCount") ?? 1}, ${attribute(root, "totalsRowCount") ?? 0}`);
    const columns = [...xml.matchAll(/<(?:\w+:)?tableColumn\s[^>]*>/g)].map(([column]) => attribute(column, "name") ?? "");
    facts.set(`table ${name} columns`, columns.join(" | "));
    if (area !== "") areas.push(outside.utils.decode_range(area));
  }
  return areas;
}

function attribute(tag: string, name: string): string | undefined {
  const match = new RegExp(`\\s${name}\\s*=\\s*(?:"([^"]*)"|'([^']*)')`).exec(tag);
  return match ? (match[1] ?? match[2]) : undefined;
}

/** A cell that is surely empty and that no formula over whole columns or rows looks at; undefined where the sheet is full. */
export function emptyCellOf({ cells, merges, areas }: OutsideSheet): string | undefined {
  const held = [...cells.keys()].map((address) => outside.utils.decode_cell(address));
  const last = (of: "r" | "c") => Math.max(-1, ...range(held.map((place) => place[of])), ...range([...merges, ...areas].map(({ e }) => e[of])));
  const place = { r: last("r") + 2, c: last("c") + 2 };
  if (place.r < mostRows && place.c < mostColumns) return outside.utils.encode_cell(place);
  const isFree = ({ r, c }: outside.CellAddress) =>
    !cells.has(outside.utils.encode_cell({ r, c })) && ![...merges, ...areas].some(({ s, e }) => r >= s.r && r <= e.r && c >= s.c && c <= e.c);
  for (let r = 0; r < 500; r++) for (let c = 0; c < 50; c++) if (isFree({ r, c })) return outside.utils.encode_cell({ r, c });
  return undefined;
}

const mostRows = 1_048_576;
const mostColumns = 16_384;

/** The largest as a list of one: long lists cannot be arguments. */
function range(values: readonly number[]): number[] {
  return values.length === 0 ? [] : [values.reduce((a, b) => Math.max(a, b))];
}
