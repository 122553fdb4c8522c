/**
 * What is wrong: the engine begins to calculate 100 ms after the last change; where one calculation is still under way, it begins a second
 * one in the midst of it, or asks it to stop and, where that comes too late, forgets the change; and it writes results into cells that hold
 * something else by then.
 * How it shows: every edit takes a tenth of a second longer than it needs; in quick work, results stay as they were before the last edit;
 * a value typed over a formula while it is calculated turns into the formula's result.
 * Here a calculation begins once the change has been drawn, one after the other, and results go only to the cells that they were made for.
 */
import {
  ICommandService,
  IUniverInstanceService,
  UniverInstanceType,
  type ICellData,
  type ICommandInfo,
  type Injector,
  type Nullable,
  type ObjectMatrix,
  type Workbook,
} from "@univerjs/core";
import {
  CalculateController,
  FormulaExecutedStateType,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  type ISetFormulaCalculationNotificationMutation,
  type ISetFormulaCalculationStartMutation,
} from "@univerjs/engine-formula";
import {
  InsertColMutation,
  InsertRowMutation,
  MoveColsMutation,
  MoveRangeMutation,
  MoveRowsMutation,
  RemoveColMutation,
  RemoveRowMutation,
  RemoveSheetMutation,
  ReorderRangeMutation,
} from "@univerjs/sheets";
import { TriggerCalculationController } from "@univerjs/sheets-formula";

export interface CalculationTurns {
  /** Resolves when everything that has changed so far has been calculated. */
  settled(): Promise<void>;
}

/** What is to be calculated. */
type Dirty = ISetFormulaCalculationStartMutation;

interface Trigger {
  _waitingCommandQueue: ICommandInfo[];
  _setTimeoutKey: ReturnType<typeof setTimeout>;
  _generateDirty(commands: ICommandInfo[]): Dirty;
  _mergeDirty(first: Dirty, second: Dirty): Dirty;
}

type Results = Record<string, Record<string, ObjectMatrix<Nullable<ICellData>> | null | undefined> | null | undefined>;
interface Applying {
  _applyResult(data: { unitData: Results }): Promise<void>;
}

const movesOfCells = new Set<string>(
  [
    InsertColMutation,
    InsertRowMutation,
    MoveColsMutation,
    MoveRangeMutation,
    MoveRowsMutation,
    RemoveColMutation,
    RemoveRowMutation,
    RemoveSheetMutation,
    ReorderRangeMutation,
  ].map(({ id }) => id),
);

/** Milliseconds. A page in the background draws no frames; calculations go on there all the same. */
const longestFrame = 100;

export function takeTurns(injector: Injector): CalculationTurns {
  return new Turns(injector);
}

class Turns implements CalculationTurns {
  private readonly commands: ICommandService;
  private readonly trigger: Trigger;
  /** Waiting for the next frame. */
  private planned = false;
  private running: Dirty | undefined;
  /** What a calculation that was stopped has left. */
  private left: Dirty | undefined;
  /** Cells have moved since the calculation began, so that its results belong nowhere. */
  private moved = false;
  private waiting: (() => void)[] = [];

  constructor(private readonly injector: Injector) {
    this.commands = injector.get(ICommandService);
    this.trigger = injector.get(TriggerCalculationController) as unknown as Trigger;
    this.commands.beforeCommandExecuted(({ id, params }) => {
      if (id === SetFormulaCalculationStartMutation.id) this.running = params as Dirty;
    });
    this.commands.onCommandExecuted((command) => this.follow(command));
    this.applyOnlyWhatBelongs();
    this.plan();
  }

  async settled(): Promise<void> {
    // The first calculation of a workbook is asked for in a turn of its own.
    await new Promise((turn) => setTimeout(turn));
    if (this.isBusy) await new Promise<void>((resolve) => this.waiting.push(resolve));
  }

  private get isBusy(): boolean {
    return this.running !== undefined || this.planned || this.trigger._waitingCommandQueue.length > 0;
  }

  private follow(command: Readonly<ICommandInfo>): void {
    if (command.id === SetFormulaCalculationNotificationMutation.id) {
      const { functionsExecutedState } = command.params as ISetFormulaCalculationNotificationMutation;
      // The engine tidies up after this notice.
      if (functionsExecutedState !== undefined) setTimeout(() => this.ended(functionsExecutedState === FormulaExecutedStateType.STOP_EXECUTION));
      return;
    }
    if (this.running && movesOfCells.has(command.id)) this.moved = true;
    this.plan();
  }

  /** In place of the engine's own waiting. */
  private plan(): void {
    if (this.trigger._waitingCommandQueue.length === 0) return;
    clearTimeout(this.trigger._setTimeoutKey);
    if (this.planned || this.running) return;
    this.planned = true;
    afterNextFrame(() => {
      this.planned = false;
      this.begin();
    });
  }

  private begin(): void {
    if (this.running) return;
    const { trigger, left } = this;
    const changed = trigger._generateDirty(trigger._waitingCommandQueue.splice(0));
    const dirty = left ? trigger._mergeDirty(left, changed) : changed;
    this.left = undefined;
    const forceCalculation = dirty.forceCalculation || this.moved;
    this.moved = false;
    void this.commands.executeCommand(SetFormulaCalculationStartMutation.id, { ...dirty, forceCalculation }, { onlyLocal: true });
  }

  private ended(stopped: boolean): void {
    if (stopped) this.left = this.running;
    this.running = undefined;
    if (this.moved) this.begin();
    else this.plan();
    if (this.isBusy) return;
    for (const resolve of this.waiting.splice(0)) resolve();
  }

  private applyOnlyWhatBelongs(): void {
    const controller = this.injector.get(CalculateController) as unknown as Applying;
    const apply = controller._applyResult;
    controller._applyResult = (data) => {
      if (this.moved) return Promise.resolve();
      this.dropResultsOfReplacedFormulas(data.unitData);
      return apply.call(controller, data);
    };
  }

  private dropResultsOfReplacedFormulas(results: Results): void {
    const instances = this.injector.get(IUniverInstanceService);
    for (const [unitId, sheets] of Object.entries(results)) {
      const book = instances.getUnit<Workbook>(unitId, UniverInstanceType.UNIVER_SHEET);
      for (const [sheetId, cells] of Object.entries(sheets ?? {})) {
        const sheet = book?.getSheetBySheetId(sheetId);
        const replaced: [number, number][] = [];
        cells?.forValue((row, column) => {
          const cell = sheet?.getCellRaw(row, column);
          if (!cell?.f && !cell?.si) replaced.push([row, column]);
        });
        for (const [row, column] of replaced) cells?.realDeleteValue(row, column);
      }
    }
  }
}

function afterNextFrame(act: () => void): void {
  let done = false;
  const once = () => {
    if (!done) act();
    done = true;
  };
  if (typeof requestAnimationFrame === "function" && !document.hidden) requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, typeof requestAnimationFrame === "function" ? longestFrame : 0);
}
