/** How flow follows pressure. */
import { Problem } from "../problem";
import { tQuantileTwoSided } from "../statistics/distributions";
import { standardErrors } from "../statistics/fit";
import { fitOrRefuse, requireShots, twoShotsOnly, type Numbers } from "./shots";

/** The power of pressure that the flow follows: 1 would be Darcy's law for a bed that does not change. */
export function flowExponent({ pressures, flows }: { pressures: Numbers; flows: Numbers }): {
  exponent: number; low: number | Problem; high: number | Problem; r2: number | Problem;
} {
  requireShots(pressures, 2, "pressures", "pressure");
  const fit = fitOrRefuse([pressures.map(Math.log)], flows.map(Math.log), "the pressures");
  const exponent = fit.slopes[0]!;
  if (fit.df < 1) {
    return { exponent, low: twoShotsOnly, high: twoShotsOnly, r2: twoShotsOnly };
  }
  const half = tQuantileTwoSided(0.05, fit.df) * standardErrors(fit)[1]!;
  const r2 = fit.totalSumOfSquares > 0 ? 1 - fit.residualSumOfSquares / fit.totalSumOfSquares : new Problem("no answer", "All flows are the same, so there is nothing to explain.");
  return { exponent, low: exponent - half, high: exponent + half, r2 };
}
