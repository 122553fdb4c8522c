"""Upper tail of the studentised range: [q, means, degrees of freedom, P(Q > q)], NumPy 2.4.6 / SciPy 1.17.1.

Own 40-node Gauss-Legendre panels, another rule than the trapezoid sums under test. Checked here against the exact identity with
t for two means (1e-13) and against SciPy's own routine. R's routine is not used: it is wrong by 1e-3 for 2 degrees of freedom.
Writes studentized-range.json. Run: python3 studentized-range.py
"""
import json

import numpy as np
import scipy.stats as stats
from numpy.polynomial.legendre import leggauss
from scipy.special import gammaln, log_ndtr, ndtr

NODES, WEIGHTS = leggauss(40)


def panels(low, high, count):
    edges = np.linspace(low, high, count + 1)
    half, centre = (edges[1:] - edges[:-1]) / 2, (edges[1:] + edges[:-1]) / 2
    return (centre[:, None] + half[:, None] * NODES).ravel(), (half[:, None] * WEIGHTS).ravel()


def range_upper(widths, means):
    out = np.empty_like(widths)
    for i, w in enumerate(widths):
        z, weight = panels(-9.5, 11.5 + w / 2, 40)
        ratio = np.minimum(1, ndtr(z - w) / np.maximum(ndtr(z), 1e-320))
        with np.errstate(all="ignore"):
            f = np.exp(-z * z / 2 + (means - 1) * log_ndtr(z)) / np.sqrt(2 * np.pi) * -np.expm1((means - 1) * np.log1p(-ratio))
        out[i] = min(1, means * np.dot(weight, np.where(np.isfinite(f), f, 0)))
    return out


def upper(q, means, df):
    half = df / 2
    constant = np.log(2) + half * np.log(half) - gammaln(half)
    sd = 1 / np.sqrt(2 * df)
    u, weight = panels(-12 * sd - 45 / df, np.log1p(14 * sd + 0.5 / df), 24)
    s = np.exp(u)
    return float(np.dot(weight, np.exp(constant + df * u - half * s * s) * range_upper(q * s, means)))


points = [
    [q, means, df, upper(q, means, df)]
    for means in [2, 3, 4, 5, 10, 20]
    for df in [1, 1.7, 2, 3, 5, 10, 20, 60, 398]
    for q in [0.5, 2, 3, 3.5, 5, 8, 15]
]
for q, means, df, p in points:
    if means == 2:
        assert abs(p - 2 * stats.t.sf(q / np.sqrt(2), df)) < 1e-13, (q, df)
    elif q in (3, 8):
        assert abs(p - stats.studentized_range.sf(q, means, df)) < 1e-11, (q, means, df, p)
open("studentized-range.json", "w").write("[\n" + ",\n".join(json.dumps(p) for p in points) + "\n]\n")
