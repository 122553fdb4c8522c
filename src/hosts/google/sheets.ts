/**
 * What a Google Sheet offers besides the functions: a menu that starts ready sheets and takes up formulas of a file. The build adds a function
 * for each entry, as a menu calls functions by their names.
 */
import { freeCopy } from "../../ready-sheets/recognise";
import { describedReadySheet, readySheetIds, type ReadySheetId } from "../../ready-sheets/index";
import { useSpelling } from "../../sheet/spelling";
import { unitsFromText, unitsProperty } from "../../sheet/unit-choice";
import { formulasOfFiles } from "./formulas-of-files";
import { spelledForGoogle, starterOf } from "./spelling";
import { tablesOf, writeDescribedSheet } from "./write-sheet";

useSpelling(spelledForGoogle);

export function addMenu(): void {
  const ui = SpreadsheetApp.getUi();
  const start = ui.createMenu("Start a sheet");
  const { choice: units } = unitsFromText(null);
  for (const id of readySheetIds) start.addItem(describedReadySheet(id, { units }).name, starterOf(id));
  ui.createMenu("Pucksheet").addSubMenu(start).addItem("Take up formulas of an opened file", "takeUpPucksheetFormulas").addToUi();
}

/** Adds the ready sheet with example figures, and what comes along with it, shows it and answers its name. */
export function startSheet(id: ReadySheetId): string {
  const book = SpreadsheetApp.getActiveSpreadsheet();
  const { choice: units } = unitsFromText(PropertiesService.getDocumentProperties().getProperty(unitsProperty));
  const used = { sheets: book.getSheets().map((sheet) => sheet.getName()), tables: [], names: book.getNamedRanges().map((range) => range.getName()) };
  const { copy, sheets } = freeCopy(id, used);
  const descriptions = sheets.map((one) => ({ ...describedReadySheet(one.id, { units, copy, figures: "example" }), name: one.name }));
  const tables = tablesOf(descriptions);
  const added: GoogleAppsScript.Spreadsheet.Sheet[] = [];
  try {
    for (const description of descriptions) {
      const sheet = book.insertSheet(description.name);
      added.push(sheet);
      writeDescribedSheet(book, sheet, description, tables);
    }
  } catch (thrown) {
    // Nothing is left of a sheet that was not written to its end.
    for (const sheet of added) book.deleteSheet(sheet);
    throw thrown;
  }
  book.setActiveSheet(added[0]!);
  return descriptions[0]!.name;
}

/** Spells our functions in all formulas as this host does, and tells how many there were. */
export function takeUpFormulas(): void {
  const book = SpreadsheetApp.getActiveSpreadsheet();
  const changed = formulasOfFiles(book);
  const words = changed === 0 ? "No formula spells functions of Pucksheet as other programs do." : `${changed} ${changed === 1 ? "formula calls" : "formulas call"} functions of Pucksheet by their names here now.`;
  book.toast(words, "Pucksheet");
}
