"""Exponential curves fitted by SciPy's curve_fit with its analytic Jacobian, timed; a line of JSON. Arguments: file of the values, set after set (float64), values in a set, runs over all sets."""
import json
import sys
import time

import numpy as np
import scipy
from scipy.optimize import curve_fit

path, n, runs = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
sets = np.fromfile(path).reshape(-1, n)
x = np.arange(n) * (200 / n) + 1


def law(x, a, b, c):
    return a + b * np.exp(-c * (x - 1))


def jacobian(x, a, b, c):
    g = np.exp(-c * (x - 1))
    return np.stack([np.ones_like(g), g, -b * (x - 1) * g], axis=1)


def fit(y):
    return curve_fit(law, x, y, p0=[0.5, 0.5, 0.1], jac=jacobian)


for y in sets:
    fit(y)
start = time.perf_counter()
for _ in range(runs):
    for y in sets:
        fit(y)
seconds = (time.perf_counter() - start) / (runs * len(sets))
sums = [float(((y - law(x, *fit(y)[0])) ** 2).sum()) for y in sets]
print(json.dumps({"version": f"SciPy {scipy.__version__}, NumPy {np.__version__}", "seconds": seconds, "sums": sums}))
