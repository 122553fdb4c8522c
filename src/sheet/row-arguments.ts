/**
 * The named arguments of the row under way, as one object for all rows: its properties read through to two small arrays.
 * So a column of 100,000 rows makes no object and boxes no number a row, which would take most of the time.
 */
export interface RowArguments {
  /** What the formula takes apart. It holds the row that was set last. */
  readonly values: Readonly<Record<string, unknown>>;
  readonly numbers: Float64Array;
  /** What is no number; read where `numbers` has NaN. */
  readonly others: unknown[];
}

const known = new Map<string, RowArguments>();

/** The arguments of these names, in this order. The same names share one object, so that the engine knows its shape. */
export function rowArguments(names: readonly string[]): RowArguments {
  const key = names.join();
  const made = known.get(key);
  if (made) return made;
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
  const row = { values, numbers, others };
  known.set(key, row);
  return row;
}

export function setArgument(row: RowArguments, index: number, value: unknown): void {
  if (typeof value === "number") row.numbers[index] = value;
  else {
    row.numbers[index] = NaN;
    row.others[index] = value;
  }
}
