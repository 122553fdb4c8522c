/** What the log audit and its report both read: the log as it was kept, the same as numbers, and what is judged. */
import { call, quoted } from "./formulas";
import { unitFormula, type SheetBuilder } from "./sheet-builder";

/** Rows that are judged; a sheet is comfortable to about as many. */
export const mostRows = 20_000;

/** What can be judged, with the measure of its limits and what stands there at first: common practice of the trade. */
export const judged = [
  { what: "Shot time", name: "time", kind: "time", measure: "time", low: 24, high: 30 },
  { what: "Dose", name: "dose", kind: "dose", measure: "mass", low: 17.5, high: 18.5 },
  { what: "Beverage", name: "beverage", kind: "beverage", measure: "mass", low: 34, high: 38 },
  { what: "Strength", name: "strength", kind: "strength", measure: "percent", low: 8.5, high: 10.5 },
] as const;

const typedColumns = ["Dose", "Beverage", "Time", "Strength"] as const;

/** Formulas over the table of the log, which belongs to the audit. */
export function auditedLog(sheet: SheetBuilder) {
  const prefix = sheet.prefixOf("Audit");
  const column = (heading: string) => `${prefix}[${heading}]`;
  const typed = typedColumns.map(column);
  const isShot = `${typed.map((list) => `(${list}<>"")`).join("+")}>0`;
  // MAX, as the grid takes what MATCH gives for a list, and CHOOSE then for the choice of each of its elements.
  const place = `MAX(1,MATCH(${prefix}_judge,{${judged.map(({ what }) => quoted(what)).join(",")}},0))`;
  const chosen = (parts: readonly string[]) => `CHOOSE(${place},${parts.join(",")})`;
  const numbers = (list: string) => `IF(ISNUMBER(${list}),${list},"")`;
  return {
    column,
    typed,
    isShot,
    named: (name: string) => `${prefix}_${name}`,
    shots: `SUM(IF(${isShot},1,0))`,
    /** A column that a formula fills beside the log, from its first cell on: as many rows as the log has, for what lies beyond takes time too. */
    asLong: (from: string) => `${from}:INDEX(${from}:${from.replace(/\d+$/, (row) => String(Number(row) + mostRows - 1))},MAX(1,ROWS(${typed[0]!})),1)`,
    /** The rows as numbers; an error in a row stays in that row. */
    read: `IFERROR(${call("READ.LOG", ...typed)},CHOOSE({1,2,3,4,5},"","","","","This row holds an error."))`,
    /** What is judged, of the columns dose, beverage, time and strength as they were read. */
    values: ([dose, beverage, time, strength]: readonly string[]) => numbers(chosen([time!, dose!, beverage!, strength!])),
    numbers,
    low: chosen(judged.map(({ name }) => `${prefix}_${name}_low`)),
    high: chosen(judged.map(({ name }) => `${prefix}_${name}_high`)),
    unit: chosen(judged.map(({ measure }) => unitFormula(measure))),
    /** The same from cells that hold the units one under the other. */
    unitIn: (column: string, row: number) => chosen(judged.map((_, index) => `$${column}$${row + index}`)),
    what: `${prefix}_judge`,
  };
}
