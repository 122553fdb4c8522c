/**
 * The named arguments of the row under way, as one object for all rows: its properties read through to two small arrays.
 * So a column of 100,000 rows makes no object and boxes no number a row, which would take most of the time.
 */
import type { Reading } from "./read-cell";

export interface ArgumentView {
  /** What the formula takes apart. It holds the row that was set last. */
  readonly values: Readonly<Record<string, unknown>>;
  readonly numbers: Float64Array;
  /** What is no number; read where `numbers` has NaN. */
  readonly others: unknown[];
}

const views = new Map<string, ArgumentView>();

/** The view for arguments of these names, in this order. The same names share one, so that the engine knows its shape. */
export function argumentView(names: readonly string[]): ArgumentView {
  const key = names.join();
  const known = views.get(key);
  if (known) return known;
  const numbers = new Float64Array(names.length);
  const others = new Array<unknown>(names.length).fill(undefined);
  const values = {};
  names.forEach((name, index) => {
    const get = (): unknown => {
      const value = numbers[index]!;
      return Number.isNaN(value) ? others[index] : value;
    };
    Object.defineProperty(values, name, { get, enumerable: true });
  });
  const view = { values, numbers, others };
  views.set(key, view);
  return view;
}

export function setArgument(view: ArgumentView, index: number, reading: Reading | readonly unknown[]): void {
  if (typeof reading === "number") view.numbers[index] = reading;
  else {
    view.numbers[index] = NaN;
    view.others[index] = reading;
  }
}
