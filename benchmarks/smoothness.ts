// Smoothness of one movement and of a long profile, and idle movement: against NumPy on the same numbers, and growth with size.
import { minimumJerkSpeed } from "../src/math/minimum-jerk.js";
import { createRandom } from "../src/math/random.js";
import { idleMovement } from "../src/movement/idle-movement.js";
import { logDimensionlessJerk } from "../src/movement/log-dimensionless-jerk.js";
import { spectralArcLength } from "../src/movement/spectral-arc-length.js";
import type { Recording } from "../src/trace/types.js";
import type { Outcome } from "../tests/validation/figure.js";
import { besidePython, timeRatio } from "./beside-python.js";
import { growthOf, timed } from "./timing.js";

const SINGLE = 300;
const MANY = 2 ** 16;
/** Calls timed together where one is too short to time. */
const CALLS = 100;
const RATE = 250;
const SETTINGS = { sampleRateHz: RATE, maxHz: 20, threshold: 0.05, padLevel: 4 };
const RUNS = 7;
const SIZES = [1e4, 1e5, 1e6] as const;
/** n log n over a factor of ten is about 1.1; a transform goes in steps of two, and what a cache no longer holds comes on top. */
const MOST_EXPONENT = 1.3;

export async function run(): Promise<Outcome[]> {
  return [
    ...against(draw(MANY)),
    growthOf("economy/growth of the time of spectralArcLength", SIZES, MOST_EXPONENT, draw, (speed) => spectralArcLength(speed, SETTINGS)),
    growthOf(
      "economy/growth of the time of logDimensionlessJerk",
      SIZES,
      MOST_EXPONENT,
      (n) => ({ x: draw(n), y: draw(n) }),
      (velocity) => logDimensionlessJerk(velocity, SETTINGS),
    ),
    growthOf("economy/growth of the time of idleMovement", SIZES, MOST_EXPONENT, wander, (recording) => idleMovement(recording, [])),
  ];
}

/** Strokes of 1.2 s one after another, each of another height, with a little noise. */
function draw(n: number): Float64Array {
  const random = createRandom(20261125);
  let height = 1;
  return Float64Array.from({ length: n }, (_, i) => {
    if (i % SINGLE === 0) height = random.uniform(0.5, 2);
    return height * minimumJerkSpeed((i % SINGLE) / (SINGLE - 1)) + random.uniform(0, 0.01);
  });
}

/** A pointer that goes to and fro without a task. */
function wander(n: number): Recording {
  const speed = draw(n);
  let at = 0;
  const x = speed.map((v, i) => {
    at += (Math.floor(i / SINGLE) % 2 === 0 ? v : -v) * 3;
    return Math.round(at);
  });
  const t = x.map((_, i) => i / RATE);
  const space = { kind: "plane", unit: "px" } as const;
  return {
    schema: 1,
    space,
    device: "benchmark",
    trace: { t, x, y: new Float64Array(n) },
    presses: [],
    targets: [],
    trials: [],
    marks: [],
  };
}

function against(speed: Float64Array): Outcome[] {
  const names = {
    single: `economy/spectral arc length of one movement of ${SINGLE} samples, times NumPy's time`,
    long: "economy/spectral arc length of 2^16 samples, times NumPy's time",
  };
  const one = speed.slice(0, SINGLE);
  const single = timed(() => {
    let value = spectralArcLength(one, SETTINGS);
    for (let call = 1; call < CALLS; call++) value = spectralArcLength(one, SETTINGS);
    return value;
  });
  const long = timed(() => spectralArcLength(speed, SETTINGS));
  return besidePython("smoothness.py", [speed], Object.values(names), (call) => {
    const { maxHz, threshold, padLevel } = SETTINGS;
    const theirs = JSON.parse(call(SINGLE, RATE, maxHz, threshold, padLevel, RUNS, CALLS));
    for (const [mine, wanted] of [
      [single.value, theirs.singleValue],
      [long.value, theirs.longValue],
    ]) {
      if (!(mine.ok && Math.abs(mine.value - wanted) <= 1e-9 * Math.abs(wanted))) {
        throw new Error(`the two sides differ: ${JSON.stringify(mine)} and ${wanted}`);
      }
    }
    const ratio = (name: string, a: number, b: number, what: string): Outcome => timeRatio(name, a, b, theirs.version, what);
    return [
      ratio(names.single, single.seconds / CALLS, theirs.single, "fft.rfft and array arithmetic; ours sums the bins that count one by one"),
      ratio(names.long, long.seconds, theirs.long, "fft.rfft and array arithmetic"),
    ];
  });
}
