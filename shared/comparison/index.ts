/** Which setting is better, and is it real: each file answers one question. */
export { compareAdjusted, compareAdjustedTest } from "./adjusted";
export { bestSetting } from "./best-setting";
export { bestTwo } from "./best-two";
export { compare } from "./compare";
export { equivalent } from "./equivalent";
export { compareTest } from "./overall-test";
export { comparePairs } from "./pairs";
export { rankCorrelation } from "./rank-correlation";
export { repeatability } from "./repeatability";
export { runDrift } from "./run-drift";
export { runOrder } from "./run-order";
