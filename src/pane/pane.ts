/** The task pane: ready sheets, the units of the workbook, what changed, what the functions refused lately, version and help. */
import type { PanePort } from "./port";
import { PaneView } from "./view";
import { Writing } from "./writing";

/** Fills the element with the pane. Returns the way to take the pane off its port again. */
export function mountPane(element: HTMLElement, port: PanePort): () => void {
  const view: PaneView = new PaneView(element, port, {
    choose: (measure, unit) => writing.choose(measure, unit),
    start: (id, example) => void writing.start(id, example),
    undo: () => void writing.undo(),
  });
  const writing = new Writing(port, view);
  view.showUndo(false);
  view.showProblems();
  void writing.readUnits();
  const stops = [port.onUnits((because) => void writing.readUnits(because)), port.onProblems(() => view.showProblems())];
  return () => {
    for (const stop of stops) stop();
    view.clear();
  };
}
