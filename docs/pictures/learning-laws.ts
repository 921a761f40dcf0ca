import { compareLearningCurves } from "aimed-movement";

/** Simulated: 0.62 + 0.5 exp(-0.08 (N - 1)) seconds, session scatter 2 %. */
const VALUES = [
  1.099, 1.111, 1.033, 1.029, 0.979, 0.978, 0.905, 0.919, 0.866, 0.891, 0.857, 0.82, 0.79, 0.821, 0.805, 0.783, 0.733, 0.763, 0.7, 0.701,
  0.701, 0.728, 0.702, 0.674, 0.7, 0.68, 0.679, 0.673, 0.676, 0.653,
];
const DRAWN: Record<string, string> = { exponential3: "exponential, the true law", power3: "power law", linear: "straight line" };

/** Three laws through the same sessions and beyond them, and the BIC of all nine. */
export function spec(): object {
  const practice = VALUES.map((_, i) => i + 1);
  const to = Array.from({ length: 43 }, (_, i) => i + 1);
  const { curves } = compareLearningCurves({ practice, value: VALUES }, { errors: "lognormal", predict: to });
  const lines = curves.flatMap(({ fit }) =>
    fit.predictions.flatMap((told, i) =>
      DRAWN[fit.law] !== undefined && told.ok ? [{ law: DRAWN[fit.law], session: to[i], seconds: told.value }] : [],
    ),
  );
  const bars = curves.map(({ fit, bicDifference, worse }) => ({
    law: fit.law,
    bic: bicDifference,
    verdict: worse ? "worse" : "not worse",
  }));
  const session = { field: "session", type: "quantitative", title: "session", scale: { domain: [0, 44], nice: false } };
  const seconds = { field: "seconds", type: "quantitative", title: "seconds", scale: { domain: [0.4, 1.2] } };
  return {
    title: "Nine laws on the same 30 simulated sessions",
    hconcat: [
      {
        width: 300,
        height: 240,
        layer: [
          { data: { values: [{ session: 30.5 }] }, mark: { type: "rule", color: "#8a94a0", strokeDash: [2, 3] }, encoding: { x: session } },
          {
            data: { values: practice.map((at, i) => ({ session: at, seconds: VALUES[i] })) },
            mark: { type: "point", color: "#333b44" },
            encoding: { x: session, y: seconds },
          },
          {
            data: { values: lines },
            mark: { type: "line", clip: true },
            encoding: {
              x: session,
              y: seconds,
              color: { field: "law", type: "nominal", title: null, sort: null, legend: { orient: "bottom", columns: 1, labelLimit: 260 } },
              strokeDash: {
                field: "law",
                type: "nominal",
                title: null,
                sort: null,
                legend: { orient: "bottom", columns: 1, labelLimit: 260 },
              },
            },
          },
        ],
      },
      {
        width: 240,
        height: 240,
        data: { values: bars },
        layer: [
          {
            mark: { type: "bar", height: 12 },
            encoding: {
              y: { field: "law", type: "nominal", title: null, sort: null },
              x: { field: "bic", type: "quantitative", title: "BIC above the least" },
              color: { field: "verdict", type: "nominal", title: null, sort: null, legend: { orient: "bottom" } },
            },
          },
          {
            mark: { type: "text", align: "left", dx: 4, color: "#333b44" },
            encoding: {
              y: { field: "law", type: "nominal", sort: null },
              x: { field: "bic", type: "quantitative" },
              text: { field: "bic", type: "quantitative", format: ".1f" },
            },
          },
        ],
        resolve: { scale: { color: "independent" } },
      },
    ],
    resolve: { scale: { color: "independent", strokeDash: "independent" } },
  };
}
