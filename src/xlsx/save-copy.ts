/** Saves a workbook that was opened from a file: the copy is the opened file with the changes put in. */
import { address, referenceTo } from "../sheet/references";
import { compareSheets, normalised, type SheetChanges } from "./compare";
import { readUnits, writeUnits } from "./custom-properties";
import { FileProblem } from "./file-problem";
import { follow } from "./follow";
import { formulaToFile, needsArrayMark, type FunctionNames } from "./formula-in-file";
import { withoutUndone, type Journal, type StructuralEdit } from "./journal";
import { inWords, longestFormula, longestText } from "./limits";
import { addSheet } from "./new-sheet";
import { Package } from "./package";
import { patchCells, type CellTools } from "./patch-cells";
import { patchColumns, patchMerges, patchView } from "./patch-sheet";
import { StylePatch } from "./patch-styles";
import { patchFilter } from "./patch-filters";
import { patchTables } from "./patch-tables";
import { calculateOnOpening, dropSheet, dropSignatures, patchWorkbook, planNames, type SheetPlan } from "./patch-workbook";
import { relocatedWorkbook, type RelocatedSheet } from "./relocated-workbook";
import { Relocation, type TableChanges } from "./relocation";
import { spillMark } from "./spill-mark";
import { pairTables, tableChanges, withSettledHeadings } from "./table-changes";
import { withValues } from "./values-only";
import { readWorkbookPart, worksheetPart } from "./workbook-part";
import { cellsOf, type Cell, type DefinedName, type Sheet, type Workbook } from "./workbook";

/**
 * What became of the opened workbook. `before` and `now` both come from the grid, so that what the grid does not hold counts as unchanged:
 * only what differs between the two is written.
 */
export interface Changes {
  /** As the grid gave it when it had opened and calculated the workbook for the first time. */
  readonly before: Workbook;
  /** As it is now. Formulas with `kept` may read as they did when opened: references in them are followed here. */
  readonly now: Workbook;
  readonly journal: Journal;
}

export interface CopyOptions {
  /** For the sentences. */
  readonly fileName: string;
  readonly ours: FunctionNames;
  /** "for other programs": values stand where our own functions stood, which other programs do not have. By default "for Excel". */
  readonly form?: "for Excel" | "for other programs";
}

export interface SavedCopy {
  readonly bytes: Uint8Array;
  /** What could not follow the changes, each as a full sentence with sheet, place and loss; to be shown before the file is handed over. */
  readonly warnings: readonly string[];
}

/** `opened` are the bytes that openWorkbook read. Throws a FileProblem, a full sentence, where no faithful copy can be made. */
export async function saveCopy(opened: Uint8Array, changes: Changes, options: CopyOptions): Promise<SavedCopy> {
  const copy = new Copy(new Package(opened, options.fileName), changes, options);
  return copy.made();
}

class Copy {
  private readonly warnings: string[] = [];
  private readonly namesOfNewSheets: DefinedName[] = [];
  private readonly styles: StylePatch;
  private readonly tools: CellTools;
  private readonly before: Workbook;
  private readonly now: Workbook;
  private readonly edits: readonly StructuralEdit[];
  /** Without and with the new headings of tables. */
  private readonly moves: Relocation;
  private readonly relocation: Relocation;
  private readonly tables: TableChanges;
  private readonly from1904: boolean;

  constructor(
    private readonly file: Package,
    { before, now, journal }: Changes,
    private readonly options: CopyOptions,
  ) {
    const { ours, form } = options;
    this.before = before;
    const written = form === "for other programs" ? withValues(now, ours, this.warnings) : now;
    this.edits = withRemoved(withoutUndone(journal), before, now);
    this.moves = new Relocation(this.edits);
    const moved = relocatedWorkbook(before, this.moves);
    this.now = withSettledHeadings(moved, written, this.warnings);
    this.tables = tableChanges(moved, this.now);
    this.relocation = new Relocation(this.edits, this.tables);
    this.styles = new StylePatch(file);
    this.from1904 = readWorkbookPart(file).from1904;
    let mark: string | undefined;
    this.tools = {
      styled: (base, was, is) => this.styles.styled(base, was, is),
      spillMark: () => (mark ??= spillMark(file)),
      formulaToFile: (formula) => formulaToFile(this.withNewHeadings(formula), ours),
      needsMark: (formula) => needsArrayMark(formula, ours),
      from1904: this.from1904,
    };
  }

  async made(): Promise<SavedCopy> {
    const { file, now } = this;
    this.refuseBeyondLimits();
    const entries = readWorkbookPart(file).sheets;
    const relocated = relocatedWorkbook(this.before, this.relocation);
    this.warnings.push(...follow(file, this.relocation));
    const plans: SheetPlan[] = [];
    for (const sheet of now.sheets) {
      const was = relocated.sheets.find((one) => one.sheet.name === sheet.name);
      const part = was && entries.find(({ name }) => name === was.openedAs);
      const name = part && worksheetPart(file, part);
      plans.push(was && name !== undefined ? this.patchSheet(name, was, sheet) : await this.addSheet(sheet));
    }
    patchWorkbook(file, plans, planNames(relocated.names, [...now.names, ...this.namesOfNewSheets]), this.tools.formulaToFile);
    for (const entry of entries) {
      const isShown = this.before.sheets.some(({ name }) => name === entry.name);
      if (isShown && !plans.some(({ openedAs }) => openedAs === entry.name)) dropSheet(file, entry);
    }
    this.styles.finish();
    if (now.units !== this.before.units && now.units !== readUnits(file)) writeUnits(file, now.units);
    if (file.isChanged) {
      calculateOnOpening(file);
      if (dropSignatures(file)) this.warnings.push("The digital signature holds only for the file as it was opened; the copy does not have it.");
    }
    return { bytes: file.written(), warnings: this.warnings };
  }

