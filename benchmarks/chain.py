# The same chain with NumPy and SciPy, for benchmarks/chain.ts: reads one request a line, {"n": 1000000} to lay out samples and {"task": "speed"} to
# run, and answers each with one line; times are seconds of processor time. With {"version": true} it only tells what it runs on.
import json
import sys
import time

import numpy as np
import scipy
from scipy import signal

RATE = 1000.0
CUTOFF = 20.0


def bell(share):
    share = np.clip(share, 0.0, 1.0)
    return share**3 * (10.0 - 15.0 * share + 6.0 * share * share)


def path(t, amplitude, period):
    turn = np.floor(t / period)
    share = bell((t - turn * period) / 0.3)
    return np.round(amplitude * np.where(turn % 2 == 0, share, 1.0 - share))


def lay_out(n):
    i = np.arange(n)
    t = i / RATE + 0.0002 * np.sin(1.7 * i)
    return t, path(t, 400.0, 0.8), path(t, 300.0, 1.1)


def chain(t, x, y):
    grid = t[0] + np.arange(int(np.floor((t[-1] - t[0]) * RATE + 1e-6)) + 1) / RATE
    # each pass is designed higher, so that both together are 3 dB down at the cutoff
    warped = np.tan(np.pi * CUTOFF / RATE) / (np.sqrt(2.0) - 1.0) ** 0.25
    b, a = signal.butter(2, 2.0 * np.arctan(warped) / np.pi)
    pad = int(np.ceil(3.0 * RATE / CUTOFF))
    smooth_x = signal.filtfilt(b, a, np.interp(grid, t, x), padlen=pad)
    smooth_y = signal.filtfilt(b, a, np.interp(grid, t, y), padlen=pad)
    return np.hypot(np.gradient(smooth_x, 1.0 / RATE), np.gradient(smooth_y, 1.0 / RATE))


def bouts(speed, enter):
    above = speed >= enter / 2.0
    edges = np.flatnonzero(np.diff(above.astype(np.int8))) + 1
    if above[0]:
        edges = np.concatenate(([0], edges))
    if above[-1]:
        edges = np.concatenate((edges, [len(speed)]))
    if len(edges) == 0:
        return 0
    starts, ends = edges[0::2], edges[1::2]
    reached = np.maximum.reduceat(speed, edges)[0::2] if ends[-1] < len(speed) else np.maximum.reduceat(speed, edges[:-1])[0::2]
    starts, ends = starts[reached >= enter], ends[reached >= enter]
    return int(1 + np.count_nonzero(starts[1:] - ends[:-1] >= 0.05 * RATE))


columns = None
for line in sys.stdin:
    request = json.loads(line)
    if request.get("version"):
        answer = {"version": f"SciPy {scipy.__version__}, NumPy {np.__version__}"}
    elif "n" in request:
        columns = lay_out(request["n"])
        answer = {"ready": True}
    else:
        begin = time.process_time()
        speed = chain(*columns)
        count = bouts(speed, request["enter"]) if request["task"] == "movements" else 0
        answer = {"time": time.process_time() - begin, "mean": float(speed.mean()), "count": count}
    print(json.dumps(answer), flush=True)
