/** Finds the ready sheets of a workbook again, by the names they left, and free names for another. */
import { describedReadySheet, readySheetIds, type ReadySheetId } from "./index";
import { defaultUnits } from "../sheet/unit-choice";

/** The name that every ready sheet leaves on its first cell. */
const mark = new RegExp(`^(${readySheetIds.join("|")})(\\d*)_sheet$`, "i");

export interface FoundReadySheet {
  readonly id: ReadySheetId;
  readonly copy: number;
}

/** Which ready sheet a defined name marks, if any. */
export function readySheetOfName(name: string): FoundReadySheet | undefined {
  const match = mark.exec(name);
  if (!match) return undefined;
  const id = readySheetIds.find((it) => it.toLowerCase() === match[1]!.toLowerCase())!;
  return { id, copy: match[2] === "" ? 1 : Number(match[2]) };
}

export interface UsedNames {
  readonly sheets: readonly string[];
  readonly tables: readonly string[];
  readonly names: readonly string[];
}

/** The first copy of a ready sheet none of whose names is in use, and a free name for its sheet. */
export function freeCopy(id: ReadySheetId, used: UsedNames): { copy: number; sheet: string } {
  const taken = new Set([...used.tables, ...used.names].map((name) => name.toLowerCase()));
  const tables = describedReadySheet(id, { units: defaultUnits }).tables.map((table) => table.name.slice(id.length));
  const isTaken = (prefix: string) => {
    const begins = `${prefix}_`.toLowerCase();
    return tables.some((suffix) => taken.has(`${prefix}${suffix}`.toLowerCase())) || [...taken].some((name) => name.startsWith(begins));
  };
  let copy = 1;
  while (isTaken(copy === 1 ? id : `${id}${copy}`)) copy++;
  const sheets = new Set(used.sheets.map((name) => name.toLowerCase()));
  const { name } = describedReadySheet(id, { units: defaultUnits });
  let sheet = copy === 1 ? name : `${name} ${copy}`;
  for (let next = 2; sheets.has(sheet.toLowerCase()); next++) sheet = `${name} ${next}`;
  return { copy, sheet };
}
