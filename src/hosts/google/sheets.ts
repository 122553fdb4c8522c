/**
 * What a Google Sheet offers besides the functions: a menu that starts ready sheets, shows the pane and takes up formulas of a file, and what
 * the pane asks for. The build adds a function for each, as menus and pages call functions by their names.
 */
import { freeCopy } from "../../ready-sheets/recognise";
import { openLog } from "../../log-file/open-log";
import type { Started } from "../../pane/port";
import { describedReadySheet, readySheetIds, startingFigures, takesLog, withCompanion, type ReadySheetId } from "../../ready-sheets/index";
import { useSpelling } from "../../sheet/spelling";
import { unitsFromText } from "../../sheet/unit-choice";
import { formulasOfFiles } from "./formulas-of-files";
import { keptProblems } from "./kept-problems";
import { spelledForGoogle, starterOf } from "./spelling";
import { chooseUnits, findReadySheets, storedUnits } from "./units";
import { tablesOf, writeDescribedSheet } from "./write-sheet";

/** Where the help pages are served, from the build. */
declare const HELP_ADDRESS: string;

useSpelling(spelledForGoogle);

export function addMenu(): void {
  const ui = SpreadsheetApp.getUi();
  const start = ui.createMenu("Start a sheet");
  const { choice: units } = unitsFromText(null);
  for (const id of readySheetIds) start.addItem(describedReadySheet(id, { units }).name, starterOf(id));
  ui.createMenu("Pucksheet")
    .addSubMenu(start)
    .addItem("Units", "showPucksheetSidebar")
    .addItem("Help", "showPucksheetHelp")
    .addItem("Take up formulas of an opened file", "takeUpPucksheetFormulas")
    .addToUi();
}

export function showSidebar(): void {
  SpreadsheetApp.getUi().showSidebar(HtmlService.createHtmlOutputFromFile("Sidebar").setTitle("Pucksheet"));
}

/** A script opens no pages by itself: a link does. */
export function showHelp(): void {
  const link = `<p><a href="${HELP_ADDRESS}" target="_blank" rel="noopener">Functions and tasks, each with its source and examples</a></p>`;
  const words = `<p>In a cell, ${spelledForGoogle("FUNCTIONS")}("grinder") finds functions, and ${spelledForGoogle("SOURCE")}("RATIO") says where one comes from.</p>`;
  const page = HtmlService.createHtmlOutput(`<body style="font: 14px sans-serif">${link}${words}</body>`).setWidth(420).setHeight(140);
  SpreadsheetApp.getUi().showModalDialog(page, "Help");
}

/** Adds the ready sheet and what comes along with it, and shows it. */
export function startSheet(id: ReadySheetId, example = true): Started {
  const book = SpreadsheetApp.getActiveSpreadsheet();
  const { choice: units } = storedUnits();
  const used = { sheets: book.getSheets().map((sheet) => sheet.getName()), tables: [], names: book.getNamedRanges().map((range) => range.getName()) };
  const { copy, sheets } = freeCopy(id, used);
  const log = takesLog(id) && !example ? openLog(book.getActiveSheet().getDataRange().getValues(), units) : undefined;
  const figures = startingFigures(example, log);
  const descriptions = sheets.map((one) => ({ ...describedReadySheet(one.id, { units, copy, figures }), name: one.name }));
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
  return { sheet: descriptions[0]!.name, ...(log && { logRows: log.rows }) };
}

/** Takes away a ready sheet that was started, and what came along with it. */
export function removeSheet(name: string): void {
  const book = SpreadsheetApp.getActiveSpreadsheet();
  const ready = findReadySheets(book);
  const started = ready.find(({ sheet }) => sheet.getName() === name);
  if (!started) throw new Error(`The sheet “${name}” is no longer there.`);
  const ids = withCompanion(started.id);
  for (const { id, copy, sheet } of ready) if (ids.includes(id) && copy === started.copy) book.deleteSheet(sheet);
}

/** Spells our functions in all formulas as this host does, and tells how many there were. */
export function takeUpFormulas(): void {
  const book = SpreadsheetApp.getActiveSpreadsheet();
  const changed = formulasOfFiles(book);
  const calls = changed === 1 ? "1 formula calls" : `${changed} formulas call`;
  const words = changed === 0 ? "No formula spells functions of Pucksheet as other programs do." : `${calls} functions of Pucksheet by their names here now.`;
  book.toast(words, "Pucksheet");
}

/** What the pane asks for; choices of units travel as texts. */
export const paneServices = {
  units: storedUnits,
  choose: (text: string) => chooseUnits(SpreadsheetApp.getActiveSpreadsheet(), unitsFromText(text).choice),
  start: startSheet,
  remove: removeSheet,
  problems: keptProblems,
};
