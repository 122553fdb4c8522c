/** The task pane: ready sheets, the units of the workbook, what changed, what the functions refused lately, version and help. */
import type { PanePort } from "./port";
import { PaneView, type PanePage } from "./view";
import { Writing } from "./writing";

export interface MountedPane {
  show(page: PanePage): void;
}

/** Fills the element with the pane. */
export function mountPane(element: HTMLElement, port: PanePort): MountedPane {
  const view: PaneView = new PaneView(element, port, {
    choose: (measure, unit) => writing.choose(measure, unit),
    start: (id, example) => void writing.start(id, example),
    undo: () => void writing.undo(),
  });
  const writing = new Writing(port, view);
  view.showUndo(false);
  view.showProblems();
  void writing.readUnits();
  port.onUnits((because) => void writing.readUnits(because));
  port.onProblems(() => view.showProblems());
  return { show: (page) => view.showPage(page) };
}
