import { sessionStructure } from "aimed-movement";
import { simulateLearner } from "aimed-movement/simulate";

const TRIALS = 50;
/** Room between sessions on the axis, trials. */
const NIGHT = 12;

/** Trials of five days with the fitted course, and the level without warm-up that the overnight change is taken from. */
export function spec(): object {
  const { trials } = simulateLearner({
    seed: 9,
    sessions: 5,
    trialsPerSession: TRIALS,
    curve: { law: "flat", a: 0.8 },
    overnight: -0.03,
    warmUp: { size: 0.15, rate: 0.15 },
    fatigue: 0.001,
    trialNoise: 0.03,
    sessionNoise: { sd: 0.005 },
  });
  const found = sessionStructure(trials);
  const { decrement, length } = found.warmUp;
  if (!decrement.share.ok || !length.ok) throw new Error("the simulated warm-up was not found");
  const rate = Math.log(20) / length.value;
  const size = Math.log1p(decrement.share.value);
  const place = (session: number, k: number): number => (session - 1) * (TRIALS + NIGHT) + k + 1;
  const courses = found.sessions.flatMap(({ session, start, end, n }) =>
    Array.from({ length: n }, (_, k) => {
      const level = start! * (end! / start!) ** (k / (n - 1));
      return { session, x: place(session, k), level, course: level * Math.exp(size * Math.exp(-rate * k)) };
    }),
  );
  const points = trials.value.map((time, i) => ({ x: place(trials.session[i]!, trials.trial[i]! - 1), time }));
  const x = {
    field: "x",
    type: "quantitative",
    title: "trial, with a gap for each night",
    axis: {
      values: found.sessions.map(({ session }) => place(session, TRIALS / 2)),
      labelExpr: `'day ' + (round((datum.value - ${TRIALS / 2 + 1}) / ${TRIALS + NIGHT}) + 1)`,
      grid: false,
      ticks: false,
    },
  };
  const key = {
    type: "nominal",
    title: null,
    legend: { orient: "bottom" },
    scale: { domain: ["fitted course", "without the warm-up"], range: ["#0b6bcb", "#d1580b"] },
  };
  const line = (field: string, name: string, dash: readonly number[]): object => ({
    data: { values: courses },
    mark: { type: "line", strokeDash: dash },
    encoding: { x, y: { field, type: "quantitative" }, detail: { field: "session" }, color: { datum: name, ...key } },
  });
  return {
    title: "Five simulated days: warm-up, fatigue, and a night that makes 3 % faster",
    width: 560,
    height: 300,
    layer: [
      {
        data: { values: points },
        mark: { type: "point", size: 12, color: "#9aa3ad" },
        encoding: { x, y: { field: "time", type: "quantitative", title: "movement time, s", scale: { zero: false } } },
      },
      line("course", "fitted course", []),
      line("level", "without the warm-up", [6, 3]),
    ],
  };
}
