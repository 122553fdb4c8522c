/**
 * What is wrong: the library forgets all but the last 20 steps, and offers no way to choose.
 * How it shows: after a morning of shots Undo does not reach the first of them.
 */
import { LocalUndoRedoService, type IUndoRedoItem } from "@univerjs/core";

/** Steps of more than a day's entries. */
const longestHistory = 2_000;

interface Stacks {
  _getUndoStack(unitId: string, create: true): IUndoRedoItem[];
}

export function keepALongHistory(): void {
  const service = LocalUndoRedoService.prototype;
  const { pushUndoRedo } = service;
  service.pushUndoRedo = function (item) {
    const steps = (this as unknown as Stacks)._getUndoStack(item.unitID, true);
    const [oldest] = steps;
    pushUndoRedo.call(this, item);
    if (oldest && steps[0] !== oldest && steps.length < longestHistory) steps.unshift(oldest);
  };
}
