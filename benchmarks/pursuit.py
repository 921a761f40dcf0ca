"""Lag of one velocity behind another by SciPy, timed; a line of JSON.

Arguments: file of target then pointer velocity (float64), n, first and last lag in samples, runs. The correlation at each lag is taken over the
overlap, about the means of the overlap; the sums of products come from one transform, those of one series from running sums."""
import json
import sys
import time

import numpy as np
import scipy
from scipy import signal

path, n, first, last, runs = sys.argv[1], *(int(v) for v in sys.argv[2:])
target, pointer = np.fromfile(path).reshape(2, n)


def lag():
    q, p = target - target.mean(), pointer - pointer.mean()
    lags = np.arange(first, last + 1)
    # entry n - 1 + k is the sum of q[i] p[i + k]
    products = signal.correlate(p, q, method="fft")[n - 1 + lags]
    sums = [np.concatenate([[0], np.cumsum(v)]) for v in (q, q * q, p, p * p)]
    low, high = np.maximum(0, -lags), np.minimum(n, n - lags)
    count = high - low
    q1, q2 = (s[high] - s[low] for s in sums[:2])
    p1, p2 = (s[high + lags] - s[low + lags] for s in sums[2:])
    r = (products - q1 * p1 / count) / np.sqrt((q2 - q1 * q1 / count) * (p2 - p1 * p1 / count))
    k = int(np.argmax(r))
    shift = (r[k - 1] - r[k + 1]) / (2 * (r[k - 1] - 2 * r[k] + r[k + 1]))
    return float(lags[k] + shift), float(r[k])


seconds = []
for _ in range(runs):
    start = time.perf_counter()
    value = lag()
    seconds.append(time.perf_counter() - start)
print(json.dumps({"version": f"SciPy {scipy.__version__}", "lag": value[0], "height": value[1], "seconds": float(np.median(seconds))}))