  private patchSheet(part: string, was: RelocatedSheet, sheet: Sheet): SheetPlan {
    const { file } = this;
    const changes = compareSheets(was.sheet, sheet, (formula, cell) => this.isSameFormula(formula, cell, was.openedAs), this.from1904);
    this.patchCellsOf(part, sheet, changes);
    patchTables(file, part, was, pairTables(was, sheet));
    // Its columns are counted from its own first one, so that they do not follow by themselves.
    const moved = was.sheet.filter !== undefined && this.relocation.shifts(was.openedAs, "column");
    if (changes.filter || moved) this.warnings.push(...patchFilter(file, part, was.sheet.filter, sheet));
    const hidden = (was.sheet.hidden ?? false) === (sheet.hidden ?? false) ? {} : { hidden: sheet.hidden ?? false };
    return { name: sheet.name, openedAs: was.openedAs, ...hidden };
  }

  private patchCellsOf(part: string, sheet: Sheet, changes: SheetChanges): void {
    const { file } = this;
    const { xml, cutAreas } = patchCells(file.text(part)!, changes.cells, changes.rows, this.tools);
    for (const area of cutAreas) {
      this.warnings.push(
        `“${sheet.name}”: a cell inside ${referenceTo(area)} was changed, which one formula fills as a whole. In the copy the other cells of it keep their values, and the formula no longer fills them.`,
      );
    }
    const withColumns = patchColumns(xml, changes.columns);
    const withMerges = patchMerges(withColumns, changes.merged, changes.unmerged);
    file.setText(part, changes.view ? patchView(withMerges, sheet) : withMerges);
  }

  private async addSheet(sheet: Sheet): Promise<SheetPlan> {
    const { relation, names, warnings } = await addSheet(this.file, sheet, this.now, this.tools, this.options.ours);
    this.warnings.push(...warnings);
    this.namesOfNewSheets.push(...names);
    return { name: sheet.name, relation, ...(sheet.hidden && { hidden: true }) };
  }

  private isSameFormula(before: string, now: Cell, sheet: string): boolean {
    const formula = now.formula!;
    const [moved, renamed] = [this.moves.formula(before, sheet), this.relocation.formula(before, sheet)];
    if (formula === moved || formula === renamed) return true;
    const spelled = normalised(formula);
    return spelled === normalised(moved) || spelled === normalised(renamed) || (now.kept !== undefined && spelled === normalised(before));
  }

  /** A formula may have been typed with a heading that was changed afterwards, if the grid does not change it in formulas. */
  private withNewHeadings(formula: string): string {
    if (this.tables.size === 0) return formula;
    const current = new Map(this.now.sheets.flatMap(({ tables }) => tables.map((table) => [table.name.toUpperCase(), table] as const)));
    const stale = new Map(
      [...this.tables].flatMap(([name, change]) => {
        const table = current.get((change.name ?? name).toUpperCase());
        if (!table) return [[name, change] as const];
        const used = new Set([...change.headings.values()].map((heading) => heading?.toLowerCase()));
        return [[name, { ...change, headings: new Map([...change.headings].filter(([old]) => !used.has(old))) }] as const];
      }),
    );
    return new Relocation([], stale).formula(formula, "");
  }

  private refuseBeyondLimits(): void {
    for (const sheet of this.now.sheets) {
      const was = this.before.sheets.find(({ name }) => name === sheet.name);
      for (const { row, column, cell } of cellsOf(sheet)) {
        const { value, formula } = cell;
        const isTooLong = typeof value === "string" && value.length > longestText && value !== was?.cells[row]?.[column]?.value;
        if (isTooLong) this.refuse(sheet, row, column, `holds ${inWords(value.length)} characters, and Excel takes up to ${inWords(longestText)}`);
        if (formula !== undefined && formula.length > longestFormula) {
          this.refuse(sheet, row, column, `holds a formula of ${inWords(formula.length)} characters, and Excel takes up to ${inWords(longestFormula)}`);
        }
      }
    }
  }

  private refuse(sheet: Sheet, row: number, column: number, what: string): never {
    throw new FileProblem(`The copy was not saved: ${address(row, column)} on “${sheet.name}” ${what}. Shorten it and save again.`);
  }
}

/** Sheets that are gone without a word in the journal are removed all the same. */
function withRemoved(edits: readonly StructuralEdit[], before: Workbook, now: Workbook): StructuralEdit[] {
  const names = new Relocation(edits);
  const gone = before.sheets.flatMap(({ name }) => {
    const is = names.sheet(name);
    return is === undefined || now.sheets.some((sheet) => sheet.name === is) ? [] : [{ kind: "remove sheet" as const, sheet: is }];
  });
  return [...edits, ...gone];
}
