/**
 * The first results of this page beside those that the file holds. Where they differ, this page may lack something that the formula needs,
 * or know it otherwise than the program that wrote the file; then the value of the file is kept, so that none turns into another unseen.
 */
import { isFunctionName, partsOf } from "../../sheet/formula-text";
import { address, areaOf, sheetOfPrefix, type Area } from "../../sheet/references";
import { callsOurs } from "../../xlsx/values-only";
import { cellsOf, isErrorValue, type Cell, type CellValue, type Sheet, type Workbook } from "../../xlsx/workbook";

const wordsBecause = (reason: string) => `This page shows the value that the file holds, because ${reason}. Saving keeps the formula.`;
const otherResult = wordsBecause("it calculates another one from this formula");
const inCircle = wordsBecause("the formula refers to its own cell, directly or through others");

/** Functions whose result is another each time. */
const changing = new Set(["NOW", "TODAY", "RAND", "RANDBETWEEN", "RANDARRAY"]);

interface Formula {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  /** In the workbook as it was opened. */
  readonly cell: Cell;
}

/** A place on a sheet, or an area of it. */
interface Reference {
  readonly sheet: string;
  readonly area: Area;
}

/** So often formulas that differ are told from those that only follow them; then both are kept. */
const mostRounds = 5;

/**
 * Shows a workbook as often as it takes until every result is the file's own, is kept, or follows from what is another each time. `show`
 * answers the workbook as calculated. Gives that, and what to tell the person.
 */
export async function showKeepingDiffering(
  opened: Workbook,
  ours: ReadonlySet<string>,
  show: (workbook: Workbook) => Promise<Workbook>,
): Promise<{ calculated: Workbook; notes: string[] }> {
  const kept = new Map<Cell, string>();
  for (let round = 1; ; round++) {
    const calculated = await show(withKept(opened, kept));
    const differing = differingByThemselves(opened, calculated, ours, kept, round >= mostRounds);
    if (differing.length === 0) return { calculated, notes: notesOn(opened, kept) };
    for (const formula of differing) kept.set(formula.cell, isInCircle(formula, calculated) ? inCircle : otherResult);
  }
}

/** The formulas whose results differ, without those that only follow another that does; `all` takes these too. */
function differingByThemselves(opened: Workbook, calculated: Workbook, ours: ReadonlySet<string>, kept: ReadonlyMap<Cell, string>, all: boolean): Formula[] {
  const isCalculated = (cell: Cell) => cell.formula !== undefined && !cell.kept && !kept.has(cell);
  const formulasOf = (sheet: Sheet): Formula[] => [...cellsOf(sheet)].filter(({ cell }) => isCalculated(cell)).map((it) => ({ sheet: sheet.name, ...it }));
  const formulas = opened.sheets.flatMap(formulasOf);
  const changingOnes = formulas.filter(({ cell }) => callsChanging(cell.formula!) || callsOurs(cell.formula!, ours));
  const ownReason = new Set(changingOnes);
  let differing = formulas.filter((formula) => !ownReason.has(formula) && differs(formula, opened, calculated));
  if (differing.length === 0) return [];
  const references = new Map(differing.map((formula) => [formula, referencesOf(formula, opened)]));
  const reads = (formula: Formula, places: Places) => references.get(formula)!.some((reference) => places.meets(reference));
  // What follows from a result that is another each time differs rightly, and so does what follows from that.
  for (let followed = changingOnes; followed.length > 0; ) {
    const places = new Places(followed);
    followed = differing.filter((formula) => reads(formula, places));
    const gone = new Set(followed);
    differing = differing.filter((formula) => !gone.has(formula));
  }
  if (all) return differing;
  const places = new Places(differing);
  const roots = differing.filter((formula) => !reads(formula, places));
  // In a circle each follows another; what only follows from it is not read there.
  return roots.length > 0 ? roots : withoutFollowers(differing, references);
}

/** So many formulas are compared with each other. */
const mostCompared = 500;

function withoutFollowers(formulas: Formula[], references: ReadonlyMap<Formula, readonly Reference[]>): Formula[] {
  if (formulas.length > mostCompared) return formulas;
  for (let left = formulas; ; ) {
    const isRead = (formula: Formula) => left.some((other) => references.get(other)!.some((reference) => new Places([formula]).meets(reference)));
    const read = left.filter(isRead);
    if (read.length === left.length || read.length === 0) return left;
    left = read;
  }
}

function isInCircle({ sheet, row, column }: Formula, calculated: Workbook): boolean {
  const value = calculated.sheets.find(({ name }) => name === sheet)?.cells[row]?.[column]?.value;
  return isErrorValue(value) && value.error === "#CYCLE!";
}

function withKept(opened: Workbook, kept: ReadonlyMap<Cell, string>): Workbook {
  if (kept.size === 0) return opened;
  const sheets = opened.sheets.map((sheet) => {
    const copy = { ...sheet, cells: sheet.cells.map((line) => line?.slice()) as typeof sheet.cells };
    for (const { row, column, cell } of cellsOf(sheet)) {
      if (!kept.has(cell)) continue;
      for (const { r, c } of placesFilled(row, column, cell)) {
        const own = sheet.cells[r]?.[c];
        if (own) copy.cells[r]![c] = { ...own, kept: kept.get(cell)!, ...(own.spilled && { spilled: undefined }) };
      }
    }
    return copy;
  });
  return { ...opened, sheets };
}

