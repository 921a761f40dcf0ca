import { detectPlateau } from "aimed-movement";
import { simulateLearner } from "aimed-movement/simulate";

/** A learner who stops gaining, the stretch that is judged at the end, and what was said after each week. */
export function spec(): object {
  const { series } = simulateLearner({
    seed: 12,
    sessions: 63,
    trialNoise: 0,
    curve: { a: 0.6, b: 0.3, c: 0.16 },
    sessionNoise: { sd: 0.015 },
  });
  const day = series.practice.map((session) => session - 1);
  const said = [7, 14, 21, 28, 35, 42, 49, 56, 63].map((n) => {
    const { verdict, recent, evidence } = detectPlateau({ day: day.slice(0, n), value: series.value.slice(0, n) });
    const { improvement } = evidence.trend;
    const [low, high] = improvement.ok && improvement.interval ? improvement.interval : [0, 0];
    return { day: n - 1, verdict: verdict === "cannotTell" ? "cannot tell" : verdict, from: recent.from, low, high };
  });
  const last = said.at(-1)!;
  const x = { field: "day", type: "quantitative", title: "day", scale: { domain: [0, 64], nice: false } } as const;
  const colour = {
    field: "verdict",
    type: "nominal",
    title: "verdict that week",
    legend: { orient: "bottom" },
    scale: { domain: ["improving", "cannot tell", "plateau"], range: ["#0b6bcb", "#8a929c", "#d1580b"] },
  } as const;
  return {
    title: "A simulated learner, and the improvement over two weeks seen at the end of each week",
    vconcat: [
      {
        width: 560,
        height: 200,
        layer: [
          {
            data: { values: [{ from: last.from, to: 62 }] },
            mark: { type: "rect", color: "#d1580b", opacity: 0.12 },
            encoding: { x: { ...x, field: "from" }, x2: { field: "to" } },
          },
          {
            data: { values: day.map((at, i) => ({ day: at, value: series.value[i] })) },
            mark: { type: "point", color: "#1d232a" },
            encoding: { x, y: { field: "value", type: "quantitative", title: "session mean, s", scale: { zero: false } } },
          },
        ],
      },
      {
        width: 560,
        height: 160,
        layer: [
          {
            data: { values: [{ low: -2, high: 2 }] },
            mark: { type: "rect", color: "#8a929c", opacity: 0.2 },
            encoding: { y: { field: "low", type: "quantitative" }, y2: { field: "high" } },
          },
          {
            data: { values: said.slice(1) },
            mark: { type: "rule", strokeWidth: 5, clip: true },
            encoding: {
              x,
              y: { field: "low", type: "quantitative", title: "improvement in 2 weeks, %", scale: { domain: [-8, 16] } },
              y2: { field: "high" },
              color: colour,
            },
          },
        ],
      },
    ],
  };
}
