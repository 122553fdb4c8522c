"""Scores by several tasters: cases for tasting.json and the values of tests/tasting/. Python 3.11, NumPy 2.4.6, SciPy 1.17.1.

Dummy columns for tasters and samples, solved by numpy.linalg.lstsq; least-squares means as averages of predictions over all tasters.
"""
import json
import itertools

import numpy as np
from scipy import stats


def cells_of(rows):
    found = {}
    for taster, sample, score in rows:
        found.setdefault((taster, sample), []).append(score)
    return [(taster, sample, float(np.mean(scores))) for (taster, sample), scores in found.items()]


def design(pairs, tasters, samples):
    return np.array([[1.0] + [t == one for one in tasters[1:]] + [s == one for one in samples[1:]] for t, s in pairs], dtype=float)


def analysis(rows, confidence=0.95):
    cells = cells_of(rows)
    tasters = sorted({t for t, _, _ in cells})
    samples = sorted({s for _, s, _ in cells})
    y = np.array([v for _, _, v in cells])
    x = design([(t, s) for t, s, _ in cells], tasters, samples)
    coefficients, *_ = np.linalg.lstsq(x, y, rcond=None)
    rss = float(np.sum((y - x @ coefficients) ** 2))
    df = len(y) - x.shape[1]
    inverse = np.linalg.inv(x.T @ x)
    means_of = np.array([design([(t, s) for t in tasters], tasters, samples).mean(axis=0) for s in samples])
    means = means_of @ coefficients
    error = rss / df
    covariance = error * means_of @ inverse @ means_of.T
    reach = stats.t.ppf((1 + confidence) / 2, df) * np.sqrt(np.diag(covariance))
    blocks = x[:, : len(tasters)]
    only_blocks, *_ = np.linalg.lstsq(blocks, y, rcond=None)
    between = float(np.sum((y - blocks @ only_blocks) ** 2)) - rss
    f = between / (len(samples) - 1) / error
    table = [[s, sum(1 for _, one, _ in cells if one == s), float(means[k]), float(means[k] - reach[k]), float(means[k] + reach[k])] for k, s in enumerate(samples)]
    pairs = {}
    for a, b in itertools.combinations(range(len(samples)), 2):
        size = np.sqrt((covariance[a, a] + covariance[b, b] - 2 * covariance[a, b]) / 2)
        pairs[samples[a] + samples[b]] = float(stats.studentized_range.sf(abs(means[a] - means[b]) / size, len(samples), df))
    return table, [f, len(samples) - 1, df, float(stats.f.sf(f, len(samples) - 1, df))], pairs


# Made data: four tasters, three cups, one or two tastings of each; Cleo never had C, and Dan had A only once.
rows = [
    ("Ann", "A", 6.5), ("Ann", "A", 7), ("Ann", "B", 5), ("Ann", "C", 4), ("Ann", "C", 5),
    ("Ben", "A", 8), ("Ben", "B", 7.5), ("Ben", "B", 6.5), ("Ben", "C", 5.5),
    ("Cleo", "A", 5), ("Cleo", "A", 6), ("Cleo", "B", 4),
    ("Dan", "A", 7), ("Dan", "B", 6), ("Dan", "B", 6), ("Dan", "C", 5),
]
balanced = [(t, s, v) for t, line in zip("PQRS", ([9, 6, 8, 7, 10, 6], [2, 1, 4, 1, 5, 2], [5, 3, 6, 2, 6, 4], [8, 2, 8, 6, 9, 7])) for s, v in zip("UVWXYZ", line)]
for name, data in (("with gaps and repeats", rows), ("Shrout & Fleiss", balanced)):
    table, test, pairs = analysis(data)
    arguments = [[r[0] for r in data], [r[1] for r in data], [r[2] for r in data]]
    print(name, json.dumps(arguments))
    print("TASTE.SCORES", json.dumps(table))
    print("TASTE.SCORESTEST", json.dumps(test))
    print("p of the pairs", json.dumps(pairs))

# TASTE.AGREEMENT: Kendall's W with ties, its exact p by every order of every taster's own ranks, and the correlations from mean squares.
def agreement(block):
    scores = np.array(block, dtype=float)
    k, n = scores.shape
    ranks = np.array([stats.rankdata(-row) for row in scores])
    def statistic(r):
        return float(((r.sum(axis=0) - k * (n + 1) / 2) ** 2).sum())
    ties = sum(float((np.unique(row, return_counts=True)[1] ** 3 - np.unique(row, return_counts=True)[1]).sum()) for row in ranks)
    w = 12 * statistic(ranks) / (k ** 2 * (n ** 3 - n) - k * ties)
    orders = [sorted(set(itertools.permutations(row))) for row in ranks]
    seen = statistic(ranks)
    reached = total = 0
    for others in itertools.product(*orders[1:]):
        total += 1
        reached += statistic(np.array([ranks[0], *others])) >= seen - 1e-9
    grand = scores.mean()
    bms = k * ((scores.mean(axis=0) - grand) ** 2).sum() / (n - 1)
    jms = n * ((scores.mean(axis=1) - grand) ** 2).sum() / (k - 1)
    ems = ((scores - scores.mean(axis=0) - scores.mean(axis=1)[:, None] + grand) ** 2).sum() / ((k - 1) * (n - 1))
    return [w, reached / total, (bms - ems) / (bms + (k - 1) * ems + k * (jms - ems) / n), (bms - ems) / (bms + (k - 1) * ems), (bms - ems) / bms]


tied = [[7, 5, 5, 8], [6, 6, 4, 9], [5, 4, 3, 6]]
print("TASTE.AGREEMENT", json.dumps(tied), json.dumps(agreement(tied)))

# TASTE.ALIKE: exact one-sided limits.
guessing = {"triangle": 1 / 3, "duo-trio": 1 / 2, "paired": 1 / 2}
for correct, n, test, most, confidence in ((7, 25, "triangle", 0.2, 0.95), (26, 64, "triangle", 0.2, 0.95), (10, 30, "duo-trio", 0.3, 0.9), (30, 60, "paired", 0.2, 0.95), (0, 12, "triangle", 0.2, 0.95), (12, 12, "triangle", 0.2, 0.95)):
    g = guessing[test]
    upper = 1.0 if correct == n else float(stats.beta.ppf(confidence, correct + 1, n - correct))
    share = g + most * (1 - g)
    allowed = [c for c in range(n + 1) if stats.binom.cdf(c, n, share) < 1 - confidence]
    print("TASTE.ALIKE", json.dumps([correct, n, test, most, confidence]), json.dumps([max(0.0, (upper - g) / (1 - g)), correct in allowed, max(allowed) if allowed else "#N/A"]))
