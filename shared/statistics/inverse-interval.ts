/**
 * Which x may have given a new y on a straight line: all x whose prediction interval holds it.
 * Fieller 1954, J. R. Stat. Soc. B 16:175; Draper & Smith, Applied Regression Analysis; Greenwell & Schubert Kabban (2014), The R Journal 6(1):90.
 */
import { tQuantileTwoSided } from "./distributions";

export interface UncertainLine {
  readonly slope: number;
  /** Variance of the slope for a residual variance of 1. */
  readonly slopeVariance: number;
  /** The x at which the line's height is known independently of its slope. */
  readonly centre: number;
  /** Variance of the new y and of the line's height at its centre together, for a residual variance of 1. */
  readonly variance: number;
  /** Residual standard deviation and its degrees of freedom. */
  readonly spread: number;
  readonly df: number;
}

/** The interval around the x that lies on the line; null where the slope is too uncertain for the interval to have an end. */
export function inverseInterval(line: UncertainLine, x: number, confidence: number): { low: number; high: number } | null {
  const reach = (tQuantileTwoSided(1 - confidence, line.df) * line.spread) / Math.abs(line.slope);
  const g = reach * reach * line.slopeVariance;
  if (!(g < 1)) return null;
  const offset = x - line.centre;
  const half = reach * Math.sqrt(offset * offset * line.slopeVariance + (1 - g) * line.variance);
  return { low: x + (offset * g - half) / (1 - g), high: x + (offset * g + half) / (1 - g) };
}
