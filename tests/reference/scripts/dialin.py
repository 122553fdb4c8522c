"""Reference values of tests/reference/dialin.json. Python 3.11, NumPy 2.4.6, SciPy 1.17.1."""
import numpy as np
from scipy import stats
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq

g = np.array([1, 1.2, 1.4, 1.6, 1.8, 2.0]); t = np.array([41.5, 34, 29.5, 24, 20.5, 17])
def fit(x, y):
    n = len(x); sxx = ((x - x.mean())**2).sum(); b = ((x - x.mean()) * (y - y.mean())).sum() / sxx; a = y.mean() - b * x.mean()
    s = np.sqrt(((y - a - b * x)**2).sum() / (n - 2)); return a, b, s, sxx, n
def prediction(x, y, at, level):
    a, b, s, sxx, n = fit(x, y); h = stats.t.ppf((1 + level) / 2, n - 2) * s * np.sqrt(1 + 1/n + (at - x.mean())**2 / sxx); m = a + b * at; return m, m - h, m + h
def inverse(x, y, target, level):
    """Solved numerically: where the prediction interval's limits meet the target, not by the closed formula."""
    a, b, *_ = fit(x, y); x0 = (target - a) / b
    low = lambda at: prediction(x, y, at, level)[1] - target
    high = lambda at: prediction(x, y, at, level)[2] - target
    ends = sorted(brentq(f, x0 + d * 1e-12, x0 + d * 5 * np.ptp(x)) for f in (low, high) for d in (-1, 1) if f(x0 + d * 1e-12) * f(x0 + d * 5 * np.ptp(x)) < 0)
    return x0, ends[0], ends[-1]
for level in (0.95, 0.9):
    print("GRIND.FORTIME 27", level, *("%.10f" % v for v in inverse(g, np.log(t), np.log(27), level)))
print("TIME.FORGRIND 1.5", *("%.10f" % v for v in np.exp(prediction(g, np.log(t), 1.5, 0.95))))
S = np.array([2, 2.4, 2.8, 1.6, 2.0, 2.4, 1.2, 1.6, 2.0]); P = np.array([6, 6, 6, 8, 8, 8, 9, 9, 9.]); T = np.array([31.5, 26.2, 21.8, 33.1, 28.0, 22.9, 36.4, 30.3, 25.6])
c = np.linalg.lstsq(np.c_[np.ones(9), S, np.log(P)], np.log(T), rcond=None)[0]
print("GRIND.FORPRESSURE 7 27", "%.10f" % ((np.log(27) - c[0] - c[2] * np.log(7)) / c[1]))
x = np.array([7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20]); y = np.array([0, 2.76429e-5, 4.37498e-2, .169183, .469428, .943740, .998636, .999919, .999994])
p = PchipInterpolator(x, y)
for at in (8.0, 9.0, 9.5, 11, 16): print("CURVE monotone", at, "%.12g" % p(at), "linear %.12g" % np.interp(at, x, y))
print("CURVE.WHERE monotone 27", "%.12g" % brentq(lambda v: PchipInterpolator(g, t)(v) - 27, 1.4, 1.6, xtol=1e-15), "linear %.12g" % np.interp(-27, -t, g))
q = np.array([1.1, 1.32, 1.41, 1.6, 1.75]); pr = np.array([4, 6, 7, 8.5, 10.])
r = stats.linregress(np.log(pr), np.log(q)); h = stats.t.ppf(.975, 3) * r.stderr
print("FLOW.EXPONENT", *("%.12f" % v for v in (r.slope, r.slope - h, r.slope + h, r.rvalue**2)))

# GRIND.NEXT: slope and spread by least squares on setting and a dummy for each day; today's shots give the height; the interval is solved numerically.
days = np.array([0, 0, 0, 1, 1, 1, 2, 2, 2]); S = np.array([2.3, 2.1, 2.25, 2.3, 2.4, 2.35, 2.4, 2.2, 2.3]); T = np.array([24.5, 29.4, 25.1, 29.3, 27.1, 27.9, 25.5, 30.1, 27.9])
def next_grind(setting, time, target, S, T, days, level=0.95):
    X = np.c_[S, np.eye(days.max() + 1)[days]]; y = np.log(T)
    beta = np.linalg.lstsq(X, y, rcond=None)[0]; df = len(S) - X.shape[1]; s2 = ((y - X @ beta)**2).sum() / df
    slope = beta[0]; variance = s2 * np.linalg.inv(X.T @ X)[0, 0]
    u, v, m = np.mean(setting), np.mean(np.log(time)), len(setting); x0 = u + (np.log(target) - v) / slope
    outside = lambda x: (np.log(target) - v - slope * (x - u))**2 - stats.t.ppf((1 + level) / 2, df)**2 * (s2 * (1 + 1/m) + variance * (x - u)**2)
    return x0, brentq(outside, x0 - 2, x0, xtol=1e-14), brentq(outside, x0, x0 + 2, xtol=1e-14)
for today in (([2.3], [30.2]), ([2.3, 2.3, 2.3], [30.3, 30.2, 30.1]), ([2.4, 2.3], [26.1, 29.0])):
    print("GRIND.NEXT", today, *("%.10f" % v for v in next_grind(*today, 27, S, T, days)))
print("GRIND.NEXT one day", *("%.10f" % v for v in next_grind([1.7], [25], 27, g, t, np.zeros(6, int))))
