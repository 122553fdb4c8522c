/** Dialling in: which grind setting lands on a time, at which pressure, what comes next, and reading a curve through measured points. */
export { curve, curveWhere } from "./curve";
export { flowExponent } from "./flow-exponent";
export { grindForPressure, grindForTime, timeForGrind } from "./grind";
export { grindNext } from "./next-grind";
export { timeAtBeverage } from "./time-at-beverage";
