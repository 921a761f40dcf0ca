import { analyze, analyzeSequence } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

const PARTS = {
  latency: "downtime",
  primary: "primary",
  correction: "correction",
  verification: "verification",
} as const;

/** What passes from press to press in a few simulated sequences, one of which hesitates and one of which overlaps. */
export function spec(): object {
  const { recording } = simulateRecording({
    seed: 31,
    movements: 100,
    sequence: 5,
    planning: { shortest: 1, overlapShare: 0.15, hesitationShare: 0.1 },
  });
  const { sequences, downtime } = analyzeSequence(recording, analyze(recording));
  const shown = sequences.filter(({ steps }) => steps.some(({ late }) => late) || steps.some(({ overlap }) => overlap)).slice(0, 3);
  const values = shown.flatMap(({ steps }, s) =>
    steps.slice(1).flatMap(({ budget, overlap, late }, i) => {
      const step = `sequence ${s + 1}, ${i + 1} to ${i + 2}${late ? " (late)" : overlap ? " (left early)" : ""}`;
      return Object.entries(PARTS).map(([part, name], order) => ({
        step,
        at: 10 * s + i,
        part: name,
        order,
        ms: 1000 * budget[part as keyof typeof PARTS],
      }));
    }),
  );
  const middle = downtime.median.ok ? 1000 * downtime.median.value : 0;
  return {
    title: {
      text: "From press to press, simulated",
      subtitle: `three of 20 sequences of five targets; the median downtime of all is ${middle.toFixed(0)} ms`,
    },
    width: 480,
    height: 260,
    data: { values },
    mark: { type: "bar" },
    encoding: {
      y: { field: "step", type: "nominal", title: null, sort: { field: "at" }, axis: { labelLimit: 400 } },
      x: {
        field: "ms",
        type: "quantitative",
        title: "ms; left of 0 the movement began before the press",
        scale: { domain: [-200, 1800], nice: false },
        axis: { values: [0, 400, 800, 1200, 1600] },
      },
      color: { field: "part", type: "nominal", title: null, sort: Object.values(PARTS) },
      order: { field: "order" },
    },
  };
}
