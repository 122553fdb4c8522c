"""Cases for tasting.json, as JSON. Python 3.11, SciPy 1.17.1; Friedman's exact chance by going through every ranking."""
import itertools
import json
import random

import numpy as np
from scipy import integrate, optimize, stats

guessing = {"triangle": 1 / 3, "duo-trio": 1 / 2, "paired": 1 / 2}


def case(function, arguments, expected, **more):
    print("        " + json.dumps({"function": function, "arguments": arguments, "expected": expected, **more}, ensure_ascii=False) + ",")


# chances under guessing
for correct, tasters in ((7, 10), (10, 15), (0, 12), (24, 24), (40, 100), (700, 1000)):
    case("TASTE.TRIANGLE", [correct, tasters], float(stats.binom.sf(correct - 1, tasters, 1 / 3)), tolerance=1e-12, relative=True)
    case("TASTE.DUOTRIO", [correct, tasters], float(stats.binom.sf(correct - 1, tasters, 1 / 2)), tolerance=1e-12, relative=True)
for chosen, tasters in ((15, 20), (5, 20), (10, 20), (61, 100), (9, 10)):
    case("TASTE.PAIRED", [chosen, tasters], float(stats.binomtest(chosen, tasters, 0.5).pvalue), tolerance=1e-12, relative=True)
    case("TASTE.PAIRED", [chosen, tasters, 1], float(stats.binom.sf(chosen - 1, tasters, 0.5)), tolerance=1e-12, relative=True)

# the tables of the standards: every number of tasters, the smallest number correct, #N/A where it cannot be reached
alphas = [0.2, 0.1, 0.05, 0.01, 0.001]


def needed(tasters, p, alpha):
    for correct in range(tasters + 1):
        if stats.binom.sf(correct - 1, tasters, p) <= alpha:
            return correct
    return "#N/A"


for test, p in guessing.items():
    sizes = list(range(6, 103))
    case("TASTE.NEEDED", [sizes, test, [alphas]], [[needed(n, p, a) for a in alphas] for n in sizes])
sizes = list(range(6, 103))
case("TASTE.NEEDED", [sizes, "paired", 0.025], [[needed(n, 0.5, 0.025)] for n in sizes], where="two sides at 0.05")


# tasters needed: power of the exact test, looked at far beyond the answer
def tasters_for(discriminators, test, alpha, power):
    g = guessing[test]
    pc = g + discriminators * (1 - g)
    n = np.arange(1, 1200)
    critical = stats.binom.isf(alpha, n, g) + 1
    enough = stats.binom.sf(critical - 1, n, pc) >= power
    return [int(n[enough][0]), int(n[~enough][-1] + 1)]


for test in guessing:
    for discriminators in (0.5, 0.4, 0.3, 0.2):
        for power in (0.8, 0.9, 0.95):
            case("TASTE.TASTERS", [discriminators, test, 0.05, power], tasters_for(discriminators, test, 0.05, power))
    case("TASTE.TASTERS", [0.25, test, 0.01, 0.9], tasters_for(0.25, test, 0.01, 0.9))
    case("TASTE.TASTERS", [1, test], tasters_for(1, test, 0.05, 0.8))


# d′ from the models' own integrals
def correct_at(d, test):
    if test == "triangle":
        f = lambda z: (stats.norm.cdf(-z * 3**0.5 + d * (2 / 3) ** 0.5) + stats.norm.cdf(-z * 3**0.5 - d * (2 / 3) ** 0.5)) * stats.norm.pdf(z)
        return 2 * sum(integrate.quad(f, a, b, epsabs=1e-15, epsrel=1e-13)[0] for a, b in ((0, 2), (2, 5), (5, 12)))
    a, b = stats.norm.cdf(d / 2**0.5), stats.norm.cdf(d / 6**0.5)
    return 1 - a - b + 2 * a * b if test == "duo-trio" else a


