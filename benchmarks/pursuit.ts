// Following a moving target: the lag against SciPy on the same velocities, the whole analysis of ten minutes, and growth with size.
import { createRandom } from "../src/math/random.js";
import { analyzePursuit } from "../src/pursuit/analyze-pursuit.js";
import { emptyPair } from "../src/pursuit/following/flatten.js";
import { lagByCorrelation } from "../src/pursuit/following/lag-by-correlation.js";
import { correlations, lagCurve } from "../src/pursuit/following/lag-curve.js";
import { lagPeak } from "../src/pursuit/following/lag-peak.js";
import { unitsOf } from "../src/pursuit/following/units.js";
import { differentiate } from "../src/trace/differentiate.js";
import type { Recording, Track } from "../src/trace/types.js";
import type { Outcome } from "../tests/validation/figure.js";
import { besidePython } from "./beside-python.js";
import { growthOf, timed } from "./timing.js";

const RATE = 250;
/** Ten minutes. */
const MANY = 600 * RATE;
const LATE = 37;
const RUNS = 7;
const SIZES = [1e4, 1e5, 1e6] as const;
/** n log n over a factor of ten is about 1.1; what a cache no longer holds comes on top. */
const MOST_EXPONENT = 1.3;

export async function run(): Promise<Outcome[]> {
  return [
    ...against(draw(MANY)),
    growthOf("pursuit/growth of the time of analyzePursuit", SIZES, MOST_EXPONENT, draw, (recording) => analyzePursuit(recording)),
  ];
}

/** One trial of `n` samples: a target that wanders, a pointer some samples behind it with noise. */
function draw(n: number): Recording {
  const random = createRandom(20261125);
  const wander = (): Float64Array => {
    let fast = 0;
    let slow = 0;
    return Float64Array.from({ length: n + LATE }, () => {
      fast += 0.03 * (300 * random.normal() - fast);
      slow += 0.01 * (fast - slow);
      return slow;
    });
  };
  const [x, y] = [wander(), wander()];
  const t = Float64Array.from({ length: n }, (_, k) => k / RATE);
  const late = (column: Float64Array): Float64Array => column.slice(0, n).map((value) => value + 0.05 * random.normal());
  const at: Track = { t, x: x.slice(LATE), y: y.slice(LATE) };
  return {
    schema: 1,
    space: { kind: "plane", unit: "px" },
    device: "drawn",
    trace: { t, x: late(x), y: late(y) },
    presses: [],
    targets: [{ id: "target", tShown: 0, shape: { kind: "circle", diameter: 40 }, at }],
    trials: [{ id: "trial", kind: "pursue", tStart: 0, tEnd: n / RATE, goals: ["target"], block: "1", condition: {} }],
    marks: [],
  };
}

function against(recording: Recording): Outcome[] {
  const names = {
    curve: "pursuit/lag of 10 min at 250 Hz, times SciPy's time",
    interval: "pursuit/the same with its interval (400 resamples), times SciPy's time for the lag alone",
    analysis: "pursuit/all of analyzePursuit on 10 min at 250 Hz, times SciPy's time for the lag alone",
  };
  const velocity = (column: Float64Array): Float64Array => differentiate(column, { sampleRateHz: RATE });
  const pair = { ...emptyPair(MANY), qx: velocity((recording.targets[0]!.at as Track).x), px: velocity(recording.trace.x) };
  const pieces = [{ start: 0, end: MANY }];
  const units = unitsOf({ pieces, rate: RATE });
  const all = new Float64Array(units.length).fill(1);
  const curve = timed(() => lagPeak(correlations(lagCurve(pair, pieces, units, -25, 150), all)));
  const interval = timed(() => lagByCorrelation(pair, pieces, units, { rate: RATE, level: 0.95, seed: 1, resamples: 400 }));
  const analysis = timed(() => analyzePursuit(recording));
  return besidePython("pursuit.py", [pair.qx, pair.px], Object.values(names), (call) => {
    const theirs = JSON.parse(call(MANY, -25, 150, RUNS));
    const mine = [curve.value.refined - 25, curve.value.height];
    const wanted: number[] = [theirs.lag, theirs.height];
    if (mine.some((value, i) => !(Math.abs(value - wanted[i]!) <= 1e-8 * (1 + Math.abs(wanted[i]!))))) {
      throw new Error(`the two sides differ: ${mine} and ${wanted}`);
    }
    const ratio = (name: string, seconds: number): Outcome => ({
      name,
      value: seconds / theirs.seconds,
      bar: "printed",
      ok: true,
      source: `${theirs.version}: correlate, and correlation over the overlap at 176 lags; ${(1000 * seconds).toPrecision(3)} against ${(1000 * theirs.seconds).toPrecision(3)} ms, medians of ${RUNS}`,
    });
    return [ratio(names.curve, curve.seconds), ratio(names.interval, interval.seconds), ratio(names.analysis, analysis.seconds)];
  });
}
