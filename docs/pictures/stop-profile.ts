import { analyze, stopProfile } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Mean speed in the last 0.2 s and its spread, of a hand that stops alike and of one that does not. */
export function spec(): object {
  const values = (["alike", "not alike"] as const).flatMap((kind) => {
    const { recording } = simulateRecording({
      seed: 12,
      movements: 60,
      targets: { amplitude: [400, 400], widths: [40] },
      primary: kind === "alike" ? { bells: ["minimumJerk"], alongSd: 0.02, timeSd: 0.03 } : { alongSd: 0.05, timeSd: 0.15 },
      correction: { pureShare: 1 },
    });
    const { times, atStop } = stopProfile(recording, analyze(recording));
    const figure = atStop.functionalSd.ok ? atStop.functionalSd.value.toFixed(2) : "none";
    const stops = `${kind}, functional SD ${figure}`;
    return times.map((t, k) => {
      const mean = atStop.mean[k]!;
      return { stops, ms: 1000 * t, mean, low: Math.max(0, mean - atStop.sd[k]!), high: mean + atStop.sd[k]! };
    });
  });
  const x = { field: "ms", type: "quantitative", title: "ms before the stop" };
  return {
    title: "Speed before the stop, mean and SD of 60 simulated movements",
    width: 560,
    height: 260,
    data: { values },
    layer: [
      {
        mark: { type: "area", opacity: 0.18 },
        encoding: {
          x,
          y: { field: "low", type: "quantitative", title: "speed, share of its peak" },
          y2: { field: "high" },
          color: { field: "stops", type: "nominal", title: "stops", legend: { labelLimit: 300 } },
        },
      },
      {
        mark: { type: "line" },
        encoding: {
          x,
          y: { field: "mean", type: "quantitative" },
          color: { field: "stops", type: "nominal", title: "stops", legend: { labelLimit: 300 } },
          strokeDash: { field: "stops", type: "nominal", title: "stops", legend: { labelLimit: 300 } },
        },
      },
    ],
  };
}
