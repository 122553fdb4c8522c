/** Opens an .xlsx or .xlsm file: its bytes become the workbook that this page holds. Runs in a worker, the page and Node alike. */
import type { Part } from "../sheet/formula-text";
import { address, areaOf, referenceTo } from "../sheet/references";
import { themeColors } from "./colors";
import { readUnits } from "./custom-properties";
import { FileProblem } from "./file-problem";
import { formulaFromFile, type FunctionNames } from "./formula-in-file";
import { inWords, longestText, mostCellsInAll, mostTextInAll } from "./limits";
import { Package } from "./package";
import { readSheet, type ReadSheet, type SheetContext } from "./read-sheet";
import { countsDays } from "./date-format";
import { readStyles } from "./read-styles";
import { SharedTexts } from "./shared-texts";
import { readTable, type ReadTable } from "./read-table";
import { formulaParts } from "./formula-parts";
import { spillingMarks } from "./spill-mark";
import { reasonInParts, reasonToKeep, type Surroundings } from "./uncalculated";
import { unshownIn, type Unshown } from "./unshown";
import { readWorkbookPart, worksheetPart, type WorkbookPart } from "./workbook-part";
import { isErrorValue, type Area, type Cell, type DefinedName, type Sheet, type Workbook } from "./workbook";
import { walk } from "./xml";

export interface OpenOptions {
  /** For the sentences. */
  readonly fileName: string;
  readonly ours: FunctionNames;
  /**
   * Whether the page calculates a function, by its full name in capitals. A formula with any other keeps the value of the file. Our own need
   * not be known to it. By default every function is taken to be known.
   */
  knowsFunction?(name: string): boolean;
  /** More cells than this are refused. By default only Excel's own limits hold. */
  readonly mostCells?: number;
  /** Called with the share that has been read, 0 to 1, between sheets. To cancel, end the worker. */
  onProgress?(share: number): void;
}

/** Nothing but data, so that a worker can hand it to the page. To save, hand the opened bytes to saveCopy again. */
export interface OpenedWorkbook {
  /** Cells with `kept` are to be shown with their value, not calculated. Areas are clipped to what is used. */
  readonly workbook: Workbook;
  /** The file asks for all its formulas to be calculated anew: the results in it are not to be relied on. */
  readonly isOutdated: boolean;
  /** The sheet that was in sight last. */
  readonly inSight: string | undefined;
  /** What the file holds that this page does not show and that a copy keeps, as in "charts", "macros". */
  readonly unshown: readonly Unshown[];
  /** What a person should know, as full sentences: which formulas keep their values and why. */
  readonly notes: readonly string[];
}

/** Throws a FileProblem, a full sentence, where the file cannot be opened. */
export function openWorkbook(bytes: Uint8Array, options: OpenOptions): OpenedWorkbook {
  const file = new Package(bytes, options.fileName);
  const { workbook, notes } = readWorkbook(file, options);
  const { isOutdated, inSight, sheets } = readWorkbookPart(file);
  return { workbook, isOutdated, inSight: sheets[inSight]?.name, unshown: unshownIn(file), notes };
}

/** The workbook of a package that is open already. */
export function readWorkbook(file: Package, options: OpenOptions): { workbook: Workbook; notes: string[] } {
  const part = readWorkbookPart(file);
  const context = contextOf(file, part, options);
  const worksheets = part.sheets.flatMap((entry) => {
    const name = worksheetPart(file, entry);
    return name === undefined ? [] : [{ entry, part: name }];
  });
  if (worksheets.length === 0) throw new FileProblem(`${options.fileName} holds no worksheet.`);
  const read = worksheets.map(({ entry, part: name }, index) => {
    options.onProgress?.(index / worksheets.length);
    const found = file.reading(name, (xml) => readSheet(xml, entry.name, context))!;
    if (entry.state !== "visible") found.sheet.hidden = true;
    const tables = tablesOf(file, name);
    found.sheet.tables = tables.map(({ table }) => table);
    // The page has one filter on a sheet; rows that further ones leave out are hidden rows.
    found.sheet.filter ??= tables.find(({ filter }) => filter && filter.columns.length > 0)?.filter;
    if (!found.sheet.filter) delete found.sheet.filter;
    return found;
  });
  options.onProgress?.(1);
  const names = namesOf(part, options.ours);
  markKept(read, names, part, options);
  const units = readUnits(file);
  const workbook: Workbook = { sheets: read.map(({ sheet }) => sheet), names, ...(units !== undefined && { units }) };
  return { workbook, notes: read.flatMap(notesOn) };
}

