/** The units of the workbook that is open: kept as the text that its file carries, handed to the functions, and offered to the pane. */
import { projectVersion } from "../../help/version";
import type { PanePort } from "../../pane/port";
import type { FunctionsLink } from "../../sheet/bundle-interface";
import { unitsFromText, unitsToText, type UnitChoice } from "../../sheet/unit-choice";

export class WorkbookSettings {
  private kept: string | undefined;
  private readonly listeners = new Set<() => void>();

  /**
   * `recalculate` answers how many cells hold one of our functions, after showing results in other units; `changed` is told when the workbook
   * is no longer as it was saved; `readySheets` are the pane's dealings with ready sheets.
   */
  constructor(
    private readonly link: FunctionsLink,
    private readonly recalculate: (before: UnitChoice, after: UnitChoice) => Promise<number>,
    private readonly changed: () => void,
    private readonly readySheets: Pick<PanePort, "startSheet" | "removeStarted" | "convertInputs">,
  ) {}

  /** The text that the file is to carry; undefined where the workbook has never chosen. */
  get text(): string | undefined {
    return this.kept;
  }

  get choice(): UnitChoice {
    return this.link.units()!.choice;
  }

  /** Takes up what a file says, before its formulas are calculated. Answers what to tell the person where it could not be read. */
  takeUp(text: string | undefined): string | undefined {
    const { choice, note } = unitsFromText(text);
    this.kept = text;
    this.link.useUnits(choice, note);
    for (const listener of this.listeners) listener();
    return note;
  }

  get panePort(): PanePort {
    const { link } = this;
    return {
      readUnits: () => Promise.resolve(link.units()!),
      writeUnits: (choice) => this.choose(choice),
      onUnits: (listener) => {
        this.listeners.add(listener);
        return () => this.listeners.delete(listener);
      },
      ...this.readySheets,
      recentProblems: () => link.recentProblems(),
      onProblems: (listener) => link.onProblems(listener),
      version: projectVersion,
      helpAddress: "functions/index.html",
    };
  }

  private choose(choice: UnitChoice): Promise<number> {
    const before = this.choice;
    this.kept = unitsToText(choice);
    this.link.useUnits(choice);
    this.changed();
    return this.recalculate(before, choice);
  }
}
