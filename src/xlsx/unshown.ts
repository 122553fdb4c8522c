/** What a file holds that this page does not show. A copy keeps all of it. */
import type { Package } from "./package";
import { readWorkbookPart, worksheetPart } from "./workbook-part";

/** As a person names it, by the parts of the file that hold it. */
const byPart: readonly [string, RegExp][] = [
  ["charts", /^xl\/(charts\/chart(?:Ex)?\d*|chartsheets\/[^/]+)\.xml$/i],
  ["images", /^xl\/media\//i],
  ["macros", /vbaProject\.bin$/i],
  ["pivot tables", /^xl\/pivotTables\/[^/]+\.xml$/i],
  ["slicers or timelines", /^xl\/(slicers|timelines)\/[^/]+\.xml$/i],
  ["comments", /^xl\/(threadedComments\/|comments)[^/]*\.xml$/i],
  ["links to other workbooks", /^xl\/externalLinks\/[^/]+\.xml$/i],
  ["data connections", /^xl\/(connections\.xml|queryTables\/[^/]+\.xml)$/i],
  ["the data model", /^xl\/model\//i],
  ["embedded objects or controls", /^xl\/(embeddings|activeX|ctrlProps)\//i],
];

/** The same by what stands in the sheets. */
const inSheets: readonly [string, RegExp][] = [
  ["conditional formatting", /<(?:\w+:)?conditionalFormatting[ >]/],
  ["data validation", /<(?:\w+:)?dataValidation[ >]/],
  ["sheet protection", /<(?:\w+:)?sheetProtection[ /]/],
  ["filters", /<(?:\w+:)?filterColumn[ >]/],
  ["sparklines", /<(?:\w+:)?sparklineGroup[ >]/],
  ["hyperlinks", /<(?:\w+:)?hyperlink[ >]/],
  ["grouped rows or columns", /outlineLevel="[1-9]/],
  ["headers and footers", /<(?:\w+:)?(odd|even|first)(Header|Footer)>/],
];

/** So many parts or sheets hold it. */
export interface Unshown {
  readonly what: string;
  readonly count: number;
}

export function unshownIn(file: Package): Unshown[] {
  const count = (pattern: RegExp) => file.names.filter((name) => pattern.test(name)).length;
  const found = byPart.map(([what, pattern]) => ({ what, count: count(pattern) }));
  if (count(/^xl\/(charts|chartsheets|media)\//i) === 0) found.push({ what: "shapes", count: count(/^xl\/drawings\/drawing[^/]*\.xml$/i) });
  const parts = readWorkbookPart(file).sheets.flatMap((entry) => {
    const part = worksheetPart(file, entry);
    return part === undefined ? [] : [part, ...file.relationsOf(part).flatMap(({ type, target }) => (type === "table" ? [target] : []))];
  });
  const texts = parts.map((part) => file.text(part) ?? "");
  const inTexts = inSheets.map(([what, pattern]) => ({ what, count: texts.filter((xml) => pattern.test(xml)).length }));
  return [...found, ...inTexts].filter((it) => it.count > 0);
}
