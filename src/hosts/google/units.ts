/** What a change of the spreadsheet's units means: kept as a document property, formulas calculated anew, results and typed numbers of ready sheets. */
import type { ChangedUnits, Converted } from "../../pane/port";
import { convertedCells, isConcerned, type Measured } from "../../ready-sheets/converted";
import { describedReadySheet, type ReadySheetId } from "../../ready-sheets/index";
import { readySheetOfName } from "../../ready-sheets/recognise";
import type { Allowed, SheetDescription } from "../../ready-sheets/sheet-description";
import { moved } from "../../sheet/references";
import { namespace } from "../../sheet/spelling";
import { unitsFromText, unitsProperty, unitsToText, type UnitChoice } from "../../sheet/unit-choice";
import type { UnitsInUse } from "../../sheet/workbook-units";
import { rule } from "./write-sheet";

type Book = GoogleAppsScript.Spreadsheet.Spreadsheet;
type Range = GoogleAppsScript.Spreadsheet.Range;

export function storedUnits(): UnitsInUse {
  return unitsFromText(PropertiesService.getDocumentProperties().getProperty(unitsProperty));
}

/** Converts what was typed into ready sheets, keeps the choice and calculates every formula of ours anew. */
export function chooseUnits(book: Book, choice: UnitChoice): ChangedUnits {
  const { choice: before } = storedUnits();
  const converted = convertInputs(book, before, choice);
  PropertiesService.getDocumentProperties().setProperty(unitsProperty, unitsToText(choice));
  fitResults(book, before, choice);
  return { converted, formulas: calculateAnew(book) };
}

/** Results are kept by their arguments there, so that a formula is only calculated anew when it is entered anew. */
function calculateAnew(book: Book): number {
  const formulas = book.getSheets().flatMap((sheet) => {
    const range = sheet.getDataRange();
    return range.getFormulas().flatMap((line, row) =>
      line.flatMap((formula, column) => (formula.includes(`${namespace}_`) ? [{ cell: range.getCell(row + 1, column + 1), formula }] : [])),
    );
  });
  for (const { cell } of formulas) cell.clearContent();
  SpreadsheetApp.flush();
  for (const { cell, formula } of formulas) cell.setFormula(formula);
  return formulas.length;
}

interface FoundSheet {
  readonly id: ReadySheetId;
  readonly copy: number;
  readonly sheet: GoogleAppsScript.Spreadsheet.Sheet;
}

/** The ready sheets that are still there, whatever they are called now. */
export function findReadySheets(book: Book): FoundSheet[] {
  return book.getNamedRanges().flatMap((named) => {
    const found = readySheetOfName(named.getName());
    return found ? [{ ...found, sheet: named.getRange().getSheet() }] : [];
  });
}

function fitResults(book: Book, before: UnitChoice, after: UnitChoice): void {
  for (const { id, copy, sheet } of findReadySheets(book)) {
    const [was, now] = [before, after].map((units) => describedReadySheet(id, { units, copy })) as [SheetDescription, SheetDescription];
    for (const [at, { formula, format }] of Object.entries(now.cells)) {
      if (formula !== undefined && format && format !== was.cells[at]?.format) sheet.getRange(at).setNumberFormat(format);
    }
    for (const [at, { rows, formats }] of Object.entries(now.spills ?? {})) {
      formats.forEach((format, index) => {
        if (format && format !== was.spills?.[at]?.formats[index]) sheet.getRange(`${moved(at, 0, index)}:${moved(at, rows - 1, index)}`).setNumberFormat(format);
      });
    }
  }
}

interface InputPlace extends Measured {
  readonly range: Range;
  readonly sheet: string;
  readonly format?: string;
  readonly allowed?: Allowed;
}

/** Converts the numbers typed into ready sheets. All are read before the first is written. */
function convertInputs(book: Book, before: UnitChoice, after: UnitChoice): Converted {
  const converted = findReadySheets(book).flatMap((found) =>
    inputPlaces(book, found, before, after).map((place) => ({ place, ...convertedCells(place.range.getValues(), place, before, after) })),
  );
  const numbers = converted.reduce((sum, one) => sum + one.numbers, 0);
  const sheets = new Set(converted.filter((one) => one.numbers > 0).map(({ place }) => place.sheet)).size;
  for (const { place, cells, numbers: own } of converted) {
    if (own > 0) place.range.setValues(cells as string[][]);
    if (place.format) place.range.setNumberFormat(place.format);
    if (place.allowed) place.range.setDataValidation(rule(place.allowed, place.range.getCell(1, 1).getA1Notation()));
  }
  return { numbers, sheets };
}

function inputPlaces(book: Book, { id, copy, sheet }: FoundSheet, before: UnitChoice, after: UnitChoice): InputPlace[] {
  const { cells, tables } = describedReadySheet(id, { units: after, copy });
  const ranges = new Map(book.getNamedRanges().map((named) => [named.getName(), named.getRange()]));
  const named = Object.values(cells).flatMap((cell): InputPlace[] => {
    const range = cell.role === "input" && cell.name && isConcerned(cell, before, after) ? ranges.get(cell.name) : undefined;
    return range ? [{ ...cell, range, sheet: sheet.getName() }] : [];
  });
  const columns = tables.flatMap(({ at, rows, columns: described }) =>
    described.flatMap((column, index): InputPlace[] => {
      const head = moved(at, 0, index);
      // A column that a person has renamed or moved is theirs.
      if (!isConcerned(column, before, after) || sheet.getRange(head).getValue() !== column.heading) return [];
      return [{ ...column, sheet: sheet.getName(), range: sheet.getRange(`${moved(head, 1, 0)}:${moved(head, rows, 0)}`) }];
    }),
  );
  return [...named, ...columns];
}
