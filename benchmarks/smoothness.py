"""Spectral arc length by NumPy from its steps, timed; a line of JSON.

Arguments: file of speeds (float64), samples of a single movement (the first ones), sampling rate, highest frequency, threshold, pad level, runs, calls per run."""
import json
import sys
import time

import numpy as np

path, single = sys.argv[1], int(sys.argv[2])
rate, max_hz, threshold = (float(v) for v in sys.argv[3:6])
pad, runs, calls = (int(v) for v in sys.argv[6:9])
speed = np.fromfile(path)


def arc_length(v):
    """Whole transform, band up to the highest frequency and to the last bin that reaches the threshold, length of the curve."""
    size = 2 ** (int(np.ceil(np.log2(len(v)))) + pad)
    magnitude = np.abs(np.fft.rfft(v, size))
    magnitude = magnitude / magnitude.max()
    hz = np.arange(len(magnitude)) * rate / size
    magnitude = magnitude[hz <= max_hz]
    magnitude = magnitude[: np.flatnonzero(magnitude >= threshold)[-1] + 1]
    return float(-np.sum(np.hypot(1 / (len(magnitude) - 1), np.diff(magnitude))))


def timed(v, repeat):
    value = arc_length(v)
    seconds = []
    for _ in range(runs):
        start = time.perf_counter()
        for _ in range(repeat):
            value = arc_length(v)
        seconds.append((time.perf_counter() - start) / repeat)
    return float(np.median(seconds)), value


out = {"version": f"NumPy {np.__version__}"}
out["single"], out["singleValue"] = timed(speed[:single], calls)
out["long"], out["longValue"] = timed(speed, 1)
print(json.dumps(out))
