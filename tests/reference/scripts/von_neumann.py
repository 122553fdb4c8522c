"""Exact chances of von Neumann's ratio for tests/statistics/von-neumann.test.ts. Python 3.11, NumPy 2.4.6, SciPy 1.17.1.

P(ratio < c) is that of a weighted sum of squared normal deviates below 0, the weights 4 sin²(πk/2n) − c for k = 1 … n − 1, by the integral of Imhof (1961),
Biometrika 48:419.
"""
import numpy as np
from scipy import integrate


def exact(n, c):
    weights = 4 * np.sin(np.pi * np.arange(1, n) / (2 * n)) ** 2 - c

    def integrand(u):
        angle = 0.5 * np.sum(np.arctan(weights * u))
        size = 0.25 * np.sum(np.log1p((weights * u) ** 2))
        return np.sin(angle) / u * np.exp(-size)

    return 0.5 - integrate.quad(integrand, 0, np.inf, limit=2000, epsabs=1e-12)[0] / np.pi


for n, c in ((10, 0.7), (10, 0.95), (10, 1.25), (15, 1.1), (20, 1.2), (20, 2.6), (40, 1.42), (100, 1.63)):
    print(n, c, "%.7f" % exact(n, c))
