// The likelihood of ten thousand errors and the spectrum of half an hour of holds: against SciPy on the same numbers, and growth with size.
import { createRandom } from "../src/math/random.js";
import { analyze } from "../src/movement/analyze.js";
import { holdTremor } from "../src/movement/hold-tremor.js";
import { filterErrors } from "../src/movement/repetition/filter-errors.js";
import { stopProfile } from "../src/movement/stop-profile.js";
import { pooledSpectrum } from "../src/movement/tremor/pooled-spectrum.js";
import { trialToTrialLearning } from "../src/movement/trial-to-trial-learning.js";
import { simulateRecording } from "../src/simulate/index.js";
import type { Recording } from "../src/trace/types.js";
import type { Outcome } from "../tests/validation/figure.js";
import { besidePython, timeRatio } from "./beside-python.js";
import { growthOf, timed } from "./timing.js";

const ERRORS = 1e4;
const RATE = 250;
const SAMPLES = 1800 * RATE;
const RUNS = 7;
const LEARNER = { rate: 0.3, planningSd: 1, executionSd: 2 };
/** Every path is linear; what a cache no longer holds comes on top. */
const MOST_EXPONENT = 1.3;

export async function run(): Promise<Outcome[]> {
  return [
    ...against(),
    growthOf("corrections/growth of the time of trialToTrialLearning", [1e2, 1e3, 1e4], MOST_EXPONENT, errorsOf, (errors) =>
      trialToTrialLearning(errors),
    ),
    growthOf("stopping/growth of the time of holdTremor", [1e4, 1e5, 1e6], MOST_EXPONENT, holdOf, (recording) => holdTremor(recording)),
    growthOf(
      "stopping/growth of the time of stopProfile, movements",
      [10, 100, 1000],
      MOST_EXPONENT,
      (movements) => {
        const { recording } = simulateRecording({ seed: 3, movements });
        return { recording, rows: analyze(recording) };
      },
      ({ recording, rows }) => stopProfile(recording, rows),
    ),
  ];
}

function errorsOf(n: number): Float64Array {
  const random = createRandom(20261125);
  let plan = 0;
  return Float64Array.from({ length: n }, () => {
    const error = plan + random.normal(0, LEARNER.executionSd);
    plan += random.normal(0, LEARNER.planningSd) - LEARNER.rate * error;
    return error;
  });
}

function holdOf(n: number): Recording {
  const random = createRandom(20261125);
  const t = Float64Array.from({ length: n }, (_, i) => i / RATE);
  const x = t.map((s) => 0.4 * Math.sin(2 * Math.PI * 9 * s) + random.normal(0, 0.1));
  const trace = { t, x, y: x.map((v) => -v) };
  return { schema: 1, space: { kind: "plane", unit: "px" }, device: "hand", trace, presses: [], targets: [], trials: [], marks: [] };
}

function against(): Outcome[] {
  const names = {
    likelihood: "corrections/likelihood of 1e4 errors, times the time of SciPy's Toeplitz solver",
    welch: "stopping/spectrum of half an hour at 250 Hz, times the time of SciPy's welch",
  };
  const errors = errorsOf(ERRORS);
  const known = new Uint8Array(ERRORS).fill(1);
  const { x, y } = holdOf(SAMPLES).trace;
  const form = timed(() => filterErrors([errors], known, LEARNER));
  const spectrum = timed(() => pooledSpectrum([{ from: 0, x, y }], RATE, RATE));
  return besidePython("repetition.py", [errors, x], Object.values(names), (call) => {
    const theirs = JSON.parse(call(ERRORS, SAMPLES, RATE, RATE, RUNS, LEARNER.rate, LEARNER.planningSd, LEARNER.executionSd));
    const mine = [form.value.products[0]!, ...spectrum.value.density.subarray(6, 13)];
    // y is minus x: the same spectrum once more
    const wanted: number[] = [theirs.form, ...theirs.density.map((value: number) => 2 * value)];
    if (mine.some((value, i) => !(Math.abs(value - wanted[i]!) <= 1e-8 * Math.abs(wanted[i]!)))) {
      throw new Error(`the two sides differ: ${mine} and ${wanted}`);
    }
    const ratio = (name: string, a: number, b: number, what: string): Outcome => timeRatio(name, a, b, theirs.version, what);
    return [
      ratio(names.likelihood, form.seconds, theirs.toeplitz, "solve_toeplitz, O(n^2), the quadratic form alone; ours with the determinant"),
      ratio(names.welch, spectrum.seconds, theirs.welch, "welch of one axis, 1 s windows; ours of two axes, with what each twentieth adds"),
    ];
  });
}
