import { fitLearningCurve } from "aimed-movement";

/** Simulated: 0.6 + 0.6 exp(-0.12 (N - 1)) seconds, session scatter 3 %. */
const VALUES = [
  1.214, 1.202, 1.097, 1.024, 1.001, 0.966, 0.893, 0.832, 0.857, 0.824, 0.778, 0.739, 0.747, 0.697, 0.709, 0.674, 0.699, 0.681, 0.633,
  0.662, 0.673, 0.63, 0.648, 0.64, 0.638, 0.646, 0.624, 0.626, 0.624, 0.649,
];
const TRUE_END = 0.6;
const LAST = 30;
/** Where the interval of the asymptote is drawn. */
const EDGE = 33;

/** One learner after 8 and after 30 sessions: where the law is heading is open at first, and known later. */
export function spec(): object {
  return {
    title: "One simulated learner: where is it heading? Law with 95 % limits",
    hconcat: [panel(8, "after 8 sessions: the end is open"), panel(LAST, "after 30 sessions: it is known")],
  };
}

function panel(sessions: number, title: string): object {
  const value = VALUES.slice(0, sessions);
  const practice = value.map((_, i) => i + 1);
  const { band, parameters } = fitLearningCurve({ practice, value }, { errors: "lognormal" });
  const { a } = parameters;
  // an interval that does not close reaches from 0
  const [low, high] = a!.ok ? a!.interval! : [a!.ends![0] ?? 0, a!.ends![1] ?? 1.4];
  const lines = band.map(({ practice: session, value: seconds, confidence, prediction }) => ({
    session,
    seconds,
    low: confidence[0],
    high: confidence[1],
    least: prediction[0],
    most: prediction[1],
  }));
  const x = { field: "session", type: "quantitative", title: "session", scale: { domain: [0, EDGE + 1], nice: false } };
  const y = { type: "quantitative", title: "seconds", scale: { domain: [0, 1.4] } };
  const key = {
    type: "nominal",
    title: null,
    legend: { orient: "bottom" },
    scale: { domain: ["the law", "one more session", "asymptote"], range: ["#0b6bcb", "#d1580b", "#3c7d3c"] },
  };
  const area = (from: string, to: string, name: string, opacity: number): object => ({
    mark: { type: "area", opacity },
    encoding: { x, y: { field: from, ...y }, y2: { field: to }, color: { datum: name, ...key } },
  });
  return {
    title,
    width: 300,
    height: 260,
    data: { values: lines },
    layer: [
      area("least", "most", "one more session", 0.15),
      area("low", "high", "the law", 0.4),
      { mark: { type: "line" }, encoding: { x, y: { field: "seconds", ...y } } },
      {
        data: { values: practice.map((session, i) => ({ session, seconds: value[i] })) },
        mark: { type: "point", size: 30, color: "#1d232a" },
        encoding: { x, y: { field: "seconds", ...y } },
      },
      {
        data: { values: [{ session: EDGE, low, high }] },
        mark: { type: "rule", strokeWidth: 6 },
        encoding: { x, y: { field: "low", ...y }, y2: { field: "high" }, color: { datum: "asymptote", ...key } },
      },
      {
        data: { values: [{ seconds: TRUE_END }] },
        mark: { type: "rule", strokeDash: [4, 3], color: "#6b7280" },
        encoding: { y: { field: "seconds", ...y } },
      },
    ],
  };
}
