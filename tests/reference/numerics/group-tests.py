"""Group comparisons of random, unbalanced groups with ties, SciPy 1.17.1: Welch t, ANOVA, Welch ANOVA, Kruskal-Wallis,
Tukey-Kramer and Games-Howell p values and 95 % intervals of (second - first). Friedman and Spearman on a block of the same draw.

Writes group-tests.json. Run: python3 group-tests.py
"""
import json

import numpy as np
import scipy.stats as stats

random = np.random.default_rng(5)
cases = []
for i in range(60):
    k = int(random.integers(2, 6))
    decimals = int(random.integers(0, 4))
    spread = 10.0 ** -random.integers(0, 4)
    base = 20.0 if i % 2 else 0.0
    groups = [
        base + spread * np.round(random.normal(random.normal(0, 0.6), random.uniform(0.3, 2), int(random.integers(2, 12))), decimals)
        for _ in range(k)
    ]
    if any(len(set(g)) < 2 for g in groups):
        continue
    block = np.round(random.normal(0, 1, (int(random.integers(4, 10)), 3)), int(random.integers(0, 3)))
    pairs = [(a, b) for a in range(k) for b in range(a + 1, k)]

    def honest(result):
        interval = result.confidence_interval(0.95)
        # SciPy's interval is of first - second
        return [[float(-interval.high[a, b]), float(-interval.low[a, b]), float(result.pvalue[a, b])] for a, b in pairs]

    welch_t = stats.ttest_ind(groups[1], groups[0], equal_var=False)
    ninety = welch_t.confidence_interval(0.90)
    anova, welch, kruskal = stats.f_oneway(*groups), stats.f_oneway(*groups, equal_var=False), stats.kruskal(*groups)
    spearman = stats.spearmanr(block[:, 0], block[:, 1])
    friedman = stats.friedmanchisquare(*block.T)
    cases.append(
        {
            "groups": [g.tolist() for g in groups],
            "welchT": [float(welch_t.statistic), float(welch_t.df), float(welch_t.pvalue), float(ninety.low), float(ninety.high)],
            "equal": [float(anova.statistic), float(anova.pvalue)],
            "unequal": [float(welch.statistic), float(welch.pvalue)],
            "rank": [float(kruskal.statistic), float(kruskal.pvalue)],
            "tukey": honest(stats.tukey_hsd(*groups)),
            "gamesHowell": honest(stats.tukey_hsd(*groups, equal_var=False)),
            "block": block.tolist(),
            "friedman": [float(friedman.statistic), float(friedman.pvalue)],
            "spearman": [float(spearman.statistic), float(spearman.pvalue)],
        }
    )
open("group-tests.json", "w").write("[\n" + ",\n".join(json.dumps(c, separators=(",", ":")) for c in cases) + "\n]\n")
print(len(cases))
