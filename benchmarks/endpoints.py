"""The same figures of the same endpoints by NumPy and SciPy, timed; a line of JSON. Arguments: file of x then y (float64), n, runs."""
import json
import sys

import numpy as np
import scipy
from scipy import stats

from timing import timed

path, n, runs = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
x, y = np.fromfile(path).reshape(2, n)


def scatter():
    r = np.hypot(x, y)
    mean = np.array([x.mean(), y.mean()])
    s = np.cov(x, y)
    values, vectors = np.linalg.eigh(s)
    about = np.hypot(x - mean[0], y - mean[1])
    robust = [np.median(x), np.median(y), np.median(np.abs(x - np.median(x))), np.median(np.abs(y - np.median(y)))]
    errors = [np.abs(v).mean() for v in (x, y)] + [np.sqrt((v * v).mean()) for v in (x, y)]
    tails = [stats.kurtosis(v) for v in (x, y)]
    return mean, s, values, vectors, r.mean(), np.median(r), np.sqrt((r * r).mean()), about.mean(), np.median(about), robust, errors, tails


def rectangle():
    mean, s = [x.mean(), y.mean()], np.cov(x, y)
    cdf = stats.multivariate_normal(mean, s).cdf
    return float(cdf([9, 7]) - cdf([-9, 7]) - cdf([9, -7]) + cdf([-9, -7]))


def simulated():
    mean, s = [x.mean(), y.mean()], np.cov(x, y)
    u = np.random.default_rng(1).multivariate_normal(mean, s, 1_000_000)
    return float((np.hypot(u[:, 0], u[:, 1]) <= 9).mean())


out = {"version": f"NumPy {np.__version__}, SciPy {scipy.__version__}"}
out["scatter"], value = timed(scatter, runs)
out["meanX"], out["sxx"], out["medianRadius"] = float(value[0][0]), float(value[1][0, 0]), float(value[5])
out["rectangle"], out["rectangleValue"] = timed(rectangle, runs)
out["simulated"], out["simulatedValue"] = timed(simulated, runs)
print(json.dumps(out))
