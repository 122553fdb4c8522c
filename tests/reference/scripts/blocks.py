"""Values for comparison.json with blocks, surfaces and drifts. NumPy 2.4.6, SciPy 1.17.1. Run: python3 blocks.py

Every model is solved with a column for each setting and each block but one (numpy.linalg.lstsq); means are averages of its predictions
over all blocks. The code under test takes block means out first.
"""
import itertools

import numpy as np
import scipy.optimize as optimize
import scipy.stats as stats


def line(name, *values):
    print(name, *[f"{float(v):.14g}" for v in values])


def dummies(values, levels, drop=False):
    return np.array([[1.0 if value == level else 0.0 for level in levels[drop:]] for value in values])


class Fit:
    def __init__(self, X, y):
        self.b, _, rank, _ = np.linalg.lstsq(X, y, rcond=None)
        assert rank == X.shape[1], "the columns cannot be told apart"
        self.df = len(y) - rank
        self.rss = float(np.sum((y - X @ self.b) ** 2))
        self.cov = np.linalg.inv(X.T @ X)

    @property
    def variance(self):
        return self.rss / self.df


def design(settings, blocks, *covariates):
    s, b = sorted(set(settings)), list(dict.fromkeys(blocks))
    return s, b, np.column_stack([dummies(settings, s), dummies(blocks, b, True), *[np.asarray(c, float) for c in covariates]])


def rows_over_blocks(s, b, *at):
    return np.array([[float(i == k) for i in range(len(s))] + [1 / len(b)] * (len(b) - 1) + list(at) for k in range(len(s))])


def compare(name, settings, results, blocks, confidence=0.95):
    y = np.asarray(results, float)
    s, b, X = design(settings, blocks)
    fit = Fit(X, y)
    L = rows_over_blocks(s, b)
    means, V = L @ fit.b, L @ fit.cov @ L.T
    reach = stats.t.isf((1 - confidence) / 2, fit.df)
    for k, setting in enumerate(s):
        own = y[[one == setting for one in settings]]
        se = np.sqrt(fit.variance * V[k, k])
        line(f"{name} compare {setting} shots {len(own)}", means[k], np.std(own, ddof=1) if len(own) > 1 else np.nan, means[k] - reach * se, means[k] + reach * se)
    without = Fit(np.column_stack([np.ones(len(y)), dummies(blocks, b, True)]), y)
    df1 = len(s) - 1
    F = (without.rss - fit.rss) / df1 / fit.variance
    line(f"{name} test", F, df1, fit.df, stats.f.sf(F, df1, fit.df))
    q = stats.studentized_range.isf(1 - confidence, len(s), fit.df)
    for i, j in itertools.combinations(range(len(s)), 2):
        size = np.sqrt(fit.variance / 2 * (V[i, i] + V[j, j] - 2 * V[i, j]))
        d = means[j] - means[i]
        line(f"{name} pair {s[i]} {s[j]}", d, d - q * size, d + q * size, stats.studentized_range.sf(abs(d) / size, len(s), fit.df))


def adjusted(name, settings, results, blocks, covariates, at=None):
    y = np.asarray(results, float)
    s, b, X = design(settings, blocks, *covariates)
    fit = Fit(X, y)
    L = rows_over_blocks(s, b, *(at or [np.mean(c) for c in covariates]))
    for k, setting in enumerate(s):
        line(f"{name} adjusted {setting}", L[k] @ fit.b, np.sqrt(fit.variance * (L[k] @ fit.cov @ L[k])))
    without = Fit(np.column_stack([np.ones(len(y)), dummies(blocks, b, True), *covariates]), y)
    df1 = len(s) - 1
    F = (without.rss - fit.rss) / df1 / fit.variance
    S = dummies(settings, s)
    own = Fit(np.column_stack([S, dummies(blocks, b, True), *[S * np.asarray(c, float)[:, None] for c in covariates]]), y)
    df = fit.df - own.df
    slopes = (fit.rss - own.rss) / df / own.variance
    line(f"{name} adjusted test", F, df1, fit.df, stats.f.sf(F, df1, fit.df), stats.f.sf(slopes, df, own.df))


def best(name, settings, results, blocks, confidence=0.95):
    x, y = np.asarray(settings, float), np.asarray(results, float)
    b = list(dict.fromkeys(blocks))
    centre = x.mean()
    fit = Fit(np.column_stack([np.ones(len(y)), dummies(blocks, b, True), x - centre, (x - centre) ** 2]), y)
    slope, curve = fit.b[-2:]
    V = fit.cov[-2:, -2:] * fit.variance
    t = stats.t.isf((1 - confidence) / 2, fit.df)
    inside = lambda z: (slope + 2 * curve * z) ** 2 - t * t * (V[0, 0] + 4 * z * V[0, 1] + 4 * z * z * V[1, 1])
    peak = -slope / (2 * curve)
    low = optimize.brentq(inside, peak - 20, peak, xtol=1e-13)
    high = optimize.brentq(inside, peak, peak + 20, xtol=1e-13)
    at = fit.b[0] + np.sum(fit.b[1 : len(b)]) / len(b) + slope * peak + curve * peak**2
    s, b, X = design(settings, blocks)
    pure = Fit(X, y)
    lack = (fit.rss - pure.rss) / (fit.df - pure.df) / pure.variance
    line(f"{name} best", centre + peak, centre + low, centre + high, at)
    line(f"{name} lack of fit", lack, fit.df - pure.df, pure.df, stats.f.sf(lack, fit.df - pure.df, pure.df))


