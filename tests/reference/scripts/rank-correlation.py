"""Spearman's p over all orders, for comparison.json and tests/comparison.test.ts. NumPy 2.4.6. Run: python3 rank-correlation.py

Not the recursion over sets of the code under test: up to 10 pairs every order is tried; beyond, orders are counted element by element,
with a table of sums for every set of elements already placed (Python integers, so nothing is rounded).
"""
import itertools
import math
from collections import Counter

import numpy as np
from scipy.stats import rankdata


def p_by_orders(first, second):
    a, b = (2 * rankdata(x) - len(x) - 1 for x in (first, second))
    reached = abs(np.dot(a, b))
    extreme = total = 0
    orders = itertools.permutations(b)
    while chunk := list(itertools.islice(orders, 200000)):
        extreme += int(np.sum(np.abs(np.array(chunk) @ a) >= reached - 1e-9))
        total += len(chunk)
    return extreme / total


def p_by_counting(first, second):
    a, b = ([int(2 * r - len(x) - 1) for r in rankdata(x)] for x in (first, second))
    reached = abs(sum(x * y for x, y in zip(a, b)))
    tables = {0: Counter({0: 1})}
    for value in a:
        following = {}
        for placed, sums in tables.items():
            for k, other in enumerate(b):
                if not placed >> k & 1:
                    into = following.setdefault(placed | 1 << k, Counter())
                    for s, ways in sums.items():
                        into[s + value * other] += ways
        tables = following
    (sums,) = tables.values()
    return sum(ways for s, ways in sums.items() if abs(s) >= reached) / sum(sums.values())


def show(name, first, second):
    a, b = rankdata(first), rankdata(second)
    p = p_by_orders(first, second) if len(a) <= 10 else p_by_counting(first, second)
    print(name, f"{np.corrcoef(a, b)[0, 1]:.14g} {p:.14g}", list(second))


ten = list(range(1, 11))
show("ten", ten, [2, 1, 6, 3, 9, 5, 4, 7, 10, 8])
show("ten", ten, [2, 1, 4, 3, 6, 5, 10, 9, 8, 7])
show("ten", ten, [10, 8, 9, 7, 6, 5, 4, 3, 1, 2])
show("ten", ten, ten)
show("twelve", list(range(1, 13)), [2, 1, 5, 3, 8, 6, 4, 7, 12, 9, 10, 11])
show("fourteen", list(range(1, 15)), [3, 1, 9, 2, 5, 12, 4, 10, 6, 14, 7, 8, 13, 11])
show("nine, ties", [1, 2, 2, 3, 4, 5, 6, 6, 6], [2, 1, 3, 3, 5, 4, 7, 7, 1])
# Beyond what the function counts: how near its approximation comes.
show("twelve, ties", [1, 2, 2, 3, 4, 5, 6, 7, 7, 7, 8, 9], [2, 4, 1, 3, 7, 5, 5, 9, 2, 12, 10, 3])
show("twelve, ties", [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], [2, 1, 4, 3, 7, 5, 5, 9, 8, 12, 10, 11])
show("twelve, two values", [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1], [1, 2, 3, 4, 5, 9, 6, 7, 8, 10, 11, 12])
fifteen = list(range(1, 16))
show("fifteen", fifteen, [8, 2, 11, 1, 5, 4, 15, 3, 9, 14, 6, 7, 13, 12, 10])
show("fifteen", fifteen, [4, 2, 6, 1, 5, 3, 11, 8, 9, 14, 7, 10, 13, 12, 15])
