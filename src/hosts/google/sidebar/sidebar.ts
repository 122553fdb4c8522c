/** The pane beside a Google Sheet. Its page reaches the spreadsheet through functions of the script, which it calls by their names. */
import { projectVersion } from "../../../help/version";
import { mountPane } from "../../../pane/pane";
import "../../../pane/pane.css";
import type { ChangedUnits, PanePort, Started } from "../../../pane/port";
import type { RecentProblem } from "../../../sheet/recent-problems";
import { defaultUnits, unitsToText } from "../../../sheet/unit-choice";
import type { UnitsInUse } from "../../../sheet/workbook-units";

/** What HtmlService gives its pages. */
interface Runner {
  withSuccessHandler(handler: (answer: never) => void): Runner;
  withFailureHandler(handler: (error: Error) => void): Runner;
}
declare const google: { readonly script: { readonly run: Runner } };
/** Where the help pages are served, from the build. */
declare const HELP_ADDRESS: string;

/** Answers of the script are data; a failure carries the sentence that it threw. */
function ask<T>(name: string, ...given: readonly unknown[]): Promise<T> {
  return new Promise((resolve, reject) => {
    const runner = google.script.run.withSuccessHandler(resolve as (answer: never) => void).withFailureHandler(reject);
    (runner as unknown as Record<string, (...given: readonly unknown[]) => void>)[name]!(...given);
  });
}

let problems: readonly RecentProblem[] = [];
const listeners = new Set<() => void>();

async function readProblems(): Promise<void> {
  problems = await ask<RecentProblem[]>("pucksheetProblems").catch(() => problems);
  for (const listener of listeners) listener();
}

const port: PanePort = {
  readUnits: () =>
    ask<UnitsInUse>("pucksheetUnits").catch((error: unknown) => ({
      choice: defaultUnits,
      note: `The unit settings of this spreadsheet could not be read, so the default units are shown. ${error instanceof Error ? error.message : ""}`.trim(),
    })),
  writeUnits: (choice) => ask<ChangedUnits>("pucksheetChoose", unitsToText(choice)),
  startSheet: (id, example) => ask<Started>("pucksheetStart", id, example),
  removeStarted: async (sheet) => {
    await ask("pucksheetRemove", sheet);
  },
  // A document property tells nobody of its change, and each spreadsheet has a page of its own.
  onUnits: () => () => undefined,
  recentProblems: () => problems,
  onProblems: (listener) => {
    listeners.add(listener);
    return () => listeners.delete(listener);
  },
  version: projectVersion,
  helpAddress: HELP_ADDRESS,
};

mountPane(document.getElementById("pane")!, port);
void readProblems();
// The sheet does not tell the page what was calculated: the list is read when somebody turns to it.
window.addEventListener("focus", () => void readProblems());
