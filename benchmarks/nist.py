# The rivals' side of nist.ts: every fit that is asked for, by SciPy's curve_fit with an analytic Jacobian. Reads a request from standard input,
# writes the answer to standard output: for each problem the parameters found from each start, or null, and the calls of the model.
import json
import sys
import warnings

import numpy as np
import scipy
from scipy.optimize import curve_fit

NAMES = {name: getattr(np, name) for name in ("exp", "log", "sin", "cos", "sqrt", "pi")}


def compiled(text, names):
    source = "lambda x, " + ", ".join(names) + ": " + text.replace("^", "**")
    return eval(source, dict(NAMES))  # the texts are those of the benchmark itself


def fit(problem, tolerance, limit):
    names = ["b%d" % (j + 1) for j in range(len(problem["starts"][0]))]
    model = compiled(problem["model"], names)
    slopes = [compiled(text, names) for text in problem["slopes"]]
    x, y = np.array(problem["x"], float), np.array(problem["y"], float)
    calls = [0]

    def value(x, *b):
        calls[0] += 1
        return model(x, *b) * np.ones(len(x))

    def jacobian(x, *b):
        return np.column_stack([slope(x, *b) * np.ones(len(x)) for slope in slopes])

    found = []
    for start in problem["starts"]:
        calls[0] = 0
        try:
            # method lm; curve_fit calls the model a few times on its own before and after
            parameters, _ = curve_fit(
                value, x, y, p0=start, jac=jacobian, method="lm", maxfev=limit, ftol=tolerance, xtol=tolerance, gtol=tolerance
            )
            good = bool(np.all(np.isfinite(parameters)))
            found.append({"parameters": list(parameters) if good else None, "calls": calls[0]})
        except (RuntimeError, ValueError, np.linalg.LinAlgError):
            found.append({"parameters": None, "calls": calls[0]})
    return found


warnings.simplefilter("ignore")
np.seterr(all="ignore")
request = json.load(sys.stdin)
results = [fit(problem, request["tolerance"], request["limit"]) for problem in request["problems"]]
json.dump({"version": "SciPy " + scipy.__version__, "results": results}, sys.stdout)
