import { analyze, summarize } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

const DURATIONS = [0.15, 0.2, 0.25, 0.3, 0.4, 0.5, 0.7, 1];

/** Both measures of smoothness of movements that are equally smooth, over their duration. */
export function spec(): object {
  const values = [0.25, 1].flatMap((quantum) =>
    DURATIONS.flatMap((duration) => {
      const { recording } = simulateRecording({
        seed: 61,
        movements: 40,
        targets: { amplitude: [400, 400], widths: [60] },
        primary: { bells: ["minimumJerk"], alongBias: 0, alongSd: 0, acrossSd: 0, timeIntercept: duration, timeSlope: 0, timeSd: 0 },
        correction: { pureShare: 1 },
        press: { earlyShare: 0 },
        recorder: { quantum },
      });
      const { spectralArcLength, logDimensionlessJerk } = summarize(analyze(recording)).economy;
      const point = (measure: string, estimate: typeof spectralArcLength): object[] =>
        estimate.ok ? [{ duration, value: estimate.value, measure, positions: `to ${quantum} px` }] : [];
      return [...point("spectral arc length", spectralArcLength), ...point("log dimensionless jerk", logDimensionlessJerk)];
    }),
  );
  return {
    title: "Equally smooth simulated movements of 400 px, tremor 0.3 px, at 250 Hz",
    width: 480,
    height: 260,
    data: { values },
    mark: { type: "line" },
    encoding: {
      x: { field: "duration", type: "quantitative", title: "duration of the movement, s" },
      y: { field: "value", type: "quantitative", title: "measure (more negative: less smooth)" },
      color: { field: "measure", type: "nominal", title: "measure", legend: { labelLimit: 0 } },
      strokeDash: { field: "positions", type: "nominal", title: "positions" },
    },
  };
}