function contextOf(file: Package, { from1904 }: WorkbookPart, options: OpenOptions): SheetContext {
  const { fileName, ours, mostCells = mostCellsInAll } = options;
  const partOf = (type: string) => file.relationOf(file.main, type)?.target ?? "";
  const theme = file.reading(partOf("theme"), themeColors) ?? themeColors(undefined);
  let cells = 0;
  let characters = 0;
  return {
    fileName,
    ours,
    from1904,
    strings: file.reading(partOf("sharedStrings"), sharedStrings) ?? [],
    styles: file.reading(partOf("styles"), (xml) => readStyles(xml, theme)) ?? readStyles(undefined, theme),
    spilling: file.reading(partOf("sheetMetadata"), spillingMarks) ?? new Set(),
    count(moreCells, moreCharacters) {
      cells += moreCells;
      characters += moreCharacters;
      if (cells > mostCells) throw new FileProblem(`${fileName} holds more than ${inWords(mostCells)} cells, which is more than this page can work with.`);
      if (characters > mostTextInAll) throw new FileProblem(`${fileName} unpacks to more text than this page can hold. It was not opened.`);
    },
  };
}

function sharedStrings(xml: string): string[] {
  const strings: string[] = [];
  walk(xml, new SharedTexts((text) => strings.push(text)));
  return strings;
}

function tablesOf(file: Package, sheetPart: string): ReadTable[] {
  return file.relationsOf(sheetPart).flatMap(({ type, target, external }) => (type === "table" && !external ? (file.reading(target, readTable) ?? []) : []));
}

/** Names that programs keep for themselves, such as print areas and the marks of newer functions. */
const reservedName = /^_xl(?:nm|fn|ws|pm|udf|dudf|chart)?[._]/i;

function namesOf({ names, sheets }: WorkbookPart, ours: FunctionNames): DefinedName[] {
  return names.flatMap(({ name, text, sheet, hidden }) => {
    if (name === "" || reservedName.test(name)) return [];
    const known = sheet === undefined ? undefined : sheets[sheet]?.name;
    return [{ name, refersTo: formulaFromFile(text, ours), ...(known !== undefined && { sheet: known }), ...(hidden && { hidden: true as const }) }];
  });
}

/** Marks what this page does not calculate, and the cells that spilled results fill. */
function markKept(read: readonly ReadSheet[], names: readonly DefinedName[], part: WorkbookPart, { ours, knowsFunction = () => true }: OpenOptions): void {
  const around = surroundings(read, names, part, { ours, knowsFunction });
  const reasons = new Map<string, string | undefined>();
  for (const { sheet, formulas, dataTables } of read) {
    const holdsDate = (name: string | undefined, reference: string) => around.holdsDate(name ?? sheet.name, reference);
    for (const { cell, text, kind, area } of formulas) {
      const fills = (area.bottom - area.top + 1) * (area.right - area.left + 1);
      const isDate = part.from1904 && countsDays(cell.style?.format ?? "");
      const key = `${kind}|${fills > 1}|${isDate}|${text}`;
      if (!reasons.has(key) || part.from1904) reasons.set(key, reasonToKeep(text, kind, fills, isDate, { ...around, holdsDate }));
      const reason = reasons.get(key);
      if (reason !== undefined) cell.kept = keptWords(reason);
      if (kind === "fixed array") cell.fixedArea = true;
      if (fills > 1) fillArea(sheet, cell, area);
    }
    for (const area of dataTables) keepArea(sheet, area, keptWords("it does not calculate what-if tables"));
  }
}

function keptWords(reason: string): string {
  return `This page shows the value that the file holds, because ${reason}. Saving keeps the formula.`;
}

/** The cells that an array formula fills hold its last results. */
function fillArea(sheet: Sheet, cell: Cell, whole: Area): void {
  const area = clipped(sheet, whole);
  cell.spill = { rows: area.bottom - area.top + 1, columns: area.right - area.left + 1 };
  if (cell.kept) {
    keepArea(sheet, area, cell.kept);
    return;
  }
  // What was in the way of its results is not one of them.
  if (isErrorValue(cell.value) && cell.value.error === "#SPILL!" && !cell.fixedArea) return;
  for (const other of cellsIn(sheet, area)) if (other !== cell && other.formula === undefined && other.value !== undefined) other.spilled = true;
}

function keepArea(sheet: Sheet, area: Area, words: string): void {
  for (const cell of cellsIn(sheet, clipped(sheet, area))) cell.kept = words;
}

function clipped(sheet: Sheet, area: Area): Area {
  const right = sheet.cells.reduce((most, line) => Math.max(most, line?.length ?? 0), 0) - 1;
  return { ...area, bottom: Math.max(area.top, Math.min(area.bottom, sheet.cells.length - 1)), right: Math.max(area.left, Math.min(area.right, right)) };
}

