/**
 * The rows of a workbook's sheets, one after another, without the workbook in memory: what is held is a row, the styles, and what `texts` holds
 * of the texts that cells share.
 */
import { mostRows } from "../sheet/references";
import { placeInFile, rowInFile, valueInFile, type CellInFile, type ValueContext } from "./cell-in-file";
import { FileProblem } from "./file-problem";
import { inWords, mostTextInAll } from "./limits";
import { Package } from "./package";
import { readStyles } from "./read-styles";
import { readTable } from "./read-table";
import { SharedTexts } from "./shared-texts";
import { readWorkbookPart, worksheetPart } from "./workbook-part";
import type { CellValue } from "./workbook";
import { lengthened, WalkedPieces, XmlProblem, type Attributes, type Walk } from "./xml";
import type { ByteSource, ZipLimits } from "./zip";

/** Keeps the texts that cells share, by their numbers from 0. */
export interface TextStore {
  add(text: string): void;
  at(number: number): string | undefined;
}

export interface StreamedCell {
  readonly value: CellValue;
  /** Its number format; empty for the general one. */
  readonly format: string;
}

export interface StreamedRow {
  /** From 0. */
  readonly row: number;
  readonly cells: readonly (StreamedCell | undefined)[];
}

export interface StreamedSheet {
  readonly name: string;
  /** Rows of totals below tables, from 0. */
  readonly totals: ReadonlySet<number>;
  /** In the order of the file, which is that of the sheet; rows that hold nothing are left out. */
  rows(): Generator<StreamedRow>;
}

/** Parts that are read whole are those that say how the workbook is made up: small ones. */
const limits: ZipLimits = { part: 32 * 2 ** 20, all: 128 * 2 ** 20 };
/** Characters that a part of rows or of texts may have. A full sheet of twenty columns has a fifth of it. */
const mostCharacters = 4 * 2 ** 30;
/** What it takes to keep a text besides its characters. */
const perText = 40;

/** Throws a FileProblem, a full sentence, where the file is no workbook; so does the reading of rows, at the latest at their end. */
export function streamedSheets(source: ByteSource, fileName: string, texts: TextStore, mostText = mostTextInAll): StreamedSheet[] {
  const file = new Package(source, fileName, limits);
  const part = readWorkbookPart(file);
  const partOf = (type: string): string => file.relationOf(file.main, type)?.target ?? "";
  const styles = file.reading(partOf("styles"), (xml) => readStyles(xml, [])) ?? readStyles(undefined, []);
  let isRead = false;
  const readTexts = (): void => {
    if (isRead) return;
    isRead = true;
    for (const _ of walked(file, partOf("sharedStrings"), new SharedTexts(countedIn(texts, fileName, mostText)), () => [])) ;
  };
  const sheets = part.sheets.flatMap((entry) => {
    const name = worksheetPart(file, entry);
    return name === undefined ? [] : [{ name: entry.name, part: name }];
  });
  if (sheets.length === 0) throw new FileProblem(`${fileName} holds no worksheet.`);
  return sheets.map(({ name, part: sheetPart }) => ({
    name,
    totals: totalsOf(file, sheetPart),
    *rows() {
      readTexts();
      const reader = new RowReader({ fileName, sheet: name, from1904: part.from1904, styles, texts });
      yield* walked(file, sheetPart, reader, () => reader.taken());
      yield* reader.last();
    },
  }));
}

function countedIn(texts: TextStore, fileName: string, most: number): (text: string) => void {
  let characters = 0;
  return (text) => {
    characters += text.length + perText;
    if (characters > most) throw new FileProblem(`${fileName} holds more than ${inWords(most)} characters of text, more than can be kept at hand. Save its sheet as .csv.`);
    texts.add(text);
  };
}

function totalsOf(file: Package, sheetPart: string): Set<number> {
  const tables = file.relationsOf(sheetPart).flatMap(({ type, target, external }) => (type === "table" && !external ? (file.reading(target, readTable) ?? []) : []));
  return new Set(tables.flatMap(({ table }) => (table.totals ? [table.area.bottom + 1] : [])));
}