function* placesFilled(row: number, column: number, { spill }: Cell): Generator<{ r: number; c: number }> {
  for (let r = row; r < row + (spill?.rows ?? 1); r++) for (let c = column; c < column + (spill?.columns ?? 1); c++) yield { r, c };
}

/** Whether a result is not the one of the file, in its own cell or in one that it fills. */
function differs({ sheet, row, column, cell }: Formula, opened: Workbook, calculated: Workbook): boolean {
  if (cell.value === undefined) return false;
  const before = opened.sheets.find(({ name }) => name === sheet)!;
  const now = calculated.sheets.find(({ name }) => name === sheet)!;
  // Older programs take one value of a list where this page shows them all.
  if (sizeOf(cell) !== sizeOf(now.cells[row]?.[column])) return true;
  for (const { r, c } of placesFilled(row, column, cell)) {
    if (!isSame(before.cells[r]?.[c]?.value, now.cells[r]?.[c]?.value)) return true;
  }
  return false;
}

/** How many rows and columns a result fills. */
function sizeOf(cell: Cell | undefined): string {
  return `${cell?.spill?.rows ?? 1} × ${cell?.spill?.columns ?? 1}`;
}

/** Two programs add up in different orders, which changes the last of some sixteen digits. */
const leastDifference = 1e-9;

export function isSame(a: CellValue | undefined, b: CellValue | undefined): boolean {
  if (typeof a === "number" && typeof b === "number") return Math.abs(a - b) <= leastDifference * Math.max(Math.abs(a), Math.abs(b), leastDifference);
  if (isErrorValue(a) && isErrorValue(b)) return a.error === b.error;
  return (a ?? "") === (b ?? "");
}

function callsChanging(formula: string): boolean {
  const parts = partsOf(formula);
  return parts.some(({ text }, index) => isFunctionName(parts, index) && changing.has(text.toUpperCase()));
}

/** Cells, to be asked whether a reference looks at one of them. */
class Places {
  private readonly columnsByRow = new Map<string, Map<number, number[]>>();

  constructor(formulas: readonly Formula[]) {
    for (const { sheet, row, column, cell } of formulas) {
      let rows = this.columnsByRow.get(sheet.toLowerCase());
      if (!rows) this.columnsByRow.set(sheet.toLowerCase(), (rows = new Map()));
      for (const { r, c } of placesFilled(row, column, cell)) {
        const columns = rows.get(r);
        if (columns) columns.push(c);
        else rows.set(r, [c]);
      }
    }
  }

  meets({ sheet, area: { top, bottom, left, right } }: Reference): boolean {
    const rows = this.columnsByRow.get(sheet.toLowerCase());
    if (!rows) return false;
    const isWithin = (columns: readonly number[] | undefined) => columns?.some((column) => column >= left && column <= right) ?? false;
    if (bottom - top < rows.size) {
      for (let row = top; row <= bottom; row++) if (isWithin(rows.get(row))) return true;
      return false;
    }
    for (const [row, columns] of rows) if (row >= top && row <= bottom && isWithin(columns)) return true;
    return false;
  }
}

/** What a formula looks at directly, through names too. */
function referencesOf({ sheet, cell }: Formula, workbook: Workbook): Reference[] {
  const found: Reference[] = [];
  const names = new Set<string>();
  const look = (formula: string): void => {
    const parts = partsOf(formula);
    for (const [index, { kind, text }] of parts.entries()) {
      if (kind === "reference" && parts[index - 1]?.text !== ":") {
        const reference = parts[index + 1]?.text === ":" ? `${text}:${parts[index + 2]?.text ?? ""}` : text;
        const prefix = parts[index - 1]?.kind === "sheet" ? sheetOfPrefix(parts[index - 1]!.text) : sheet;
        const area = areaOf(reference);
        if (area) found.push({ sheet: prefix, area });
      } else if (kind === "name" && !isFunctionName(parts, index) && !names.has(text.toUpperCase())) {
        names.add(text.toUpperCase());
        const isCalled = ({ name }: { name: string }) => name.toUpperCase() === text.toUpperCase();
        for (const name of workbook.names.filter(isCalled)) look(name.refersTo);
        for (const { name, tables } of workbook.sheets) for (const table of tables.filter(isCalled)) found.push({ sheet: name, area: table.area });
      }
    }
  };
  look(cell.formula!);
  return found;
}

function notesOn(opened: Workbook, kept: ReadonlyMap<Cell, string>): string[] {
  return opened.sheets.flatMap((sheet) =>
    [otherResult, inCircle].flatMap((reason) => {
      const places = [...cellsOf(sheet)].flatMap(({ row, column, cell }) => (kept.get(cell) === reason ? [address(row, column)] : []));
      if (places.length === 0) return [];
      const isOne = places.length === 1;
      const listed = places.length > 5 ? `${places.slice(0, 5).join(", ")} …` : places.join(", ");
      const formulas = isOne ? `The formula in ${listed} shows the value` : `${places.length} formulas (${listed}) show the values`;
      const because = reason === otherResult ? `this page calculates ${isOne ? "another" : "others"}` : isOne ? "it refers to its own cell" : "they refer to one another in a circle";
      return [`“${sheet.name}”: ${formulas} that the file holds, because ${because}.`];
    }),
  );
}