function* cellsIn(sheet: Sheet, { top, left, bottom, right }: Area): Generator<Cell> {
  for (let row = top; row <= bottom; row++) {
    const line = sheet.cells[row];
    if (!line) continue;
    for (let column = left; column <= Math.min(right, line.length - 1); column++) if (line[column]) yield line[column]!;
  }
}

function surroundings(
  read: readonly ReadSheet[],
  names: readonly DefinedName[],
  { from1904 }: WorkbookPart,
  { ours, knowsFunction }: { ours: FunctionNames; knowsFunction(name: string): boolean },
): Surroundings {
  const tables = read.flatMap(({ sheet }) => sheet.tables);
  const totalled = new Set(tables.filter(({ totals }) => totals).map(({ name }) => name.toUpperCase()));
  const headlessTables = new Set(tables.filter(({ headless }) => headless).map(({ name }) => name.toUpperCase()));
  const unusableNames = new Map<string, string>();
  const wideNames = new Set(tables.map(({ name }) => name.toUpperCase()));
  for (const { name, refersTo } of names) {
    const parts = formulaParts(refersTo);
    const reason = reasonInParts(parts, { ours, knowsFunction, unusableNames, headlessTables, totalled }) ?? (isRelative(parts) ? "it refers to cells by their distance" : undefined);
    if (reason !== undefined) unusableNames.set(name.toUpperCase(), reason);
    if (isRange(parts)) wideNames.add(name.toUpperCase());
  }
  const sheets = new Map(read.map(({ sheet }) => [sheet.name.toLowerCase(), sheet]));
  return {
    ours,
    knowsFunction,
    unusableNames,
    wideNames,
    headlessTables,
    totalled,
    from1904,
    holdsDate(name, reference) {
      const sheet = sheets.get((name ?? "").toLowerCase());
      const area = areaOf(reference);
      if (!sheet || !area) return true;
      for (const { style } of cellsIn(sheet, clipped(sheet, area))) if (style?.format && countsDays(style.format)) return true;
      return false;
    },
  };
}

/** Whether the formula is nothing but a reference to more than a cell, or to a column of a table. */
function isRange(parts: readonly Part[]): boolean {
  const plain = parts.every(({ kind, text }, index) => kind === "sheet" || kind === "reference" || kind === "structured" || text === ":" || parts[index + 1]?.kind === "structured");
  return plain && parts.some(({ kind, text }) => text === ":" || kind === "structured");
}

function isRelative(parts: readonly Part[]): boolean {
  return parts.some(({ kind, text }) => kind === "reference" && !/^\$[A-Za-z]+(?:\$\d+)?$|^\$\d+$/.test(text));
}

function notesOn({ sheet, formulas, dataTables, longTexts, noNumbers }: ReadSheet): string[] {
  const byWords = new Map<string, string[]>();
  const add = (words: string, place: string) => {
    const places = byWords.get(words) ?? [];
    places.push(place);
    byWords.set(words, places);
  };
  for (const { row, column, cell } of formulas) if (cell.kept) add(cell.kept, address(row, column));
  for (const area of dataTables) {
    for (const { kept } of cellsIn(sheet, clipped(sheet, area))) {
      if (!kept) continue;
      add(kept, referenceTo(area));
      break;
    }
  }
  const notes = [...byWords].map(([words, places]) => {
    const because = words.replace(/^.*?, because /, "").replace(/ Saving keeps the formula\.$/, "");
    const formulas = places.length === 1 ? `The formula in ${places[0]}` : `${inWords(places.length)} formulas (${listed(places)})`;
    return `“${sheet.name}”: ${formulas} ${places.length === 1 ? "shows the value that the file holds" : "show the values that the file holds"}, because ${because.replace(/^it /, "this page ")}`;
  });
  for (const { row, column } of longTexts) {
    notes.push(`“${sheet.name}”: ${address(row, column)} holds a text of more than ${inWords(longestText)} characters, the most that Excel takes. It stays as it is as long as it is not edited.`);
  }
  for (const { row, column, text } of noNumbers.slice(0, mostNamed)) {
    notes.push(`“${sheet.name}”: ${address(row, column)} holds “${shortened(text)}” as a number, which is none; #NUM! stands for it here. The file keeps it as long as it is not edited.`);
  }
  if (noNumbers.length > mostNamed) notes.push(`“${sheet.name}”: so do ${inWords(noNumbers.length - mostNamed)} further cells.`);
  return notes;
}

/** Cells of a sheet that are named one by one. */
const mostNamed = 5;

function shortened(text: string): string {
  return text.length > 40 ? `${text.slice(0, 39)}…` : text;
}

function listed(places: readonly string[]): string {
  return places.length > 5 ? `${places.slice(0, 5).join(", ")} …` : places.join(", ");
}
