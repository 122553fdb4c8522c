/** What the page asks of the worker that reads and writes .xlsx files. */
import { FileProblem } from "../../xlsx/file-problem";
import type { OpenedWorkbook } from "../../xlsx/open-workbook";
import type { SavedCopy } from "../../xlsx/save-copy";
import type { Answer, Task } from "./xlsx-worker";

export interface WorkControl {
  /** Called back with the share that is done, 0 to 1. */
  onProgress?(share: number): void;
  readonly signal?: AbortSignal;
}

type TaskOf<K extends Task["kind"]> = Omit<Extract<Task, { kind: K }>, "kind">;

/** Throws a FileProblem, a full sentence, where the file cannot be opened. */
export function openInWorker(task: TaskOf<"open">, control?: WorkControl): Promise<OpenedWorkbook> {
  return carriedOut({ kind: "open", ...task }, control) as Promise<OpenedWorkbook>;
}

/** Throws a FileProblem, a full sentence, where no faithful copy can be made. */
export function copyInWorker(task: TaskOf<"copy">, control?: WorkControl): Promise<SavedCopy> {
  return carriedOut({ kind: "copy", ...task }, control) as Promise<SavedCopy>;
}

async function carriedOut(task: Task, { onProgress, signal }: WorkControl = {}): Promise<OpenedWorkbook | SavedCopy> {
  const worker = new Worker(new URL("./xlsx-worker", import.meta.url));
  try {
    return await new Promise((done, failed) => {
      signal?.addEventListener("abort", () => failed(signal.reason as Error), { once: true });
      worker.addEventListener("error", (event) => failed(new Error(event.message || "The part of the page that reads and writes files could not be loaded.")));
      worker.addEventListener("message", ({ data }: MessageEvent<Answer>) => {
        if (data.kind === "progress") onProgress?.(data.share);
        else if (data.kind === "done") done(data.result);
        else failed(data.expected ? new FileProblem(data.message) : new Error(data.message));
      });
      worker.postMessage(task);
    });
  } finally {
    worker.terminate();
  }
}
