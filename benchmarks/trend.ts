// Trend tests and changes of level in ten thousand values: against SciPy and a plain program on the same numbers, and growth with size.
import { changePoints } from "../src/learning/trend/change-points.js";
import { mannKendall } from "../src/learning/trend/mann-kendall.js";
import { theilSen } from "../src/learning/trend/theil-sen.js";
import { createRandom } from "../src/math/random.js";
import type { Outcome } from "../tests/validation/figure.js";
import { besidePython } from "./beside-python.js";
import { growthOf, timed } from "./timing.js";

const MANY = 1e4;
const RUNS = 7;
const SIZES = [1e3, 1e4, 1e5] as const;
/** n log n over a factor of ten is about 1.1; what a cache no longer holds comes on top. */
const MOST_EXPONENT = 1.3;
const SHORTEST = 4;
const PENALTY = 3 * Math.log(MANY);

interface Series {
  readonly x: Float64Array;
  /** A fall that levels out. */
  readonly y: Float64Array;
  /** A new level every hundred values, noise of SD 1. */
  readonly steps: Float64Array;
  /** Noise alone: nothing to cut, so that a search has to keep all of the past in mind. */
  readonly flat: Float64Array;
}

export async function run(): Promise<Outcome[]> {
  const series = draw(MANY);
  return [
    ...against(series),
    growth("mannKendall", ({ x, y }) => mannKendall(x, y)),
    growth("theilSen", ({ x, y }) => theilSen(x, y, 0.95)),
    growth("changePoints, steps", ({ steps }) => changePoints(steps, SHORTEST, PENALTY)),
    growth("changePoints, no change", ({ flat }) => changePoints(flat, SHORTEST, PENALTY)),
  ];
}

function draw(n: number): Series {
  const random = createRandom(20261125);
  const x = Float64Array.from({ length: n }, (_, i) => i + 1);
  let level = 0;
  return {
    x,
    y: x.map((value) => 0.6 + 0.9 * Math.exp((-5 * value) / n) + random.normal(0, 0.05)),
    steps: x.map((_, i) => {
      if (i % 100 === 0) level = random.normal(0, 3);
      return level + random.normal();
    }),
    flat: x.map(() => random.normal()),
  };
}

function against({ x, y, steps }: Series): Outcome[] {
  const names = {
    kendall: "learning/Mann-Kendall of 1e4 values, times SciPy's time",
    theilSen: "learning/Theil-Sen line of 1e4 values, times SciPy's time",
    changes: "learning/changes of level in 1e4 values, times that of a plain program",
  };
  const kendall = timed(() => mannKendall(x, y));
  const line = timed(() => theilSen(x, y, 0.95));
  const changes = timed(() => changePoints(steps, SHORTEST, PENALTY));
  return besidePython("trend.py", [x, y, steps], Object.values(names), (call) => {
    const text = call(MANY, RUNS, PENALTY, SHORTEST);
    const theirs = JSON.parse(text);
    const { slope, intercept, interval } = line.value!;
    const { at, cost } = changes.value;
    const mine = [kendall.value.tau, slope, intercept, ...interval, cost + PENALTY * at.length];
    const wanted: number[] = [theirs.tau, ...theirs.line, theirs.total];
    if (mine.some((value, i) => !(Math.abs(value - wanted[i]!) <= 1e-9 * Math.abs(wanted[i]!)))) {
      throw new Error(`the two sides differ: ${mine} and ${text}`);
    }
    const ratio = (name: string, a: number, b: number, what: string): Outcome => ({
      name,
      value: a / b,
      bar: "printed",
      ok: true,
      source: `${theirs.version}: ${what}; ${(1000 * a).toPrecision(3)} against ${(1000 * b).toPrecision(3)} ms`,
    });
    return [
      ratio(names.kendall, kendall.seconds, theirs.kendall, `kendalltau, medians of ${RUNS}; ours with S and the exact variance`),
      ratio(names.theilSen, line.seconds, theirs.theilSen, `theilslopes, once, which lists 5e7 slopes; ours a median of ${RUNS}`),
      ratio(names.changes, changes.seconds, theirs.changes, `dynamic program, O(n^2), vectors; ${at.length} changes, medians of ${RUNS}`),
    ];
  });
}

function growth(name: string, call: (series: Series) => unknown): Outcome {
  return growthOf(`learning/growth of the time of ${name}`, SIZES, MOST_EXPONENT, draw, call);
}
