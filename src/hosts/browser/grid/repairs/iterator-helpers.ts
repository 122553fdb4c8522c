/**
 * What is wrong: the library calls iterator helpers such as Map.keys().some(), which browsers before 2025 and Node 20 lack.
 * How it shows: naming a cell of a workbook that has a table throws a TypeError.
 */
type Callback = (value: unknown, index: number) => unknown;

const prototype = Object.getPrototypeOf(Object.getPrototypeOf([][Symbol.iterator]())) as object;

function* mapped(values: Iterable<unknown>, change: Callback): Generator<unknown> {
  let index = 0;
  for (const value of values) yield change(value, index++);
}

function* filtered(values: Iterable<unknown>, test: Callback): Generator<unknown> {
  let index = 0;
  for (const value of values) if (test(value, index++)) yield value;
}

const helpers = {
  map(this: Iterable<unknown>, change: Callback) {
    return mapped(this, change);
  },
  filter(this: Iterable<unknown>, test: Callback) {
    return filtered(this, test);
  },
  toArray(this: Iterable<unknown>) {
    return [...this];
  },
  some(this: Iterable<unknown>, test: Callback) {
    for (const _ of filtered(this, test)) return true;
    return false;
  },
  every(this: Iterable<unknown>, test: Callback) {
    for (const _ of filtered(this, (value, index) => !test(value, index))) return false;
    return true;
  },
  find(this: Iterable<unknown>, test: Callback) {
    for (const value of filtered(this, test)) return value;
    return undefined;
  },
  forEach(this: Iterable<unknown>, act: Callback) {
    for (const _ of mapped(this, act));
  },
  reduce(this: Iterable<unknown>, join: (sum: unknown, value: unknown, index: number) => unknown, start: unknown) {
    let sum = start;
    for (const _ of mapped(this, (value, index) => (sum = join(sum, value, index))));
    return sum;
  },
};

for (const [name, helper] of Object.entries(helpers)) {
  if (!(name in prototype)) Object.defineProperty(prototype, name, { value: helper, writable: true, configurable: true });
}
