/** Tables before and now: which are the same, how they are called, and what their headings are. */
import { address } from "../sheet/references";
import { sameValue } from "./compare";
import type { RelocatedSheet, RelocatedTable, RelocatedWorkbook } from "./relocated-workbook";
import type { TableChange } from "./relocation";
import type { TableColumn } from "./table-columns";
import type { Sheet, Table, Workbook } from "./workbook";

export interface TablePair {
  /** Undefined for a new table. */
  readonly was: RelocatedTable | undefined;
  readonly now: Table;
  /** The columns as they are now: by their place in the table as it was, or new. */
  readonly columns: readonly TableColumn[];
  /** The text of each heading now; undefined where it is as it was. */
  readonly headings: readonly (string | undefined)[];
}

/** The tables of a sheet, those that were there with what they were. */
export function pairTables(before: RelocatedSheet | undefined, sheet: Sheet): TablePair[] {
  const same = (a: string, b: string) => a.toLowerCase() === b.toLowerCase();
  const known = before?.tables ?? [];
  return sheet.tables.map((now) => {
    const byName = known.find(({ name }) => same(name, now.name));
    // A table under another name in the same place is the same table.
    const unnamed = known.filter(({ name }) => !sheet.tables.some((other) => same(other.name, name)));
    const was = byName ?? unnamed.find(({ area }) => area.top === now.area.top && area.left === now.area.left);
    return was && before ? pair(was, now, before.sheet, sheet) : newPair(now, sheet);
  });
}

function pair(was: RelocatedTable, now: Table, before: Sheet, sheet: Sheet): TablePair {
  const columns: TableColumn[] = [];
  const headings: (string | undefined)[] = [];
  const taken = new Set<string>();
  for (let column = now.area.left; column <= now.area.right; column++) {
    const place = column - was.area.left;
    const isKnown = place >= 0 && place < was.columns.length && !was.inserted.has(place);
    const text = headingText(sheet, now, column);
    const unchanged = isKnown && (now.headless || sameValue(headingValue(before, was, column), headingValue(sheet, now, column)));
    const heading = unchanged ? undefined : unusedHeading(text, taken);
    taken.add((heading ?? was.columns[place] ?? "").toLowerCase());
    headings.push(heading);
    columns.push(place >= 0 && place < was.columns.length ? place : { heading: heading! });
  }
  return { was, now, columns, headings };
}

function newPair(now: Table, sheet: Sheet): TablePair {
  const taken = new Set<string>();
  const headings = now.columns.map((_, index) => {
    const heading = unusedHeading(headingText(sheet, now, now.area.left + index), taken);
    taken.add(heading.toLowerCase());
    return heading;
  });
  return { was: undefined, now, headings, columns: headings.map((heading) => ({ heading })) };
}

function headingValue({ cells }: Sheet, { area, headless }: Pick<Table, "area" | "headless">, column: number) {
  return headless ? undefined : cells[area.top]?.[column]?.value;
}

function headingText(sheet: Sheet, table: Table, column: number): string {
  const value = headingValue(sheet, table, column);
  const text = value === undefined || typeof value === "object" ? "" : String(value);
  return text !== "" ? text : (table.columns[column - table.area.left] ?? "");
}

/** Excel tells columns apart by their headings, so each has one of its own. `taken` are those of the others, in lower case. */
export function unusedHeading(heading: string, taken: ReadonlySet<string>): string {
  const start = heading === "" ? "Column" : heading;
  let free = heading === "" ? "Column1" : heading;
  for (let number = 2; taken.has(free.toLowerCase()); number++) free = `${start}${number}`;
  return free;
}

/** What formulas have to follow, by the names of tables in capitals. */
export function tableChanges(before: RelocatedWorkbook, now: Workbook): Map<string, TableChange> {
  const changes = new Map<string, TableChange>();
  const all = before.sheets.flatMap(({ tables, goneTables }) => [...tables.map(({ name }) => name), ...goneTables]);
  // Gone, unless it is found among those that are there now.
  for (const name of all) changes.set(name.toUpperCase(), { name: undefined, headings: new Map() });
  for (const sheet of now.sheets) {
    const was = before.sheets.find((one) => one.sheet.name === sheet.name);
    for (const { was: table, now: is, headings, columns } of pairTables(was, sheet)) {
      if (!table) continue;
      const renamed = new Map<string, string | undefined>(table.gone.map((heading) => [heading.toLowerCase(), undefined]));
      columns.forEach((column, index) => {
        const old = typeof column === "number" ? table.columns[column] : undefined;
        if (old && headings[index] !== undefined && headings[index] !== old) renamed.set(old.toLowerCase(), headings[index]);
      });
      table.columns.forEach((heading, place) => {
        if (heading !== "" && !columns.includes(place)) renamed.set(heading.toLowerCase(), undefined);
      });
      if (renamed.size > 0 || table.name !== is.name) changes.set(table.name.toUpperCase(), { name: is.name, headings: renamed });
      else changes.delete(table.name.toUpperCase());
    }
  }
  return changes;
}

/**
 * The workbook with a text of its own in each heading that is new or changed, as Excel has it; `warnings` gets those that had none, as full
 * sentences.
 */
export function withSettledHeadings(before: RelocatedWorkbook, now: Workbook, warnings: string[]): Workbook {
  const sheets = now.sheets.map((sheet) => {
    const was = before.sheets.find((one) => one.sheet.name === sheet.name);
    const cells = sheet.cells.slice();
    let settled = false;
    for (const { now: table, headings } of pairTables(was, sheet)) {
      if (table.headless) continue;
      headings.forEach((heading, index) => {
        const { top, left } = table.area;
        const cell = sheet.cells[top]?.[left + index];
        if (heading === undefined || cell?.value === heading) return;
        if (String(cell?.value ?? "") !== heading) {
          warnings.push(`“${sheet.name}”: ${address(top, left + index)} has to hold a heading of its own in the table ${table.name}; in the copy it is “${heading}”.`);
        }
        const line = (cells[top] ?? []).slice();
        line[left + index] = { value: heading, ...(cell?.style && { style: cell.style }) };
        cells[top] = line;
        settled = true;
      });
    }
    return settled ? { ...sheet, cells } : sheet;
  });
  return { ...now, sheets };
}
