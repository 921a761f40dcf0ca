import { compareLearningCurves } from "aimed-movement";

/** Simulated: 0.62 + 0.5 exp(-0.08 (N - 1)) seconds, session scatter 2 %; the last 20 sessions are what came after the thirtieth. */
const VALUES = [
  1.099, 1.111, 1.033, 1.029, 0.979, 0.978, 0.905, 0.919, 0.866, 0.891, 0.857, 0.82, 0.79, 0.821, 0.805, 0.783, 0.733, 0.763, 0.7, 0.701,
  0.701, 0.728, 0.702, 0.674, 0.7, 0.68, 0.679, 0.673, 0.676, 0.653, 0.685, 0.675, 0.643, 0.64, 0.646, 0.658, 0.656, 0.67, 0.642, 0.63,
  0.658, 0.641, 0.604, 0.636, 0.636, 0.65, 0.624, 0.626, 0.614, 0.623,
];
const AHEAD = 20;

/** The same learner after 12 and after 30 sessions: one law that foretells, and the laws that level off together. */
export function spec(): object {
  return {
    title: "Foretelling 20 sessions of one simulated learner",
    hconcat: [
      panel(12, "from 12 sessions, by the one law named", (known, to) => {
        const { curves } = compareLearningCurves(known, { errors: "lognormal", predict: to });
        return curves[0]!.fit.predictions;
      }),
      panel(30, "from 30 sessions, by the laws that level off", (known, to) => {
        const laws = ["constant", "power3", "exponential3", "delayedExponential"] as const;
        return compareLearningCurves(known, { errors: "lognormal", predict: to, laws }).averaged;
      }),
    ],
  };
}

type Series = Parameters<typeof compareLearningCurves>[0];
type Told = ReturnType<typeof compareLearningCurves>["averaged"];

function panel(sessions: number, title: string, foretell: (known: Series, to: readonly number[]) => Told): object {
  const practice = Array.from({ length: sessions }, (_, i) => i + 1);
  const to = Array.from({ length: AHEAD }, (_, i) => sessions + 1 + i);
  const band = foretell({ practice, value: VALUES.slice(0, sessions) }, to).flatMap((told, i) =>
    told.ok ? [{ session: to[i], seconds: told.value, low: told.interval![0], high: told.interval![1] }] : [],
  );
  const points = VALUES.slice(0, sessions + AHEAD).map((seconds, i) => ({
    session: i + 1,
    seconds,
    when: i < sessions ? "known" : "came later",
  }));
  const session = { field: "session", type: "quantitative", title: "session", scale: { domain: [0, 52], nice: false } };
  const scale = { domain: [0.35, 1.2], nice: false };
  return {
    title: { text: title, fontSize: 12, fontWeight: "normal" },
    width: 300,
    height: 240,
    layer: [
      {
        data: { values: band },
        mark: { type: "area", opacity: 0.2 },
        encoding: { x: session, y: { field: "low", type: "quantitative", title: "seconds", scale }, y2: { field: "high" } },
      },
      { data: { values: band }, mark: { type: "line" }, encoding: { x: session, y: { field: "seconds", type: "quantitative", scale } } },
      {
        data: { values: points },
        mark: { type: "point", stroke: "#333b44", strokeWidth: 1.2, size: 26 },
        encoding: {
          x: session,
          y: { field: "seconds", type: "quantitative", scale },
          fill: {
            field: "when",
            type: "nominal",
            sort: null,
            title: null,
            scale: { domain: ["known", "came later"], range: ["#333b44", "white"] },
            legend: { orient: "bottom" },
          },
        },
      },
    ],
  };
}
