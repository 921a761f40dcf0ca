# The same work as the command's on the same tables, for benchmarks/scale/office-remote.ts: reads each folder's samples, brings them to a grid, filters,
# takes the speed and finds movements; writes a row for each.
import os
import sys

import numpy as np
import scipy
from scipy import signal

CUTOFF = 20.0
RATE = 125.0

try:
    import pandas

    def read(path):
        return pandas.read_csv(path).to_numpy()[:, -3:].astype(float)

    READER = "pandas " + pandas.__version__
except ImportError:

    def read(path):
        return np.loadtxt(path, delimiter=",", skiprows=1)[:, -3:]

    READER = "numpy.loadtxt"

rows = 0
movements = []
for folder in sorted(os.listdir(sys.argv[1])):
    t, x, y = read(os.path.join(sys.argv[1], folder, "samples.csv")).T
    rows += len(t)
    t, first = np.unique(t, return_index=True)
    grid = np.arange(t[0], t[-1], 1.0 / RATE)
    b, a = signal.butter(2, 2.0 * CUTOFF / RATE)
    smooth = [signal.filtfilt(b, a, np.interp(grid, t, column[first])) for column in (x, y)]
    speed = np.hypot(*(np.gradient(column, 1.0 / RATE) for column in smooth))
    enter = max(20.0, 0.05 * np.quantile(speed, 0.99))
    edges = np.flatnonzero(np.diff(np.concatenate(([0], (speed >= enter).astype(np.int8), [0]))))
    movements += [(folder, grid[s], e - s, speed[s:e].max()) for s, e in zip(edges[::2], edges[1::2])]
with open(sys.argv[2], "w") as out:
    for row in movements:
        out.write(",".join(map(str, row)) + "\n")
print(f"{rows} SciPy {scipy.__version__}, {READER}")
