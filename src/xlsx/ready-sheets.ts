/** Ready sheets in the workbook of this page: added, taken away, fitted to other units. Each answers a new workbook. */
import { placeOf, splitReference } from "../sheet/references";
import { defaultUnits, type UnitChoice } from "../sheet/unit-choice";
import { describedReadySheet, type ReadySheetId, type StartOptions } from "../ready-sheets/index";
import { convertedCells, isConcerned, type Measured } from "../ready-sheets/converted";
import { demo } from "../ready-sheets/demo";
import { freeCopy, readySheetOfName, type FoundReadySheet } from "../ready-sheets/recognise";
import { describedNames, describedSheet } from "./ready-sheet";
import type { Unshown } from "./unshown";
import type { Cell, Sheet, Workbook } from "./workbook";

export function withReadySheet(workbook: Workbook, id: ReadySheetId, options: Pick<StartOptions, "units" | "figures">): { workbook: Workbook; sheet: string } {
  const { copy, sheets } = freeCopy(id, {
    sheets: workbook.sheets.map(({ name }) => name),
    tables: workbook.sheets.flatMap(({ tables }) => tables.map(({ name }) => name)),
    names: workbook.names.map(({ name }) => name),
  });
  const descriptions = sheets.map((sheet) => ({ ...describedReadySheet(sheet.id, { ...options, copy }), name: sheet.name }));
  const added = { sheets: [...workbook.sheets, ...descriptions.map(describedSheet)], names: [...workbook.names, ...descriptions.flatMap(describedNames)] };
  return { sheet: sheets[0]!.name, workbook: { ...workbook, ...added } };
}

/** The workbook that a person sees first. */
export function demoWorkbook(): Workbook {
  const empty: Workbook = { sheets: [], names: [] };
  return demo.reduce((workbook, { id, figures }) => withReadySheet(workbook, id, { units: defaultUnits, figures }).workbook, empty);
}

/** Which ready sheet a sheet is, by the name on one of its cells. */
export function readySheetOn(names: Workbook["names"], sheet: string): FoundReadySheet | undefined {
  for (const { name, refersTo } of names) {
    const found = splitReference(refersTo).sheet === sheet ? readySheetOfName(name) : undefined;
    if (found) return found;
  }
  return undefined;
}

/** Shows the results of ready sheets in other units; undefined where there are none. Only formulas that still read as written are touched. */
export function withFittedResults(workbook: Workbook, before: UnitChoice, after: UnitChoice): Workbook | undefined {
  let fitted = false;
  const sheets = workbook.sheets.map((sheet) => {
    const readySheet = readySheetOn(workbook.names, sheet.name);
    if (!readySheet) return sheet;
    fitted = true;
    const was = describedReadySheet(readySheet.id, { units: before, copy: readySheet.copy });
    const now = describedSheet(describedReadySheet(readySheet.id, { units: after, copy: readySheet.copy }));
    const edit = editable(sheet);
    const cells = Object.entries(was.cells).map(([at, { formula, format }]) => [at, { formula, formats: [format] }] as const);
    for (const [at, { formula, formats }] of [...Object.entries(was.spills ?? {}), ...cells]) {
      const { row, column } = placeOf(at)!;
      if (formula === undefined || sheet.cells[row]?.[column]?.formula !== formula) continue;
      const rows = was.spills?.[at]?.rows ?? 1;
      for (let down = 0; down < rows; down++) {
        formats.forEach((_, across) => {
          const wanted = now.cells[row + down]?.[column + across]?.style?.format;
          edit(row + down, column + across, (cell) => ({ ...cell, style: { ...cell.style, ...(wanted && { format: wanted }) } }));
        });
      }
      edit(row, column, (cell) => ({ ...cell, formula: now.cells[row]![column]!.formula }));
    }
    return edit.sheet;
  });
  return fitted ? { ...workbook, sheets } : undefined;
}

