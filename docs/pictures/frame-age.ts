import { latencyBudget } from "aimed-movement";

const RATES = [60, 75, 90, 120, 144, 165, 180, 240, 300, 360];

/** Mean age of what begins to be shown against the refresh rate, without synchronisation and with one frame queued. */
export function spec(): object {
  const values = RATES.flatMap((refreshHz) =>
    [0, 1].map((queuedFrames) => ({
      rate: refreshHz,
      age: 1000 * latencyBudget({ refreshHz, queuedFrames }).frameAge!.mean,
      kind: queuedFrames === 0 ? "not synchronised" : "synchronised, one frame queued",
    })),
  );
  const encoding = {
    x: {
      field: "rate",
      type: "quantitative",
      title: "refresh rate, Hz",
      scale: { domain: [40, 380] },
      axis: { values: [60, 120, 144, 180, 240, 300, 360] },
    },
    y: { field: "age", type: "quantitative", title: "mean age of a frame as it begins to be shown, ms" },
    color: { field: "kind", type: "nominal", title: null, legend: { labelLimit: 320, orient: "top" } },
    shape: { field: "kind", type: "nominal", title: null, legend: { labelLimit: 320, orient: "top" } },
    strokeDash: { field: "kind", type: "nominal", title: null, legend: { labelLimit: 320, orient: "top" } },
  };
  return {
    title: "How old is what is seen? Arithmetic, scan-out and pixels left aside",
    width: 520,
    height: 260,
    data: { values },
    layer: [
      { mark: { type: "line" }, encoding },
      { mark: { type: "point", filled: true, size: 50 }, encoding },
      {
        transform: [{ filter: "datum.rate == 60 || datum.rate == 144 || datum.rate == 240 || datum.rate == 360" }],
        mark: { type: "text", dy: -12, dx: 14 },
        encoding: { x: encoding.x, y: encoding.y, text: { field: "age", format: ".1f" } },
      },
    ],
  };
}
