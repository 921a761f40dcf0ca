// Scatter and hit probability of a million endpoints: against NumPy and SciPy on the same numbers, against naive simulation, and growth with size.
import { endpointScatter, hitProbability } from "aimed-movement";
import { createRandom } from "../src/math/random.js";
import type { Outcome } from "../tests/validation/figure.js";
import { besidePython } from "./beside-python.js";
import { growthOf, timed } from "./timing.js";

const MANY = 1e6;
const RUNS = 7;
const SIZES = [1e4, 1e5, 1e6] as const;
const MOST_EXPONENT = 1.2;
const RECTANGLE = { kind: "rect", width: 18, height: 14 } as const;
const CIRCLE = { kind: "circle", diameter: 18 } as const;

export async function run(): Promise<Outcome[]> {
  const scatter = draw(MANY);
  const mine = {
    scatter: timed(() => endpointScatter(scatter)),
    rectangle: timed(() => hitProbability(scatter, RECTANGLE)),
    circle: timed(() => hitProbability(scatter, CIRCLE)),
  };
  return [
    ...against(scatter, mine),
    growth("endpointScatter", endpointScatter),
    growth("hitProbability", (points) => hitProbability(points, CIRCLE)),
  ];
}

interface Points {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

function draw(n: number): Points {
  const random = createRandom(20261128);
  const x = Float64Array.from({ length: n }, () => random.normal(2, 6));
  return { x, y: x.map((value) => random.normal(-1 + 0.2 * (value - 2), 4)) };
}

type Mine = { readonly [task in "scatter"]: { seconds: number; value: ReturnType<typeof endpointScatter> } } & {
  readonly [task in "rectangle" | "circle"]: { seconds: number; value: ReturnType<typeof hitProbability> };
};

function against({ x, y }: Points, mine: Mine): Outcome[] {
  const names = {
    scatter: "endpoints/scatter of 1e6 endpoints, times NumPy's time",
    rectangle: "endpoints/hit probability of a rectangle, 1e6 endpoints, times SciPy's time",
    simulated: "endpoints/hit probability of a circle, 1e6 endpoints, times that of a naive simulation of 1e6 hits",
    error: "endpoints/error of that simulation",
  };
  return besidePython("endpoints.py", [x, y], Object.values(names), (call) => {
    const text = call(MANY, RUNS);
    const theirs = JSON.parse(text);
    const { scatter, rectangle, circle } = mine;
    if (!scatter.value.ok || !rectangle.value.model.ok || !circle.value.model.ok)
      throw new Error("a million endpoints must have their figures");
    const { mean, covariance, radial } = scatter.value;
    const same = [
      mean[0] - theirs.meanX,
      covariance[0][0] - theirs.sxx,
      (radial.median.ok ? radial.median.value : 0) - theirs.medianRadius,
    ];
    // SciPy's cumulative distribution is itself good to about 1e-5
    if (same.some((apart) => Math.abs(apart) > 1e-9) || Math.abs(rectangle.value.model.value - theirs.rectangleValue) > 1e-4) {
      throw new Error(`the two sides differ: ${text}`);
    }
    const ratio = (name: string, a: number, b: number, what: string): Outcome => ({
      name,
      value: a / b,
      bar: "printed",
      ok: true,
      source: `${theirs.version}: ${what}; ${(1000 * a).toFixed(0)} against ${(1000 * b).toFixed(0)} ms, medians of ${RUNS}`,
    });
    return [
      ratio(
        names.scatter,
        scatter.seconds,
        theirs.scatter,
        "mean, cov, eigh, medians, MADs, kurtosis, radii; ours with intervals and geometric median",
      ),
      ratio(
        names.rectangle,
        rectangle.seconds,
        theirs.rectangle,
        "mean, cov, multivariate_normal.cdf; ours with 999 drawn scatters for three intervals",
      ),
      ratio(names.simulated, circle.seconds, theirs.simulated, "mean, cov, multivariate_normal random draws"),
      {
        name: names.error,
        value: Math.abs(theirs.simulatedValue - circle.value.model.value),
        bar: "printed",
        ok: true,
        source: "our value is good to 1e-11 (tests/reference/hit-probability.test.ts)",
      },
    ];
  });
}

function growth(name: string, call: (points: Points) => unknown): Outcome {
  return growthOf(`endpoints/growth of the time of ${name}`, SIZES, MOST_EXPONENT, draw, call);
}
