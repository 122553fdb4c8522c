"""Values for comparison.json and uncertainty.json. SciPy 1.17.1, NumPy 2.4.6, mpmath 1.3.0. Run: python3 comparison.py"""
import itertools

import mpmath as m
import numpy as np
import scipy.stats as stats

np.set_printoptions(precision=14)


def line(name, *values):
    print(name, *[f"{float(v):.14g}" for v in values])


# Two settings of three shots; and three settings, unbalanced, with ties.
two = [[19.0, 19.2, 19.4], [20.1, 20.3, 20.5]]
three = [[19.1, 19.4, 19.4, 19.9], [19.8, 20.2, 20.2], [20.9, 20.1, 21.4, 20.6, 20.9]]
for name, groups in [("two", two), ("three", three)]:
    for equal in [False, True]:
        test = stats.f_oneway(*groups, equal_var=equal)
        line(f"{name} test equal={equal}", test.statistic, test.pvalue)
        pairs = stats.tukey_hsd(*groups, equal_var=equal)
        interval = pairs.confidence_interval(0.95)
        for a, b in itertools.combinations(range(len(groups)), 2):
            line(f"{name} pair {a} {b} equal={equal}", -pairs.statistic[a, b], -interval.high[a, b], -interval.low[a, b], pairs.pvalue[a, b])
    line(f"{name} rank", *stats.kruskal(*groups))
    for group in groups:
        low, high = stats.t.interval(0.95, len(group) - 1, np.mean(group), stats.sem(group))
        line(f"{name} setting", np.mean(group), np.std(group, ddof=1), low, high)


def welch_df2(groups):
    w = np.array([len(g) / np.var(g, ddof=1) for g in groups])
    k = len(groups)
    lam = sum((1 - wi / w.sum()) ** 2 / (len(g) - 1) for wi, g in zip(w, groups))
    return (k * k - 1) / (3 * lam)


line("df2 of Welch", welch_df2(two), welch_df2(three))


def residual_squares(design, y):
    coefficients, *_ = np.linalg.lstsq(design, y, rcond=None)
    return coefficients, float(np.sum((y - design @ coefficients) ** 2))


def adjusted(name, settings, results, covariates, at=None):
    """Analysis of covariance by dummy variables, another way than the within-setting fit under test."""
    y, x = np.array(results, float), np.array(covariates, float).reshape(len(results), -1)
    levels = sorted(set(settings))
    dummies = np.array([[float(s == level) for level in levels] for s in settings])
    at = x.mean(axis=0) if at is None else np.array(at, float)
    design = np.hstack([dummies, x - at])
    coefficients, common = residual_squares(design, y)
    df = len(y) - design.shape[1]
    covariance = np.linalg.inv(design.T @ design) * common / df
    for k, level in enumerate(levels):
        line(f"{name} adjusted {level}", coefficients[k], np.sqrt(covariance[k, k]))
    _, without = residual_squares(np.hstack([np.ones((len(y), 1)), x - at]), y)
    df1 = len(levels) - 1
    f = (without - common) / df1 / (common / df)
    own = np.hstack([dummies] + [dummies[:, [k]] * (x - at) for k in range(len(levels))])
    _, separate = residual_squares(own, y)
    slopes, rest = df1 * x.shape[1], len(y) - own.shape[1]
    line(f"{name} test", f, df1, df, stats.f.sf(f, df1, df), stats.f.sf((common - separate) / slopes / (separate / rest), slopes, rest))


pressure = [6] * 4 + [8] * 4 + [9] * 4
time = [26, 28, 29, 31, 25, 27, 30, 32, 24, 27, 28, 33]
mass = [35.8, 36.1, 36.4, 36.0, 36.2, 35.7, 36.3, 36.6, 35.9, 36.2, 36.0, 36.5]
extraction = [20.1, 20.4, 20.3, 20.9, 20.6, 20.9, 21.3, 21.6, 20.2, 20.9, 20.8, 21.7]
adjusted("time", pressure, extraction, time)
adjusted("time and mass", pressure, extraction, list(zip(time, mass)))
adjusted("two settings at 28", pressure[:8], extraction[:8], time[:8], [28])

