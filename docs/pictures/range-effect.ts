import { scatterDependence } from "aimed-movement";
import { simulateRecording } from "aimed-movement/simulate";

/** Error along the axis against the amplitude, with the fitted mean and the fitted size of the deviations. */
export function spec(): object {
  const { truth } = simulateRecording({ seed: 12, movements: 160, primary: { alongBias: -0.05, alongSd: 0.05 } });
  const movements = truth.movements.filter((m) => m.primaryError !== undefined);
  const amplitude = Float64Array.from(movements, (m) => m.amplitude);
  const result = scatterDependence(
    { x: Float64Array.from(movements, (m) => m.primaryError!.along), y: Float64Array.from(movements, (m) => m.primaryError!.across) },
    { amplitude, direction: Float64Array.from(movements, (m) => (m.directionDeg * Math.PI) / 180) },
  );
  const bias = result.ok ? result.bias.along : null;
  const spread = result.ok ? result.spread.along : null;
  if (!result.ok || !bias?.amplitude?.slope.ok || !bias.typical.ok || !spread?.amplitude?.slope.ok || !spread.typical.ok)
    throw new Error("not given");
  const { slope } = bias.amplitude;
  const line = [150, 800].map((a) => {
    const mean = bias.typical.ok ? bias.typical.value + slope.value * (a - result.meanAmplitude) : 0;
    const size =
      spread.typical.ok && spread.amplitude?.slope.ok
        ? spread.typical.value + spread.amplitude.slope.value * (a - result.meanAmplitude)
        : 0;
    return { amplitude: a, mean, low: mean - size, high: mean + size };
  });
  const x = { field: "amplitude", type: "quantitative", title: "amplitude, px", scale: { domain: [150, 800], nice: false } };
  return {
    title: `Simulated errors: slope ${slope.value.toFixed(3)} [${slope.interval!.map((v) => v.toFixed(3)).join(", ")}], a spread that grows`,
    width: 560,
    height: 260,
    layer: [
      {
        data: { values: line },
        mark: { type: "area", opacity: 0.15, color: "#d1580b" },
        encoding: { x, y: { field: "low", type: "quantitative", title: "error along, px (negative: short)" }, y2: { field: "high" } },
      },
      { data: { values: line }, mark: { type: "line", color: "#d1580b" }, encoding: { x, y: { field: "mean", type: "quantitative" } } },
      {
        data: { values: movements.map((m) => ({ amplitude: m.amplitude, error: m.primaryError!.along })) },
        mark: { type: "point", opacity: 0.6 },
        encoding: { x, y: { field: "error", type: "quantitative" } },
      },
    ],
  };
}
