/** Watching a shot log: each file answers one question. Blanks keep their rows, and nothing is ever deleted. */
export { logCapability } from "./capability";
export { logCheck } from "./check";
export { logFindings } from "./findings";
export { logLimits } from "./limits";
export { logOdd } from "./odd";
export { readLog } from "./read-log";
export { logSignals } from "./signals";
export { logCusum, logEwma } from "./small-shifts";
export { logSummary } from "./summary";
