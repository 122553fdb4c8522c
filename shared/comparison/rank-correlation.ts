/** Do two lists rise together? */
import { noAnswer } from "../problem";
import { ranked, sum } from "../statistics/describe";
import { tTwoSided } from "../statistics/distributions";

/** Up to this many pairs every order is tried; 9! = 362,880 orders take some milliseconds. */
const MOST_EXACT = 9;

/**
 * Spearman's rank correlation, equal values sharing their ranks. p: two-sided; up to 9 pairs the share of all orders that agree as
 * strongly or more, beyond that from t with n - 2 degrees of freedom (Kendall & Gibbons 1990, Rank Correlation Methods).
 */
export function rankCorrelation({ first, second }: { readonly first: readonly number[]; readonly second: readonly number[] }): { rho: number; p: number } {
  const n = first.length;
  if (n < 3) noAnswer(`${n === 1 ? "One pair" : `${n} pairs`} cannot show a correlation. Give at least 3.`);
  // Twice the ranks less their mean are whole numbers, so equal sums compare equal.
  const [a, b] = [first, second].map((values) => ranked(values).ranks.map((rank) => 2 * rank - n - 1)) as [number[], number[]];
  const squares = Math.sqrt(sum(a.map((value) => value * value)) * sum(b.map((value) => value * value)));
  for (const [name, list] of [["first", a], ["second", b]] as const) {
    if (list.every((value) => value === 0)) noAnswer(`All values of ${name} are equal, so they cannot rise with the others.`);
  }
  const product = sum(a.map((value, index) => value * b[index]!));
  const rho = Math.max(-1, Math.min(1, product / squares));
  if (n <= MOST_EXACT) return { rho, p: exactShare(a, b, Math.abs(product)) };
  return { rho, p: tTwoSided(Math.sqrt((n - 2) / (1 - rho * rho)) * rho, n - 2) };
}

/** The share of the orders of b whose product with a is as far from 0 as `reached`. */
function exactShare(a: readonly number[], b: readonly number[], reached: number): number {
  const order = [...b];
  let [orders, extreme] = [0, 0];
  const place = (from: number, product: number): void => {
    if (from === order.length) {
      orders++;
      if (Math.abs(product) >= reached) extreme++;
      return;
    }
    for (let chosen = from; chosen < order.length; chosen++) {
      [order[from], order[chosen]] = [order[chosen]!, order[from]!];
      place(from + 1, product + a[from]! * order[from]!);
      [order[from], order[chosen]] = [order[chosen]!, order[from]!];
    }
  };
  place(0, 0);
  return extreme / orders;
}
