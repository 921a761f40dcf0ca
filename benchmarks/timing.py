"""Median time of a call, and what it gave: what the programs beside ours share."""

import time

import numpy as np


def timed(task, runs):
    seconds = []
    for _ in range(runs):
        start = time.perf_counter()
        value = task()
        seconds.append(time.perf_counter() - start)
    return float(np.median(seconds)), value
