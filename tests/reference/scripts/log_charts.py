"""Cases of LOG.EWMA, LOG.CUSUM, LOG.CAPABILITY and LOG.LIMITS for log.json. Python 3.11, NumPy 2.4.6, SciPy 1.17.1; written from the formulas' wording."""
import json

import numpy as np
from scipy import stats

rng = np.random.default_rng(11)
x = np.round(np.concatenate([rng.normal(27, 0.8, 12), rng.normal(28.4, 0.8, 8)]), 1)
print(json.dumps(x.tolist()))
sigma = np.abs(np.diff(x)).mean() / 1.128


def ewma(target, spread, weight, width):
    """From the definition of the variance: the sum of the squared weights of all values so far."""
    rows = []
    for i in range(1, len(x) + 1):
        weights = weight * (1 - weight) ** np.arange(i - 1, -1, -1)
        average = (1 - weight) ** i * target + float(weights @ x[:i])
        reach = width * spread * float(np.sqrt((weights ** 2).sum()))
        rows.append([average, target - reach, target + reach, bool(abs(average - target) > reach)])
    return rows


def cusum(target, spread, allowance, limit):
    """From the partial sums: the sum since its lowest point so far."""
    rows = []
    for i in range(1, len(x) + 1):
        up = np.concatenate([[0], np.cumsum(x[:i] - target - allowance * spread)])
        down = np.concatenate([[0], np.cumsum(target - x[:i] - allowance * spread)])
        above, below = float(up[-1] - up.min()), float(down[-1] - down.min())
        rows.append([above, below, bool(max(above, below) > limit * spread)])
    return rows


print("LOG.EWMA", json.dumps(ewma(float(x.mean()), sigma, 0.2, 3)))
print("LOG.EWMA 27, 0.8, 0.1, 2.7", json.dumps(ewma(27, 0.8, 0.1, 2.7)))
print("LOG.CUSUM 27", json.dumps(cusum(27, sigma, 0.5, 5)))
print("LOG.CUSUM 27, 0.8, 0.25, 4", json.dumps(cusum(27, 0.8, 0.25, 4)))
low, high = 25, 30
sd = x.std(ddof=1)
ppk = min(high - x.mean(), x.mean() - low) / (3 * sd)
reach = stats.norm.ppf(0.975) * np.sqrt(1 / (9 * len(x)) + ppk ** 2 / (2 * (len(x) - 1)))
inside = 100 * np.mean((x >= low) & (x <= high))
values = [len(x), inside, x.mean(), sigma, sd, (high - low) / (6 * sigma), min(high - x.mean(), x.mean() - low) / (3 * sigma), (high - low) / (6 * sd), ppk, ppk - reach, ppk + reach]
print("LOG.CAPABILITY 25, 30", json.dumps([float(v) for v in values]))
first = x[:12]
print("LOG.LIMITS baseline 12", json.dumps([float(v) for v in (first.mean(), first.mean() - 3 * np.abs(np.diff(first)).mean() / 1.128, first.mean() + 3 * np.abs(np.diff(first)).mean() / 1.128, 3.267 * np.abs(np.diff(first)).mean())]))
