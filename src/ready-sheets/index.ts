/** The ready sheets that a person can start from, in the order in which they are offered. */
import type { UnitChoice } from "../sheet/unit-choice";
import { auditReport } from "./audit-report";
import { checkInstallation } from "./check-installation";
import { dialIn } from "./dial-in";
import { instruments } from "./instruments";
import { logAudit } from "./log-audit";
import { morning } from "./morning";
import type { Figures, ReadySheet } from "./ready-sheet";
import { recipeCard } from "./recipe-card";
import { settingTrial } from "./setting-trial";
import { SheetBuilder } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { shotLog } from "./shot-log";
import { tastingPanel } from "./tasting-panel";
import { tastingSession } from "./tasting-session";
import { water } from "./water";

/** Each with what its names begin with. */
const readySheets = {
  ShotLog: shotLog,
  Morning: morning,
  DialIn: dialIn,
  Trial: settingTrial,
  Recipe: recipeCard,
  Tasting: tastingSession,
  Panel: tastingPanel,
  Water: water,
  Audit: logAudit,
  AuditReport: auditReport,
  Instruments: instruments,
  Check: checkInstallation,
} satisfies Record<string, ReadySheet>;

export type ReadySheetId = keyof typeof readySheets;

/** All of them, with those that only come along. */
export const allReadySheetIds = Object.keys(readySheets) as ReadySheetId[];

const companions: ReadonlySet<string> = new Set(allReadySheetIds.flatMap((id) => readySheet(id).companion ?? []));

export const readySheetIds = allReadySheetIds.filter((id) => !companions.has(id));

function readySheet(id: ReadySheetId): ReadySheet {
  return readySheets[id];
}

/** The sheet and what comes along with it. */
export function withCompanion(id: ReadySheetId): ReadySheetId[] {
  const { companion } = readySheet(id);
  return companion === undefined ? [id] : [id, companion as ReadySheetId];
}

/** Whether the log in sight comes along when it is started. */
export function takesLog(id: ReadySheetId): boolean {
  return readySheet(id).takesLog === true;
}

/** What stands in a sheet at its start: the rows of a log that comes along, else example figures where they are wanted. */
export function startingFigures(example: boolean, log?: { readonly columns: NonNullable<Figures["columns"]>[string] }): NonNullable<StartOptions["figures"]> {
  return log ? { columns: { "": log.columns } } : example ? "example" : "none";
}

export interface StartOptions {
  readonly units: UnitChoice;
  /** Which sheet of this kind it is in the workbook: 1 for the first. */
  readonly copy?: number;
  /** What stands in the input cells: nothing, invented example figures, or those given. */
  readonly figures?: "none" | "example" | Figures;
}

export function describedReadySheet(id: ReadySheetId, { units, copy = 1, figures = "none" }: StartOptions): SheetDescription {
  const { describe, example } = readySheet(id);
  const given = figures === "none" ? {} : figures === "example" ? example : figures;
  return describe(new SheetBuilder(units, id, copy, given));
}
