"""Reference values of distributions, mpmath 1.3.0 at 40 digits (SciPy 1.17.1 only gives starting points of the quantiles).

Writes distributions.json: for each function a list of [arguments..., value]. Run: python3 distributions.py
"""
import json

import mpmath as m
import scipy.special as special
import scipy.stats as stats
from mpmath import mp, mpf

mp.dps = 40
values = {}


def add(name, arguments, value):
    value = float(value)
    if value > 1e-290:  # below lies the end of the double range
        values.setdefault(name, []).append([float(a) for a in arguments] + [value])


def t_two_sided(x, v):
    x, v = mpf(x), mpf(v)
    return m.betainc(v / 2, mpf(1) / 2, 0, v / (v + x * x), regularized=True)


def f_upper(x, a, b):
    x, a, b = mpf(x), mpf(a), mpf(b)
    return m.betainc(b / 2, a / 2, 0, b / (b + a * x), regularized=True)


def chi_square_upper(x, k):
    return m.gammainc(mpf(k) / 2, mpf(x) / 2, m.inf, regularized=True)


def normal_lower(x):
    return m.erfc(-mpf(x) / m.sqrt(2)) / 2


def binomial(k, n, p):
    p = mpf(p)
    return m.binomial(n, k) * p**k * (1 - p) ** (n - k)


def solve(f, start, p):
    target = m.log(mpf(p))
    g = lambda u: m.log(f(m.e**u)) - target
    u = m.log(mpf(start))
    root = m.findroot(g, (u, u + mpf("1e-6")), solver="secant", tol=1e-50, maxsteps=60, verify=False)
    assert abs(g(root)) < mpf("1e-25")
    return m.e**root


for v in [1, 2, 3, 4, 5, 8, 15, 30, 100, 1000, 1e5, 2.5, 7.3]:
    for x in [1e-8, 1e-3, 0.5, 1, 2, 2.5, 4, 6, 10, 50, 1000]:
        add("tTwoSided", [x, v], t_two_sided(x, v))
    for p in [1e-12, 1e-8, 1e-4, 0.001, 0.01, 0.05, 0.1, 0.32, 0.5, 0.9, 0.99, 0.999999]:
        add("tQuantileTwoSided", [p, v], solve(lambda x: t_two_sided(x, v), stats.t.isf(p / 2, v), p))
for d1 in [1, 2, 3, 5, 9, 100]:
    for d2 in [1, 2, 5, 8, 12.6, 30, 120, 10000]:
        for x in [1e-6, 0.5, 1, 3.5, 10, 1000]:
            add("fUpper", [x, d1, d2], f_upper(x, d1, d2))
        for p in [1e-8, 0.001, 0.05, 0.5, 0.999]:
            add("fQuantileUpper", [p, d1, d2], solve(lambda x: f_upper(x, d1, d2), stats.f.isf(p, d1, d2), p))
for x in [0, 1e-10, 1e-3, 0.1, 0.5, 1, 1.96, 2.5, 3, 4, 5, 6, 7, 8, 10, 15, 20, 30, 36]:
    add("normalLower", [-x], normal_lower(-x))
    add("normalLower", [x], normal_lower(x))
for p in [1e-300, 1e-100, 1e-15, 1e-6, 1e-4, 0.001, 0.025, 0.05, 0.25, 0.4, 0.499]:
    root = m.findroot(lambda x: m.log(normal_lower(x)) - m.log(mpf(p)), mpf(float(special.ndtri(p))), tol=1e-60)
    add("normalQuantileMinus", [p], -root)
for k in [1, 2, 3, 4, 7, 10, 30, 100, 1000]:
    for x in [1e-6, 0.1, 1, 3.84, 7.8, 20, 80, 300, 1000]:
        add("chiSquareUpper", [x, k], chi_square_upper(x, k))
for n in [1, 2, 6, 10, 24, 36, 100, 1000]:
    for p in [1e-6, 0.1, 1 / 3, 0.5, 0.99]:
        for k in sorted({0, 1, n // 4, n // 3, n // 2, (2 * n) // 3, n - 1, n}):
            terms = [binomial(j, n, p) for j in range(n + 1)]
            add("binomialLower", [k, n, p], sum(terms[: k + 1]))
            add("binomialUpper", [k, n, p], sum(terms[k:]))


def noncentral_t_density(x, v, d):
    """Closed form with Kummer's function, so another way than the average that the code under test takes."""
    x, v, d = mpf(x), mpf(v), mpf(d)
    z = d * d * x * x / (2 * (v + x * x))
    first = m.sqrt(2) * d * x * m.hyp1f1(v / 2 + 1, mpf(3) / 2, z) / ((v + x * x) * m.gamma((v + 1) / 2))
    second = m.hyp1f1((v + 1) / 2, mpf(1) / 2, z) / (m.sqrt(v + x * x) * m.gamma(v / 2 + 1))
    scale = v ** (v / 2) * m.gamma(v + 1) / (2**v * m.exp(d * d / 2) * (v + x * x) ** (v / 2) * m.gamma(v / 2))
    return scale * (first + second)


def noncentral_t_upper(x, v, d):
    edges = sorted({mpf(x), *[mpf(x) + w for w in (1, 3, 10, 40, 200, 1000)]})
    value = m.quad(lambda t: noncentral_t_density(t, v, d), edges)
    return value + m.quad(lambda u: noncentral_t_density(1 / u, v, d) / (u * u), [0, 1 / edges[-1]])


mp.dps = 25
for v in [1, 2, 3, 8, 38]:
    for d in [0, 0.5, 2, 5, 12]:
        for x in [0.5, 1, 2, 4.3, 12.7]:
            total = noncentral_t_upper(x, v, d) + noncentral_t_upper(x, v, -d)
            assert d == 0 or abs(total - mpf(float(stats.ncf.sf(x * x, 1, v, d * d)))) < 1e-9, (x, v, d, total)
            values.setdefault("noncentralTTwoSided", []).append([x, v, d, float(total)])


def noncentral_f_upper(f, d1, d2, noncentrality):
    """By its definition, term by term at 40 digits; SciPy's own way beside it."""
    mean = mpf(noncentrality) / 2
    return m.fsum(m.exp(-mean) * mean**j / m.factorial(j) * f_upper(mpf(f) * d1 / (d1 + 2 * j), d1 + 2 * j, d2) for j in range(120))


mp.dps = 40
for d1, d2 in [(2, 3), (3, 8), (4, 15), (7, 16), (11, 60)]:
    for f in [0.5, 2.5, 6]:
        for noncentrality in [0.5, 4, 20]:
            value = noncentral_f_upper(f, d1, d2, noncentrality)
            assert abs(value - mpf(float(stats.ncf.sf(f, d1, d2, noncentrality)))) < 1e-9, (f, d1, d2, noncentrality, value)
            values.setdefault("noncentralFUpper", []).append([f, d1, d2, noncentrality, float(value)])

lines = ",\n".join(f' "{name}": ' + json.dumps(rows, separators=(",", ":")) for name, rows in values.items())
open("distributions.json", "w").write("{\n" + lines + "\n}\n")
print({name: len(rows) for name, rows in values.items()})