def best_two(name, first, second, results, blocks):
    u, v, y = (np.asarray(it, float) for it in (first, second, results))
    b = list(dict.fromkeys(blocks))
    scaled = [(it - (it.max() + it.min()) / 2) / ((it.max() - it.min()) / 2) for it in (u, v)]
    p, q = scaled
    fit = Fit(np.column_stack([np.ones(len(y)), dummies(blocks, b, True), p, q, p * q, p * p, q * q]), y)
    b1, b2, b12, b11, b22 = fit.b[-5:]
    B = np.array([[b11, b12 / 2], [b12 / 2, b22]])
    point = np.linalg.solve(-2 * B, [b1, b2])
    back = [(it.max() + it.min()) / 2 + z * (it.max() - it.min()) / 2 for it, z in zip((u, v), point)]
    at = fit.b[0] + np.sum(fit.b[1 : len(b)]) / len(b) + np.dot([b1, b2], point) / 2
    line(f"{name} two", *back, at, *np.linalg.eigvalsh(B))


def drift(name, runs, results, settings):
    s = list(dict.fromkeys(settings))
    fit = Fit(np.column_stack([dummies(settings, s), np.asarray(runs, float)]), np.asarray(results, float))
    change, error = fit.b[-1], np.sqrt(fit.variance * fit.cov[-1, -1])
    t = stats.t.isf(0.025, fit.df)
    line(f"{name} drift", change, change - t * error, change + t * error, 2 * stats.t.sf(abs(change / error), fit.df))


# R's data set npk (Venables & Ripley, Modern Applied Statistics with S): blocks of four plots, with and without nitrogen.
npk_block = [block for block in range(1, 7) for _ in range(4)]
nitrogen = [0, 1, 0, 1, 1, 1, 0, 0, 0, 1, 1, 0, 1, 1, 0, 0, 1, 0, 1, 0, 1, 1, 0, 0]
npk_yield = [49.5, 62.8, 46.8, 57, 59.8, 58.5, 55.5, 56, 62.8, 55.8, 69.5, 55, 62, 48.8, 45.5, 44.2, 52, 51.5, 49.8, 48.8, 57.2, 59, 53.2, 56]
compare("npk", nitrogen, npk_yield, npk_block)

# Made data: unequal numbers, and no morning that had every setting.
heat = [90, 90, 92, 94, 92, 92, 94, 96, 90, 96, 96, 94, 90, 92]
day = ["Mon"] * 4 + ["Tue"] * 4 + ["Wed"] * 4 + ["Thu"] * 2
result = [20.1, 20.4, 20.9, 21.6, 19.8, 20.2, 20.7, 21.1, 18.9, 20.6, 20.2, 20.4, 21.3, 22.2]
time = [27, 29, 26, 28, 31, 27, 29, 26, 25, 28, 30, 27, 28, 30]
compare("days", heat, result, day)
adjusted("days", heat, result, day, [time])
adjusted("days at 28", heat, result, day, [time], [28])

heat = [88, 90, 92, 94, 96, 88, 90, 92, 94, 96, 88, 90, 92, 94, 96, 92, 94]
day = [1] * 5 + [2] * 5 + [3] * 7
result = [18.9, 19.8, 20.6, 20.3, 19.7, 18.0, 19.3, 19.6, 19.9, 18.8, 19.2, 20.4, 20.7, 21.0, 19.7, 21.1, 20.6]
best("curve", heat, result, day)
drift("curve", range(1, 18), result, heat)
drift("six", [1, 2, 3, 4, 5, 6], [20.1, 20.4, 20.3, 20.6, 20.5, 20.9], [1] * 6)

best_two("ten", [90, 90, 94, 94, 92, 92, 89, 95, 92, 92], [1.8, 2.4, 1.8, 2.4, 2.1, 2.1, 2.1, 2.1, 1.7, 2.5], [19.0, 19.4, 19.6, 20.0, 20.6, 20.4, 18.6, 19.5, 19.4, 20.0], [1] * 10)
chemreact = [(80, 170, 80.5), (80, 180, 81.5), (90, 170, 82), (90, 180, 83.5), (85, 175, 83.9), (85, 175, 84.3), (85, 175, 84), (85, 175, 79.7), (85, 175, 79.8),
             (85, 175, 79.5), (92.07, 175, 78.4), (77.93, 175, 75.6), (85, 182.07, 78.5), (85, 167.93, 77)]
best_two("ChemReact", *zip(*chemreact), [1] * 7 + [2] * 7)
