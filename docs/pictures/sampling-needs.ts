import { samplingSupport } from "aimed-movement";

/** How much too low the peak speed of a minimum-jerk movement comes out, against the rate, for three durations. */
export function spec(): object {
  const values = [0.15, 0.2, 0.3].flatMap((movementTime) =>
    [60, 90, 125, 180, 250, 350, 500, 700, 1000].map((rateHz) => {
      const { peakSpeedBias } = samplingSupport({ rateHz, movementTime });
      return { rate: rateHz, low: -100 * peakSpeedBias.central, movement: `movement of ${movementTime} s` };
    }),
  );
  const encoding = {
    x: {
      field: "rate",
      type: "quantitative",
      title: "reports per second, Hz",
      scale: { type: "log", domain: [50, 1200] },
      axis: { values: [60, 125, 250, 500, 1000] },
    },
    y: {
      field: "low",
      type: "quantitative",
      title: "peak speed too low by, % (central differences)",
      scale: { type: "log" },
      axis: { values: [0.01, 0.1, 1, 10], format: "~g" },
    },
    color: { field: "movement", type: "nominal", title: null, legend: { labelLimit: 320, orient: "top" } },
    strokeDash: { field: "movement", type: "nominal", title: null, legend: { labelLimit: 320, orient: "top" } },
    shape: { field: "movement", type: "nominal", title: null, legend: { labelLimit: 320, orient: "top" } },
  };
  return {
    title: "What a slow device takes off the peak speed, arithmetic on a minimum-jerk movement",
    width: 520,
    height: 260,
    data: { values },
    layer: [
      { mark: { type: "line" }, encoding },
      { mark: { type: "point", filled: true, size: 40 }, encoding },
      { mark: { type: "rule", strokeDash: [4, 4], color: "#6b7280" }, encoding: { y: { datum: 1, type: "quantitative" } } },
    ],
  };
}
