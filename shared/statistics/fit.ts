/**
 * Least squares. Columns and results are centred, columns scaled to length 1, then solved by Householder reflections
 * (Golub & Van Loan, Matrix Computations): settings such as 1001, 1002, 1003 lose no digits, as they would in normal equations.
 */
import { largestSizeOf, mean, sum } from "./describe";

export interface Fit {
  readonly count: number;
  /** Degrees of freedom of the residuals; with 0 there is no spread to judge by. */
  readonly df: number;
  readonly intercept: number;
  readonly slopes: readonly number[];
  /** Mean of each column, and the mean of the results, which is the fitted value there. */
  readonly centres: readonly number[];
  readonly mean: number;
  readonly residuals: readonly number[];
  readonly residualSumOfSquares: number;
  readonly totalSumOfSquares: number;
  /** Covariances of the slopes for a residual variance of 1. */
  readonly unscaledCovariance: readonly (readonly number[])[];
}

/** Fits y = intercept + sum of slope × column. null: fewer results than coefficients, or one column follows from the others. */
export function leastSquares(columns: readonly (readonly number[])[], y: readonly number[]): Fit | null {
  const count = y.length;
  const size = columns.length;
  if (count < size + 1) return null;
  const centres = columns.map(mean);
  const meanY = mean(y);
  const centredY = y.map((value) => value - meanY);
  const centred = columns.map((column, k) => column.map((value) => value - centres[k]!));
  const lengths = centred.map(length);
  if (columns.some((column, k) => lengths[k]! <= 1e-13 * length(column))) return null;
  const work = centred.map((column, k) => column.map((value) => value / lengths[k]!));
  const right = [...centredY];

  const diagonal: number[] = [];
  for (let k = 0; k < size; k++) {
    const pivot = work[k]!;
    const norm = length(pivot.slice(k));
    if (norm < 1e-13) return null;
    const head = pivot[k]! > 0 ? -norm : norm;
    diagonal.push(head);
    pivot[k] = pivot[k]! - head;
    const scale = -head * pivot[k]!;
    for (const column of [...work.slice(k + 1), right]) {
      let dot = 0;
      for (let i = k; i < count; i++) dot += pivot[i]! * column[i]!;
      for (let i = k; i < count; i++) column[i] = column[i]! - (dot / scale) * pivot[i]!;
    }
  }
  const upper = (row: number, column: number): number => (row === column ? diagonal[row]! : work[column]![row]!);

  const solve = (target: readonly number[]): number[] => {
    const result = new Array<number>(size).fill(0);
    for (let row = size - 1; row >= 0; row--) {
      let value = target[row]!;
      for (let k = row + 1; k < size; k++) value -= upper(row, k) * result[k]!;
      result[row] = value / upper(row, row);
    }
    return result;
  };
  const slopes = solve(right).map((value, k) => value / lengths[k]!);
  const inverse = columns.map((_, k) => solve(columns.map((__, row) => (row === k ? 1 : 0))));
  const unscaledCovariance = slopes.map((_, i) =>
    slopes.map((__, j) => sum(inverse.map((column) => column[i]! * column[j]!)) / lengths[i]! / lengths[j]!),
  );
  const residuals = centredY.map((value, i) => value - sum(slopes.map((slope, k) => slope * centred[k]![i]!)));
  return {
    count,
    df: count - size - 1,
    intercept: meanY - sum(slopes.map((slope, k) => slope * centres[k]!)),
    slopes,
    centres,
    mean: meanY,
    residuals,
    residualSumOfSquares: sum(residuals.map((value) => value * value)),
    totalSumOfSquares: sum(centredY.map((value) => value * value)),
    unscaledCovariance,
  };
}

/** Residual standard deviation; the fit has to have degrees of freedom. */
export function residualSd(fit: Fit): number {
  return Math.sqrt(fit.residualSumOfSquares / fit.df);
}

/** The fitted value at a point (one number a column). */
export function valueAt(fit: Fit, point: readonly number[]): number {
  return fit.mean + sum(fit.slopes.map((slope, k) => slope * (point[k]! - fit.centres[k]!)));
}

/** Variance of the fitted value at a point for a residual variance of 1; a new shot there has 1 more. */
export function leverageAt(fit: Fit, point: readonly number[]): number {
  const away = point.map((value, k) => value - fit.centres[k]!);
  return 1 / fit.count + quadraticForm(fit.unscaledCovariance, away, away);
}

/** Standard errors of the intercept and the slopes, in this order; the fit has to have degrees of freedom. */
export function standardErrors(fit: Fit): number[] {
  const sd = residualSd(fit);
  const origin = fit.slopes.map(() => 0);
  return [sd * Math.sqrt(leverageAt(fit, origin)), ...fit.unscaledCovariance.map((row, k) => sd * Math.sqrt(row[k]!))];
}

export function quadraticForm(matrix: readonly (readonly number[])[], left: readonly number[], right: readonly number[]): number {
  return sum(matrix.map((row, i) => left[i]! * sum(row.map((value, j) => value * right[j]!))));
}

export interface PolynomialFit {
  /** The fit in powers of z = (x - centre) / scale, which runs from about -1 to 1. */
  readonly fit: Fit;
  readonly centre: number;
  readonly scale: number;
}

/** Fits a polynomial in x through powers of a centred and scaled x. null: too few results or too few different x. */
export function polynomialFit(x: readonly number[], y: readonly number[], degree: number): PolynomialFit | null {
  const centre = mean(x);
  const scale = largestSizeOf(x.map((value) => value - centre));
  if (!(scale > 0)) return null;
  const z = x.map((value) => (value - centre) / scale);
  const powers = Array.from({ length: degree }, (_, k) => z.map((value) => value ** (k + 1)));
  const fit = leastSquares(powers, y);
  return fit && { fit, centre, scale };
}

function length(values: readonly number[]): number {
  return Math.sqrt(sum(values.map((value) => value * value)));
}
