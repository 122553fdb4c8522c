/** What the pane needs from the workbook it sits beside. Excel and the browser sheet each provide one; the pane knows neither. */
import type { RecentProblem } from "../sheet/recent-problems";
import type { UnitChoice } from "../sheet/unit-choice";
import type { ReadySheetId } from "../ready-sheets/index";
import type { UnitsInUse } from "../sheet/workbook-units";

/** How many typed numbers were converted, on how many ready sheets. */
export interface Converted {
  readonly numbers: number;
  readonly sheets: number;
}

/** What a change of units brought along. */
export interface ChangedUnits {
  readonly converted: Converted;
  /** How many formula cells use our functions; undefined where they could not be counted. */
  readonly formulas: number | undefined;
}

/** Formulas of ours that show #NAME? because the program that opened the file has not taken them up. */
export interface FormulasOfFile {
  /** How many there are. Never rejects. */
  countNotTakenUp(): Promise<number>;
  /** Enters these anew, all or none. Rejects with a full sentence. */
  enterAnew(): Promise<Entered>;
}

/** What was entered anew, and the way back. */
export interface Entered {
  readonly formulas: number;
  readonly sheets: number;
  /** Puts back what the cells held before, where they still hold what was entered; answers how many. Rejects with a full sentence. */
  takeBack(): Promise<number>;
}

/** A ready sheet that was started. */
export interface Started {
  readonly sheet: string;
  /** How many rows of the log in sight came along. */
  readonly logRows?: number;
}

export interface PanePort {
  /** The workbook's units, once they are known. Never rejects: where they could not be read, they are the defaults with a note. */
  readUnits(): Promise<UnitsInUse>;
  /**
   * Keeps the choice in the workbook, converts the numbers typed into ready sheets, so that none stands under another unit than it was typed in,
   * hands the choice to the functions and recalculates every formula.
   * Rejects, with a full sentence as the message, where that failed; units and numbers are then unchanged.
   */
  writeUnits(choice: UnitChoice): Promise<ChangedUnits>;
  /**
   * Calls back when the units changed otherwise than by `writeUnits`: because another file was opened, by the program's own Undo or Redo, or by
   * others who have the workbook open.
   * Returns the way to stop.
   */
  onUnits(listener: (because: "file" | "undo" | "others") => void): () => void;
  /** The program's own Undo takes back all that the pane does, which then has none. */
  readonly oneUndo?: true;
  /**
   * Adds a ready sheet, empty or with invented example figures, and shows it. One that takes a log has the rows of the log in sight.
   * Rejects with a full sentence where that failed; nothing of the sheet is then left.
   * Missing where the program offers ready sheets itself: the pane is then about units alone.
   */
  startSheet?(id: ReadySheetId, example: boolean): Promise<Started>;
  /** Takes a sheet away that was started; not where there is one Undo for all. Rejects with a full sentence. */
  removeStarted?(sheet: string): Promise<void>;
  /** Only where files are read by a program that is not ours. */
  readonly formulasOfFile?: FormulasOfFile;
  /** What the functions refused lately, most recent first. */
  recentProblems(): readonly RecentProblem[];
  /** Calls back after the list of problems has changed; returns the way to stop. */
  onProblems(listener: () => void): () => void;
  readonly version: string;
  /** Where the help pages start, as the page sees it. */
  readonly helpAddress: string;
}
