import { analyze, variabilityProfile } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

const names: Record<string, string> = {
  peakAcceleration: "peak acceleration",
  peakSpeed: "peak speed",
  peakDeceleration: "peak deceleration",
  primaryEnd: "end of the primary",
  stop: "stop",
};

/** Spread on the way with and without corrections. */
export function spec(): object {
  const values = (["corrected", "not corrected"] as const).flatMap((kind) => {
    const { recording } = simulateRecording({
      seed: 21,
      movements: 150,
      targets: { amplitude: [400, 400], widths: [24] },
      primary: { alongSd: 0.08 },
      correction: kind === "corrected" ? { pureShare: 0, gains: [1] } : { pureShare: 1 },
    });
    const { byLandmark } = variabilityProfile(recording, analyze(recording));
    return Object.entries(byLandmark).flatMap(([landmark, { along }], order) =>
      along.ok ? [{ kind, landmark: names[landmark], order, sd: along.value, low: along.interval![0], high: along.interval![1] }] : [],
    );
  });
  return {
    title: "Spread along the axis on the way, simulated",
    width: 560,
    height: 240,
    data: { values },
    encoding: { x: { field: "landmark", type: "ordinal", title: null, sort: { field: "order" }, axis: { labelAngle: 0 } } },
    layer: [
      {
        mark: { type: "area", opacity: 0.15 },
        encoding: {
          y: { field: "low", type: "quantitative", title: "standard deviation, px" },
          y2: { field: "high" },
          color: { field: "kind", type: "nominal", title: null },
        },
      },
      {
        mark: { type: "line" },
        encoding: {
          y: { field: "sd", type: "quantitative" },
          strokeDash: { field: "kind", type: "nominal", title: null },
          color: { field: "kind", type: "nominal", title: null },
        },
      },
    ],
  };
}
