/** Reads many logs, spread over the cores of this machine. What comes out does not depend on how many there are. */
import { Worker } from "node:worker_threads";
import { readLog, type LogOutcome, type ReadingAsked } from "./read-log";
import type { LogInput } from "./log-inputs";

export interface Task {
  readonly log: LogInput;
  readonly findingsPath: string;
}

/** From a worker: how far it is, or what became of a log. */
export type Report = { readonly bytes: number; readonly rows: number } | { readonly outcome: LogOutcome } | { readonly failed: string };

/** A worker has failed in a way that ends the run. */
export class RunFailed extends Error {}

export async function readLogs(
  tasks: readonly Task[], asked: ReadingAsked, workers: number, onProgress: (bytes: number, rows: number) => void,
): Promise<LogOutcome[]> {
  const outcomes: LogOutcome[] = [];
  if (workers <= 1) {
    for (const { log, findingsPath } of tasks) outcomes.push(await readLog(log, asked, findingsPath, onProgress));
    return outcomes;
  }
  // The longest first, so that no core is left with one at the end.
  const waiting = tasks.map((_, index) => index).sort((a, b) => (tasks[b]!.log.size ?? 0) - (tasks[a]!.log.size ?? 0));
  // Beside the command in its bundle.
  const threads = Array.from({ length: workers }, () => new Worker(new URL("./worker.mjs", import.meta.url), { workerData: asked }));
  try {
    await Promise.all(threads.map(async (thread) => {
      for (let index = waiting.shift(); index !== undefined; index = waiting.shift()) outcomes[index] = await readIn(thread, tasks[index]!, onProgress);
    }));
  } finally {
    await Promise.all(threads.map((thread) => thread.terminate()));
  }
  return outcomes;
}

function readIn(thread: Worker, task: Task, onProgress: (bytes: number, rows: number) => void): Promise<LogOutcome> {
  return new Promise((resolve, reject) => {
    thread.removeAllListeners();
    thread.on("error", reject);
    thread.on("message", (report: Report) => {
      if ("bytes" in report) onProgress(report.bytes, report.rows);
      else if ("outcome" in report) resolve(report.outcome);
      else reject(new RunFailed(report.failed));
    });
    thread.postMessage(task);
  });
}