def distance(share, test):
    if share <= guessing[test] + 1e-15:
        return 0.0
    return optimize.brentq(lambda d: correct_at(d, test) - share, 1e-3, 14, xtol=1e-13)


for test in guessing:
    for correct, tasters in ((10, 15), (18, 36), (26, 40), (9, 10), (0, 8), (350, 1000), (999, 1000)):
        low = stats.beta.ppf(0.025, correct, tasters - correct + 1) if correct else 0
        high = stats.beta.ppf(0.975, correct + 1, tasters - correct)
        case("TASTE.DISTANCE", [correct, tasters, test], [distance(x, test) for x in (correct / tasters, float(low), float(high))], tolerance=1e-9)

# rankings
random.seed(20)


def ranking(samples, tasters, ties):
    rows = []
    for _ in range(tasters):
        scores = [random.randint(1, samples if ties else 10**9) for _ in range(samples)]
        rows.append([float(x) for x in stats.rankdata(scores)])
    return rows


def friedman_statistic(rows):
    columns = list(zip(*rows))
    return float(stats.friedmanchisquare(*columns).statistic) if len(columns) > 2 else None


def friedman_exact(rows):
    seen = np.sum(np.sum(rows, axis=0) ** 2)
    sums = [np.array(rows[0])]
    for row in rows[1:]:  # every arrangement of every further taster; the first can stand as it is
        orders = np.array(list(itertools.permutations(row)))
        sums = (np.array(sums)[:, None, :] + orders[None, :, :]).reshape(-1, len(row))
    return float(np.mean(np.sum(np.array(sums) ** 2, axis=1) >= seen - 1e-9))


for samples, tasters, ties in ((3, 5, False), (3, 7, True), (4, 4, False), (4, 4, True), (5, 3, False), (5, 3, True), (6, 2, False)):
    rows = ranking(samples, tasters, ties)
    difference = stats.norm.ppf(0.975) * (tasters * samples * (samples + 1) / 6) ** 0.5
    case("TASTE.RANKS", [rows], [friedman_statistic(rows), samples - 1, friedman_exact(rows), difference], tolerance=1e-10, where="exact")
for samples, tasters, ties in ((3, 40, False), (4, 30, True), (5, 12, False), (6, 10, True), (8, 24, False)):
    rows = ranking(samples, tasters, ties)
    statistic = friedman_statistic(rows)
    difference = stats.norm.ppf(0.975) * (tasters * samples * (samples + 1) / 6) ** 0.5
    case("TASTE.RANKS", [rows], [statistic, samples - 1, float(stats.chi2.sf(statistic, samples - 1)), difference], tolerance=1e-10, where="chi-square")

for samples, tasters in ((3, 4), (4, 6), (5, 5), (6, 3)):
    rows = ranking(samples, tasters, False)
    result = stats.page_trend_test(rows, ranked=True, method="exact")
    case("TASTE.TREND", [rows], [float(result.statistic), float(result.pvalue)], tolerance=1e-12, where="exact")
for samples, tasters in ((4, 30), (11, 12)):
    rows = ranking(samples, tasters, False)
    result = stats.page_trend_test(rows, ranked=True, method="asymptotic")
    case("TASTE.TREND", [rows], [float(result.statistic), float(result.pvalue)], tolerance=1e-10, where="normal approximation")


def page_exact(rows):  # ties, by every arrangement
    places = np.arange(1, len(rows[0]) + 1)
    sums = np.array([0.0])
    for row in rows:
        orders = np.array([np.dot(places, it) for it in itertools.permutations(row)])
        sums = (sums[:, None] + orders[None, :]).ravel()
    seen = float(np.dot(places, np.sum(rows, axis=0)))
    return [seen, float(np.mean(sums >= seen - 1e-9))]


for samples, tasters in ((3, 5), (4, 4), (5, 3)):
    rows = ranking(samples, tasters, True)
    case("TASTE.TREND", [rows], page_exact(rows), tolerance=1e-12, where="exact, with ties")
