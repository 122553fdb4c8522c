/** The units of the workbook that is open: kept as the text that its file carries, handed to the functions, and offered to the pane. */
import { projectVersion } from "../../help/version";
import type { ChangedUnits, PanePort } from "../../pane/port";
import type { FunctionsLink } from "../../sheet/bundle-interface";
import { unitsFromText, unitsToText, type UnitChoice } from "../../sheet/unit-choice";

export class WorkbookSettings {
  private kept: string | undefined;
  private readonly listeners = new Set<(because: "file" | "undo") => void>();
  private choosing = false;

  /**
   * `change` makes the workbook one of other units, with the text that it is to carry, as a step of Undo that comes back to `use`.
   */
  constructor(
    private readonly link: FunctionsLink,
    private readonly change: (before: UnitChoice, after: UnitChoice, text: string) => Promise<ChangedUnits>,
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
    for (const listener of this.listeners) listener("file");
    return note;
  }

  /** Takes up what a step of Undo says the file is to carry. */
  use(text: string | undefined): void {
    const { choice, note } = unitsFromText(text);
    this.kept = text;
    this.link.useUnits(choice, note);
    if (!this.choosing) for (const listener of this.listeners) listener("undo");
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
      oneUndo: true,
      recentProblems: () => link.recentProblems(),
      onProblems: (listener) => link.onProblems(listener),
      version: projectVersion,
      helpAddress: "../functions/index.html",
    };
  }

  private async choose(choice: UnitChoice): Promise<ChangedUnits> {
    this.choosing = true;
    try {
      return await this.change(this.choice, choice, unitsToText(choice));
    } finally {
      this.choosing = false;
    }
  }
}
