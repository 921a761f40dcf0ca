// Frequency response and transforms of long signals: against SciPy on the same numbers, and growth with size.
import { fourierPlan } from "../src/math/fourier.js";
import { createRandom } from "../src/math/random.js";
import { frequencyResponse } from "../src/pursuit/frequency-response.js";
import type { Outcome } from "../tests/validation/figure.js";
import { besidePython, timeRatio } from "./beside-python.js";
import { growthOf, timed } from "./timing.js";

const MANY = 2 ** 17;
/** No power of two, and one prime factor of 4001: nothing that a transform by factors likes. */
const AWKWARD = 32 * 4001;
const RATE = 250;
const SEGMENT = 1250;
const RUNS = 7;
const SIZES = [1e4, 1e5, 1e6] as const;
/** n log n over a factor of ten is about 1.1; what a cache no longer holds comes on top. */
const MOST_EXPONENT = 1.3;

interface Pair {
  readonly target: Float64Array;
  readonly pointer: Float64Array;
}

export async function run(): Promise<Outcome[]> {
  return [
    ...against(draw(MANY)),
    growthOf("pursuit/growth of the time of frequencyResponse", SIZES, MOST_EXPONENT, draw, respond),
    growthOf(
      "pursuit/growth of the time of a transform of any length",
      SIZES,
      MOST_EXPONENT,
      (n) => ({ x: draw(n).target, plan: fourierPlan(n) }),
      ({ x, plan }) => plan(x),
    ),
  ];
}

/** A slow target and a pointer 40 samples behind. */
function draw(n: number): Pair {
  const random = createRandom(20261125);
  let slow = 0;
  const path = Float64Array.from({ length: n + 40 }, () => {
    slow += 0.05 * (random.normal() - slow);
    return slow;
  });
  return { target: path.slice(40), pointer: path.slice(0, n).map((value) => 0.9 * value + 0.05 * random.normal()) };
}

function respond({ target, pointer }: Pair): ReturnType<typeof frequencyResponse> {
  return frequencyResponse(target, pointer, { sampleRateHz: RATE, align: false });
}

function against(pair: Pair): Outcome[] {
  const names = {
    response: "pursuit/frequency response of 2^17 samples, times SciPy's time",
    aligned: "pursuit/the same with the pointer moved back first, times SciPy's time",
    transform: "pursuit/transform of 2^17 samples, times SciPy's time",
    awkward: "pursuit/transform of 32 * 4001 samples, times SciPy's time",
  };
  const { target, pointer } = pair;
  const response = timed(() => respond(pair));
  const aligned = timed(() => frequencyResponse(target, pointer, { sampleRateHz: RATE }));
  const plans = { even: fourierPlan(MANY), awkward: fourierPlan(AWKWARD) };
  const piece = target.subarray(0, AWKWARD);
  const transform = timed(() => plans.even(target));
  const awkward = timed(() => plans.awkward(piece));
  return besidePython("spectra.py", [target, pointer], Object.values(names), (call) => {
    const theirs = JSON.parse(call(MANY, AWKWARD, RATE, SEGMENT, RUNS));
    const at = response.value.frequencies[9]!;
    const mine = [at.gain.ok ? at.gain.value : 0, at.coherence, transform.value.re[1234]!, awkward.value.im[1234]!];
    const wanted: number[] = [theirs.gain, theirs.coherence, theirs.evenBin, theirs.awkwardBin];
    if (mine.some((value, i) => !(Math.abs(value - wanted[i]!) <= 1e-9 * (1 + Math.abs(wanted[i]!))))) {
      throw new Error(`the two sides differ: ${mine} and ${wanted}`);
    }
    const ratio = (name: string, a: number, b: number, what: string): Outcome => timeRatio(name, a, b, theirs.version, what);
    return [
      ratio(names.response, response.seconds, theirs.response, "welch, csd and coherence; ours with intervals"),
      ratio(names.aligned, aligned.seconds, theirs.response, "welch, csd and coherence, which do not move it"),
      ratio(names.transform, transform.seconds, theirs.even, "fft.rfft"),
      ratio(names.awkward, awkward.seconds, theirs.awkward, "fft.rfft"),
    ];
  });
}