/** Converts the numbers typed into ready sheets. */
export function withConvertedInputs(workbook: Workbook, before: UnitChoice, after: UnitChoice): { workbook: Workbook; numbers: number; sheets: number } {
  let numbers = 0;
  let touched = 0;
  const sheets = workbook.sheets.map((sheet) => {
    const readySheet = readySheetOn(workbook.names, sheet.name);
    if (!readySheet) return sheet;
    const edit = editable(sheet);
    const already = numbers;
    for (const { row, column, format, ...measured } of inputsOf(workbook, sheet, readySheet, after)) {
      if (!isConcerned(measured, before, after)) continue;
      edit(row, column, (cell) => {
        const style = { ...cell.style, ...(format && { format }) };
        if (cell.formula !== undefined) return { ...cell, style };
        const converted = convertedCells([[cell.value]], measured, before, after);
        numbers += converted.numbers;
        return { ...cell, style, value: converted.cells[0]![0] as Cell["value"] };
      });
    }
    if (numbers > already) touched++;
    return edit.sheet;
  });
  return { workbook: { ...workbook, sheets }, numbers, sheets: touched };
}

interface InputCell extends Measured {
  readonly row: number;
  readonly column: number;
  readonly format?: string;
}

function inputsOf(workbook: Workbook, sheet: Sheet, { id, copy }: FoundReadySheet, units: UnitChoice): InputCell[] {
  const { cells, tables } = describedReadySheet(id, { units, copy });
  const named = Object.values(cells).flatMap((cell) => {
    const refersTo = cell.role === "input" && cell.name ? workbook.names.find(({ name }) => name.toLowerCase() === cell.name!.toLowerCase())?.refersTo : undefined;
    const place = refersTo && placeOf(splitReference(refersTo).rest);
    return place ? [{ ...place, measure: cell.measure, difference: cell.difference, format: cell.format }] : [];
  });
  const columns = tables.flatMap((table) => {
    const actual = sheet.tables.find(({ name }) => name.toLowerCase() === table.name.toLowerCase());
    return table.columns.flatMap(({ heading, measure, format }) => {
      // A column that a person has renamed or removed is theirs.
      const index = actual ? actual.columns.indexOf(heading) : -1;
      if (!actual || index < 0 || !measure) return [];
      const { top, bottom, left } = actual.area;
      return Array.from({ length: bottom - top }, (_, row) => ({ row: top + 1 + row, column: left + index, measure, format }));
    });
  });
  return [...named, ...columns];
}

/** Changes cells of a copy of the sheet. */
function editable(sheet: Sheet): { (row: number, column: number, change: (cell: Cell) => Cell): void; readonly sheet: Sheet } {
  const copy: Sheet = { ...sheet, cells: sheet.cells.map((line) => line?.slice()) as Sheet["cells"] };
  const edit = (row: number, column: number, change: (cell: Cell) => Cell) => {
    (copy.cells[row] ??= [])[column] = change(copy.cells[row]![column] ?? {});
  };
  return Object.assign(edit, { sheet: copy });
}

/** What the charts of a ready sheet are, in the units in use; none for another sheet. */
export function chartsOn(names: Workbook["names"], sheet: string): ReturnType<typeof describedReadySheet>["charts"] {
  const readySheet = readySheetOn(names, sheet);
  return readySheet ? describedReadySheet(readySheet.id, { units: defaultUnits, copy: readySheet.copy }).charts : [];
}

/** What a file holds that this page does not show: of its charts and limits those that no ready sheet brings, and of its filters those of further tables. */
export function withoutReadySheets(unshown: readonly Unshown[], { sheets, names }: Workbook): string[] {
  const ready = sheets.filter(({ name }) => readySheetOn(names, name));
  const shown: Readonly<Record<string, number>> = {
    charts: ready.reduce((count, { name }) => count + (chartsOn(names, name)?.length ?? 0), 0),
    "data validation": ready.length,
    filters: sheets.filter(({ filter }) => filter && filter.columns.length > 0).length,
  };
  return unshown.filter(({ what, count }) => count > (shown[what] ?? 0)).map(({ what }) => what);
}
