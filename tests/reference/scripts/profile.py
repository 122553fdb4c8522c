"""A made log of one shot, 2 readings a second, and what it says, by interpolation on a union of all breakpoints. Python 3.11, NumPy 2.4.6, SciPy 1.17.1."""
import numpy as np
from scipy.optimize import brentq

t = np.arange(0, 31, 0.5)
true = np.where(t < 6.7, 0, 0.9 * (t - 6.7) + 0.055 * np.maximum(t - 6.7, 0) ** 2)
mass = np.round(np.minimum(true, 36.2), 1)
pressure = np.round(np.where(t < 5, 2.5 + 0.1 * t, np.where(t < 8, 3 + 2 * (t - 5), np.where(t < 27, 9 - 0.08 * (t - 8), 0))), 1)
knocked = mass.copy()
knocked[33] += 7  # at 16.5 s


def profile(t, m, p, beverage=None):
    at = lambda x: np.interp(x, t, m)
    wet = np.flatnonzero(m > 0.2)
    start = wet[0]
    first = brentq(lambda x: at(x) - 0.2, t[start - 1], t[start], xtol=1e-14)
    def reached(v):
        i = np.flatnonzero(m >= v)[0]
        return brentq(lambda x: at(x) - v, t[i - 1], t[i], xtol=1e-14) if m[i] > v else t[i]
    last = reached(m.max() - 0.2)
    end = last if beverage is None else reached(beverage)
    begins = [b for b in np.concatenate([t, t - 1, [first]]) if first <= b and b + 1 <= t[-1]]
    def mean(lo, hi):
        x = np.unique(np.concatenate([[lo, hi], t[(t > lo) & (t < hi)]]))
        return np.trapezoid(np.interp(x, t, p), x) / (hi - lo)
    return first, reached(beverage) if beverage else None, (at(end) - 0.2) / (end - first), max(at(b + 1) - at(b) for b in begins), mean(first, last), p.max(), mean(t[0], first)


print([float(x) for x in t]); print([float(x) for x in knocked]); print([float(x) for x in pressure])
print("SHOT.PROFILE 30 g", *("%.10f" % v for v in profile(t, mass, pressure, 30)))
print("SHOT.PROFILE", *("%.10f" % v for v in profile(t, mass, pressure) if v is not None))
