/** What the pane does to the workbook: one thing at a time, each told in words and each with its way back. */
import { measureNames, type UnitChoice } from "../sheet/unit-choice";
import type { MeasureName } from "../../shared/units";
import type { ReadySheetId } from "../ready-sheets/index";
import type { PanePort } from "./port";
import { Undo, type WayBack } from "./undo";
import type { PaneView } from "./view";
import {
  changedElsewhereInWords,
  changeInWords,
  convertedInWords,
  enteredInWords,
  notTakenUpInWords,
  offerToEnterInWords,
  recalculatedInWords,
  startedInWords,
  takenBackInWords,
} from "./words";

/** A change that takes longer than this, ms, is announced as under way. */
const noticeAfter = 400;

export class Writing {
  /** The units that the workbook has, and those a person wants; undefined until they are known. */
  private current: UnitChoice | undefined;
  private wanted: UnitChoice | undefined;
  private underWay = false;
  private readonly done = new Undo();

  constructor(private readonly port: PanePort, private readonly view: PaneView) {}

  /** Takes up the units of the workbook that is open. */
  async readUnits(because: "file" | "undo" | "others" = "file"): Promise<void> {
    this.view.showBusy(true);
    const { choice, note } = await this.port.readUnits();
    const words = because === "file" || !this.current ? "Nothing changed so far." : changedElsewhereInWords(because, changeInWords(this.current, choice));
    this.current = choice;
    this.wanted = choice;
    this.done.forget();
    this.view.withdrawOffer();
    this.view.showUnits(choice);
    this.view.showUndo(false);
    this.view.say(note ?? words);
    this.view.showBusy(false);
    await this.offerToEnterAnew();
  }

  choose(measure: MeasureName, unit: string): void {
    if (!this.wanted) return;
    this.wanted = { ...this.wanted, [measure]: unit };
    void this.settle();
  }

  async start(id: ReadySheetId, example: boolean): Promise<void> {
    await this.alone(async () => {
      const started = await this.port.startSheet!(id, example);
      this.did(async () => {
        await this.port.removeStarted!(started.sheet);
        return `Undone. The sheet “${started.sheet}” is gone.`;
      });
      return startedInWords(started, example);
    });
  }

  async undo(): Promise<void> {
    if (this.done.possible) await this.alone(() => this.done.last());
  }

  /** Writes what is wanted until the workbook has it. Choices made meanwhile go into the next round together. */
  private async settle(): Promise<void> {
    if (this.underWay) return;
    this.underWay = true;
    while (this.current && this.wanted && !same(this.current, this.wanted)) {
      const [before, after] = [this.current, this.wanted];
      const written = await this.attempt(async () => {
        const words = await this.write(before, after);
        this.did(async () => {
          const undone = await this.write(after, before);
          this.wantBack(before, after);
          return `Undone. ${undone}`;
        });
        return words;
      }, " The units are unchanged.");
      if (!written) this.wantBack(before, after);
    }
    this.underWay = false;
  }

  /** Wants what was wanted before a change, but keeps what a person has chosen while it was under way. */
  private wantBack(before: UnitChoice, after: UnitChoice): void {
    const now = this.wanted ?? after;
    const kept = measureNames.map((measure) => [measure, now[measure] === after[measure] ? before[measure] : now[measure]]);
    this.wanted = Object.fromEntries(kept) as UnitChoice;
    this.view.showUnits(this.wanted);
  }

  private async write(before: UnitChoice, after: UnitChoice): Promise<string> {
    const { formulas, converted } = await this.port.writeUnits(after);
    this.current = after;
    return `${changeInWords(before, after)} ${recalculatedInWords(formulas)} ${convertedInWords(converted)}`;
  }

  private did(wayBack: WayBack): void {
    if (!this.port.oneUndo) this.done.did(wayBack);
  }

  /** A file may come with formulas that the program does not recognise as ours. */
  private async offerToEnterAnew(): Promise<void> {
    const { formulasOfFile } = this.port;
    if (!formulasOfFile) return;
    const formulas = await formulasOfFile.countNotTakenUp();
    // Something a person has done meanwhile comes first.
    if (formulas === 0 || this.underWay || this.done.possible) return;
    this.view.say(notTakenUpInWords(formulas));
    this.view.offer(offerToEnterInWords(formulas), () => {
      void this.alone(async () => {
        const entered = await formulasOfFile.enterAnew();
        this.did(async () => takenBackInWords(await entered.takeBack(), entered.formulas));
        return enteredInWords(entered);
      });
    });
  }

  /** Not while something else is under way: a second press would do it twice. */
  private async alone(act: () => Promise<string>): Promise<void> {
    if (this.underWay || !this.current) return;
    this.underWay = true;
    await this.attempt(act);
    this.underWay = false;
    // A choice of units made meanwhile.
    await this.settle();
  }

  /** Does something, with a word where it takes long; answers whether it worked. What fails is told and changes nothing else. */
  private async attempt(act: () => Promise<string>, failed = ""): Promise<boolean> {
    const notice = setTimeout(() => this.view.say("Applying… If a cell is being edited, finish it first."), noticeAfter);
    this.view.withdrawOffer();
    try {
      const words = await act();
      clearTimeout(notice);
      this.view.say(words);
      return true;
    } catch (error) {
      clearTimeout(notice);
      this.view.say(`${error instanceof Error ? error.message : String(error)}${failed}`);
      return false;
    } finally {
      this.view.showUndo(this.done.possible);
    }
  }
}

function same(a: UnitChoice, b: UnitChoice): boolean {
  return measureNames.every((measure) => a[measure] === b[measure]);
}
