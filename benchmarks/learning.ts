// Learning curves: against SciPy's curve_fit on the same series, and growth with the number of learners.
import { fitLearningCurve } from "aimed-movement";
import { median } from "simple-statistics";
import { createRandom } from "../src/math/random.js";
import type { Outcome } from "../tests/validation/figure.js";
import { besidePython } from "./beside-python.js";

const SETS = 20;
/** Either side measured in turns. */
const ROUNDS = 5;
const LEAST_RATIO = 5;
/** Values of a series, and how often all sets are fitted in a round by either side. */
const SIZES = [
  { n: 200, ours: 1000, theirs: 200 },
  { n: 20_000, ours: 3, theirs: 1 },
] as const;
const LEARNERS = [1e3, 1e4] as const;
const SESSIONS = 40;
const MOST_EXPONENT = 1.1;
/** The interval and the covariance of every parameter come with curve_fit's call too; the rest is left out. */
const OPTIONS = { intervals: "wald", band: 0 } as const;

export async function run(): Promise<Outcome[]> {
  return [...SIZES.flatMap(against), ...growth()];
}

interface Series {
  readonly practice: Float64Array;
  readonly value: Float64Array;
}

/** `n` values over the practice of 200 sessions. */
function draw(n: number, seed: number): Series {
  const random = createRandom(seed);
  const practice = Float64Array.from({ length: n }, (_, i) => 1 + (i * 200) / n);
  return { practice, value: practice.map((at) => 0.6 + 0.6 * Math.exp(-0.12 * (at - 1)) + random.normal(0, 0.02)) };
}

/** Mean seconds of a fit. */
function timed(sets: readonly Series[], runs: number): number {
  const start = performance.now();
  for (let run = 0; run < runs; run++) for (const series of sets) fitLearningCurve(series, OPTIONS);
  return (performance.now() - start) / 1000 / (runs * sets.length);
}

function against({ n, ours, theirs }: (typeof SIZES)[number]): Outcome[] {
  const name = `learning/exponential with an asymptote on ${n} values, curve_fit's time in times of ours`;
  const sets = Array.from({ length: SETS }, (_, i) => draw(n, 20261205 + i));
  const values = sets.map((series) => series.value);
  return besidePython("learning.py", values, [name], (call) => {
    const rounds = Array.from({ length: ROUNDS }, () => {
      // as the other side begins with fits that do not count: the first ones after a wait are slow
      timed(sets, Math.ceil(ours / 4));
      const mine = timed(sets, ours);
      return { mine, theirs: JSON.parse(call(n, theirs)) as { version: string; seconds: number; sums: number[] } };
    });
    for (const [i, series] of sets.entries()) {
      const sum = fitLearningCurve(series, OPTIONS).quality!.residualSum;
      const other = rounds[0]!.theirs.sums[i]!;
      if (Math.abs(sum / other - 1) > 1e-9) throw new Error(`the two sides differ: residual sums ${sum} and ${other}`);
    }
    const ratios = rounds.map((round) => round.theirs.seconds / round.mine).sort((a, b) => a - b);
    const value = median(ratios);
    const micro = (seconds: number[]): string => `${(1e6 * median(seconds)).toFixed(0)}`;
    const times = `${micro(rounds.map(({ theirs: { seconds } }) => seconds))} against ${micro(rounds.map(({ mine }) => mine))} us a fit`;
    const spread = `median of ${ROUNDS} rounds (${ratios[0]!.toFixed(1)} to ${ratios[ROUNDS - 1]!.toFixed(1)})`;
    // the bar is on a usual length; at the greater one the cost of a call no longer counts
    const barred = n === 200;
    return [
      {
        name,
        value,
        bar: barred ? `>= ${LEAST_RATIO}` : "printed",
        ok: !barred || value >= LEAST_RATIO,
        source: `${rounds[0]!.theirs.version}: curve_fit with analytic Jacobian, equal residual sums; ${times}, ${spread}`,
      },
    ];
  });
}

/** Power of the number of learners with which the time grows; and the time of one learner with profiles. */
function growth(): Outcome[] {
  const all = Array.from({ length: LEARNERS[1] }, (_, i) => draw(SESSIONS, i + 1));
  timed(all.slice(0, 500), 2);
  const seconds = LEARNERS.map((count) => median(Array.from({ length: ROUNDS }, () => count * timed(all.slice(0, count), 1))));
  const value = Math.log10(seconds[1]! / seconds[0]!);
  const start = performance.now();
  for (const series of all.slice(0, 500)) fitLearningCurve(series);
  const whole = (performance.now() - start) / 500;
  const source = LEARNERS.map((count, i) => `${count.toExponential(0)}: ${(1000 * seconds[i]!).toFixed(0)} ms`).join(", ");
  return [
    {
      name: `learning/growth of the time with the number of learners of ${SESSIONS} sessions`,
      value,
      bar: `<= ${MOST_EXPONENT} (exponent)`,
      ok: value <= MOST_EXPONENT,
      source,
    },
    {
      name: `learning/time of a learner of ${SESSIONS} sessions with profile intervals and band`,
      value: whole,
      bar: "printed, ms",
      ok: true,
      source: "mean of 500 learners",
    },
  ];
}
