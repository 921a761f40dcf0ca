import { trialToTrialLearning } from "aimed-movement";

const TRIALS = 400;
const PLANNING = 1;
const EXECUTION = 2;

/** A stream of normal numbers that is the same on every machine. */
function normals(seed: number): () => number {
  let s = seed;
  const uniform = (): number => {
    s = (Math.imul(1664525, s) + 1013904223) >>> 0;
    return (s + 0.5) / 2 ** 32;
  };
  return () => Array.from({ length: 12 }, uniform).reduce((sum, u) => sum + u, -6);
}

/** Errors of one simulated learner, after 100 trials to settle. */
function errorsOf(rate: number, seed: number): number[] {
  const normal = normals(seed);
  let plan = 0;
  const errors = Array.from({ length: TRIALS + 100 }, () => {
    const error = plan + EXECUTION * normal();
    plan += PLANNING * normal() - rate * error;
    return error;
  });
  return errors.slice(100);
}

function correlation(rate: number): number {
  const plan = (rate * rate * EXECUTION ** 2 + PLANNING ** 2) / (rate * (2 - rate));
  return plan / (plan + EXECUTION ** 2) - rate;
}

/** Correlation of neighbouring errors against the learning rate: the law, and what simulated learners show. */
export function spec(): object {
  const law = Array.from({ length: 120 }, (_, k) => 0.06 + k / 100).map((rate) => ({ rate, correlation: correlation(rate) }));
  const learners = [0.1, 0.2, 0.3, 0.39, 0.5, 0.6, 0.75, 0.9, 1.1].flatMap((rate, k) => {
    const found = trialToTrialLearning(errorsOf(rate, 20 + k));
    if (!found.ok || !found.autocorrelation.ok) return [];
    const [low, high] = found.autocorrelation.interval!;
    const verdict = {
      overCorrecting: "over-correcting",
      underCorrecting: "under-correcting",
      aboutRight: "about right",
      cannotTell: "cannot tell",
    };
    return [{ rate, value: found.autocorrelation.value, low, high, verdict: verdict[found.verdict] }];
  });
  const x = { field: "rate", type: "quantitative", title: "share of each error that the next plan takes back" };
  return {
    title: "Correlation of neighbouring errors, simulated learners of 400 trials",
    width: 560,
    height: 280,
    layer: [
      { data: { values: [{}] }, mark: { type: "rule", color: "#8a94a0", strokeDash: [4, 4] }, encoding: { y: { datum: 0 } } },
      {
        data: { values: law },
        mark: { type: "line", color: "#6b7280" },
        encoding: { x, y: { field: "correlation", type: "quantitative", title: "correlation with the error before" } },
      },
      {
        data: { values: learners },
        mark: { type: "rule", strokeWidth: 1.5 },
        encoding: {
          x,
          y: { field: "low", type: "quantitative" },
          y2: { field: "high" },
          color: { field: "verdict", type: "nominal", title: "verdict" },
        },
      },
      {
        data: { values: learners },
        mark: { type: "point", size: 60 },
        encoding: {
          x,
          y: { field: "value", type: "quantitative" },
          color: { field: "verdict", type: "nominal", title: "verdict" },
          shape: { field: "verdict", type: "nominal", title: "verdict" },
        },
      },
    ],
  };
}
