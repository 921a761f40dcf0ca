import { assessSampling } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** The time before each sample of a simulated recording: what a report is made from. */
export function spec(): object {
  const { recording, truth } = simulateRecording({
    seed: 6,
    movements: 4,
    sampleRateHz: 125,
    tremorAmplitude: 0.1,
    recorder: { dropShare: 0.04 },
  });
  // and a longer stretch of the third movement is taken out
  const { onset } = truth.movements[2]!;
  const read = recording.trace.t.map((t) => (t > onset! + 0.05 && t < onset! + 0.13 ? 0 : 1));
  const [t, x, y] = [recording.trace.t, recording.trace.x, recording.trace.y].map((column) => column.filter((_, i) => read[i] === 1)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  const trace = { t, x, y };
  const { gaps, rate } = assessSampling(trace, { nominalHz: 125, listed: 1000 });
  const kindAt = new Map(gaps.list.map((gap) => [gap.to, gap.kind === "hold" ? "rest" : "samples missing"]));
  const values = Array.from(t)
    .slice(1)
    .map((at, i) => ({ time: +at.toFixed(3), interval: +(1000 * (at - t[i]!)).toFixed(2), kind: kindAt.get(at) ?? "in motion" }));
  const median = rate.ok ? 1000 / rate.value : 0;
  return {
    title: "Time before each sample: 125 Hz with some reports lost, simulated",
    width: 560,
    height: 240,
    layer: [
      {
        data: { values: [{ median }] },
        mark: { type: "rule", color: "#333b44", strokeDash: [4, 3] },
        encoding: { y: { field: "median", type: "quantitative" } },
      },
      {
        data: { values },
        mark: { type: "point", opacity: 0.6 },
        encoding: {
          x: { field: "time", type: "quantitative", title: "time, s" },
          y: {
            field: "interval",
            type: "quantitative",
            title: "ms since the sample before",
            scale: { type: "log", domain: [5, 1000], nice: false },
            axis: { values: [5, 8, 16, 24, 50, 100, 200, 500, 1000] },
          },
          shape: { field: "kind", type: "nominal", title: null },
          size: { condition: { test: "datum.kind === 'samples missing'", value: 150 }, value: 30 },
          color: { field: "kind", type: "nominal", title: null },
        },
      },
    ],
  };
}
