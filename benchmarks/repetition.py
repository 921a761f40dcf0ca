"""Quadratic form of a learner's errors by SciPy's Toeplitz solver, and Welch's density, timed; a line of JSON.

Arguments: file of errors then x (float64), n of errors, n of samples, rate, window, runs, learning rate, planning SD, execution SD."""
import json
import sys

import numpy as np
import scipy
from scipy import linalg, signal

from timing import timed

path = sys.argv[1]
n, samples, rate, window, runs = (int(v) for v in sys.argv[2:7])
b, q, r = (float(v) for v in sys.argv[7:10])
columns = np.fromfile(path)
errors, x = columns[:n], columns[n:]
plan = (b * b * r * r + q * q) / (b * (2 - b))
lags = np.r_[plan + r * r, (plan - b * (plan + r * r)) * (1 - b) ** np.arange(n - 1)]


out = {"version": f"NumPy {np.__version__}, SciPy {scipy.__version__}"}
out["toeplitz"], value = timed(lambda: errors @ linalg.solve_toeplitz(lags, errors), runs)
out["form"] = float(value)
out["welch"], (_, density) = timed(lambda: signal.welch(x, rate, window="hann", nperseg=window, detrend="linear"), runs)
out["density"] = [float(v) for v in density[6:13]]
print(json.dumps(out))