/** What a reader has taken after each piece of a part; what is wrong with the part becomes a sentence that names it. */
function* walked<T>(file: Package, part: string, reader: Walk, taken: () => Iterable<T>): Generator<T> {
  const { fileName } = file;
  const sentence = (thrown: unknown): unknown =>
    thrown instanceof XmlProblem ? new FileProblem(`${fileName} is damaged: its part “${part}” could not be read (${thrown.message}).`) : thrown;
  const pieces = file.textPieces(part);
  const walk = new WalkedPieces(reader);
  let characters = 0;
  try {
    for (;;) {
      const { value: piece, done } = file.guarded(() => pieces.next());
      if (done) break;
      characters += piece.length;
      if (characters > mostCharacters) throw new FileProblem(`${fileName} unpacks to more than ${inWords(mostCharacters)} characters in its part “${part}”. It was not read.`);
      file.guarded(() => walk.write(piece));
      yield* taken();
    }
    if (characters > 0) walk.end();
  } catch (thrown) {
    throw sentence(thrown);
  }
}

interface RowContext extends Pick<ValueContext, "from1904" | "styles"> {
  readonly fileName: string;
  readonly sheet: string;
  readonly texts: TextStore;
}

class RowReader implements Walk {
  private readonly values: ValueContext;
  private rows: StreamedRow[] = [];
  private cells: (StreamedCell | undefined)[] = [];
  /** Where the reading is. */
  private row = -1;
  private column = -1;
  /** The row of the cells at hand, which differs only in a file whose cells name another row than the one they lie in. */
  private cellRow = -1;
  private rowsOpened = 0;
  private cell: { type: string; style: number; value?: string; inline?: string } | undefined;
  private phonetic = 0;

  constructor(private readonly context: RowContext) {
    const { from1904, styles, texts } = context;
    this.values = {
      from1904, styles,
      text: (number) => texts.at(Number(number)) ?? `missing text ${number.slice(0, 20)}`,
      // The row says so: #NUM! is no number.
      isNoNumber: () => undefined,
    };
  }

  /** The rows that are whole. */
  taken(): StreamedRow[] {
    const { rows } = this;
    this.rows = [];
    return rows;
  }

  last(): StreamedRow[] {
    this.endRow();
    return this.taken();
  }

  open(name: string, attributes: Attributes, parent: string | undefined): void {
    if (name === "row" && parent === "sheetData") {
      this.row = rowInFile(attributes.r, this.row, (what) => this.refuse(what));
      this.column = -1;
      if (++this.rowsOpened > mostRows) this.refuse(`more than ${inWords(mostRows)} rows`);
    } else if (name === "c" && parent === "row") {
      const place = placeInFile(attributes.r, { row: this.row, column: this.column }, (what) => this.refuse(what));
      if (place.row !== this.cellRow) this.endRow();
      this.row = this.cellRow = place.row;
      this.column = place.column;
      this.cell = { type: attributes.t ?? "n", style: Number(attributes.s ?? 0) };
    } else if (name === "is" && this.cell) this.cell.inline = "";
    else if (name === "rPh") this.phonetic++;
  }

  close(name: string, text: string, parent: string | undefined): void {
    const { cell } = this;
    if (name === "rPh") this.phonetic--;
    if (!cell) return;
    if (name === "v" && parent === "c") cell.value = text;
    else if (name === "t" && cell.inline !== undefined && this.phonetic === 0) cell.inline = lengthened(cell.inline, text);
    else if (name === "c" && parent === "row") {
      this.take(cell);
      this.cell = undefined;
    }
  }

  private take(cell: CellInFile): void {
    const value = valueInFile(cell, this.values);
    if (value !== undefined) this.cells[this.column] = { value, format: this.context.styles.of(cell.style)?.format ?? "" };
  }

  private endRow(): void {
    if (this.cells.length > 0) this.rows.push({ row: this.cellRow, cells: this.cells });
    this.cells = [];
  }

  private refuse(what: string): never {
    const { fileName, sheet } = this.context;
    throw new FileProblem(`${fileName} goes beyond what Excel can hold: the sheet “${sheet}” has ${what}. It was not opened.`);
  }
}
