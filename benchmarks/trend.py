"""Kendall's tau and the Theil-Sen line by SciPy, and changes of level by a plain dynamic program in NumPy, timed; a line of JSON.

Arguments: file of x then y then steps (float64), n, runs, penalty, shortest stretch."""
import json
import sys

import numpy as np
import scipy
from scipy import stats

from timing import timed

path, n, runs, penalty, shortest = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), float(sys.argv[4]), int(sys.argv[5])
x, y, steps = np.fromfile(path).reshape(3, n)


def changes():
    """Every last start tried for every end, the starts of one end at once."""
    v = steps - steps.mean()
    s, q = np.r_[0, np.cumsum(v)], np.r_[0, np.cumsum(v * v)]
    best = np.full(n + 1, np.inf)
    best[0] = -penalty
    for end in range(shortest, n + 1):
        start = np.arange(0, end - shortest + 1)
        best[end] = np.min(best[start] + q[end] - q[start] - (s[end] - s[start]) ** 2 / (end - start)) + penalty
    return float(best[n])


out = {"version": f"NumPy {np.__version__}, SciPy {scipy.__version__}"}
out["kendall"], value = timed(lambda: stats.kendalltau(x, y, method="asymptotic"), runs)
out["tau"] = float(value[0])
# 50 million slopes: once is enough
out["theilSen"], value = timed(lambda: stats.theilslopes(y, x, 0.95), 1)
out["line"] = [float(v) for v in value]
out["changes"], out["total"] = timed(changes, runs)
print(json.dumps(out))
