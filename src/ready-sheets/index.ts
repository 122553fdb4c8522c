/** The ready sheets that a person can start from, in the order in which they are offered. */
import type { UnitChoice } from "../sheet/unit-choice";
import { dialIn } from "./dial-in";
import { exampleFigures } from "./example-figures";
import { logAudit } from "./log-audit";
import { recipeCard } from "./recipe-card";
import { settingTrial } from "./setting-trial";
import type { Figures } from "./sheet-builder";
import type { SheetDescription } from "./sheet-description";
import { shotLog } from "./shot-log";
import { tastingSession } from "./tasting-session";
import { water } from "./water";

type Describe = (units: UnitChoice, prefix: string, figures: Figures) => SheetDescription;

/** Each with what its names begin with. */
const describers = {
  ShotLog: shotLog,
  DialIn: dialIn,
  Trial: settingTrial,
  Recipe: recipeCard,
  Tasting: tastingSession,
  Water: water,
  Audit: logAudit,
} satisfies Record<string, Describe>;

export type ReadySheetId = keyof typeof describers;

export const readySheetIds = Object.keys(describers) as ReadySheetId[];

export interface StartOptions {
  readonly units: UnitChoice;
  /** Which sheet of this kind it is in the workbook: 1 for the first. */
  readonly copy?: number;
  /** What stands in the input cells: nothing, invented example figures, or those given. */
  readonly figures?: "none" | "example" | Figures;
}

export function describedReadySheet(id: ReadySheetId, { units, copy = 1, figures = "none" }: StartOptions): SheetDescription {
  const given = figures === "none" ? {} : figures === "example" ? exampleFigures[id] : figures;
  return describers[id](units, copy === 1 ? id : `${id}${copy}`, given);
}
