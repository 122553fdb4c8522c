/** Reads and writes .xlsx files away from the page, which stays free to draw and answer meanwhile. */
import { FileProblem } from "../../xlsx/file-problem";
import { openWorkbook, type OpenedWorkbook } from "../../xlsx/open-workbook";
import { saveCopy, type Changes, type SavedCopy } from "../../xlsx/save-copy";

export type Task =
  | { readonly kind: "open"; readonly bytes: Uint8Array; readonly fileName: string; readonly ours: readonly string[]; readonly known: readonly string[]; readonly mostCells: number }
  | { readonly kind: "copy"; readonly opened: Uint8Array; readonly changes: Changes; readonly fileName: string; readonly ours: readonly string[]; readonly form: CopyForm };

export type CopyForm = "for Excel" | "for other programs";

export type Answer =
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "done"; readonly result: OpenedWorkbook | SavedCopy }
  /** `expected`: it is a sentence for the person. */
  | { readonly kind: "failed"; readonly message: string; readonly expected: boolean };

const answer = (message: Answer): void => postMessage(message);

addEventListener("message", ({ data }: MessageEvent<Task>) => {
  void carryOut(data).then(
    (result) => answer({ kind: "done", result }),
    (error: unknown) => answer({ kind: "failed", message: error instanceof Error ? error.message : String(error), expected: error instanceof FileProblem }),
  );
});

async function carryOut(task: Task): Promise<OpenedWorkbook | SavedCopy> {
  const ours = new Set(task.ours);
  if (task.kind === "copy") return saveCopy(task.opened, task.changes, { fileName: task.fileName, ours, form: task.form });
  const known = new Set(task.known);
  return openWorkbook(task.bytes, {
    fileName: task.fileName,
    ours,
    mostCells: task.mostCells,
    knowsFunction: (name) => known.has(name),
    onProgress: (share) => answer({ kind: "progress", share }),
  });
}
