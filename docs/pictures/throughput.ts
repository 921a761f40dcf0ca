import { throughput } from "aimed-movement";

const SLOPE = 0.15;
const PACES = [0.5, 0.67, 1, 1.5, 2];
const TRIALS = 40;

/** Throughput of a person who keeps to MT = a + b IDe, at several paces. */
export function spec(): object {
  const values = [0, 0.15, 0.4].flatMap((intercept) =>
    PACES.map((pace) => ({ intercept: `a = ${intercept} s`, pace, ...at(intercept, pace) })),
  );
  const x = {
    field: "pace",
    type: "quantitative",
    title: "effective over nominal width (left: slow and careful, right: fast and hasty)",
    scale: { type: "log", domain: [0.45, 2.2], nice: false },
    axis: { values: PACES, format: ".2~f" },
  };
  const kind = { field: "intercept", type: "nominal", title: null };
  return {
    title: "Throughput of a simulated person with MT = a + 0.15 IDe at five paces",
    width: 520,
    height: 280,
    data: { values },
    encoding: { x, color: kind },
    layer: [
      { mark: { type: "line" }, encoding: { y: { field: "value", type: "quantitative" }, strokeDash: kind } },
      {
        mark: { type: "point", size: 55 },
        encoding: {
          y: { field: "value", type: "quantitative", title: "throughput, bit/s", scale: { domain: [0, 8] } },
          shape: kind,
        },
      },
    ],
  };
}

/** Four conditions; deviations of an even spacing, whose spread is the same in every condition, and times on the law. */
function at(intercept: number, pace: number): { readonly value: number } {
  const rows = [128, 512].flatMap((amplitude) =>
    [16, 64].flatMap((width) => {
      const time = intercept + SLOPE * Math.log2(amplitude / (pace * width) + 1);
      return Array.from({ length: TRIALS }, (_, i) => {
        // an even spacing over one unit has a standard deviation of 0.29
        const along = (((i + 0.5) / TRIALS - 0.5) * Math.sqrt(12) * pace * width) / 4.133;
        return { amplitude, width, time, along };
      });
    }),
  );
  const { throughput: estimate } = throughput({
    amplitude: Float64Array.from(rows, (row) => row.amplitude),
    width: Float64Array.from(rows, (row) => row.width),
    movementTime: Float64Array.from(rows, (row) => row.time),
    along: Float64Array.from(rows, (row) => row.along),
  });
  if (!estimate.ok) throw new Error(estimate.why);
  return { value: estimate.value };
}