# Fieller's interval of the peak by a root search on its definition, not by its closed form.
x = np.array([6, 6, 7, 7, 8, 8, 9, 9, 10, 10], float)
y = np.array([19.2, 19.5, 20.4, 20.1, 20.9, 21.2, 20.8, 20.6, 19.9, 20.2])


def peak(name, x, y, confidence):
    c = x - 8
    design = np.vander(c, 3, increasing=True)
    b, rss = residual_squares(design, y)
    df = len(x) - 3
    v = np.linalg.inv(design.T @ design) * rss / df
    t = stats.t.ppf((1 + confidence) / 2, df)
    top = -b[1] / (2 * b[2])
    excess = lambda s: (b[1] + 2 * b[2] * s) ** 2 - t * t * (v[1, 1] + 4 * s * v[1, 2] + 4 * s * s * v[2, 2])
    ends = []
    for direction in [-1, 1]:
        steps = [top + direction * 1.01**k * 0.001 for k in range(1500)]
        beyond = next((s for s in steps if excess(s) > 0), None)
        ends.append(8 + float(m.findroot(excess, (top, beyond), solver="anderson")) if beyond is not None else float("inf") * direction)
    line(f"{name} peak", 8 + top, *ends, b[0] - b[1] ** 2 / (4 * b[2]))


peak("clear", x, y, 0.95)
peak("open above", np.array([6, 7, 8, 9, 10, 6, 7, 8, 9, 10.0]), np.array([19.0, 19.9, 20.3, 20.4, 20.5, 19.3, 19.7, 20.5, 20.8, 20.5]), 0.999)

first, second = [20, 20.3, 20.1, 20.5, 20.2], [19.8, 20.1, 20.4, 19.9, 20.2]
test = stats.ttest_ind(second, first, equal_var=False)
interval = test.confidence_interval(0.90)
line("equivalent", np.mean(second) - np.mean(first), interval.low, interval.high)

for a, b in [([1, 2, 3, 4, 5], [2, 1, 3, 5, 4]), ([1, 2, 2, 3, 4, 5, 6], [2, 1, 3, 3, 5, 4, 7])]:
    rho = stats.spearmanr(a, b).statistic
    orders = [abs(stats.pearsonr(stats.rankdata(a), o).statistic) >= abs(rho) - 1e-12 for o in itertools.permutations(stats.rankdata(b))]
    line("rank correlation, all orders", rho, sum(orders) / len(orders))

one, two_ = [9.5, 9.6, 9.4, 9.7], [9.8, 9.6]
groups = [one, two_]
within = sum(np.var(g, ddof=1) * (len(g) - 1) for g in groups) / 4
between = sum(len(g) * (np.mean(g) - np.mean(one + two_)) ** 2 for g in groups)
operators = (between - within) / (6 - 20 / 6)
line("repeatability, unbalanced", np.sqrt(within), np.sqrt(operators), np.sqrt(within + operators))


def power(n, effect, significance):
    df, nc = 2 * (n - 1), effect * np.sqrt(n / 2)
    critical = stats.t.ppf(1 - significance / 2, df)
    return stats.nct.sf(critical, df, nc) + stats.nct.sf(critical, df, -nc)


for effect, wanted, significance in [(0.5, 0.8, 0.05), (1, 0.9, 0.05), (3, 0.8, 0.05), (0.1, 0.95, 0.01), (1, 0.8, 0.001)]:
    line(f"shots {effect} {wanted} {significance}", next(n for n in range(2, 10000) if power(n, effect, significance) >= wanted))
for n, wanted, significance in [(2, 0.8, 0.05), (3, 0.8, 0.05), (12, 0.8, 0.05), (5, 0.9, 0.01)]:
    low, high = 0.0, 100.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (low, middle) if power(n, middle, significance) >= wanted else (middle, high)
    line(f"detectable {n} {wanted} {significance}", high * 0.5)

draws = np.random.default_rng(1)
size = 4_000_000
simulated = draws.normal(36, 0.05, size) * draws.normal(9.5, 0.1, size) / draws.normal(18, 0.05, size)
line("Monte Carlo, twice the SD of the extraction", 2 * simulated.std())
