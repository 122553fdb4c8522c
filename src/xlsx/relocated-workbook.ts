/** A workbook of this page as it reads after the edits of a journal, with nothing else changed. */
import type { Axis, Relocation } from "./relocation";
import type { DefinedName, Filter, Sheet, Table, Workbook } from "./workbook";

/** Columns of a table by their headings; undefined for one that was inserted. */
export interface RelocatedTable extends Omit<Table, "columns"> {
  readonly columns: string[];
  readonly inserted: ReadonlySet<number>;
  /** Headings of columns that are gone. */
  readonly gone: readonly string[];
}

export interface RelocatedSheet {
  readonly sheet: Sheet;
  readonly tables: readonly RelocatedTable[];
  /** Names of tables of which nothing is left. */
  readonly goneTables: readonly string[];
  /** What it was called in the opened file. */
  readonly openedAs: string;
}

export interface RelocatedWorkbook {
  readonly sheets: readonly RelocatedSheet[];
  readonly names: readonly DefinedName[];
}

export function relocatedWorkbook(workbook: Workbook, relocation: Relocation): RelocatedWorkbook {
  return {
    sheets: workbook.sheets.flatMap((sheet) => {
      const name = relocation.sheet(sheet.name);
      return name === undefined ? [] : [relocatedSheet(sheet, name, relocation)];
    }),
    names: workbook.names.flatMap((entry) => {
      const sheet = entry.sheet === undefined ? undefined : relocation.sheet(entry.sheet);
      if (entry.sheet !== undefined && sheet === undefined) return [];
      return [{ ...entry, refersTo: relocation.formula(entry.refersTo, entry.sheet ?? ""), ...(sheet !== undefined && { sheet }) }];
    }),
  };
}

function relocatedSheet(sheet: Sheet, name: string, relocation: Relocation): RelocatedSheet {
  const openedAs = sheet.name;
  const moved = <T>(list: readonly (T | undefined)[], axis: Axis): (T | undefined)[] => {
    if (!relocation.shifts(openedAs, axis)) return [...list];
    const result: (T | undefined)[] = [];
    list.forEach((item, index) => {
      const to = relocation.line(openedAs, axis, index);
      if (to !== undefined) result[to] = item;
    });
    return result;
  };
  const cells = moved(sheet.cells, "row").map((line) => line && moved(line, "column")) as Sheet["cells"];
  const tables = sheet.tables.flatMap((table) => relocatedTable(table, openedAs, relocation) ?? []);
  const { filter: filterBefore, ...rest } = sheet;
  const filter = filterBefore && relocatedFilter(filterBefore, openedAs, relocation);
  return {
    openedAs,
    tables,
    goneTables: sheet.tables.map((table) => table.name).filter((table) => !tables.some(({ name: left }) => left === table)),
    sheet: {
      ...rest,
      ...(filter && { filter }),
      name,
      cells,
      rows: moved(sheet.rows, "row"),
      columns: moved(sheet.columns, "column"),
      merges: sheet.merges.flatMap((area) => relocation.area(openedAs, area) ?? []).filter(({ top, left, bottom, right }) => bottom > top || right > left),
      tables: tables.map(({ inserted: _, gone: __, ...table }) => table),
    },
  };
}

function relocatedFilter({ area: before, columns }: Filter, sheet: string, relocation: Relocation): Filter | undefined {
  const area = relocation.area(sheet, before);
  if (!area) return undefined;
  const moved = columns.flatMap((rule) => {
    const column = relocation.line(sheet, "column", rule.column);
    return column === undefined ? [] : [{ ...rule, column }];
  });
  return { area, columns: moved };
}

function relocatedTable(table: Table, sheet: string, relocation: Relocation): RelocatedTable | undefined {
  const area = relocation.area(sheet, table.area);
  if (!area) return undefined;
  const columns: string[] = Array.from({ length: area.right - area.left + 1 }, () => "");
  const inserted = new Set(columns.keys());
  const gone: string[] = [];
  table.columns.forEach((heading, index) => {
    const to = relocation.line(sheet, "column", table.area.left + index);
    const place = to === undefined ? -1 : to - area.left;
    if (place < 0 || place >= columns.length) gone.push(heading);
    else {
      columns[place] = heading;
      inserted.delete(place);
    }
  });
  return { ...table, area, columns, inserted, gone };
}
