/* eslint-disable @typescript-eslint/no-explicit-any -- Excel hands over cells of any kind, and its metadata reader takes only types spelled out here */
import * as about from "../help/about";
import { withCatalogue } from "../help/catalogue";
import { each, given, optional } from "../sheet/arguments";
import { calculate } from "../sheet/calculate";
import { gives } from "../sheet/results";
import { unitsTable } from "../sheet/units-table";

/**
 * The units that this workbook uses.
 * @customfunction UNITS
 * @returns A table: quantity, unit of this workbook; and a note where the settings of the file could not be read.
 * @equation None.
 * @source Settings of this workbook.
 * @words ounces, grams, fahrenheit, celsius, settings
 * @example =ESPRESSO.UNITS() gives a table
 * @since 0.1.0
 */
export function UNITS(): any[][] {
  return unitsTable();
}

/**
 * The version of Pucksheet that calculates this sheet.
 * @customfunction VERSION
 * @returns The version as text.
 * @equation None.
 * @source This project's change log.
 * @words release, update
 * @example =ESPRESSO.VERSION() gives a text
 * @since 0.1.0
 */
export function VERSION(): any[][] {
  return [[about.version()]];
}

/**
 * Where a function comes from: its equation in words, its source, the published range and cautions.
 * @customfunction SOURCE
 * @param name Name of a function, with or without ESPRESSO.
 * @returns A table: equation, source, range, caution.
 * @equation None.
 * @source The help page of each function.
 * @words where from, formula, citation, reference, paper, why trust
 * @example =ESPRESSO.SOURCE("RATIO") gives a table
 * @since 0.1.0
 */
export function SOURCE(name: any[][]): any[][] {
  return withCatalogue((catalogue) =>
    calculate(about.source, { name: each(name, "functionName"), catalogue: given(() => catalogue) }, gives.table("item", "words"))) as any[][];
}

/**
 * The functions and what each gives, all of them or those that match some words.
 * @customfunction FUNCTIONS
 * @param [search] Words to look for. All functions if left out.
 * @returns A table: function, what it gives.
 * @equation None.
 * @source The help page of each function.
 * @words list, search, find, help, what is there
 * @example =ESPRESSO.FUNCTIONS("extraction") gives a table
 * @since 0.1.0
 */
export function FUNCTIONS(search?: any[][]): any[][] {
  return withCatalogue((catalogue) =>
    calculate(about.functions, { search: optional(search), catalogue: given(() => catalogue) }, gives.table("function", "gives"))) as any[][];
}
