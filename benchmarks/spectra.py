"""Response of one signal to another and transforms by SciPy, timed; a line of JSON.

Arguments: file of target then pointer (float64), n, an awkward length, sampling rate, samples per segment, runs."""
import json
import sys

import numpy as np
import scipy
from scipy import fft, signal

from timing import timed

path, n, awkward, rate, segment, runs = sys.argv[1], *(int(v) for v in sys.argv[2:])
target, pointer = np.fromfile(path).reshape(2, n)
piece = target[:awkward]


def response():
    how = {"fs": rate, "nperseg": segment, "noverlap": segment // 2}
    _, power = signal.welch(target, **how)
    _, cross = signal.csd(target, pointer, **how)
    _, coherence = signal.coherence(target, pointer, **how)
    return np.abs(cross / power), coherence


out = {"version": f"SciPy {scipy.__version__}"}
out["response"], (gain, coherence) = timed(response, runs)
# the tenth frequency above 0
out["gain"], out["coherence"] = float(gain[10]), float(coherence[10])
out["even"], value = timed(lambda: fft.rfft(target), runs)
out["evenBin"] = float(value[1234].real)
out["awkward"], value = timed(lambda: fft.rfft(piece), runs)
out["awkwardBin"] = float(value[1234].imag)
print(json.dumps(out))
