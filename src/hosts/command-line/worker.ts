/** A thread that reads one log after another. */
import { parentPort, workerData } from "node:worker_threads";
import { Problem } from "../../../shared/problem";
import { defaultUnits } from "../../sheet/unit-choice";
import { worded } from "../../sheet/wording";
import { readLog, type ReadingAsked } from "./read-log";
import type { Report, Task } from "./read-logs";

const port = parentPort!;
const say = (report: Report): void => port.postMessage(report);

port.on("message", ({ log, findingsPath }: Task) => {
  readLog(log, workerData as ReadingAsked, findingsPath, (bytes, rows) => say({ bytes, rows })).then(
    (outcome) => say({ outcome }),
    (thrown: unknown) => say({ failed: thrown instanceof Problem ? worded(thrown.words, defaultUnits) : String(thrown) }),
  );
});
