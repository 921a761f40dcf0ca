import { analyze, summarize } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Mean time per part of three simulated people. */
export function spec(): object {
  const people = {
    "waits with the press": { press: { delay: 0.18, delaySd: 0.06 } },
    "lands far off": { primary: { alongBias: -0.1, alongSd: 0.09 }, correction: { pureShare: 0 } },
    "responds late": { latency: { mu: 0.3, tau: 0.12 } },
  };
  const values = Object.entries(people).flatMap(([person, habits]) => {
    const { parts } = summarize(analyze(simulateRecording({ seed: 8, movements: 80, ...habits }).recording)).time;
    return Object.entries(parts).flatMap(([part, { mean }], order) =>
      mean.ok && part !== "clutch" && part !== "recovery" ? [{ person, part, order, time: Math.round(1000 * mean.value) }] : [],
    );
  });
  return {
    title: "Mean time per acquisition of three simulated people",
    width: 520,
    height: { step: 42 },
    data: { values },
    encoding: {
      y: { field: "person", type: "nominal", title: null, sort: null },
      x: { field: "time", type: "quantitative", title: "ms", stack: "zero" },
      order: { field: "order" },
    },
    layer: [
      {
        mark: { type: "bar", stroke: "white" },
        encoding: { color: { field: "part", type: "nominal", title: null, sort: ["latency", "primary", "correction", "verification"] } },
      },
    ],
  };
}
