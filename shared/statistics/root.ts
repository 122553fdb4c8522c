/**
 * The point between two ends at which a continuous function is zero; the function has opposite signs at the ends (or is zero at one).
 * Chandrupatla 1997, Advances in Engineering Software 28:145: inverse quadratic steps where they are safe, halving where not.
 */
export function findRoot(f: (x: number) => number, from: number, to: number, tolerance = 1e-14): number {
  let [a, b] = [to, from];
  let [fa, fb] = [f(a), f(b)];
  let fraction = 0.5;
  for (let step = 0; step < 200; step++) {
    const x = a + fraction * (b - a);
    const fx = f(x);
    let [c, fc] = [a, fa];
    if (fx > 0 !== fa > 0) [c, fc, b, fb] = [b, fb, a, fa];
    [a, fa] = [x, fx];
    const [best, fBest] = Math.abs(fa) < Math.abs(fb) ? [a, fa] : [b, fb];
    const least = (tolerance * Math.abs(best) + Number.MIN_VALUE) / Math.abs(b - a);
    if (fBest === 0 || least > 0.5) return best;
    const place = (a - b) / (c - b);
    const height = (fa - fb) / (fc - fb);
    const safe = height * height < place && (1 - height) ** 2 < 1 - place;
    fraction = safe ? (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb)) : 0.5;
    fraction = Math.min(1 - least, Math.max(least, fraction));
  }
  return a;
}
