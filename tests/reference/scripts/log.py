"""Reference values of tests/reference/log.json. Python 3.11 (statistics), NumPy 2.4.6, SciPy 1.17.1. Rules 1 to 8 are written here from their wording."""
import json
import statistics as st
import numpy as np
from scipy import stats

# LOG.SUMMARY: two settings by name, a gap in the strength.
rows = [("fine", 18.1, 36.4, 27.2, 9.4), ("fine", 17.9, 35.8, 26.1, 9.6), ("fine", 18.0, 37.0, 28.4, None), ("coarse", 18.2, 36.1, 21.9, 8.3), ("coarse", 18.0, 36.6, 22.8, 8.1)]
for name in ("coarse", "fine"):
    own = [r for r in rows if r[0] == name]
    lists = [[r[2] / r[1] for r in own], [r[3] for r in own], [r[4] for r in own if r[4]], [r[2] * r[4] / r[1] for r in own if r[4]]]
    print("LOG.SUMMARY", name, len(own), *("%.12g %.12g" % (st.mean(v), st.stdev(v)) for v in lists))

# LOG.SIGNALS: shots of every kind the rules are about, one after the other, rounded to a decimal.
rng = np.random.default_rng(4)
x = np.round(np.concatenate([
    [32.5, 32.1], rng.normal(27, 1.5, 10), [36], rng.normal(28.5, 0.8, 10), np.linspace(25, 28, 7), 27 + 1.2 * np.tile([1, -1], 8),
    rng.normal(27, 0.3, 17), 27 + np.array([2.6, -2.8, 3.1, 2.7, -3, -2.5, 2.8, 2.9]), [27, 31.2, 26.8, 31.4, 23.9, 23.6, 26.9, 23.8, 24.1]]), 1)
sd = np.abs(np.diff(x)).mean() / 1.128
z = (x - x.mean()) / sd
def run(i, n): return z[i + 1 - n:i + 1] if i + 1 >= n else None
def signals(i):
    out = []
    if abs(z[i]) > 3: out.append(1)
    w = run(i, 9)
    if w is not None and (all(w > 0) or all(w < 0)): out.append(2)
    w = run(i, 6)
    if w is not None and (all(np.diff(w) > 0) or all(np.diff(w) < 0)): out.append(3)
    w = run(i, 14)
    if w is not None and all(np.diff(w)[:-1] * np.diff(w)[1:] < 0): out.append(4)
    w = run(i, 3) if i >= 2 else z[:i + 1]
    if (z[i] > 2 and sum(w > 2) >= 2) or (z[i] < -2 and sum(w < -2) >= 2): out.append(5)
    w = run(i, 5) if i >= 4 else z[:i + 1]
    if (z[i] > 1 and sum(w > 1) >= 4) or (z[i] < -1 and sum(w < -1) >= 4): out.append(6)
    w = run(i, 15)
    if w is not None and all(abs(w) < 1): out.append(7)
    w = run(i, 8)
    if w is not None and all(abs(w) > 1) and any(w > 0) and any(w < 0): out.append(8)
    return ",".join(map(str, out))
print("LOG.SIGNALS values", json.dumps(x.tolist()))
print("LOG.SIGNALS all", json.dumps([[signals(i)] for i in range(len(x))]))

# LOG.ODD: generalised ESD written out step by step.
rng = np.random.default_rng(9)
v = np.round(rng.normal(27, 1.5, 40), 1); v[[5, 17, 30]] = [45, 12, 44.5]
def esd(values, k, alpha):
    left = list(enumerate(values)); taken = []; odd = 0
    for i in range(1, k + 1):
        a = np.array([w for _, w in left]); d = np.abs(a - a.mean()); j = int(d.argmax()); r = d[j] / a.std(ddof=1)
        n = len(values); p = 1 - alpha / (2 * (n - i + 1)); t = stats.t.ppf(p, n - i - 1)
        lam = (n - i) * t / np.sqrt((n - i - 1 + t * t) * (n - i + 1))
        taken.append(left.pop(j)[0])
        if r > lam: odd = i
    return [[i in taken[:odd]] for i in range(len(values))]
print("LOG.ODD values", json.dumps(v.tolist()))
print("LOG.ODD esd", json.dumps(esd(v, 8, 0.05)))
