/** Finds the ready sheets of a workbook again, by the names they left, and free names for another. */
import { allReadySheetIds, describedReadySheet, withCompanion, type ReadySheetId } from "./index";
import { defaultUnits } from "../sheet/unit-choice";

/** The name that every ready sheet leaves on its first cell. */
const mark = new RegExp(`^(${allReadySheetIds.join("|")})(\\d*)_sheet$`, "i");

export interface FoundReadySheet {
  readonly id: ReadySheetId;
  readonly copy: number;
}

/** Which ready sheet a defined name marks, if any. */
export function readySheetOfName(name: string): FoundReadySheet | undefined {
  const match = mark.exec(name);
  if (!match) return undefined;
  const id = allReadySheetIds.find((it) => it.toLowerCase() === match[1]!.toLowerCase())!;
  return { id, copy: match[2] === "" ? 1 : Number(match[2]) };
}

export interface UsedNames {
  readonly sheets: readonly string[];
  readonly tables: readonly string[];
  readonly names: readonly string[];
}

/** A sheet to be started, and what it is to be called. */
export interface StartedSheet {
  readonly id: ReadySheetId;
  readonly name: string;
}

/** The first copy of a ready sheet none of whose names is in use, and free names for its sheet and for what comes along with it. */
export function freeCopy(id: ReadySheetId, used: UsedNames): { readonly copy: number; readonly sheets: readonly StartedSheet[] } {
  const taken = [...used.tables, ...used.names].map((name) => name.toLowerCase());
  const ids = withCompanion(id);
  let copy = 1;
  while (ids.some((one) => isTaken(one, copy, taken))) copy++;
  const names = new Set(used.sheets.map((name) => name.toLowerCase()));
  return { copy, sheets: ids.map((one) => ({ id: one, name: freeName(one, copy, names) })) };
}

function isTaken(id: ReadySheetId, copy: number, taken: readonly string[]): boolean {
  const begins = (copy === 1 ? `${id}_` : `${id}${copy}_`).toLowerCase();
  const tables = describedReadySheet(id, { units: defaultUnits, copy }).tables.map(({ name }) => name.toLowerCase());
  return taken.some((name) => name.startsWith(begins) || tables.includes(name));
}

function freeName(id: ReadySheetId, copy: number, taken: ReadonlySet<string>): string {
  const { name } = describedReadySheet(id, { units: defaultUnits });
  let free = copy === 1 ? name : `${name} ${copy}`;
  for (let next = 2; taken.has(free.toLowerCase()); next++) free = `${name} ${next}`;
  return free;
}
