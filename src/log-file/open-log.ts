/** The log that stands in a sheet, as it was kept, for a ready sheet that takes it over. */
import { attempted, Problem } from "../../shared/problem";
import { isNumber, quantity } from "../../shared/quantities";
import { toCanonical } from "../../shared/units";
import { chosenUnit, type UnitChoice } from "../sheet/unit-choice";
import { columnsOf, mostRowsAboveHeading, type Field } from "./columns";

type Cell = number | string | undefined;

export interface OpenLog {
  /** The rows under the headings, as far as something stands in them. */
  readonly rows: number;
  /** The columns by the headings of ready sheets, in canonical units; texts as they were typed. */
  readonly columns: { readonly [heading: string]: readonly Cell[] };
}

const taken = [["Setting", "setting"], ["Dose", "dose"], ["Beverage", "beverage"], ["Time", "time"], ["Strength", "strength"]] as const satisfies readonly (readonly [string, Field])[];

/** What else a log may have. Common practice, no source. */
const words = [
  ["Day", /^(?:day|date|tag|datum|jour|giorno|data|día|fecha)$/], ["Coffee", /^(?:coffee|beans?|kaffee|bohnen|café|caffè)$/], ["Note", /^(?:notes?|comments?|remarks?|notiz(?:en)?)$/],
] as const;

/** The log in these cells; undefined where they hold none. `units` are those of numbers whose headings name no unit. */
export function openLog(cells: readonly (readonly unknown[] | undefined)[], units: UnitChoice): OpenLog | undefined {
  const texts = Array.from(cells.slice(0, mostRowsAboveHeading), (line) => Array.from(line ?? [], (cell) => (typeof cell === "string" ? cell : "")));
  for (const [row, line] of texts.entries()) {
    const found = headingsIn(line);
    if (found) return taking(cells.slice(row + 1), line, found, units);
  }
  return undefined;
}

type Found = NonNullable<ReturnType<typeof columnsOf>>;

/** The whole row, or where two of its columns are headed alike, the first of the tables that stand side by side in it. */
function headingsIn(line: readonly string[]): Found | undefined {
  for (const headings of [line, ...tablesIn(line)]) {
    const found = attempted(() => columnsOf(headings, {}));
    if (!(found instanceof Problem) && found?.dose && found.beverage && found.time) return found;
  }
  return undefined;
}

/** Headings without a gap between them, each table with blanks in the place of the others. */
function tablesIn(line: readonly string[]): string[][] {
  const starts = line.flatMap((text, index) => (text.trim() !== "" && (line[index - 1] ?? "").trim() === "" ? [index] : []));
  return starts.map((start) => {
    const length = line.slice(start).findIndex((text) => text.trim() === "");
    const end = length < 0 ? line.length : start + length;
    return line.map((text, index) => (index >= start && index < end ? text : ""));
  });
}

function taking(rows: readonly (readonly unknown[] | undefined)[], headings: readonly string[], found: Found, units: UnitChoice): OpenLog | undefined {
  const at = (index: number): Cell[] => Array.from(rows, (line) => typed(line?.[index]));
  const columns: Record<string, Cell[]> = {};
  for (const [heading, field] of taken) {
    const column = found[field];
    if (!column) continue;
    const record = field === "setting" ? undefined : quantity(field);
    const unit = record && isNumber(record) && record.measure ? chosenUnit(units, record.measure) : undefined;
    const canonical = (value: number): number => (column.bareUnit !== 1 ? value * column.bareUnit : unit ? toCanonical(value, unit) : value);
    columns[heading] = at(column.index).map((cell) => (typeof cell === "number" ? canonical(cell) : cell));
  }
  const used = new Set(Object.values(found).map(({ index }) => index));
  for (const [heading, pattern] of words) {
    const index = headings.findIndex((text, place) => !used.has(place) && pattern.test(text.trim().toLowerCase()));
    if (index >= 0) columns[heading] = at(index).map((cell) => (heading === "Day" && typeof cell === "number" ? dayOf(cell) : cell));
  }
  let last = rows.length - 1;
  const isEmpty = (row: number): boolean => taken.every(([heading]) => heading === "Setting" || columns[heading]?.[row] === undefined);
  while (last >= 0 && isEmpty(last)) last--;
  if (last < 0) return undefined;
  return { rows: last + 1, columns: Object.fromEntries(Object.entries(columns).map(([heading, values]) => [heading, values.slice(0, last + 1)])) };
}

function typed(cell: unknown): Cell {
  if (typeof cell === "number") return cell;
  if (cell instanceof Date) return cell.toISOString().slice(0, 10);
  const text = cell === undefined || cell === null ? "" : String(cell).trim();
  return text === "" ? undefined : text;
}

/** A date as sheets number them, from 1900 on; another number names a day. */
function dayOf(day: number): Cell {
  const [from, to] = [20_000, 80_000];
  return day > from && day < to ? new Date(Math.floor(day - 25_569) * 86_400_000).toISOString().slice(0, 10) : day;
}
